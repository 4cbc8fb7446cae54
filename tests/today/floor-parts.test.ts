// What lies between savings and the floor without draws: worked by hand for a house of our own, and summed for any plan.
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { planSchema } from '#plan/plan.ts'
import { floorParts } from '#today/now/floor-parts.ts'
import { withoutDrawsOf } from '#today/projection/courses.ts'
import { randomPlan } from '../runway/random-plan.ts'

test('30,000 less 3,000 a month and 1,000 of pay ends below a floor of 5,000 after thirteen months, draws left out', () => {
  const plan = planSchema.parse({
    startMonth: '2027-01',
    years: 4,
    household: {
      people: [{ id: 'odd', name: 'Odd', born: '1980-03-03', planToAge: 80 }],
      living: [{ id: 'living', name: 'Living', perMonth: 3000 }],
      pay: [{ id: 'mill', name: 'Mill', person: 'odd', perMonth: 1000 }],
      floor: { kind: 'dollars', dollars: 5000 },
    },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 30_000 }] },
    draw: { policy: 'steps', steps: [{ from: '2027-01', perMonth: 800 }] },
    tax: { method: 'none' },
    assumptions: { inflation: 0 },
  })
  expect(floorParts(plan, withoutDrawsOf(plan))).toEqual({
    from: '2027-01',
    begins: 30_000,
    parts: [
      { name: 'Living costs', dollars: -39_000 },
      { name: 'Pay, pensions and other income', dollars: 13_000 },
    ],
    ends: 4000,
    besides: 0,
    floor: 5000,
  })
})

test('null where savings last', () => {
  const plan = planSchema.parse({
    startMonth: '2027-01',
    years: 2,
    household: { floor: { kind: 'dollars', dollars: 0 } },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 100 }] },
    tax: { method: 'none' },
  })
  expect(floorParts(plan, withoutDrawsOf(plan))).toBeNull()
})

test('for any plan savings and the parts come to what is left in the month below the floor', () => {
  let told = 0
  fc.assert(
    fc.property(randomPlan(), (plan) => {
      const parts = floorParts(plan, withoutDrawsOf(plan))
      if (parts === null) return
      told += 1
      const sum = parts.parts.reduce((all, one) => all + one.dollars, parts.begins + parts.besides)
      // Parts below 50 cents are left out: as many as there are lines at most.
      expect(Math.abs(sum - parts.ends)).toBeLessThan(11)
      // What nothing could pay is below the floor as well.
      if (!parts.parts.some(({ name }) => name === 'Needs that nothing met'))
        expect(parts.ends).toBeLessThan(parts.floor + 0.5)
    }),
    { seed: 20261130, numRuns: 25 },
  )
  expect(told).toBeGreaterThan(5)
})
