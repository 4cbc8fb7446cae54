import { expect, test } from 'vitest'
import { month } from '#calendar/month.ts'
import { farmCourse } from '#farm/course.ts'
import { type FarmInput, farmSchema } from '#farm/farm-document.ts'
import { whereSold } from '#farm/selling/where-sold.ts'

const readFarm = (input: FarmInput) => farmSchema.parse(input)
const january = month(2027, 1)

test('a farm of one line per enterprise is valid, and spreads its year over the months', () => {
  const farm = readFarm({
    enterprises: [
      { id: 'garden', name: 'Garden', salesPerUnit: 12_000, costsPerUnit: 2_400, hoursPerUnit: 600 },
    ],
  })
  const course = farmCourse(farm, january, 24)
  expect(course.sales[5]).toBeCloseTo(1000, 9)
  expect(course.directCosts[23]).toBeCloseTo(200, 9)
  expect(course.hoursNeeded[0]).toBeCloseTo(50, 9)
  expect(course.ceiling[0]).toBe(Number.POSITIVE_INFINITY)
})

test('an empty farm has a course of nothing', () => {
  const course = farmCourse(readFarm({}), january, 12)
  expect(course.rows).toEqual([])
  expect(course.overheads.every((dollars) => dollars === 0)).toBe(true)
})

test('start-up months bear costs and hours before the first sale, and the build-up rises by year', () => {
  const farm = readFarm({
    enterprises: [
      {
        id: 'berries',
        name: 'Berries',
        start: '2027-03',
        startUpMonths: 10,
        buildUp: [0.5],
        salesPerUnit: 1200,
        costsPerUnit: 120,
      },
    ],
  })
  const course = farmCourse(farm, january, 48)
  expect([course.directCosts[1], course.directCosts[2]]).toEqual([0, 10])
  expect([course.sales[11], course.sales[12], course.sales[23], course.sales[24]]).toEqual([0, 50, 50, 100])
})

test('what the markets cannot take is not sold, and what one cannot take goes to another that can', () => {
  const farm = readFarm({
    enterprises: [
      { id: 'greens', name: 'Greens', salesPerUnit: 12_000, markets: ['saturday', 'stand'] },
      { id: 'flowers', name: 'Flowers', salesPerUnit: 9_600, markets: ['saturday'] },
    ],
    markets: [
      { id: 'saturday', name: 'Saturday', trips: 4, salesPerTrip: 300 },
      { id: 'stand', name: 'Stand', trips: 1, salesPerTrip: 500 },
    ],
  })
  const course = farmCourse(farm, january, 1)
  expect(course.sales[0]! + course.sales[1]!).toBeCloseTo(1700, 9)
  expect(course.sales[1]).toBeCloseTo(700, 9)
  expect(course.marketSales[0]).toBeCloseTo(1200, 9)
})

test('customers of a market that is lost follow to the ones that stay, as far as the plan says', () => {
  const farm = readFarm({
    enterprises: [{ id: 'greens', name: 'Greens', salesPerUnit: 24_000, markets: ['saturday', 'wednesday'] }],
    markets: [
      { id: 'saturday', name: 'Saturday', trips: 4, salesPerTrip: 300 },
      { id: 'wednesday', name: 'Wednesday', trips: 4, salesPerTrip: 200, followShare: 0.25, feePerTrip: 10 },
    ],
  })
  const before = farmCourse(farm, january, 12)
  const after = farmCourse(farm, january, 12, {
    market: 'wednesday',
    from: month(2027, 7),
    to: month(2027, 10),
  })
  expect(before.sales[6]).toBeCloseTo(2000, 9)
  expect(after.sales[5]).toBeCloseTo(2000, 9)
  expect(after.sales[6]).toBeCloseTo(1200 + 0.25 * 800, 9)
  expect(after.sales[9]).toBeCloseTo(1400, 9)
  expect(after.sales[10]).toBeCloseTo(2000, 9)
  expect(before.marketCosts[6]! - after.marketCosts[6]!).toBeCloseTo(40, 9)
})

test('a phase sets scales, trips, hour caps, lease and sales of equipment from its month', () => {
  const farm = readFarm({
    enterprises: [
      { id: 'greens', name: 'Greens', salesPerUnit: 1200, hoursPerUnit: 120, markets: ['saturday'] },
    ],
    markets: [{ id: 'saturday', name: 'Saturday', trips: 4, salesPerTrip: 300, hoursPerTrip: 8 }],
    crew: [{ who: 'a', weeklyHours: 50 }],
    phases: [
      {
        from: '2027-07',
        weeklyHours: [{ who: 'a', hours: 20 }],
        scales: [{ enterprise: 'greens', value: 0.5 }],
        trips: [{ market: 'saturday', value: 2 }],
        landLeasedOut: 3,
        leasePerAcreAndYear: 400,
        sales: [{ name: 'tiller', price: 900, basis: 100 }],
      },
    ],
  })
  const course = farmCourse(farm, january, 12)
  expect([course.sales[5], course.sales[6]]).toEqual([100, 50])
  expect([course.marketTrips[5], course.marketTrips[6]]).toEqual([4, 2])
  expect(course.hoursAvailable[6]! / course.hoursAvailable[5]!).toBeCloseTo(0.4, 9)
  expect([course.leaseIncome[5], course.leaseIncome[6]]).toEqual([0, 100])
  expect([course.phaseSales[6], course.phaseSalesBasis[6], course.phaseSales[7]]).toEqual([900, 100, 0])
})

