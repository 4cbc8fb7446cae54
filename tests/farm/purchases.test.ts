import fc from 'fast-check'
import { expect, test } from 'vitest'
import { month } from '#calendar/month.ts'
import { enterpriseBudgets } from '#farm/budgets.ts'
import { farmCourse } from '#farm/course.ts'
import { farmSchema } from '#farm/farm-document.ts'
import { inStepCheck } from '#farm/in-step.ts'
import { linePayback, purchasePayback } from '#farm/payback.ts'
import { purchaseDepreciation } from '#farm/purchase-depreciation.ts'
import { assetClasses, purchaseSchema } from '#farm/purchase-document.ts'

const january = month(2027, 1)
const wait = (id: string, cost: number, from = '2027-01', more = {}) =>
  purchaseSchema.parse({ id, name: id, cost, timing: 'when cash allows', month: from, ...more })

// It works from the month after: 24 months of 100 are full in the 25th, two years after the month of its purchase.
test('a purchase that brings 1,200 a year returns 2,400 in two years', () => {
  const back = purchasePayback(
    wait('x', 2400, '2027-01', { addsCash: 1200, usefulYears: 10 }),
    january,
    20,
    0.04,
  )
  expect(back.monthsToPayBack).toBe(24)
})

test('payback counts stock, fence and feed until the money is back for good', () => {
  const farm = farmSchema.parse({
    herds: [
      {
        id: 'h',
        name: 'Ewes',
        kind: 'sheep',
        start: '2027-05',
        breedingFemales: 10,
        carryingLimit: 20,
        prices: { breedingFemale: 300, youngSold: 220 },
        costPerFemale: 7,
      },
    ],
    purchases: [
      { id: 'f', name: 'Fence', cost: 4000, month: '2027-04', for: 'h', assetClass: 'fence-or-grain-bin' },
    ],
  })
  const back = linePayback(farm, 'h', 20)!
  expect(back.firstMonth).toBe(month(2027, 4))
  expect(back.flows[0]).toBe(-4000)
  const after = back.running.subarray(back.monthsToPayBack!)
  expect(Math.min(...after)).toBeGreaterThanOrEqual(-0.005)
  expect(back.running[back.monthsToPayBack! - 1]!).toBeLessThan(0)
})

// A hen lays for 60 a year, 5 a month, and eats 3 a month: 2 a hen and month from the first month on, before any hen was paid for.
test('hens that were there and cost nothing in the plan took nothing that could come back', () => {
  const flock = (breedingFemale: number) =>
    farmSchema.parse({
      herds: [
        {
          id: 'h',
          name: 'Hens',
          kind: 'layers',
          start: '2027-01',
          breedingFemales: 40,
          carryingLimit: 40,
          ownedAlready: true,
          prices: { breedingFemale },
          productPerFemale: 60,
          costPerFemale: 3,
        },
      ],
    })
  const back = linePayback(flock(0), 'h', 10)!
  expect(back.running[0]!).toBeGreaterThan(70)
  expect(back).toMatchObject({ isPutIn: false, deepest: 0, paidBack: null, yearlyReturn: null })
  // Forty hens at 20 are tied up before the first egg is sold; 80 a month at most, fewer in winter, brings them back in the second half of the year.
  const valued = linePayback(flock(20), 'h', 10)!
  expect(valued).toMatchObject({ isPutIn: true, deepest: -800, deepestMonth: month(2027, 1) })
  expect(valued.monthsToPayBack).toBeGreaterThanOrEqual(9)
  expect(valued.monthsToPayBack).toBeLessThanOrEqual(12)
})

test('a flock that begins beyond the years looked at has had the money of its purchases put in, and no more', () => {
  const late = farmSchema.parse({
    herds: [
      { id: 'h', name: 'Hens', kind: 'layers', start: '2040-01', breedingFemales: 40, carryingLimit: 40 },
    ],
    purchases: [{ id: 'shed', name: 'Shed', cost: 900, timing: 'dated', month: '2027-01', for: 'h' }],
  })
  expect(linePayback(late, 'h', 10)).toMatchObject({ moneyIn: 900, deepest: -900, paidBack: null })
})

// Of June's 200 hours 43.5 are there: 21.7 percent of 8,000 a month are grown, 1,739, and the market takes 1,200.
test('the in-step check says which season has too few hours, and what finds no market', () => {
  const farm = farmSchema.parse({
    crew: [{ who: 'a', weeklyHours: 10 }],
    enterprises: [
      {
        id: 'g',
        name: 'Garden',
        salesPerUnit: 96_000,
        hoursPerUnit: [0, 0, 0, 0, 0, 200, 0, 0, 0, 0, 0, 0],
        markets: ['m'],
      },
    ],
    markets: [{ id: 'm', name: 'Market', trips: 4, salesPerTrip: 300 }],
  })
  const checks = inStepCheck(farm, 2027)
  const hours = checks.find((one) => one.measure === 'hours')!
  expect(hours.isOut).toBe(true)
  expect(hours.seasons.filter((one) => one.over > 0).map((one) => one.season)).toEqual(['summer'])
  expect(checks.find((one) => one.measure === 'unsold')!.isOut).toBe(true)
})

