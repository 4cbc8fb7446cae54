// Marketplace premiums, Medicare's and care grow by rates of their own, each up to a year of its own and with prices after it.
import { expect, test } from 'vitest'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import { countyPremiums } from '#rules/places/county-premiums.ts'
import { project } from '#runway/project.ts'

/** One of 63 with other cover at 500 a month, one of 70 on Medicare with a supplement of 100, care of 50 for each; prices rise by 2 %. */
const premiumsOf = (assumptions: PlanInput['assumptions'], what: 'premiums' | 'care' = 'premiums') => {
  const plan = planSchema.parse({
    startMonth: '2027-01',
    household: { people: [{ id: 'a', name: 'A', born: '1956-03-10', planToAge: 90 }] },
    health: {
      premiums: [{ id: 'other', name: 'Other cover', perMonth: 500 }],
      medicare: { partDPlan: 0, supplement: 100 },
      careFrom65: 50,
    },
    savings: { accounts: [{ id: 's', name: 'S', kind: 'cash', balance: 900_000 }] },
    tax: { method: 'none' },
    assumptions: { inflation: 0.02, ...assumptions },
  })
  const { months } = project(plan)
  return (year: number) => months.find(({ month }) => month === `${year}-06`)![what]
}

test('without a rate of its own Medicare grows as the other premiums, for the whole plan: older plans stay as they are', () => {
  const one = premiumsOf({ premiumGrowth: 0.07 })
  const same = premiumsOf({ premiumGrowth: 0.07, medicareGrowth: 0.07 })
  for (const year of [2027, 2030, 2045]) expect(same(year)).toBeCloseTo(one(year), 9)
})

test('each rate moves only its own', () => {
  const base = premiumsOf({ premiumGrowth: 0, medicareGrowth: 0 })
  const premiums = premiumsOf({ premiumGrowth: 0.1, medicareGrowth: 0 })
  const medicare = premiumsOf({ premiumGrowth: 0, medicareGrowth: 0.1 })
  // Two Januaries of 10 % on 500.
  expect(premiums(2029) - base(2029)).toBeCloseTo(500 * 0.21, 6)
  // The supplement of 100 and Part B, which is kept to ten cents.
  expect(medicare(2029) - base(2029)).toBeGreaterThan(100 * 0.21 + 202.9 * 0.3)
  expect(medicare(2029) - base(2029)).toBeLessThan(100 * 0.21 + 202.9 * 0.35)
})

test('after its last year a rate gives way to prices', () => {
  const until = premiumsOf({
    premiumGrowth: 0.1,
    premiumGrowthUntil: 2029,
    medicareGrowth: 0,
    medicareGrowthUntil: 2200,
  })
  const flat = premiumsOf({ premiumGrowth: 0, medicareGrowth: 0, medicareGrowthUntil: 2200 })
  const other = (year: number) => until(year) - flat(year) + 500
  expect(other(2029)).toBeCloseTo(500 * 1.21, 6)
  expect(other(2031)).toBeCloseTo(500 * 1.21 * 1.02 ** 2, 6)
  const care = premiumsOf({ careGrowth: 0.06, careGrowthUntil: 2028 }, 'care')
  expect(care(2028)).toBeCloseTo(50 * 1.06, 9)
  expect(care(2030)).toBeCloseTo(50 * 1.06 * 1.02 ** 2, 9)
})

test('a plan that is continued opens at the level its own growth has reached', () => {
  const continued = planSchema.parse({
    startMonth: '2027-01',
    continuesFrom: '2031-01',
    household: { people: [{ id: 'a', name: 'A', born: '1986-03-10', planToAge: 50 }] },
    health: { premiums: [{ id: 'other', name: 'Other cover', perMonth: 500 }], careBefore65: 50 },
    savings: { accounts: [{ id: 's', name: 'S', kind: 'cash', balance: 900_000 }] },
    tax: { method: 'none' },
    assumptions: {
      inflation: 0.02,
      premiumGrowth: 0.1,
      premiumGrowthUntil: 2029,
      careGrowth: 0.06,
      careGrowthUntil: 2028,
    },
  })
  const [first] = project(continued).months
  expect(first!.premiums).toBeCloseTo(500 * 1.21 * 1.02 ** 2, 6)
  expect(first!.care).toBeCloseTo(50 * 1.06 * 1.02 ** 3, 6)
})

test('a premium published before the plan begins has grown by the rate of premiums until then', () => {
  const place = { state: 'PA', county: 'Erie County' } as const
  const plan = planSchema.parse({
    startMonth: '2029-11',
    household: {
      place,
      people: [{ id: 'a', name: 'A', born: '2007-03-10', planToAge: 50 }],
      // Above the state's programs, which ask for the income of the months ahead.
      pay: [{ id: 'job', name: 'Job', person: 'a', perMonth: 8000 }],
    },
    health: { marketplace: { members: [{ person: 'a' }], advanceCredit: false } },
    savings: { accounts: [{ id: 's', name: 'S', kind: 'cash', balance: 900_000 }] },
    tax: { method: 'none', soFar: { wages: 80_000 } },
    assumptions: { inflation: 0.02, premiumGrowth: 0.1, premiumGrowthUntil: 2028 },
  })
  const last = countyPremiums('benchmark', place).at(-1)!
  expect(last.year).toBeLessThan(2028)
  // Of 21 on January 1: the published figure itself, by 10 % up to 2028 and with prices in 2029.
  const [first] = project(plan).months
  expect(first!.premiums).toBeCloseTo(last.at21 * 1.1 ** (2028 - last.year) * 1.02, 6)
})
