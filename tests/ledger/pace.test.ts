// The pace of the books, by months made up for it.
import { expect, test } from 'vitest'
import { addMonths, month } from '#calendar/month.ts'
import type { HouseholdMonth } from '#ledger/household-month.ts'
import { coverByMonth, pacesOf } from '#ledger/pace.ts'
import { cents } from '#money/cents.ts'

const quiet = {
  costs: [],
  livingCents: cents(0),
  careCents: cents(0),
  loanPaidCents: cents(0),
  loanDrawnCents: cents(0),
  cardUnreadCents: cents(0),
  premiumCents: cents(0),
  taxCents: cents(0),
  costCents: cents(0),
  payCents: cents(0),
  interestCents: cents(0),
  benefitCents: cents(0),
  otherIncomeCents: cents(0),
  drawCents: cents(0),
  contributionCents: cents(0),
  reimbursementCents: cents(0),
  ventureCents: cents(0),
  lentCents: cents(0),
  goodsCents: cents(0),
  bySide: [],
  setAsideCents: cents(0),
  owedCents: cents(0),
  thingsCents: cents(0),
  otherCents: cents(0),
  spendableCents: cents(0),
  changeCents: cents(0),
}
const monthsOf = (count: number, each: (k: number) => Partial<HouseholdMonth>): HouseholdMonth[] =>
  Array.from({ length: count }, (_, k) => ({ ...quiet, month: addMonths(month(2025, 1), k), ...each(k) }))

test('savings above the floor last as many whole months as the shortfall fits in', () => {
  const months = monthsOf(3, () => ({
    costCents: cents(3000_00),
    drawCents: cents(1000_00),
    payCents: cents(500_00),
  }))
  // 25,000 less a floor of 6,000 leaves 19,000 over a shortfall of 1,500, and of 2,500 without draws.
  expect(pacesOf(months, cents(25_000_00), cents(6000_00))).toEqual([
    {
      months: 3,
      costCents: 300_000,
      drawCents: 100_000,
      fromFarmCents: 100_000,
      otherCents: 50_000,
      aboveFloorCents: 1_900_000,
      ends: [],
      leftWithDraws: 12,
      leftWithoutDraws: 7,
    },
  ])
})

// 19,000 above the floor lose 800 a month for the 7 months in which 1,400 of pay come: 13,400 are left. Then 600 of the pay go on and 1,600 are
// lost a month, in 8 months 12,800. Without draws of 200 it is 1,000 and 1,800: 12,000 are left after 7, and last 6 more.
test('pay that the plan ends is counted as long as it comes', () => {
  const months = monthsOf(6, () => ({
    costCents: cents(2400_00),
    drawCents: cents(200_00),
    payCents: cents(1400_00),
  }))
  const ends = [{ inMonths: 7, payShare: 600 / 1400, ventureShare: 1 }]
  const [pace] = pacesOf(months, cents(25_000_00), cents(6000_00), ends)
  expect(pace!.ends).toEqual([{ inMonths: 7, cents: 800_00 }])
  expect(pace).toMatchObject({ leftWithDraws: 15, leftWithoutDraws: 13 })
  const earning = pacesOf(
    monthsOf(3, () => ({ costCents: cents(1000_00), payCents: cents(1500_00) })),
    cents(2000_00),
    cents(0),
    [{ inMonths: 4, payShare: 0, ventureShare: 1 }],
  )
  // Four months leave 500 each: 4,000 over 1,000 are four months more.
  expect(earning[0]!.leftWithDraws).toBe(8)
})

test('what the household puts into the farm counts against what it draws', () => {
  const months = monthsOf(3, () => ({
    costCents: cents(1000_00),
    drawCents: cents(400_00),
    contributionCents: cents(900_00),
  }))
  expect(pacesOf(months, cents(6000_00), cents(0))[0]).toMatchObject({
    leftWithDraws: 4,
    leftWithoutDraws: 6,
  })
})

test('savings that do not fall have no end, and those below the floor have no month left', () => {
  const earning = monthsOf(6, () => ({ costCents: cents(1000_00), drawCents: cents(1000_00) }))
  expect(pacesOf(earning, cents(0), cents(0)).map((pace) => [pace.months, pace.leftWithDraws])).toEqual([
    [3, null],
    [6, null],
  ])
  expect(pacesOf(earning, cents(500_00), cents(1000_00))[0]!.leftWithoutDraws).toBe(0)
})

test('cover is draws over costs of the twelve months before, and nothing where nothing was spent', () => {
  const months = monthsOf(14, (k) => ({
    costCents: cents(k < 1 ? 0 : 1000_00),
    drawCents: cents(k < 2 ? 0 : 500_00),
  }))
  const cover = coverByMonth(months)
  expect(cover).toHaveLength(12)
  expect(cover.at(-1)!.ratio).toBe(0.5)
  // From January to March 2025: one month drawn, two spent in.
  expect(cover[0]).toMatchObject({ month: month(2025, 3), months: 3, ratio: 0.25 })
  expect(cover.map(({ months }) => months)).toEqual([3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 12, 12])
  expect(coverByMonth(months.slice(0, 1))[0]!.ratio).toBeNull()
})
