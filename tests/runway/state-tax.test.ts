// The state's income tax in the projection, for plans worked by hand.
import { expect, test } from 'vitest'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import { readPlan } from '#plan/upgrade.ts'
import { project } from '#runway/project.ts'
import { publishedRules } from '#runway/published-rules.ts'

const cents = (amount: number) => Math.round(amount * 100) / 100

/** One person with a steady paid job and prices that stand still. */
const worker = (more: Partial<PlanInput['household']>, tax: PlanInput['tax'] = {}) => {
  const plan = planSchema.parse({
    startMonth: '2026-01',
    household: {
      people: [{ id: 'ann', name: 'Ann', born: '1981-03-10', planToAge: 50 }],
      pay: [{ id: 'job', name: 'Job', person: 'ann', perMonth: 4000 }],
      ...more,
    },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 50_000 }] },
    assumptions: { inflation: 0 },
    tax,
  })
  return project(plan, publishedRules(plan)).years
}

test('Pennsylvania takes 3.07 percent of pay, Texas nothing (72 P.S. 7302)', () => {
  const pennsylvania = worker({ place: { state: 'PA' } })
  expect(cents(pennsylvania[0]!.stateTax)).toBe(cents(48_000 * 0.0307))
  expect(worker({ place: { state: 'TX' } })[0]!.stateTax).toBe(0)
  const nowhere = worker({})
  expect(nowhere[0]!.stateTax).toBe(0)
  expect(cents(pennsylvania[0]!.tax - nowhere[0]!.tax)).toBe(cents(48_000 * 0.0307))
})

test('local tax is the typed rate of what it applies to there; typed rates stand in place of the state’s', () => {
  const place = { state: 'PA' } as const
  const local = worker({ place }, { stateTax: { kind: 'law', localRate: 0.01 } })
  expect(cents(local[0]!.stateTax)).toBe(cents(48_000 * 0.0407))
  const typed = worker({ place }, { stateTax: { kind: 'flat', base: 'federal-agi', rate: 0.05 } })
  expect(cents(typed[0]!.stateTax)).toBe(2_400)
  expect(worker({ place }, { stateTax: { kind: 'none' } })[0]!.stateTax).toBe(0)
})

test('a state that pays more than it takes lowers the year’s tax', () => {
  const dependents = [{ id: 'bo', name: 'Bo', born: '2022-05-01' }]
  const pay = [{ id: 'job', name: 'Job', person: 'ann', perMonth: 1500 }]
  const years = worker({ place: { state: 'VT' }, dependents, pay }, { filing: 'head' })
  const without = worker({ dependents, pay }, { filing: 'head' })
  expect(years[0]!.stateTax).toBeLessThan(-1000)
  expect(cents(years[0]!.tax)).toBe(cents(without[0]!.tax + years[0]!.stateTax))
})

test('rates that fall by act fall in their year: Mississippi, 4 percent in 2026, 3 percent from 2030 (27-7-5, from memory)', () => {
  const years = worker({ place: { state: 'MS' } })
  const rateOf = (year: number) => years.find((one) => one.year === year)!.stateTax
  expect(rateOf(2030) / rateOf(2026)).toBeCloseTo(3 / 4, 9)
})

test('a plan of the version before has no state tax until it names a state', () => {
  const read = readPlan({ planVersion: 4, startMonth: '2026-01', tax: { stateTax: { kind: 'none' } } })
  expect(read).toMatchObject({ ok: true, plan: { tax: { stateTax: { kind: 'law', localRate: 0 } } } })
  const typed = { kind: 'flat', base: 'federal-agi', deduction: 0, rate: 0.04 }
  expect(readPlan({ planVersion: 4, startMonth: '2026-01', tax: { stateTax: typed } })).toMatchObject({
    ok: true,
    plan: { tax: { stateTax: typed } },
  })
})
