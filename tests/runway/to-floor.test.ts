// A course that ends where savings fall below the floor says of it what the whole one says.
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { project, projectToFloor } from '#runway/project.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { randomPlan } from './random-plan.ts'

test('its months are the first of the whole course, up to the floor or to the end, and months left are the same', () => {
  let [ended, lasted] = [0, 0]
  fc.assert(
    fc.property(randomPlan(), (plan) => {
      const whole = project(plan)
      const short = projectToFloor(plan, publishedRules(plan))
      expect(short.milestones.monthsLeft).toBe(whole.milestones.monthsLeft)
      expect(short.milestones.floorMonth).toBe(whole.milestones.floorMonth)
      const at = whole.months.findIndex(({ month }) => month === whole.milestones.floorMonth)
      expect(short.months).toEqual(at < 0 ? whole.months : whole.months.slice(0, at + 1))
      if (at < 0) lasted += 1
      else ended += 1
    }),
    { seed: 20261201, numRuns: 40 },
  )
  expect(ended).toBeGreaterThan(5)
  expect(lasted).toBeGreaterThan(2)
})
