// A plan that begins within a year: what was withheld and paid ahead before its first month lessens what is still paid ahead.
import { expect, test } from 'vitest'
import { planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'

/** An invented pair: wages to October, then a farm alone. No state's tax; amounts stand still. */
const autumn = (soFar: object, state?: string, startMonth = '2026-11', perMonth = 1000) =>
  project(
    planSchema.parse({
      startMonth,
      household: {
        place: state === undefined ? {} : { state },
        people: [
          { id: 'lu', name: 'Lu', born: '1972-02-03', planToAge: 60 },
          { id: 'ro', name: 'Ro', born: '1974-06-09', planToAge: 60 },
        ],
        sideVentures: [{ id: 'saws', name: 'Saws', person: 'lu', perMonth }],
      },
      savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 80_000 }] },
      assumptions: { inflation: 0, wageGrowth: 0, bills: 0 },
      tax: { filing: 'joint', soFar: { wages: 31_000, otherSelfEmployment: 10_500, ...soFar } },
    }),
  )

const taxesOf = (course: ReturnType<typeof autumn>, months: readonly string[]) =>
  months.map((month) => Math.round(course.months.find((one) => one.month === month)!.taxes * 100) / 100)

/**
 * 12,500 of self-employment: SE tax 12,500 × .9235 × .153 = 1,766.19, half of it 883.10. Income 31,000 + 12,500 − 883.10 = 42,616.90;
 * less 32,200 (Rev. Proc. 2025-32) and the deduction for qualified business income: 20 % of the lesser of 11,616.90 and of the
 * taxable 10,416.90, 2,083.38; taxable 8,333.52 at 10 %: 833.35. Whole tax 2,599.54.
 */
const wholeTax = 2599.54

test('less than 1,000 beyond what is withheld: nothing is paid ahead, the rest comes with the return (26 USC 6654(e)(1))', () => {
  const course = autumn({ paid: 2400, withheld: 2400 })
  expect(taxesOf(course, ['2027-01'])).toEqual([0])
  // In April the return of 2026 and the first of four payments for 2027, as June's.
  const [april, june] = taxesOf(course, ['2027-04', '2027-06'])
  expect(april! - june!).toBeCloseTo(wholeTax - 2400, 1)
})

test('payments ahead that were made count too: three of four made, the fourth is the fourth', () => {
  const fourth = (wholeTax * 0.9) / 4
  const course = autumn({ paid: 3 * fourth, withheld: 0 })
  expect(taxesOf(course, ['2027-01'])[0]).toBeCloseTo(fourth, 1)
  const none = autumn({})
  // Nothing was paid yet: the one date that is left asks for what three missed.
  expect(taxesOf(none, ['2027-01'])[0]).toBeCloseTo(wholeTax * 0.9, 1)
})

test('what the state was paid so far lessens what it is paid ahead', () => {
  const states = (paid: number) =>
    autumn({ statePaid: paid }, 'VA').months.find(({ month }) => month === '2027-01')!.stateTaxes
  expect(states(5000)).toBe(0)
  expect(states(0)).toBeGreaterThan(100)
})

test('Idaho asks nothing ahead of a person: its whole tax comes with the return (Idaho Code 63-3036A is of corporations)', () => {
  const course = autumn({}, 'ID', '2026-01', 6000)
  const paid = course.months.filter(({ month, stateTaxes }) => month < '2028-01' && stateTaxes !== 0)
  expect(paid.map(({ month }) => month)).toEqual(['2027-04'])
  expect(paid[0]!.stateTaxes).toBeCloseTo(course.years[0]!.stateTax, 2)
})

test('of IRA money taken early in the months before, a tenth is added (26 USC 72(t)(1))', () => {
  const taxIn2026 = (early: number) =>
    autumn({ otherIncome: 6000, earlyWithdrawals: early }).years.find(({ year }) => year === 2026)!.tax
  expect(taxIn2026(6000) - taxIn2026(0)).toBeCloseTo(600, 2)
  expect(taxIn2026(2500) - taxIn2026(0)).toBeCloseTo(250, 2)
})
