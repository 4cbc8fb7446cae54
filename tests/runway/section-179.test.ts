// Section 179 in the projection: at once as far as the year's business income goes, the rest in later years (26 USC 179(b)(3)).
import { expect, test } from 'vitest'
import { purchaseSchema } from '#farm/purchase-document.ts'
import { planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'

/** A farm that nets 6,000 a year buys a 20,000 tractor in March 2027; `share` of it is elected. */
const years = (
  share: number,
  change: { pay?: number; assetClass?: string; bonus?: boolean; cost?: number } = {},
) => {
  const plan = planSchema.parse({
    startMonth: '2027-01',
    household: {
      people: [{ id: 'ann', name: 'Ann', born: '1985-03-10', planToAge: 60 }],
      living: [{ id: 'living', name: 'Living', perMonth: 1000 }],
      pay: change.pay ? [{ id: 'pay', name: 'Pay', person: 'ann', perMonth: change.pay }] : [],
    },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 300_000 }] },
    farm: {
      cash: 25_000,
      enterprises: [{ id: 'beds', name: 'Beds', salesPerUnit: 6000 }],
      purchases: [
        {
          id: 'tractor',
          name: 'Tractor',
          cost: change.cost ?? 20_000,
          bonus: change.bonus ?? false,
          month: '2027-03',
          assetClass: change.assetClass ?? 'machinery-used',
          section179Share: share,
        },
      ],
    },
    assumptions: { inflation: 0, farmPriceGrowth: 0, farmCostGrowth: 0 },
  })
  return project(plan).years
}

test('what the income does not allow is carried until it does, and all of the cost is deducted once', () => {
  const list = years(1)
  const before = list.map((year) => Math.round(year.farmProfit + year.depreciation))
  expect(before.slice(0, 5)).toEqual([6000, 6000, 6000, 6000, 6000])
  expect(list.slice(0, 5).map((year) => Math.round(year.depreciation))).toEqual([6000, 6000, 6000, 2000, 0])
  expect(list.slice(0, 3).every((year) => Math.abs(year.farmProfit) < 1e-6)).toBe(true)
})

test('wages count as business income: with 2,000 a month all of it goes at once, and the farm shows a loss', () => {
  const [first, second] = years(1, { pay: 2000 })
  expect(first!.depreciation).toBeCloseTo(20_000, 6)
  expect(first!.farmProfit).toBeCloseTo(-14_000, 6)
  expect(second!.depreciation).toBe(0)
})

test('without the choice the class’s table runs its course', () => {
  const [first, second] = years(0)
  // A declining balance that begins with half a year; see the rates' own tests.
  expect(first!.depreciation).toBeGreaterThan(1500)
  expect(second!.depreciation).toBeGreaterThan(first!.depreciation)
})

test('a plan cannot choose it for land, supplies or a building', () => {
  const barn = { id: 'barn', name: 'Barn', cost: 9000, month: '2027-03', section179Share: 0.5 }
  for (const assetClass of ['land', 'supplies', 'farm-building', 'tenant-house'])
    expect(purchaseSchema.safeParse({ ...barn, assetClass }).error?.issues[0]?.path).toEqual([
      'section179Share',
    ])
  expect(purchaseSchema.safeParse({ ...barn, assetClass: 'single-purpose-structure' }).success).toBe(true)
})

// 26 USC 168(k) as changed by P.L. 119-21: all of the basis, and unlike section 179 into a loss.
test('bonus takes at once what section 179 leaves, though the farm then shows a loss that goes forward', () => {
  const [first, second] = years(0, { bonus: true })
  expect(first!.depreciation).toBeCloseTo(20_000, 6)
  expect(first!.farmProfit).toBeCloseTo(-14_000, 6)
  expect(first!.netOperatingLoss).toBeCloseTo(14_000, 2)
  expect(second!.depreciation).toBe(0)
  // Half of it elected: 6,000 of income take 6,000 less the loss that bonus makes of it: section 179 waits for income.
  const half = years(0.5, { bonus: true })
  expect(half.map((year) => Math.round(year.depreciation)).slice(0, 3)).toEqual([10_000, 6000, 4000])
})

// 26 USC 280F(a)(1); the limits of 2026, which stand on: 20,300 with bonus, 12,300 without.
test('of a car of 50,000 bonus and section 179 take no more than its first limit', () => {
  const first = (share: number, bonus: boolean) =>
    years(share, { assetClass: 'vehicle', cost: 50_000, bonus, pay: 9000 })[0]!.depreciation
  expect(first(0, true)).toBeCloseTo(20_300, 2)
  expect(first(1, false)).toBeCloseTo(12_300, 2)
  expect(first(0, false)).toBeCloseTo(10_000, 2)
})

test('land, supplies and tenant houses take no bonus', () => {
  const house = { id: 'house', name: 'House', cost: 9000, month: '2027-03', bonus: true }
  for (const assetClass of ['land', 'supplies', 'tenant-house'])
    expect(purchaseSchema.safeParse({ ...house, assetClass }).error?.issues[0]?.path).toEqual(['bonus'])
})

/** A farm that nets 6,000 a year buys twelve ewes and a ram for 4,200 in March 2027. */
const flockYears = (stockWriteOff: string, start = '2027-03') =>
  project(
    planSchema.parse({
      startMonth: '2027-01',
      household: {
        people: [{ id: 'ann', name: 'Ann', born: '1985-03-10', planToAge: 55 }],
        living: [{ id: 'living', name: 'Living', perMonth: 1000 }],
      },
      savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 300_000 }] },
      farm: {
        cash: 9000,
        enterprises: [{ id: 'beds', name: 'Beds', salesPerUnit: 3000 }],
        herds: [
          {
            id: 'flock',
            name: 'Flock',
            kind: 'sheep',
            start,
            breedingFemales: 12,
            males: 1,
            carryingLimit: 12,
            stockWriteOff,
            rates: { birthsPerFemale: 0, cullPerYear: 0, adultLossPerYear: 0, maleLifeYears: 20 },
            prices: { breedingFemale: 300, male: 600 },
          },
        ],
      },
      assumptions: { inflation: 0, farmPriceGrowth: 0, farmCostGrowth: 0 },
    }),
  ).years

test('bought breeding stock is written off at once, as far as income goes, or over its years (26 USC 168(e)(3)(B), (k), 179)', () => {
  const profits = (choice: string, start?: string) =>
    flockYears(choice, start)
      .slice(0, 7)
      .map((year) => Math.round(year.farmProfit * 100) / 100)
  expect(profits('bonus')).toEqual([-1200, 3000, 3000, 3000, 3000, 3000, 3000])
  expect(profits('section179')).toEqual([0, 1800, 3000, 3000, 3000, 3000, 3000])
  // Sheep and goats: five years, 200 % declining balance, half a year: 20, 32, 19.2, 11.52, 11.52, 5.76 %.
  const shares = [0.2, 0.32, 0.192, 0.1152, 0.1152, 0.0576, 0]
  expect(profits('overYears')).toEqual(shares.map((share) => Math.round((3000 - 4200 * share) * 100) / 100))
  // Bought two years before the plan, the third year of the table is the plan's first.
  expect(profits('overYears', '2025-06').slice(0, 5)).toEqual(
    [...shares.slice(2), 0].slice(0, 5).map((share) => Math.round((3000 - 4200 * share) * 100) / 100),
  )
})
