// The farm's course as the projection counts it: with what its prices and costs grow beyond all prices. By hand, and held against the run.
import { expect, test } from 'vitest'
import { month } from '#calendar/month.ts'
import { farmCourse } from '#farm/course.ts'
import { yearOfCourse } from '#farm/farm-year.ts'
import { planSchema } from '#plan/plan.ts'
import { grownCourse, grownFarm } from '#runway/farm/grown-course.ts'
import { project } from '#runway/project.ts'

/** Sells 12,000 and costs 3,000 a year, 600 of fees and 1,200 of overheads beside; prices in general stand still. */
const plan = planSchema.parse({
  startMonth: '2027-01',
  years: 6,
  household: { living: [{ id: 'l', name: 'L', perMonth: 100 }] },
  farm: {
    enterprises: [
      {
        id: 'beds',
        name: 'Beds',
        salesPerUnit: 12_000,
        costsPerUnit: 3000,
        hoursPerUnit: 200,
        markets: ['town'],
      },
    ],
    markets: [{ id: 'town', name: 'Town', trips: 1, feePerTrip: 50, hoursPerTrip: 5 }],
    overheads: [{ id: 'o', name: 'O', costs: 1200 }],
  },
  tax: { method: 'none' },
  assumptions: { inflation: 0, farmPriceGrowth: 0.1, farmCostGrowth: 0.05 },
})

test('sales grow a tenth and costs a twentieth each January, as in the run', () => {
  const course = farmCourse(plan.farm, month(2027, 1), 72)
  const year = yearOfCourse(grownCourse(plan, course), 2029)
  // Two Januaries: 12,000 × 1.21, and 4,800 × 1.1025.
  expect(year.sales).toBeCloseTo(14_520, 6)
  expect(year.directCosts + year.marketCosts + year.overheads).toBeCloseTo(5292, 6)
  expect(year.net).toBeCloseTo(9228, 6)
  const run = project(plan).months.filter((one) => one.month.startsWith('2029'))
  expect(run.reduce((sum, one) => sum + one.farmSales - one.farmCosts, 0)).toBeCloseTo(year.net, 6)
  // A course that begins before the plan has the plan's first prices there.
  const early = grownCourse(plan, farmCourse(plan.farm, month(2025, 1), 48))
  expect(yearOfCourse(early, 2026).sales).toBeCloseTo(12_000, 6)
})

test('a farm grown to a year has the same course there', () => {
  const grown = grownFarm(plan, plan.farm, 2029)
  const there = yearOfCourse(farmCourse(grown, month(2029, 1), 12), 2029)
  const along = yearOfCourse(grownCourse(plan, farmCourse(plan.farm, month(2029, 1), 12)), 2029)
  for (const name of ['sales', 'directCosts', 'marketCosts', 'overheads', 'net', 'hours'] as const)
    expect(there[name], name).toBeCloseTo(along[name], 6)
  expect(grownFarm(plan, plan.farm, 2027)).toBe(plan.farm)
})
