// The household's loans in the plan: what they cost, the floor that counts them, the ratio they divide, and older plans that knew none.
import { expect, test } from 'vitest'
import { loanRows } from '#farm/loans.ts'
import { type PlanInput, planSchema, planVersion } from '#plan/plan.ts'
import { readPlan } from '#plan/upgrade.ts'
import { project } from '#runway/project.ts'

const plan = (household: object, more: object = {}) =>
  planSchema.parse({
    startMonth: '2027-01',
    years: 5,
    household: { living: [{ id: 'living', name: 'Living', perMonth: 2000 }], ...household },
    savings: { accounts: [{ id: 'savings', name: 'Savings', kind: 'cash', balance: 60_000 }] },
    tax: { method: 'none' },
    assumptions: { inflation: 0 },
    ...more,
  } as PlanInput)

const carLoan = {
  id: 'car',
  name: 'Car loan',
  principal: 12_000,
  yearlyRate: 0,
  months: 12,
  start: '2026-12',
}

test('a car loan of 12 payments of 1,000 costs the household 3,000 a month for a year, then 2,000', () => {
  const { months } = project(plan({ loans: [carLoan] }))
  expect(months.slice(0, 13).map((one) => one.householdCosts)).toEqual([...Array(12).fill(3000), 2000])
  expect(months[11]!.spendable).toBe(24_000)
  expect(months[0]!.loanBalance).toBe(11_000)
  expect(months[11]!.loanBalance).toBe(0)
})

test('draws of 1,500 cover half of costs of 3,000, not three quarters of costs of 2,000', () => {
  const drawn = plan(
    { loans: [{ ...carLoan, principal: 36_000, months: 36 }] },
    { draw: { policy: 'steps', steps: [{ from: '2027-01', perMonth: 1500 }] } },
  )
  expect(project(drawn).months[5]!.coverRatio).toBe(0.5)
})

test('the floor of two months counts the payments of the coming twelve months, and no more of them', () => {
  const { months } = project(plan({ loans: [carLoan], floor: { kind: 'months', months: 2 } }))
  expect(months[0]!.floor).toBeCloseTo(6000)
  // From July six payments are left: 2 × (2,000 + 6 × 1,000 ÷ 12).
  expect(months[6]!.floor).toBeCloseTo(5000)
  expect(months[12]!.floor).toBeCloseTo(4000)
})

test('a loan still to be taken brings its money in and is paid from the month after', () => {
  const later = { ...carLoan, start: '2027-06', drawn: true }
  const { months } = project(plan({ loans: [later] }))
  expect(months[5]!.spendable).toBe(60_000 - 6 * 2000 + 12_000)
  expect(months[6]!.loanPayments).toBe(1000)
})

test('a loan with its own payment is paid by it until nothing is owed; the last payment is what is left', () => {
  // By hand at 12 % a year: 1,000 + 10.00 − 400 = 610; + 6.10 − 400 = 216.10; + 2.16 = 218.26, the last payment.
  const rows = loanRows({ principal: 1000, yearlyRate: 0.12, paymentPerMonth: 400 })
  expect(rows.map((row) => Math.round(row.payment * 100) / 100)).toEqual([400, 400, 218.26])
  expect(rows.map((row) => Math.round(row.interest * 100) / 100)).toEqual([10, 6.1, 2.16])
  expect(rows.at(-1)!.balance).toBe(0)
})

test('what is owed is a payment without its interest: that payment is not the last, and no payment is larger than agreed', () => {
  // By hand at 12 % a year: 1,000 + 10.00 − 505 = 505; + 5.05 − 505 = 5.05; + 0.05 = 5.10.
  const rows = loanRows({ principal: 1000, yearlyRate: 0.12, paymentPerMonth: 505 })
  expect(rows.map((row) => Math.round(row.payment * 100) / 100)).toEqual([505, 505, 5.1])
})

test('a payment and a number of payments together: what is still owed falls due with the last', () => {
  const rows = loanRows({ principal: 10_000, yearlyRate: 0.06, months: 3, paymentPerMonth: 50 })
  expect(rows.map((row) => row.payment)).toEqual([50, 50, 10_050])
})

test('a payment below the interest is refused at its field', () => {
  const read = readPlan({
    planVersion: 4,
    startMonth: '2027-01',
    household: {
      loans: [
        {
          id: 'home',
          name: 'Home',
          principal: 120_000,
          yearlyRate: 0.07,
          paymentPerMonth: 700,
          start: '2026-12',
        },
      ],
    },
  })
  expect(read).toMatchObject({
    ok: false,
    faults: [{ path: 'household.loans.0.paymentPerMonth', message: expect.stringContaining('700.00') }],
  })
})

test('a plan of the version before is read as one without household loans', () => {
  const read = readPlan({ planVersion: 3, startMonth: '2027-01' })
  expect(read).toMatchObject({
    ok: true,
    upgradedFrom: 3,
    plan: { planVersion, household: { loans: [] } },
  })
})
