import { expect, test } from 'vitest'
import { month } from '#calendar/month.ts'
import { farmCourse } from '#farm/course.ts'
import { type FarmInput, farmSchema } from '#farm/farm-document.ts'

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
