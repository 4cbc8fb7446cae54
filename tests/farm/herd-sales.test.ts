// When a herd's young are sold: months of sale, losses on the way, and what waits where no market takes it. Worked by hand from one
// flock: ten ewes of our own that each raise two lambs in April, with nothing lost or culled, ready at six months: 20 in October.
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { month } from '#calendar/month.ts'
import { farmCourse } from '#farm/course.ts'
import { type FarmInput, farmSchema } from '#farm/farm-document.ts'
import { linePayback } from '#farm/payback.ts'

const january = month(2027, 1)
const oct = 9

const flock = {
  id: 'ewes',
  name: 'Ewes',
  kind: 'sheep',
  start: '2027-01',
  breedingFemales: 10,
  carryingLimit: 10,
  ownedAlready: true,
  rates: {
    conception: 1,
    birthsPerFemale: 2,
    birthMonths: [4],
    adultLossPerYear: 0,
    youngLossToWeaning: 0,
    weaningAgeMonths: 3,
    saleAgeMonths: 6,
    cullPerYear: 0,
    keepOfFemaleYoung: 0,
    femalesPerMale: 0,
  },
  prices: { youngSold: 200, breedingFemale: 300 },
  costPerYoung: 3,
}
const fair = { id: 'fair', name: 'Fair', trips: 1, salesPerTrip: 1000 }

const courseOf = (herd: object, market: object | null, months = 16) => {
  const input = {
    herds: [{ ...flock, ...herd, ...(market ? { markets: ['fair'] } : {}) }],
    markets: market ? [{ ...fair, ...market }] : [],
  }
  return farmCourse(farmSchema.parse(input as FarmInput), january, months)
}
const near = (found: Float64Array, from: number, expected: readonly number[]) =>
  expected.forEach((value, k) => {
    expect(found[from + k]!, `month ${from + k}`).toBeCloseTo(value, 6)
  })

test('what a market cannot take in the month waits at its cost and is sold as the market can', () => {
  // 1,000 a month is five lambs: October to January. Fifteen, ten, five stand there as the months end.
  const course = courseOf({}, {})
  near(course.sales, oct, [1000, 1000, 1000, 1000, 0])
  near(course.waiting, oct, [15, 10, 5, 0])
  // April to September 20 lambs at 3; then only those that wait.
  near(course.directCosts, 8, [60, 45, 30, 15, 0])
  expect(course.sales.reduce((a, b) => a + b, 0)).toBeCloseTo(4000, 6)
})

test('a course that begins in winter knows what waits from fall', () => {
  const farm = farmSchema.parse({
    herds: [{ ...flock, markets: ['fair'] }],
    markets: [fair],
  } as FarmInput)
  const course = farmCourse(farm, month(2027, 12), 3)
  near(course.sales, 0, [1000, 1000, 0])
  near(course.waiting, 0, [5, 0, 0])
})

test('a market that is shut for a fall sells what waited for it when it opens again', () => {
  const farm = farmSchema.parse({
    herds: [{ ...flock, waitMonths: 12, markets: ['fair'] }],
    markets: [{ ...fair, salesPerTrip: 4000 }],
  } as FarmInput)
  const shut = { market: 'fair', from: month(2027, 10), to: month(2027, 12) }
  const course = farmCourse(farm, january, 24, shut)
  near(course.sales, oct, [0, 0, 0, 4000, 0])
  near(course.directCosts, oct, [60, 60, 60, 0, 0])
  // The lambs of the next year are sold as ever.
  near(course.sales, 21, [4000])
})

test('what waited as long as it may goes to auction at its price', () => {
  // One lamb a month is sold; three months on sixteen of the October lambs are left, and bring 90 each.
  const course = courseOf(
    { waitMonths: 3, prices: { ...flock.prices, atAuction: 90 } },
    { salesPerTrip: 200 },
  )
  near(course.sales, oct, [200, 200, 200, 200 + 16 * 90, 0])
  near(course.atAuction, oct, [0, 0, 0, 16, 0])
})

test('with a market that is never held everything goes to auction, by default at half the price', () => {
  const course = courseOf({ waitMonths: 2 }, { trips: 0 })
  near(course.sales, oct, [0, 0, 20 * 100, 0])
})

test('young are sold over the months of sale, the same part in each', () => {
  const rates = { ...flock.rates, saleMonths: [10, 11, 12, 1] }
  const course = courseOf({ rates }, null)
  near(course.sales, 8, [0, 1000, 1000, 1000, 1000, 0])
  // Those that are still there cost what young cost.
  near(course.directCosts, 8, [60, 45, 30, 15, 0])
})

test('a month of sale before they are ready passes them by until the next year', () => {
  const course = courseOf({ rates: { ...flock.rates, saleMonths: [9] } }, null, 24)
  expect(course.sales.slice(0, 20).every((dollars) => dollars === 0)).toBe(true)
  near(course.sales, 20, [4000])
})

