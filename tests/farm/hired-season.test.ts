// Help for the season, what hired hours leave of an hour of the couple's own, and what waiting for a cooler can cost at most: by hand.
import { expect, test } from 'vitest'
import { month } from '#calendar/month.ts'
import { enterpriseBudgets } from '#farm/budgets.ts'
import { farmCourse } from '#farm/course.ts'
import { farmSchema } from '#farm/farm-document.ts'
import { yearOfCourse } from '#farm/farm-year.ts'
import { costOfHour } from '#farm/hired-help.ts'
import { inStepCheck } from '#farm/in-step.ts'
import { queuePurchases } from '#farm/purchases.ts'

const noMonths = new Array<number>(12).fill(0)
const season = noMonths.map((_, k) => (k >= 5 && k <= 8 ? 24 : 0))
// 26 USC 3111: 7.65 percent of wages; with 6 percent of compensation an hour at 17.50 costs 17.50 × 1.1365 = 19.88875.
const anHour = 19.88875

const farm = (hired: object, more: object = {}) =>
  farmSchema.parse({
    crew: [{ who: 'ann', weeklyHours: 60 }],
    hired: { wage: 17.5, compensationRate: 0.06, ...hired },
    enterprises: [
      {
        id: 'berries',
        name: 'Berries',
        salesPerUnit: 12_000,
        costsPerUnit: 2_000,
        hoursPerUnit: 360,
        ...more,
      },
      { id: 'flowers', name: 'Flowers', salesPerUnit: 8_000, costsPerUnit: 1_000, hoursPerUnit: 240 },
    ],
  })

const budgetsOf = (one: ReturnType<typeof farm>) => {
  const course = farmCourse(one, month(2027, 1), 12)
  return { year: yearOfCourse(course, 2027), lines: enterpriseBudgets(one, course, 0, costOfHour(one.hired)) }
}

test('help for the season is paid whether or not it is needed, unless it is paid only when needed', () => {
  // 24 hours a week over June to September, a mean month having 365.25 / 12 / 7 weeks: 417.43 hours.
  const paid = ((24 * 365.25) / 12 / 7) * 4 * anHour
  expect(paid).toBeCloseTo(8302.1, 1)
  expect(budgetsOf(farm({ weeklyHours: season })).year.hiredCosts).toBeCloseTo(paid, 6)
  expect(budgetsOf(farm({ weeklyHours: season, paid: 'only when needed' })).year.hiredCosts).toBe(0)
})

test('hired hours are paid out of what is left, and the rest is by the hour of the couple’s own work', () => {
  const { year, lines } = budgetsOf(farm({}, { hoursBy: { hired: 1 } }))
  const [berries, flowers] = lines
  // All of its 360 hours are hired: 12,000 − 2,000 − 360 × 19.88875, and no hour of the couple's own.
  expect(berries).toMatchObject({ ownHours: 0, returnPerHour: null })
  expect(berries!.returnToLabor).toBeCloseTo(10_000 - 360 * anHour, 6)
  expect(flowers).toMatchObject({ hiredCosts: 0, ownHours: 240 })
  expect(flowers!.returnToLabor).toBeCloseTo(7_000, 6)
  expect(flowers!.returnPerHour).toBeCloseTo(7_000 / 240, 9)
  expect(lines.reduce((sum, line) => sum + line.returnToLabor, 0)).toBeCloseTo(year.net, 6)
  expect(year.hours - year.hiredHours).toBeCloseTo(240, 6)
})

test('help that is paid without being needed is borne by all lines, by their hours', () => {
  const { year, lines } = budgetsOf(farm({ weeklyHours: season }))
  expect(lines[0]!.hiredCosts).toBeCloseTo(year.hiredCosts * 0.6, 6)
  expect(lines.map(({ ownHours }) => ownHours)).toEqual([360, 240])
  expect(lines.reduce((sum, line) => sum + line.returnToLabor, 0)).toBeCloseTo(year.net, 6)
})

test('work given to hired help in months without its hours does not fit', () => {
  const spring = noMonths.map((_, k) => (k === 3 || k === 4 ? 24 : k === 5 ? 100 : 0))
  const checks = (one: ReturnType<typeof farm>) =>
    inStepCheck(one, 2027).filter(({ name }) => name.startsWith('Work given to hired help'))
  expect(
    checks(farm({ weeklyHours: season }, { hoursPerUnit: spring, hoursBy: { hired: 1 } })),
  ).toMatchObject([{ isOut: true, says: expect.stringContaining('short by 48 hours in spring') }])
  expect(checks(farm({ weeklyHours: season }, { hoursPerUnit: spring }))).toEqual([])
})

test('break-even with all hours paid has the fees, miles and hours of its markets in it', () => {
  const one = farmSchema.parse({
    hired: { hourlyCost: 20 },
    enterprises: [
      {
        id: 'birds',
        name: 'Birds',
        scale: 450,
        salesPerUnit: 26,
        costsPerUnit: 15.4,
        hoursPerUnit: 0.35,
        yieldPerUnit: 4.5,
        yieldMeasure: 'lb',
        markets: ['sat'],
      },
    ],
    markets: [
      {
        id: 'sat',
        name: 'Saturday',
        trips: 4,
        salesPerTrip: 100_000,
        feePerTrip: 25,
        hoursPerTrip: 6,
      },
    ],
  })
  const [birds] = budgetsOf(one).lines
  // (450 × 15.40 + 48 × 25 + (450 × 0.35 + 48 × 6) × 20) / (450 × 4.5 lb); its own hours alone: (15.40 + 0.35 × 20) / 4.5.
  expect(birds!.breakEvens[0]!.priceWithAll).toBeCloseTo((6_930 + 1_200 + (157.5 + 288) * 20) / 2_025, 9)
  expect(birds!.breakEvens[0]!.priceWithWage).toBeCloseTo(22.4 / 4.5, 9)
})

test('waiting costs no more than the thing would give in all its years', () => {
  const one = farmSchema.parse({
    purchases: [
      {
        id: 'cooler',
        name: 'Walk-in cooler',
        cost: 6_200,
        timing: 'when cash allows',
        month: '2027-01',
        addsCash: 900,
        savesHours: 60,
        usefulYears: 12,
      },
    ],
  })
  const months = 40 * 12
  const { queue } = queuePurchases(one.purchases, {
    firstMonth: month(2027, 1),
    opening: 0,
    reserve: 0,
    netCash: new Float64Array(months),
    draws: new Float64Array(months),
    level: new Float64Array(months).fill(1),
    hourCost: anHour,
    bought: new Map(),
  })
  expect(queue[0]!.waitingCosts).toBeCloseTo(12 * (900 + 60 * anHour), 6)
})
