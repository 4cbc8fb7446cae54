// The mix of farms with stock: what it promises is what the plan lives, with waiting, auction and freezer in both.
import { beforeAll, expect, test } from 'vitest'
import { type Farm, type FarmInput, farmSchema } from '#farm/farm-document.ts'
import { farmYear } from '#farm/farm-year.ts'
import { type MixFound, solveMix, withMix } from '#farm/mix/mix.ts'
import { loadSolver, type Solver } from '#farm/program.ts'
import { herdYear } from '#farm/told/year-told.ts'

let solver: Solver
beforeAll(async () => {
  solver = await loadSolver()
})

/** Goats that have stood at their limit for years; no buck is kept, so that each year is the same. */
const goats = {
  id: 'goats',
  name: 'Goats',
  kind: 'goats' as const,
  start: '2004-01',
  breedingFemales: 20,
  carryingLimit: 20,
  ownedAlready: true,
  rates: { femalesPerMale: 0, birthMonths: [3] },
  prices: { breedingFemale: 220, youngSold: 180, cullFemale: 90, atAuction: 60 },
  costPerFemale: 7,
  costPerYoung: 5,
  hoursPerFemale: 1,
  productPerFemale: 24,
  landPerFemale: 0.2,
  markets: ['eid'],
  waitMonths: 4,
}
const farm = (more: Partial<FarmInput> = {}, herd = {}): Farm =>
  farmSchema.parse({
    crew: [{ who: 'a', weeklyHours: 40 }],
    markets: [{ id: 'eid', name: 'Buyers at the gate', trips: 1, salesPerTrip: 900, hoursPerTrip: 2 }],
    herds: [{ ...goats, ...herd }],
    ...more,
  })
const ask = (of: Farm, weeklyHours?: Record<string, number>): MixFound => {
  const found = solveMix(solver, of, {
    year: 2030,
    kind: 'most net',
    ...(weeklyHours ? { weeklyHours } : {}),
  })
  if (found.kind !== 'found') throw new Error(found.because)
  return found
}

test('a herd at its limit is offered no smaller for its culls, and lives the net that was promised', () => {
  const mix = ask(farm())
  expect(mix.lines).toMatchObject([{ unit: 'doe', today: 20, scale: 20 }])
  const lived = farmYear(withMix(farm(), mix, '2030-01'), 2045)
  expect(mix.net).toBeCloseTo(lived.net, 2)
  expect(mix.hours).toBeCloseTo(lived.hours, 2)
  expect(mix.netAsItIs).toBeCloseTo(mix.net, 6)
})

// Twenty does that kid once in April and once in October, one kid each, all sold at seven months for 150; a tenth is culled each November
// and none kept, so the herd shrinks. By hand 2 × 20 × 150 = 6,000 in a year of the twenty; in the late ones few are left.
test('a herd that keeps too few young to hold itself counts by a full year of its heads, as everywhere on the farm', () => {
  const rates = {
    conception: 1,
    birthsPerFemale: 1,
    birthMonths: [4, 10],
    adultLossPerYear: 0,
    youngLossToWeaning: 0,
    youngLossToSale: 0,
    saleAgeMonths: 7,
    cullPerYear: 0.1,
    cullMonth: 11,
    keepOfFemaleYoung: 0,
    femalesPerMale: 0,
  }
  const shrinking = {
    rates,
    start: '2029-01',
    prices: { youngSold: 150 },
    costPerFemale: 0,
    costPerYoung: 0,
    productPerFemale: 0,
    markets: [],
  }
  const mix = ask(farm({}, shrinking))
  expect(mix.lines[0]!.scale).toBe(20)
  expect(mix.net).toBeCloseTo(6000, 0)
  const herd = farm({}, shrinking).herds[0]!
  expect(mix.net).toBeCloseTo(herdYear(herd)!.sales, 6)
  expect(mix.hours).toBeCloseTo(herdYear(herd)!.hours, 6)
})

