// What the return of the year before gives back or asks for, in a plan that goes on without books from January to April.
import { afterEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'
import { continuedPlan } from '#today/projection/continued-plan.ts'
import { firstDifference } from '../runway/what-holds.ts'
import { type TestApp, testApp } from '../web/test-app.ts'

let app: TestApp | undefined
afterEach(() => {
  app?.close()
  app = undefined
})

/** Ann alone, in no state, from January 2026: 3,000 a month of pay until the end of the year, and what `change` says. */
const planOf = (withheldShare: number, change: Partial<PlanInput> = {}) =>
  planSchema.parse({
    startMonth: '2026-01',
    household: {
      people: [{ id: 'ann', name: 'Ann', born: '1985-03-10', planToAge: 60 }],
      pay: [{ id: 'pay', name: 'Pay', person: 'ann', perMonth: 3000, to: '2026-12', withheldShare }],
      living: [{ id: 'living', name: 'Living', perMonth: 1000 }],
    },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 100_000 }] },
    assumptions: { inflation: 0, wageGrowth: 0, farmPriceGrowth: 0, farmCostGrowth: 0 },
    ...change,
  })

/** As the plan is shown on a day of 2027, the books empty. */
const continuedOn = (plan: ReturnType<typeof planOf>, today: string) => {
  app?.close()
  app = testApp({ today })
  return continuedPlan(app.books, plan, day(today)).plan
}

const taxesIn = (plan: ReturnType<typeof planOf>, month: string) =>
  project(plan).months.find((one) => one.month === month)?.taxes

// 36,000 less the standard deduction of 16,100 (26 USC 63(c)(7), Rev. Proc. 2025-32) are 19,900: 10 % of 12,400 and 12 % of 7,500.
const tax = 1240 + 900

test('a refund comes in April, once, whichever of the months before it the plan goes on from', () => {
  const plan = planOf(0.12)
  const refund = 0.12 * 36_000 - tax
  expect(refund).toBe(2180)
  const baseline = project(plan)
  expect(baseline.years[0]!.taxLeft).toBeCloseTo(-refund, 6)
  expect(taxesIn(plan, '2027-04')).toBeCloseTo(-refund, 6)
  for (const today of ['2027-01-20', '2027-02-10', '2027-03-31', '2027-04-02']) {
    const going = continuedOn(plan, today)
    expect(going.tax.lastYear.stillDue, today).toBeCloseTo(-refund, 6)
    const { months } = project(going)
    expect(months.find((one) => one.month === '2027-04')!.taxes, today).toBeCloseTo(-refund, 6)
    expect(
      months.reduce((sum, one) => sum + one.taxes, 0),
      today,
    ).toBeCloseTo(-refund, 6)
    expect(months.at(-1)!.spendable, today).toBeCloseTo(baseline.months.at(-1)!.spendable, 6)
  }
  const may = continuedOn(plan, '2027-05-03')
  expect(may.tax.lastYear.stillDue).toBe(0)
  expect(project(may).months.every((one) => one.taxes === 0)).toBe(true)
})

test('what pay held back too little of is asked for in April as before, less what January has paid', () => {
  // 2,140 less 1,800 held back: 340 are left; nothing was owed for the year before, so nothing is paid ahead.
  const plan = planOf(0.05)
  for (const today of ['2027-01-20', '2027-03-31']) {
    expect(continuedOn(plan, today).tax.lastYear.stillDue, today).toBeCloseTo(tax - 1800, 6)
  }
})

test('after the last payment ahead of January the return asks for the rest', () => {
  // 26 USC 6654(d)(1)(B): 90 % of 2,140 are 1,926, less 720 held back: 301.50 a quarter. 515.50 are left at the year's end.
  const plan = planOf(0.02, { tax: { lastYear: { tax: 9000, adjustedGrossIncome: 60_000 } } })
  expect(taxesIn(plan, '2027-01')).toBeCloseTo(301.5, 6)
  expect(continuedOn(plan, '2027-01-20').tax.lastYear.stillDue).toBeCloseTo(515.5, 6)
  // The fourth of them stays in January, and the rest in April, when the plan goes on from January itself.
  const inJanuary = continuedOn(plan, '2027-01-20')
  expect(taxesIn(inJanuary, '2027-01')).toBeCloseTo(301.5, 6)
  expect(taxesIn(inJanuary, '2027-04')).toBeCloseTo(taxesIn(plan, '2027-04')!, 6)
  const inFebruary = continuedOn(plan, '2027-02-10')
  expect(inFebruary.tax.lastYear.stillDue).toBeCloseTo(214, 6)
  expect(taxesIn(inFebruary, '2027-04')).toBeCloseTo(taxesIn(plan, '2027-04')!, 6)
})

test('what of last year is settled in which month is the same in the second writing', () => {
  const people = [{ id: 'ann', name: 'Ann', born: '1985-03-10', planToAge: 50 }]
  const household = { people, place: { state: 'VA' as const } }
  const plan = planOf(0, { startMonth: '2027-01', household, tax: { lastYear: { stillDue: 1000 } } })
  const going = { ...plan, settles: { january: 300, stateJanuary: 50, stateReturn: 120 } }
  // Virginia’s return is due on May 1 (Code of Virginia 58.1-341).
  expect(
    project(going)
      .months.slice(0, 6)
      .map((one) => [one.taxes, one.stateTaxes]),
  ).toEqual([
    [350, 50],
    [0, 0],
    [0, 0],
    [530, 0],
    [120, 120],
    [0, 0],
  ])
  expect(firstDifference(going)).toBe(null)
})

test('started again in a January, every month’s taxes are those that the plan had before it', () => {
  // A potter’s fees pay quarters, to Virginia in its own months; a farmer’s year is paid whole in January.
  const fees = [{ id: 'fees', name: 'Fees', person: 'ann', perMonth: 5000 }]
  const people = [{ id: 'ann', name: 'Ann', born: '1985-03-10', planToAge: 50 }]
  const even = Array.from({ length: 12 }, () => 5000)
  const houses = {
    quarters: { household: { people, sideVentures: fees } },
    virginia: { household: { people, sideVentures: fees, place: { state: 'VA' as const } } },
    farmer: {
      household: { people },
      farm: { enterprises: [{ id: 'hay', name: 'Hay', salesPerUnit: even }] },
    },
  }
  for (const [name, change] of Object.entries(houses)) {
    const plan = planOf(0, change)
    const before = project(plan).months
    expect(before.find(({ month }) => month === '2027-01')!.taxes, name).toBeGreaterThan(500)
    const going = continuedOn(plan, '2027-01-20')
    for (const month of project(going).months.slice(0, 5))
      for (const figure of ['taxes', 'stateTaxes'] as const)
        expect(month[figure], `${name}, ${month.month}, ${figure}`).toBeCloseTo(
          before.find((one) => one.month === month.month)![figure],
          6,
        )
  }
})
