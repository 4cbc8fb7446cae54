// The farm room's expected course for a plan: kept between compilations, and spliced where a storm closes a market.
import { type FarmCourse, farmCourse, withoutMarket } from '#farm/course.ts'
import type { Farm } from '#farm/farm-document.ts'
import { keeper } from '#kept/keeper.ts'
import type { Plan } from '#plan/plan.ts'
import type { Span } from '#runway/span.ts'
import type { Weather } from '#runway/storms/weather.ts'

/** Courses by farm and span: a plan's storms and levers mostly leave the farm as it is. Nothing writes into a kept course. */
const courses = keeper(16)

/** Without a market where one is named. */
const keptCourse = (farm: Farm, span: Span, lostMarket: string | null): FarmCourse =>
  courses(farm, `${span.firstMonth} ${span.months} ${lostMarket ?? ''}`, () =>
    farmCourse(
      lostMarket === null ? farm : withoutMarket(farm, lostMarket, '0000-01'),
      span.firstMonth,
      span.months,
    ),
  )

const spliced = ['offered', 'ceiling', 'marketCosts', 'hoursNeeded', 'hiredByPlan'] as const

/** The course, with the months in which a storm closes a market taken from the course without it. */
export const courseUnder = (plan: Plan, span: Span, weather: Weather): FarmCourse => {
  const course = keptCourse(plan.farm, span, null)
  const lost = weather.lostMarket
  if (lost === null) return course
  const without = keptCourse(plan.farm, span, lost.id)
  const end = Math.min(span.months, lost.from + lost.months)
  const changed = { ...course }
  for (const name of spliced)
    changed[name] = course[name].map((value, cell) => {
      const m = cell % span.months
      return m >= lost.from && m < end ? without[name][cell]! : value
    })
  return changed
}

/** A table of rows × months summed to one row. */
export const sumRows = (table: Float64Array, months: number): Float64Array => {
  const out = new Float64Array(months)
  for (let cell = 0; cell < table.length; cell += 1) out[cell % months]! += table[cell]!
  return out
}
