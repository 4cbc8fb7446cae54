// What a market and a herd come to in a year, as their forms say it: worked by hand for a green and a flock of our own invention.
import { expect, test } from 'vitest'
import { herdSchema } from '#farm/herd/herd-document.ts'
import { herdTold, marketTold } from '#farm/told/thing-told.ts'

const figures = (told: readonly { label: string; value: number | null }[] | null) =>
  told?.map(({ value }) => (value === null ? null : Math.round(value * 100) / 100))

const green = {
  id: 'green',
  name: 'Village green',
  trips: [0, 0, 0, 0, 4, 4, 4, 4, 4, 4, 0, 0],
  salesPerTrip: 650,
  feePerTrip: 30,
  feePerMonth: [0, 0, 0, 0, 12, 12, 12, 12, 12, 12, 0, 0],
  milesPerTrip: 44,
  costPerMile: 0.67,
  hoursPerTrip: 10,
}

test('a market says what all its trips sell at most, cost and leave by the hour', () => {
  // 24 trips: 15,600; 24 × (30 + 44 × 0.67) + 6 × 12 = 1,499.52; 240 hours; 14,100.48 / 240.
  expect(figures(marketTold(green))).toEqual([24, 15600, 1499.52, 240, 58.75])
  // Without a limit nothing is told of what it sells; growth, a later start and a seat change none of it.
  expect(figures(marketTold({ ...green, salesPerTrip: undefined }))).toEqual([24, null, 1499.52, 240, null])
  const later = {
    ...green,
    start: '2031-04',
    growth: { perYear: 0.5, from: '2020-01' },
    seat: { from: '2030-01', chance: 0.5 },
  }
  expect(marketTold(later)).toEqual(marketTold(green))
  expect(figures(marketTold({ ...green, trips: 0 }))).toEqual([0, 0, 0, 0, null])
  expect(marketTold({ ...green, trips: -3 })).toBeNull()
})

test('a herd says what one breeding female of the grown herd brings, costs and leaves', () => {
  const flock = {
    id: 'ewes',
    kind: 'sheep',
    name: 'Ewes',
    start: '2026-01',
    breedingFemales: 10,
    carryingLimit: 10,
    rates: {
      conception: 1,
      birthsPerFemale: 2,
      birthMonths: [4],
      adultLossPerYear: 0,
      youngLossToWeaning: 0,
      youngLossToSale: 0,
      cullPerYear: 0.2,
      cullMonth: 9,
      keepOfFemaleYoung: 1,
      breedingAgeMonths: 12,
      femalesPerMale: 0,
    },
    prices: { youngSold: 200 },
    productPerFemale: 0,
    hoursPerFemale: 1.5,
    hoursFixed: 5,
  }
  const told = herdTold(flock)!
  // Two lambs a ewe; a fifth of the ewes is culled and as many ewe lambs kept: 1.8 are sold at 200. From September to April the flock is
  // a fifth smaller, and the kept are fed as ewes: hours a little off 12 × 1.5 + 60 / 10.
  const [ready, brings, costs, leaves, anHour] = told.map(({ value }) => value!)
  const hours = leaves! / anHour!
  expect(ready).toBeCloseTo(1.8, 1)
  expect(brings).toBeCloseTo(ready! * 200, 6)
  expect(costs).toBeCloseTo(0, 9)
  expect(leaves).toBeCloseTo(brings! - costs!, 9)
  expect(hours).toBeGreaterThan(22)
  expect(hours).toBeLessThan(26)
  expect(told[0]!.label).toBe('Lambs to sell, of a ewe in a year')
  expect(told[1]!.label).toBe('She brings')
  const meat = { hangingWeight: 40, wholeShare: 1, wholePrice: 8, processingPerHead: 50 }
  expect(herdTold({ ...flock, meat })![1]).toMatchObject({ label: 'She brings, less kill and cutting' })
  expect(herdTold({ ...flock, kind: undefined })).toBeNull()
  // Nobody is born and nobody bought: the flock dies out.
  expect(herdTold({ ...flock, rates: { conception: 0, cullPerYear: 0.6 } })).toBeNull()
})

test('a flock bought again every other year is half of it each year, as its field says to enter it', () => {
  const hens = {
    id: 'hens',
    kind: 'layers',
    name: 'Hens',
    start: '2026-01',
    breedingFemales: 120,
    carryingLimit: 120,
    buysReplacements: true,
    rates: { cullPerYear: 0.5, adultLossPerYear: 0 },
    prices: { breedingFemale: 14 },
  }
  // 120 pullets at 14 in two years are 1,680: 840 a year, 7 a hen and year.
  const costs = herdTold(hens)!.find(({ label }) => label.startsWith('Costs'))!
  expect(costs.value).toBeCloseTo(7, 9)
  expect(herdSchema.shape.buysReplacements.meta()!['description']).toContain('culls 50 percent')
})
