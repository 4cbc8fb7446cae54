// The parts of a month: noted by the run as it sums them, so that nothing is left over, whoever has died and however lines grow.
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { type Plan, planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'
import { type TraceGroup, traceMonth } from '#runway/trace.ts'
import { assertFuzz, fuzzLimit } from '../fuzz/batches.ts'
import { randomPlan } from './random-plan.ts'

const lineOf = (groups: TraceGroup[], title: string, name: string) =>
  groups.find((one) => one.title === title)!.lines.find((line) => line.name === name)!.dollars

test('on random plans no group of any month has a dollar left over', { timeout: fuzzLimit() }, async () => {
  await assertFuzz(
    fc.property(randomPlan(), fc.double({ min: 0, max: 0.999, noNaN: true }), (plan, where) => {
      const projection = project(plan)
      const { month } = projection.months[Math.floor(where * projection.months.length)]!
      for (const group of traceMonth(plan, projection, month)!) {
        const named = group.lines.filter((line) => line.name !== 'Everything else')
        const left = group.total - named.reduce((sum, line) => sum + line.dollars, 0)
        expect(Math.abs(left), `${group.title} in ${month}`).toBeLessThan(1)
      }
    }),
    0.04,
    1500,
  )
})

/** A couple of whom one dies in 2027; food, a line that grows with care, and an enterprise with more hours than its crew has. */
const couple: Plan = planSchema.parse({
  startMonth: '2026-01',
  household: {
    people: [
      { id: 'a', name: 'A', born: '1966-06-15', planToAge: 61 },
      { id: 'b', name: 'B', born: '1966-06-15', planToAge: 70 },
    ],
    living: [
      { id: 'food', name: 'Food', perMonth: 1000, farmShare: 0.1 },
      { id: 'teeth', name: 'Teeth', perMonth: 100, growth: 'care' },
    ],
    survivorShare: 0.75,
  },
  savings: { accounts: [{ id: 's', name: 'S', kind: 'cash', balance: 500_000 }] },
  farm: {
    cash: 20_000,
    enterprises: [{ id: 'e', name: 'Beds', salesPerUnit: 48_000, costsPerUnit: 12_000, hoursPerUnit: 2880 }],
    crew: [{ who: 'a', weeklyHours: 40 }],
    hired: { hourlyCost: 20, weeklyHours: 5 },
  },
  tax: { method: 'none' },
  assumptions: { inflation: 0, careGrowth: 0.1 },
})

test('lines that grow with care, the part of one alone and hired help are each named with what they cost', () => {
  const projection = project(couple)
  const of = (month: string) => traceMonth(couple, projection, month)!
  expect(lineOf(of('2026-02'), 'Living costs', 'Food')).toBeCloseTo(900, 9)
  expect(lineOf(of('2027-02'), 'Living costs', 'Teeth')).toBeCloseTo(110, 9)
  // 240 hours less 40 a week, 173.93: 66.07 at $20.
  expect(lineOf(of('2026-02'), 'Change of farm cash', 'Hired help')).toBeCloseTo(
    -20 * (240 - 40 * (365.25 / 84)),
    9,
  )
  // A dies in June 2027: from July three quarters of each line, and half of the farm.
  expect(lineOf(of('2027-08'), 'Living costs', 'Food')).toBeCloseTo(675, 9)
  expect(lineOf(of('2027-08'), 'Living costs', 'Teeth')).toBeCloseTo(82.5, 9)
  expect(lineOf(of('2027-08'), 'Change of farm cash', 'Beds: sales')).toBeCloseTo(2000, 9)
})
