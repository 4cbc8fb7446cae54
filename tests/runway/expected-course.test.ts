// A farm that says the same has the same course, however often a plan with it is written anew.
import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import type { Plan } from '#plan/plan.ts'
import { readPlanText } from '#plan/upgrade.ts'
import { planSpan } from '#runway/compile/compile.ts'
import { courseUnder } from '#runway/compile/expected-course.ts'
import { calmWeather } from '#runway/storms/weather.ts'

const read = readPlanText(readFileSync(new URL('../../sample/plan.json', import.meta.url), 'utf8'))
if (!read.ok) throw new Error('no sample plan')
const { plan } = read

const courseOf = (of: Plan) => {
  const span = planSpan(of)
  return courseUnder(of, span, calmWeather(span.months))
}

test('it is worked out once for the farm written anew, and anew for one that says anything else', () => {
  const course = courseOf(plan)
  expect(courseOf({ ...plan, farm: structuredClone(plan.farm) })).toBe(course)
  const smaller = { ...plan.farm, enterprises: plan.farm.enterprises.slice(1) }
  const other = courseOf({ ...plan, farm: smaller })
  expect(other.rows.length).toBeLessThan(course.rows.length)
  expect(courseOf(plan)).toBe(course)
})