test('budgets share markets and overheads out whole', () => {
  const farm = farmSchema.parse({
    enterprises: [
      { id: 'a', name: 'A', salesPerUnit: 6000, markets: ['m'], hoursPerUnit: 100 },
      { id: 'b', name: 'B', salesPerUnit: 3000, markets: ['m'], hoursPerUnit: 50 },
      { id: 'c', name: 'C', salesPerUnit: 1000 },
    ],
    markets: [{ id: 'm', name: 'Market', trips: 4, salesPerTrip: 1000, feePerTrip: 30, hoursPerTrip: 6 }],
    overheads: [{ id: 'o', name: 'O', costs: 2000, hours: 200 }],
  })
  const budgets = enterpriseBudgets(farm, farmCourse(farm, january, 12), 0, 20)
  const sum = (value: (one: (typeof budgets)[number]) => number) =>
    budgets.reduce((total, one) => total + value(one), 0)
  expect(sum((one) => one.marketCosts)).toBeCloseTo(48 * 30, 6)
  expect(sum((one) => one.marketHours)).toBeCloseTo(48 * 6, 6)
  expect(sum((one) => one.overheads)).toBeCloseTo(2000, 6)
  expect(sum((one) => one.overheadHours)).toBeCloseTo(200, 6)
})

test('a farm entered as one lump beside a herd: without overheads nobody works an hour on them, not even a trace of one', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0.1, max: 900, noNaN: true }),
      fc.double({ min: 0.1, max: 900, noNaN: true }),
      (cropHours, careHours) => {
        const farm = farmSchema.parse({
          enterprises: [
            { id: 'lump', name: 'The farm as it is', salesPerUnit: 61_000, costsPerUnit: 19_000 },
            { id: 'beds', name: 'Beds', salesPerUnit: 4000, units: 3, hoursPerUnit: cropHours },
          ],
          herds: [
            {
              id: 'ewes',
              name: 'Ewes',
              kind: 'sheep',
              start: '2027-01',
              breedingFemales: 11,
              carryingLimit: 20,
              hoursPerFemale: careHours,
            },
          ],
          crew: [{ who: 'ada', weeklyHours: 31 }],
        })
        const [lump] = enterpriseBudgets(farm, farmCourse(farm, january, 12), 0, 20)
        expect(lump).toMatchObject({ overheadHours: 0, returnPerHour: null })
      },
    ),
  )
})

test('what sells for nothing has no yield that would cover its costs', () => {
  const farm = farmSchema.parse({
    enterprises: [
      { id: 'hay', name: 'Hay', salesPerUnit: 0, costsPerUnit: 300, yieldPerUnit: 80, yieldMeasure: 'bale' },
    ],
  })
  const [hay] = enterpriseBudgets(farm, farmCourse(farm, january, 12), 0, 20)
  expect(hay!.breakEvens[0]).toMatchObject({ priceNow: 0, price: 3.75, yieldNeeded: null })
})

test('a purchase of any class and year has its deductions, none when it was written off before the tables begin', () => {
  const bought = (assetClass: string, month: string) =>
    purchaseDepreciation(
      farmSchema.parse({
        purchases: [{ id: 'it', name: 'It', cost: 9000, month, timing: 'dated', assetClass }],
      }),
      [],
      2027,
    )
  for (const assetClass of assetClasses)
    for (let year = 1900; year < 2150; year += 1) {
      const { rows, years } = bought(assetClass, `${year}-03`)
      const nothing = year < 1989 || assetClass === 'land' || assetClass === 'supplies'
      expect(rows.length).toBe(nothing ? 0 : 1)
      for (const row of rows) expect(row.deductions.length).toBe(years.length)
    }
})

test('bought breeding stock stands among what is written off, by the choice of its herd; hens do not', () => {
  const rows = (kind: string, stockWriteOff: string) =>
    purchaseDepreciation(
      farmSchema.parse({
        herds: [
          {
            id: 'flock',
            name: 'Flock',
            kind,
            start: '2027-03',
            breedingFemales: 10,
            carryingLimit: 10,
            stockWriteOff,
            rates: { femalesPerMale: 0 },
            prices: { breedingFemale: 300 },
          },
        ],
      }),
      [],
      2027,
    ).rows.map(({ cost, section179, deductions }) => [cost, section179, ...deductions.slice(0, 2)])
  // Five-year property, 200 % declining balance, half a year: 20 and 32 % (26 USC 168(b), (e)(3)(B)).
  expect(rows('sheep', 'overYears')).toEqual([[3000, 0, 600, 960]])
  expect(rows('sheep', 'bonus')).toEqual([[3000, 0, 3000, 0]])
  expect(rows('sheep', 'section179')).toEqual([[3000, 3000, 3000, 0]])
  expect(rows('layers', 'overYears')).toEqual([])
})
