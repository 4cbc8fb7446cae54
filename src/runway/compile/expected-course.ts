// The farm room's expected course for a plan: kept between compilations, and spliced where a storm closes a market.
import { addMonths } from '#calendar/month.ts'
import { type FarmCourse, farmCourse } from '#farm/course.ts'
import type { Farm } from '#farm/farm-document.ts'
import { longestWait } from '#farm/selling/course-sales.ts'
import type { ClosedMarket } from '#farm/selling/market-months.ts'
import { Alike } from '#kept/alike.ts'
import { keeper } from '#kept/keeper.ts'
import type { Plan } from '#plan/plan.ts'
import type { Span } from '#runway/span.ts'
import type { Weather } from '#runway/storms/weather.ts'

/** Courses by farm and span: a plan's storms and levers mostly leave the farm as it is. Nothing writes into a kept course. */
const courses = keeper(16)

/** The last few farms by all that they say: one that goes on from the books is written anew for each lever, and says the same. */
const lately = new Alike<Farm>(3)
const sameAs = new WeakMap<Farm, Farm>()

const sameFarm = (farm: Farm): Farm => {
  const known = sameAs.get(farm)
  if (known !== undefined) return known
  const same = lately.foundOr(farm)
  sameAs.set(farm, same)
  return same
}

const keptCourse = (farm: Farm, span: Span, closed: ClosedMarket | null): FarmCourse =>
  courses(
    sameFarm(farm),
    `${span.firstMonth} ${span.months} ${closed ? `${closed.market} ${closed.from} ${closed.to}` : ''}`,
    () => farmCourse(farm, span.firstMonth, span.months, closed),
  )

const spliced = ['offered', 'ceiling', 'marketCosts', 'hoursNeeded', 'hiredByPlan'] as const

/**
 * The course under a storm that closes a market. Where stock waits for markets, what was not sold then is sold later, so that the whole
 * course is another; else only those months are, and they are taken from the one course in which that market is always closed.
 */
export const courseUnder = (plan: Plan, span: Span, weather: Weather): FarmCourse => {
  const lost = weather.lostMarket
  if (lost === null) return keptCourse(plan.farm, span, null)
  const end = Math.min(span.months, lost.from + lost.months)
  const [from, to] = [addMonths(span.firstMonth, lost.from), addMonths(span.firstMonth, end - 1)]
  if (longestWait(plan.farm) > 0) return keptCourse(plan.farm, span, { market: lost.id, from, to })
  const course = keptCourse(plan.farm, span, null)
  const always = { market: lost.id, from: span.firstMonth, to: addMonths(span.firstMonth, span.months) }
  const without = keptCourse(plan.farm, span, always)
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