test('loan payments end with nothing owed, and interest falls from month to month', () => {
  const farm = readFarm({
    loans: [
      {
        id: 'tractor',
        name: 'Tractor',
        principal: 10_000,
        yearlyRate: 0.06,
        months: 24,
        start: '2027-01',
        drawn: true,
      },
    ],
  })
  const course = farmCourse(farm, january, 36)
  expect(course.loanDrawn[0]).toBe(10_000)
  expect(course.loanBalance[24]).toBe(0)
  expect(course.loanPayments[25]).toBe(0)
  const paid = course.loanPayments.reduce((a, b) => a + b, 0)
  const interest = course.loanInterest.reduce((a, b) => a + b, 0)
  expect(paid - interest).toBeCloseTo(10_000, 6)
  expect(course.loanInterest[2]!).toBeLessThan(course.loanInterest[1]!)
})

const twoMarkets = (
  more: Partial<FarmInput['markets'] extends (infer One)[] | undefined ? One : never> = {},
) =>
  readFarm({
    enterprises: [{ id: 'herbs', name: 'Herbs', salesPerUnit: 36_000, markets: ['tuesday', 'friday'] }],
    markets: [
      {
        id: 'tuesday',
        name: 'Tuesday',
        trips: 2,
        salesPerTrip: 400,
        followShare: 0.5,
        hoursPerTrip: 6,
        ...more,
      },
      { id: 'friday', name: 'Friday', trips: 4, salesPerTrip: 250, followShare: 0.2 },
    ],
  })

test('customers follow both ways: each market’s own share, and no more than the other takes in its trips', () => {
  const shut = (market: string) =>
    farmCourse(twoMarkets(), january, 12, { market, from: january, to: month(2027, 12) }).sales[0]
  // 800 and 1,000 a month. Tuesday gone: 1,000 + half of 800. Friday gone: 800 + a fifth of 1,000.
  expect(farmCourse(twoMarkets(), january, 12).sales[0]).toBeCloseTo(1800, 9)
  expect(shut('tuesday')).toBeCloseTo(1400, 9)
  expect(shut('friday')).toBeCloseTo(1000, 9)
  // Both gone: nobody is left to follow to.
  const none = twoMarkets({ trips: 0 })
  expect(farmCourse(none, january, 12, { market: 'friday', from: january, to: january }).sales[0]).toBe(0)
})

test('regular customers grow what a trip sells, month by month, for so many years', () => {
  const course = farmCourse(twoMarkets({ growth: { perYear: 0.21, from: '2027-07', years: 2 } }), january, 60)
  const at = (year: number, m: number) => course.marketSales[(year - 2027) * 12 + m - 1]!
  expect(at(2027, 7)).toBeCloseTo(800, 9)
  // Half a year: the root of 1.21 is 1.1.
  expect(at(2028, 1)).toBeCloseTo(880, 9)
  expect(at(2028, 7)).toBeCloseTo(968, 9)
  expect(at(2029, 7)).toBeCloseTo(800 * 1.21 ** 2, 9)
  expect(at(2031, 12)).toBeCloseTo(800 * 1.21 ** 2, 9)
  // Customers may also become fewer.
  const fewer = farmCourse(twoMarkets({ growth: { perYear: -0.19, from: '2027-01', years: 1 } }), january, 12)
  expect(fewer.marketSales[6]).toBeCloseTo(720, 9)
})

test('a seat on a waiting list counts by its chance from its month on, and takes no customers for dropped before', () => {
  const course = (chance: number) =>
    farmCourse(twoMarkets({ feePerMonth: 50, seat: { from: '2027-04', chance } }), january, 12)
  const half = course(0.5)
  expect([half.sales[2], half.sales[3]]).toEqual([1000, 1400])
  expect([half.marketTrips[2], half.marketTrips[3], half.marketHours[3]]).toEqual([0, 1, 6])
  expect([half.marketCosts[2], half.marketCosts[3]]).toEqual([0, 25])
  expect(course(1).sales[3]).toBeCloseTo(1800, 9)
  expect([course(0).sales[3], course(0).marketCosts[3]]).toEqual([1000, 0])
})

