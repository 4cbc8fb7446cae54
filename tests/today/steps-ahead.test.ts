// What Now says lies ahead, and how long income of the plan goes on at the pace of the books, by months made up for it.
import { expect, test } from 'vitest'
import { addMonths, month, monthText } from '#calendar/month.ts'
import { planSchema } from '#plan/plan.ts'
import type { ProjectedMonth, Projection } from '#runway/project.ts'
import { incomeEnds } from '#today/now/income-ends.ts'
import { stepsAhead } from '#today/now/steps-ahead.ts'

const today = month(2026, 9)

/** Twenty months from the one before today on; costs of 3,000, of which a tenth is a step. */
const courseOf = (each: (k: number) => Partial<ProjectedMonth>): Projection =>
  ({
    months: Array.from({ length: 20 }, (_, k) => ({
      month: monthText(addMonths(month(2026, 8), k)),
      premiums: 0,
      living: 0,
      loanPayments: 0,
      pay: 0,
      side: 0,
      socialSecurity: 0,
      draw: 0,
      advanceCredit: 0,
      householdCosts: 3000,
      ...each(k),
    })),
  }) as unknown as Projection

test('a rise of premiums is said with its month, and that the credit ends with it', () => {
  const course = courseOf((k) => (k < 5 ? { premiums: 210, advanceCredit: 700 } : { premiums: 940 }))
  const [step, ...more] = stepsAhead(course, today)
  expect(more).toEqual([])
  expect(step).toEqual({
    month: month(2027, 1),
    of: 'premiums',
    before: 210,
    after: 940,
    creditEnds: true,
    says: 'January 2027: premiums go from $210 to $940 a month, with no credit any more',
  })
})

test('what comes with the seasons, what comes once, what is small, and what is a year off are no steps', () => {
  const course = courseOf((k) => ({
    side: k % 2 === 0 ? 900 : 0,
    living: k === 6 ? 5000 : 2000,
    pay: k < 8 ? 1500 : 1260,
    loanPayments: k < 14 ? 600 : 0,
  }))
  expect(stepsAhead(course, today)).toEqual([])
})

test('the largest four are told, in order of time', () => {
  const course = courseOf((k) => ({
    pay: k < 9 ? 2200 : 0,
    socialSecurity: k < 4 ? 0 : 1300,
    loanPayments: k < 7 ? 450 : 0,
    draw: k < 11 ? 300 : 900,
    living: k < 3 ? 2000 : 2310,
  }))
  expect(stepsAhead(course, today).map(({ of, month: at }) => [of, monthText(at)])).toEqual([
    ['Social Security', '2026-12'],
    ['loan payments', '2027-03'],
    ['pay', '2027-05'],
    ['draws', '2027-07'],
  ])
})

// Of 1,800 of pay 1,200 end with March 2027 and 600 with August; a line of 500 that begins in October is none of the pace. The stall ends with
// December.
test('income of the plan that ends is told by shares of today’s', () => {
  const plan = planSchema.parse({
    startMonth: '2026-09',
    household: {
      people: [{ id: 'ivo', name: 'Ivo', born: '1981-02-03' }],
      living: [{ id: 'living', name: 'Living', perMonth: 2000 }],
      pay: [
        { id: 'school', name: 'School', person: 'ivo', perMonth: 1200, to: '2027-03' },
        { id: 'mill', name: 'Mill', person: 'ivo', perMonth: 600, to: '2027-08' },
        { id: 'later', name: 'Later', person: 'ivo', perMonth: 500, from: '2026-10' },
      ],
      sideVentures: [{ id: 'stall', name: 'Stall', perMonth: 300, to: '2026-12' }],
    },
  })
  expect(incomeEnds(plan, today)).toEqual([
    { inMonths: 4, payShare: 1, ventureShare: 0 },
    { inMonths: 7, payShare: 1 / 3, ventureShare: 0 },
    { inMonths: 12, payShare: 0, ventureShare: 0 },
  ])
})