test('fewer hours make a smaller herd, and it too lives what was promised', () => {
  const mix = ask(farm(), { a: 3 })
  expect(mix.lines[0]!.scale).toBeLessThan(14)
  const small = { ...farm(), crew: [{ who: 'a', weeklyHours: 3 }] }
  const lived = farmYear(withMix(small, mix, '2030-01'), 2050)
  expect(mix.net).toBeCloseTo(lived.net, 0)
  expect(mix.netAsItIs).toBeNull()
})

test('what a market takes over months is worth more than what it takes in the one month of sale', () => {
  // A market of 900 a month: kids of one month of birth wait up to four months, and what is left goes to auction at 60.
  const patient = ask(farm())
  const hasty = ask(farm({}, { waitMonths: 0 }))
  const lived = farmYear(withMix(farm({}, { waitMonths: 0 }), hasty, '2030-01'), 2045)
  expect(hasty.net).toBeCloseTo(lived.net, 2)
  expect(patient.net).toBeGreaterThan(hasty.net + 500)
})

test('cuts lie in the freezer and are sold over their months, at the freezer’s cost', () => {
  const meat = {
    hangingWeight: 40,
    packagedShare: 0.7,
    processingPerHead: 60,
    wholeShare: 0.25,
    wholePrice: 6,
    cutPrice: 12,
    cutsMonths: 5,
    freezerPerPound: 0.2,
  }
  for (const markets of [['eid'], []]) {
    const of = farm({}, { meat, markets })
    const mix = ask(of)
    const lived = farmYear(withMix(of, mix, '2030-01'), 2045)
    expect(mix.net).toBeCloseTo(lived.net, 2)
  }
})

test('an enterprise in its build-up stands in the mix as in the plan’s months of that year', () => {
  const of = farm({
    herds: [],
    enterprises: [
      {
        id: 'berries',
        name: 'Berries',
        unit: 'row',
        scale: 4,
        start: '2029-01',
        buildUp: [0, 0.5],
        salesPerUnit: 900,
        costsPerUnit: 200,
        hoursPerUnit: 30,
        maximumScale: 4,
      },
    ],
  })
  const mix = ask(of)
  // Half of 900 less 200, four rows.
  expect(mix.net).toBeCloseTo(1000, 6)
  expect(mix.net).toBeCloseTo(farmYear(of, 2030).net, 6)
})

test('a line that says no hours is named, and the hours are not told as none', () => {
  const silent = {
    id: 'honey',
    name: 'Honey',
    scale: 6,
    salesPerUnit: 200,
    costsPerUnit: 40,
    maximumScale: 6,
  }
  expect(ask(farm({ herds: [], enterprises: [silent] }))).toMatchObject({
    hours: 0,
    withoutHours: ['Honey'],
  })
  expect(ask(farm({ herds: [], enterprises: [{ ...silent, hoursPerUnit: 3 }] })).withoutHours).toEqual([])
})

test('a mix knows grown customers and the chance of a seat as the plan of that year does', () => {
  const of = farm({
    herds: [],
    enterprises: [
      {
        id: 'soap',
        name: 'Soap',
        scale: 3,
        salesPerUnit: 6000,
        costsPerUnit: 500,
        hoursPerUnit: 100,
        maximumScale: 3,
        markets: ['eid', 'list'],
      },
    ],
    markets: [
      {
        id: 'eid',
        name: 'Gate',
        trips: 4,
        salesPerTrip: 100,
        growth: { perYear: 0.1, from: '2028-01', years: 5 },
      },
      {
        id: 'list',
        name: 'List',
        trips: 4,
        salesPerTrip: 150,
        feePerMonth: 20,
        seat: { from: '2029-01', chance: 0.5 },
      },
    ],
  })
  const mix = ask(of)
  expect(mix.net).toBeCloseTo(farmYear(withMix(of, mix, '2030-01'), 2030).net, 2)
})