test('what is grown is sold at a market, without one, at auction, or lost: nothing else becomes of it', () => {
  const farm = readFarm({
    enterprises: [
      { id: 'herbs', name: 'Herbs', salesPerUnit: 24_000, markets: ['tuesday', 'friday'] },
      { id: 'plants', name: 'Plants', salesPerUnit: 12_000, markets: ['friday'] },
      { id: 'lease', name: 'Pasture board', salesPerUnit: 1_200 },
    ],
    markets: [
      { id: 'tuesday', name: 'Tuesday', trips: 2, salesPerTrip: 400 },
      { id: 'friday', name: 'Friday', trips: 4, salesPerTrip: 250 },
    ],
  })
  const course = farmCourse(farm, january, 12)
  const sold = whereSold(farm, course, 0)
  // A month: 2,000 and 1,000 offered, room 800 and 1,000. Herbs fill Tuesday; both want Friday, and 1,200 are lost.
  expect(
    sold.map((one) => Math.round(one.atMarkets.reduce((a, b) => a + b, 0)) + Math.round(one.lost)),
  ).toEqual([24_000, 12_000, 0])
  expect(sold[0]!.lost + sold[1]!.lost).toBeCloseTo(12 * 1200, 6)
  expect(sold[2]).toMatchObject({ withoutMarket: 1200, lost: 0 })
  const offered = course.offered.reduce((a, b) => a + b, 0)
  expect(
    sold.reduce(
      (sum, one) =>
        sum + one.withoutMarket + one.atAuction + one.lost + one.atMarkets.reduce((a, b) => a + b, 0),
      0,
    ),
  ).toBeCloseTo(offered, 6)
})

/** 1,600 of a month's herbs for 1,200 of room at the square, where they are sold first, and 800 at the ferry. */
const shortOfGoods = (square: object = {}, ferry: object = {}, more: Partial<FarmInput> = {}) =>
  readFarm({
    enterprises: [
      { id: 'herbs', name: 'Herbs', salesPerUnit: Array(12).fill(1_600), markets: ['square', 'ferry'] },
    ],
    markets: [
      { id: 'square', name: 'Square', trips: 4, salesPerTrip: 300, followShare: 0.25, ...square },
      { id: 'ferry', name: 'Ferry', trips: 4, salesPerTrip: 200, followShare: 0.25, ...ferry },
    ],
    ...more,
  })

test('customers who follow are a share of what was sold there, not of what the market could take', () => {
  const soldWithout = (market: string, farm = shortOfGoods()) =>
    farmCourse(farm, january, 12, { market, from: january, to: month(2027, 12) }).sales[0]
  // Sold: 1,200 and 400. Without the ferry 1,200 + a quarter of 400; without the square 800 + a quarter of 1,200.
  expect(farmCourse(shortOfGoods(), january, 12).sales[0]).toBeCloseTo(1600, 9)
  expect(soldWithout('ferry')).toBeCloseTo(1300, 9)
  expect(soldWithout('square')).toBeCloseTo(1100, 9)
  // A market that sold nothing has nobody who follows: 1,200 of goods all go to the square.
  const few = shortOfGoods(
    {},
    {},
    {
      enterprises: [
        { id: 'herbs', name: 'Herbs', salesPerUnit: Array(12).fill(1_200), markets: ['square', 'ferry'] },
        { id: 'jam', name: 'Jam', salesPerUnit: Array(12).fill(900), markets: ['square'] },
      ],
    },
  )
  expect(farmCourse(few, january, 12).sales[0]! + farmCourse(few, january, 12).sales[12]!).toBeCloseTo(
    2000,
    9,
  )
})

test('of trips dropped in part that part of what was sold follows, and smaller years change no customers of before', () => {
  const half = shortOfGoods({}, { tripsSteps: [{ from: '2027-01', value: 2 }] })
  // Half of 400 was bought on the trips that end: a quarter of it at the square. The ferry still takes 400.
  const course = farmCourse(half, january, 12)
  expect(course.marketCapacity[0]).toBeCloseTo(1250, 9)
  expect(course.marketCapacity[12]).toBeCloseTo(400, 9)
  // Half of the herbs without the square: 800 of goods; those who bought 1,200 there before are 300 of the ferry's room.
  const slower = shortOfGoods(
    {},
    {},
    {
      phases: [
        {
          from: '2027-01',
          scales: [{ enterprise: 'herbs', value: 0.5 }],
          trips: [{ market: 'square', value: 0 }],
        },
      ],
    },
  )
  expect(farmCourse(slower, january, 12).marketCapacity[12]).toBeCloseTo(1100, 9)
  // A market given up for good by its end date is dropped too.
  expect(farmCourse(shortOfGoods({ end: '2026-12' }), january, 12).sales[0]).toBeCloseTo(1100, 9)
})
