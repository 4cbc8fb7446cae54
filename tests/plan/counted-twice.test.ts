// What a change of the plan would count twice is asked before it is saved.
import { expect, test } from 'vitest'
import { countedTwice as countedTwiceIn } from '#plan/counted-twice.ts'
import { type Plan, type PlanInput, planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'

const plan = (parts: object) => planSchema.parse({ startMonth: '2026-01', ...parts } as PlanInput)

const countedTwice = (before: Plan, after: Plan, thisMonth = '2026-01') =>
  countedTwiceIn(before, after, thisMonth)

const family = {
  household: { people: [{ id: 'ines', name: 'Ines', born: '1975-05-05' }] },
  tax: { method: 'none' },
  assumptions: { inflation: 0, premiumGrowth: 0 },
}
const line = { id: 'premium', name: 'Health premium', perMonth: 700 }
const members = [{ person: 'ines' }]
const marketplace = { members, planAt21: 400, benchmarkAt21: 420, advanceCredit: false }

test('a premium of the first run and a marketplace plan: the same cover is one item, other cover is two', () => {
  const before = plan({ ...family, health: { premiums: [line] } })
  const after = plan({ ...family, health: { premiums: [line], marketplace } })
  const asked = countedTwice(before, after)!
  expect(asked.asks).toContain('“Health premium”, $700 a month')
  const [once, twice] = asked.answers.map((one) => project(one.plan).months[0]!.premiums)
  expect(twice! - once!).toBeCloseTo(700, 6)
  // What a person meant once is not asked again, and a plan without a premium line is not asked at all.
  expect(countedTwice(asked.answers[1]!.plan, asked.answers[1]!.plan)).toBeNull()
  expect(countedTwice(plan(family), plan({ ...family, health: { marketplace } }))).toBeNull()
})

test('a premium that ends before the marketplace begins is no second one', () => {
  const until = { ...line, to: '2026-06' }
  const later = { ...marketplace, members: [{ person: 'ines', from: '2026-07' }] }
  const before = plan({ ...family, health: { premiums: [until] } })
  expect(
    countedTwice(before, plan({ ...family, health: { premiums: [until], marketplace: later } })),
  ).toBeNull()
})

test('a premium whose last month is behind is beside nothing that is still to come', () => {
  const until = { ...line, to: '2026-06' }
  const before = plan({ ...family, health: { marketplace } })
  const after = plan({ ...family, health: { premiums: [until], marketplace } })
  expect(countedTwice(before, after, '2026-12')).toBeNull()
  expect(countedTwice(before, after, '2026-07')).toBeNull()
  expect(countedTwice(before, after, '2026-06')).not.toBeNull()
  // One that is to come has its months ahead.
  const later = plan({
    ...family,
    health: { premiums: [{ ...line, from: '2027-01', to: '2027-03' }], marketplace },
  })
  expect(countedTwice(before, later, '2026-12')).not.toBeNull()
})

test('a premium that ends in the month the marketplace begins is paid beside it once, and is asked about', () => {
  const until = { ...line, to: '2026-07' }
  const later = { ...marketplace, members: [{ person: 'ines', from: '2026-07' }] }
  const after = plan({ ...family, health: { premiums: [until], marketplace: later } })
  expect(countedTwice(plan({ ...family, health: { premiums: [until] } }), after)).not.toBeNull()
})

test('a premium line added beside a marketplace plan asks too', () => {
  const before = plan({ ...family, health: { marketplace } })
  expect(countedTwice(before, plan({ ...family, health: { marketplace, premiums: [line] } }))).not.toBeNull()
})

const whole = {
  id: 'whole-farm',
  name: 'The farm as it is',
  salesPerUnit: 48_000,
  costsPerUnit: 30_000,
}
const hives = {
  id: 'hives',
  name: 'Hives',
  scale: 20,
  salesPerUnit: 300,
  costsPerUnit: 110,
  hoursPerUnit: 12,
}
const farmOf = (enterprises: object[], more: object = {}) =>
  plan({ ...family, farm: { enterprises, ...more } })
const yearOf = (of: ReturnType<typeof plan>) => {
  const months = project(of).months.slice(0, 12)
  return {
    sales: Math.round(months.reduce((sum, one) => sum + one.farmSales, 0)),
    costs: Math.round(months.reduce((sum, one) => sum + one.farmCosts, 0)),
  }
}

test('hives added to the farm as it is: a part of it, all of it, or new on top', () => {
  const asked = countedTwice(farmOf([whole]), farmOf([whole, hives]))!
  expect(asked.answers.map((one) => yearOf(one.plan))).toEqual([
    { sales: 48_000, costs: 30_000 },
    { sales: 6000, costs: 2200 },
    { sales: 54_000, costs: 32_200 },
  ])
  // Each further line asks again; changing one that is known does not.
  const part = asked.answers[0]!.plan
  expect(countedTwice(part, farmOf([whole, { ...hives, scale: 25 }]))).toBeNull()
  expect(countedTwice(part, farmOf([whole, hives, { ...hives, id: 'beds', name: 'Beds' }]))).not.toBeNull()
  expect(countedTwice(asked.answers[1]!.plan, farmOf([hives]))).toBeNull()
})

test('what begins later is no part of the farm as it is, and is not asked about until it runs', () => {
  const from = (start: string) => farmOf([whole, { ...hives, start }])
  expect(countedTwice(farmOf([whole]), from('2026-04'))).toBeNull()
  expect(countedTwice(farmOf([whole]), from('2026-04'), '2026-03')).toBeNull()
  expect(countedTwice(farmOf([whole]), from('2026-04'), '2026-04')!.asks).toContain('What is “Hives” to it?')
  // A plan that begins later than this month: what is there when it begins is asked about.
  expect(countedTwice(farmOf([whole]), from('2026-01'), '2025-11')).not.toBeNull()
  const both = farmOf([whole, hives, { ...hives, id: 'mushrooms', name: 'Mushrooms', start: '2027-02' }])
  const asked = countedTwice(farmOf([whole]), both)!
  expect(asked.asks).toContain('What is “Hives” to it?')
  // All are entered one by one: those of later stay too.
  expect(asked.answers[1]!.plan.farm.enterprises.map(({ id }) => id)).toEqual(['hives', 'mushrooms'])
  const flock = (start: string) => farmOf([whole], { herds: [{ ...hens, start }] })
  expect(countedTwice(farmOf([whole]), flock('2026-05'))).toBeNull()
  const stand = { id: 'stand', name: 'Stand', trips: 4, salesPerTrip: 100, feePerTrip: 25 }
  expect(countedTwice(farmOf([whole]), farmOf([whole], { markets: [stand] }))).not.toBeNull()
  expect(
    countedTwice(farmOf([whole]), farmOf([whole], { markets: [{ ...stand, start: '2026-05' }] })),
  ).toBeNull()
})

test('a part larger than the whole leaves nothing of it, never less', () => {
  const asked = countedTwice(farmOf([whole]), farmOf([whole, { ...hives, scale: 400 }]))!
  expect(yearOf(asked.answers[0]!.plan)).toEqual({ sales: 120_000, costs: 44_000 })
})

// 120 hens of our own invention, all replaced each October: 120 × 96 of eggs and 120 × 3 of old hens; 120 × 4 × 12 of feed and 120 × 14
// of pullets; 2 hours a month.
const hens = {
  id: 'hens',
  kind: 'layers',
  name: 'Hens',
  start: '2026-01',
  breedingFemales: 120,
  carryingLimit: 150,
  ownedAlready: true,
  buysReplacements: true,
  rates: { cullPerYear: 1, adultLossPerYear: 0 },
  prices: { breedingFemale: 14, cullFemale: 3 },
  productPerFemale: 96,
  costPerFemale: 4,
  hoursFixed: 2,
}

test('a flock added to the farm as it is: a part of it is taken out as its own year comes to, and what is left is said', () => {
  const asked = countedTwice(farmOf([whole]), farmOf([whole], { herds: [hens] }))!
  expect(asked.answers.map((one) => one.label)).toEqual([
    '“Hens”: a part of “The farm as it is”',
    '“The farm as it is” is now entered enterprise by enterprise',
    '“Hens”: new, on top',
  ])
  const part = asked.answers[0]!
  expect(part.plan.farm.enterprises[0]).toMatchObject({ salesPerUnit: 36_120, costsPerUnit: 22_560 })
  expect(part.says).toContain('$11,880')
  expect(part.says).toContain('$7,440')
  expect(part.says).toContain('$36,120')
  expect(part.says).toContain('$22,560')
})

test('hours of the whole are lowered with its part, and what the part has more than the whole is said', () => {
  const worked = { ...whole, salesPerUnit: 10_000, hoursPerUnit: 900 }
  const asked = countedTwice(farmOf([worked]), farmOf([worked], { herds: [hens] }))!
  const part = asked.answers[0]!
  expect(part.plan.farm.enterprises[0]).toMatchObject({
    salesPerUnit: 0,
    costsPerUnit: 22_560,
    hoursPerUnit: 876,
  })
  expect(part.says).toContain('876 hours')
  expect(part.says).toContain('only $10,000 of sales to take out, of $11,880 of sales')
})

// 3 sows that farrow 10 each in April and in October, none lost, all 60 sold at seven months for $100; $10 of feed a sow and month. A
// tenth is culled each November and none kept, so the herd shrinks. By hand 2 × 3 × 10 × 100 = 6,000 and 3 × 10 × 12 = 360 in a year of
// the three, less what the culled no longer eat.
test('a herd that keeps too few young to hold itself is taken out with a full year of its heads, not of those left later', () => {
  const sows = {
    id: 'sows',
    kind: 'pigs',
    name: 'Sows',
    start: '2025-07',
    breedingFemales: 3,
    carryingLimit: 3,
    ownedAlready: true,
    rates: {
      conception: 1,
      birthsPerFemale: 10,
      birthMonths: [4, 10],
      adultLossPerYear: 0,
      youngLossToWeaning: 0,
      youngLossToSale: 0,
      saleAgeMonths: 7,
      cullPerYear: 0.1,
      cullMonth: 11,
      keepOfFemaleYoung: 0,
      femalesPerMale: 0,
    },
    prices: { youngSold: 100, breedingFemale: 540, cullFemale: 0 },
    costPerFemale: 10,
  }
  const asked = countedTwice(farmOf([whole]), farmOf([whole], { herds: [sows] }))!
  const rest = asked.answers[0]!.plan.farm.enterprises[0]!
  expect(rest.salesPerUnit).toBeCloseTo(48_000 - 6000, 1)
  expect(30_000 - Number(rest.costsPerUnit)).toBeGreaterThan(0.93 * 360)
  expect(30_000 - Number(rest.costsPerUnit)).toBeLessThanOrEqual(360)
})

test('a flock that dies out has no year to take out, and so that is not offered', () => {
  const dying = { ...hens, buysReplacements: false }
  const asked = countedTwice(farmOf([whole]), farmOf([whole], { herds: [dying] }))!
  expect(asked.answers).toHaveLength(2)
})

test('a whole that other parts of the plan point at cannot be taken out, and that is not offered', () => {
  const fence = { id: 'fence', name: 'Fence', cost: 900, month: '2026-04', for: 'whole-farm' }
  const asked = countedTwice(
    farmOf([whole], { purchases: [fence] }),
    farmOf([whole, hives], { purchases: [fence] }),
  )!
  expect(asked.answers).toHaveLength(2)
})

const house = (living: object[], loans: object[]) =>
  plan({ ...family, household: { ...family.household, living, loans } })
const home = {
  id: 'home',
  name: 'Home',
  principal: 100_000,
  yearlyRate: 0.06,
  paymentPerMonth: 900,
  start: '2025-12',
}
const told = [
  { id: 'food', name: 'Food', perMonth: 700 },
  { id: 'rest', name: 'The rest', perMonth: 2100 },
]

test('a loan told after living costs: they may hold its 900 a month, and then it is taken out there', () => {
  const before = house(told, [])
  const asked = countedTwice(before, house(told, [home]))!
  expect(asked.asks).toContain('“Home” costs $900 a month')
  // Food is less than the payment, so it cannot hold it.
  expect(asked.answers.map((one) => project(one.plan).months[0]!.householdCosts)).toEqual([2800, 3700])
  expect(asked.answers[0]!.plan.household.living.map((line) => line.perMonth)).toEqual([700, 1200])
})

test('living costs of just the payment may be the loan, those of a cent less cannot hold it', () => {
  const told = (perMonth: number) => [{ id: 'bank', name: 'To the bank', perMonth }]
  const asked = (perMonth: number) => countedTwice(house(told(perMonth), []), house(told(perMonth), [home]))
  expect(asked(900)!.answers[0]!.plan.household.living[0]!.perMonth).toBe(0)
  expect(asked(899.99)).toBeNull()
})

test('no living costs yet, a loan still to be taken, or another rate of one that is known: nothing is asked', () => {
  expect(countedTwice(house([], []), house([], [home]))).toBeNull()
  expect(countedTwice(house(told, []), house(told, [{ ...home, start: '2027-03', drawn: true }]))).toBeNull()
  expect(countedTwice(house(told, [home]), house(told, [{ ...home, yearlyRate: 0.05 }]))).toBeNull()
})

test('an overhead beside the farm as it is: its costs are a part of that, or come on top', () => {
  const insurance = { id: 'insurance', name: 'Insurance', costs: 2400 }
  const asked = countedTwice(farmOf([whole]), farmOf([whole], { overheads: [insurance] }))!
  expect(asked.answers.map((one) => yearOf(one.plan))).toEqual([
    { sales: 48_000, costs: 30_000 },
    { sales: 48_000, costs: 32_400 },
  ])
})

// 30 Saturdays at a fee of 25 and 20 miles at 0.50: 30 × 35 = 1,050 a year, and 30 × 6 = 180 hours.
test('a market beside the farm as it is: its fees and miles are a part of that, or come on top', () => {
  const trips = [0, 0, 0, 2, 4, 4, 4, 4, 4, 4, 4, 0]
  const market = {
    id: 'saturday',
    name: 'Saturday',
    trips,
    feePerTrip: 25,
    milesPerTrip: 20,
    costPerMile: 0.5,
  }
  const asked = countedTwice(
    farmOf([{ ...whole, hoursPerUnit: 2000 }]),
    farmOf([{ ...whole, hoursPerUnit: 2000 }], { markets: [{ ...market, hoursPerTrip: 6 }] }),
  )!
  expect(asked.answers.map((one) => yearOf(one.plan))).toEqual([
    { sales: 48_000, costs: 30_000 },
    { sales: 48_000, costs: 31_050 },
  ])
  expect(asked.answers[0]!.says).toBe(
    'Taken out of “The farm as it is”: $1,050 of costs, 180 hours a year. It is then the rest: $48,000 of sales, $28,950 of costs, 1,820 hours.',
  )
  // One that costs nothing counts nothing twice.
  const gate = { id: 'gate', name: 'At the gate', salesPerTrip: 300 }
  expect(countedTwice(farmOf([whole]), farmOf([whole], { markets: [gate] }))).toBeNull()
  // Nor do hours beside a whole without any.
  const stand = { ...gate, hoursPerTrip: 5 }
  expect(countedTwice(farmOf([whole]), farmOf([whole], { markets: [stand] }))).toBeNull()
})
