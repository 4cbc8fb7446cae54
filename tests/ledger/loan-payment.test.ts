// A loan payment into interest and principal, by hand.
import { expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { month } from '#calendar/month.ts'
import { type LoanState, loanParts, partsByAccount } from '#ledger/loan-payment.ts'
import { cents } from '#money/cents.ts'

const terms = { loanAccountId: 7, yearlyRate: 0.072, interestAccountId: 9, escrow: null }
const parts = (owed: number, lastPaid: string | null, on: string, size: number) => {
  const state: LoanState = { owedCents: cents(owed), lastPaid: lastPaid === null ? null : day(lastPaid) }
  const { interestCents, principalCents } = loanParts(terms, state, day(on), cents(size))
  return [interestCents, principalCents]
}

test('7.2 % on 18,500 is 111.00 a month; of a payment of 411 the rest is principal', () => {
  expect(parts(1_850_000, null, '2026-07-05', 41_100)).toEqual([11_100, 30_000])
  expect(parts(1_820_000, '2026-07-05', '2026-08-04', 41_100)).toEqual([10_920, 30_180])
})

test('a second payment in a month is principal; after a month left out two months of interest are due', () => {
  expect(parts(1_820_000, '2026-07-05', '2026-07-28', 100_000)).toEqual([0, 100_000])
  expect(parts(1_820_000, '2026-07-05', '2026-09-05', 41_100)).toEqual([21_840, 19_260])
})

test('interest is rounded to the cent and never more than the payment', () => {
  // 12,345.67 × 0.072 ÷ 12 = 74.07402.
  expect(parts(1_234_567, null, '2026-07-05', 20_000)).toEqual([7407, 12_593])
  expect(parts(1_850_000, null, '2026-07-05', 5000)).toEqual([5000, 0])
  const state: LoanState = { owedCents: cents(1_850_000), lastPaid: null }
  expect(partsByAccount(terms, loanParts(terms, state, day('2026-07-05'), cents(5000)))).toEqual([
    { accountId: 9, size: 5000 },
  ])
})

test('the first row of the table of a level mortgage comes out to the cent', () => {
  // 200,000 at 6.5 % over 30 years, level payment 1,264.14 (common practice: interest a twelfth of the year's, rounded to the cent).
  const home = { ...terms, yearlyRate: 0.065 }
  const first = loanParts(
    home,
    { owedCents: cents(20_000_000), lastPaid: null },
    day('2026-01-01'),
    cents(126_414),
  )
  expect(first).toEqual({ interestCents: 108_333, escrowCents: 0, principalCents: 18_081 })
})

test('taxes and insurance collected with a mortgage are paid once a month, after interest and before principal', () => {
  const home = { ...terms, yearlyRate: 0.06, escrow: { perMonthCents: cents(43_000), accountId: 12 } }
  const owed = { owedCents: cents(14_000_000), lastPaid: null }
  // 140,000 at 6 %: 700 interest; 1,430 less 430 less 700 is 300.
  const paid = loanParts(home, owed, day('2026-07-01'), cents(143_000))
  expect(paid).toEqual({ interestCents: 70_000, escrowCents: 43_000, principalCents: 30_000 })
  expect(partsByAccount(home, paid)).toEqual([
    { accountId: 9, size: 70_000 },
    { accountId: 12, size: 43_000 },
    { accountId: 7, size: 30_000 },
  ])
  const extra = loanParts(home, { ...owed, lastPaid: day('2026-07-01') }, day('2026-07-20'), cents(50_000))
  expect(extra).toEqual({ interestCents: 0, escrowCents: 0, principalCents: 50_000 })
})

test('a loan for the season, paid at harvest: the interest of all months since it was taken, of what is paid early too', () => {
  // 12,000 in April at 8 percent: six months by October, 480.
  const season = { ...terms, yearlyRate: 0.08, interestSince: month(2027, 4) }
  const paid = (owed: number, lastPaid: string | null, on: string, size: number) => {
    const state: LoanState = { owedCents: cents(owed), lastPaid: lastPaid === null ? null : day(lastPaid) }
    const { interestCents, principalCents } = loanParts(season, state, day(on), cents(size))
    return [interestCents, principalCents]
  }
  expect(paid(1_200_000, null, '2027-10-20', 1_248_000)).toEqual([48_000, 1_200_000])
  // 2,240 in July: three months of 80, and 2,000 of what was lent; three months of the rest by October, 200.
  expect(paid(1_200_000, null, '2027-07-10', 224_000)).toEqual([24_000, 200_000])
  expect(paid(1_000_000, '2027-07-10', '2027-10-20', 1_020_000)).toEqual([20_000, 1_000_000])
})