test('losses between weaning and sale are taken over those months', () => {
  // Eight in a hundred of those weaned (Iowa niche herds 2006, A.S. Leaflet R2362, read): 18.4 are sold.
  const course = courseOf({ rates: { ...flock.rates, youngLossToSale: 0.08 } }, null)
  expect(course.sales[oct]).toBeCloseTo(18.4 * 200, 6)
})

test('each young one is sold at a market, goes to auction or still waits, whatever the markets', () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: 0, max: 3 }), { minLength: 12, maxLength: 12 }),
      fc.integer({ min: 0, max: 3000 }),
      fc.integer({ min: 0, max: 14 }),
      fc.option(fc.uniqueArray(fc.integer({ min: 1, max: 12 }), { maxLength: 4 }), { nil: undefined }),
      (trips, salesPerTrip, waitMonths, saleMonths) => {
        const rates = { ...flock.rates, ...(saleMonths ? { saleMonths } : {}) }
        const course = courseOf({ waitMonths, rates }, { trips, salesPerTrip }, 60)
        const ready = course.herds[0]!.soldYoungHeads.reduce((a, b) => a + b, 0)
        const auctioned = course.atAuction.reduce((a, b) => a + b, 0)
        const sold = (course.sales.reduce((a, b) => a + b, 0) - auctioned * 100) / 200
        expect(sold + auctioned + course.waiting.at(-1)!).toBeCloseTo(ready, 6)
        expect(course.marketSales.reduce((a, b) => a + b, 0)).toBeCloseTo(sold * 200, 4)
        // What is offered in a month leaves in it: a poor season is a share of it.
        course.sales.forEach((dollars, m) => {
          expect(dollars).toBeCloseTo(course.offered[m]!, 6)
          expect(dollars).toBeLessThanOrEqual(course.ceiling[m]! + 1e-6)
        })
      },
    ),
    { seed: 20261129, numRuns: 200 },
  )
})

// Lambs of 50 pounds hanging: half of them whole at 8.00 a pound, 100 each to kill and cut: 300 a head. The others give 30 packaged
// pounds each at 10.00, over three months.
const meat = {
  hangingWeight: 50,
  packagedShare: 0.6,
  processingPerHead: 25,
  processingPerPound: 1.5,
  wholeShare: 0.5,
  wholePrice: 8,
  cutPrice: 10,
  cutsMonths: 3,
  freezerPerPound: 0.02,
}

test('meat sells by the whole at once and by the cut out of the freezer', () => {
  const course = courseOf({ meat }, null)
  near(course.sales, 8, [0, 10 * 300 + 1000, 1000, 1000, 0])
  near(course.freezer, oct, [200, 100, 0])
  // Ten are processed for cuts in October; the freezer costs 2 cents a pound.
  near(course.directCosts, oct, [1000 + 4, 2, 0])
})

test('what a market cannot take of the cuts stays in the freezer and is offered again', () => {
  const course = courseOf({ meat: { ...meat, wholeShare: 0 } }, { salesPerTrip: 1500 }, 16)
  // 600 pounds: 200 a month are offered, 150 are sold.
  near(course.sales, oct, [1500, 1500, 1500, 1500, 0])
  near(course.freezer, oct, [450, 300, 150, 0])
})

test('halves and quarters have prices of their own, and more than all of them is refused', () => {
  const parts = { wholeShare: 0.5, halfShare: 0.25, halfPrice: 9, quarterShare: 0.25, quarterPrice: 10 }
  // (0.5 × 8 + 0.25 × 9 + 0.25 × 10) × 50 − 100 = 337.50.
  const course = courseOf({ meat: { ...meat, ...parts } }, null)
  expect(course.sales[oct]).toBeCloseTo(20 * 337.5, 6)
  expect(() => courseOf({ meat: { ...meat, ...parts, quarterShare: 0.3 } }, null)).toThrow('more than all')
})

test('wool sells before the lambs that can wait', () => {
  const wool = [0, 0, 0, 0, 0, 0, 0, 0, 0, 30, 0, 0]
  // 300 of wool leave room for three and a half lambs in October.
  const course = courseOf({ productPerFemale: wool }, {})
  near(course.sales, oct, [1000, 1000, 1000, 1000, 300])
  near(course.waiting, oct, [16.5, 11.5, 6.5, 1.5, 0])
})

test('stock that was owned already counts at its value as the money that went in', () => {
  const farm = farmSchema.parse({ herds: [flock] } as FarmInput)
  const back = linePayback(farm, 'ewes', 10)!
  // Ten ewes at 300; 4,000 of lambs each October less 20 × 3 × 6 of feed: 3,000 + 360 before the first sale.
  expect(back.moneyIn).toBeCloseTo(3000 + 10 * 360, 6)
  expect(back.deepest).toBeCloseTo(-3360, 6)
  expect(back.monthsToPayBack).toBe(oct)
  expect(back.worthAtEnd).toBeCloseTo(3000, 6)
})
