// Storms: named bad years turned into what they change, and the table of what each does to the plan.
import { addMonths, type Month, monthText, parseMonth, yearOf } from '#calendar/month.ts'
import { farmCourse } from '#farm/course.ts'
import { weeklyHoursAt } from '#farm/work-months.ts'
import { type Storm, stormSchema } from '#plan/assumption-plan.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import type { Plan } from '#plan/plan.ts'
import { compilePlan, planSpan } from '#runway/compile/compile.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import { makeBuffers } from './course-buffers.ts'
import { type Projection, readCourse } from './project.ts'
import { runCourse } from './run-course.ts'
import type { RunwayRules } from './runway-rules.ts'
import { type CourseShocks, expectedShocks } from './shocks.ts'
import type { Span } from './span.ts'
import { calmWeather, type Weather } from './weather.ts'

/** The usual storms for this plan, and then the couple's own. */
export const stormsOf = (plan: Plan): Storm[] => [...usualStorms(plan), ...plan.storms]

/** Runs the plan through one storm: the same months, with the storm's changes. */
export const projectStorm = (plan: Plan, rules: RunwayRules, storm: Storm): Projection => {
  const { compiled, shocks } = compileStorm(plan, rules, storm)
  const buffers = makeBuffers(compiled, true)
  runCourse(compiled, shocks, buffers)
  return readCourse(compiled, buffers)
}

/** A compiled plan under a storm, with its expected shocks: chance can draw others on top. */
export const compileStorm = (
  plan: Plan,
  rules: RunwayRules,
  storm: Storm,
): { compiled: CompiledPlan; shocks: CourseShocks } => {
  const changed = planUnder(plan, storm)
  const compiled = compilePlan(changed, rules, { weather: weatherOf(planSpan(changed), storm) })
  const shocks = expectedShocks(compiled.shape)
  strike(plan, storm, compiled, shocks)
  return { compiled, shocks }
}

/** Eight months of notice is not given: usual storms begin in the next full calendar year of the plan. */
export const usualStorms = (plan: Plan): Storm[] => {
  const start = firstMonthOf(plan)
  const next = `${start % 12 === 0 ? yearOf(start) : yearOf(start) + 1}-01`
  const slower = plan.farm.phases.map((phase) => phase.from).sort()[0]
  const worker = busiest(plan)
  const storm = (storm: Partial<Storm> & { id: string; name: string }) =>
    stormSchema.parse({ from: next, ...storm })
  const market = largestMarket(plan)
  return [
    ...(market
      ? [
          storm({
            id: 'lost-market',
            name: `Lost market: ${market.name}`,
            lostMarket: market.id,
            months: 720,
          }),
        ]
      : []),
    storm({ id: 'bad-season', name: 'Bad season: half the sales of a year', salesShare: 0.5, months: 12 }),
    storm({ id: 'premium-jump', name: 'Premiums jump by 40% and stay', premiumJump: 0.4, months: 720 }),
    ...(worker
      ? [
          storm({
            id: 'injury',
            name: `Injury: ${worker.name} cannot work for a year`,
            person: worker.id,
            months: 12,
          }),
        ]
      : []),
    storm({
      id: 'market-crash',
      name: slower ? 'Markets crash as you slow down' : 'Markets crash',
      from: slower ?? next,
      stockFall: 0.4,
      bondFall: 0.1,
      months: 12,
    }),
    storm({ id: 'late-draws', name: 'Draws come two years late', drawsLateMonths: 24, months: 720 }),
  ]
}

/** The market with the largest expected sales over the plan's first two years. */
const largestMarket = (plan: Plan) => {
  const months = 24
  const course = farmCourse(plan.farm, firstMonthOf(plan), months)
  let best = -1
  let most = 0
  course.markets.forEach((_, market) => {
    let sales = 0
    for (let m = 0; m < months; m += 1) sales += course.marketSales[market * months + m]!
    if (sales > most) {
      most = sales
      best = market
    }
  })
  return best < 0 ? null : course.markets[best]!
}

const busiest = (plan: Plan) => {
  const hours = weeklyHoursAt(plan.farm, addMonths(firstMonthOf(plan), 6))
  const ranked = plan.household.people
    .map((person) => ({
      person,
      hours: hours[plan.farm.crew.findIndex((one) => one.who === person.id)] ?? person.farmWorkShare,
    }))
    .sort((a, b) => b.hours - a.hours)
  return ranked[0]?.person ?? null
}

const planUnder = (plan: Plan, storm: Storm): Plan => {
  const late = (text: string) => monthText(addMonths(parseMonth(text)!, storm.drawsLateMonths))
  const start = firstMonthOf(plan)
  const { draw } = plan
  const draws =
    storm.drawsLateMonths === 0
      ? draw
      : draw.policy === 'steps'
        ? {
            ...draw,
            steps: draw.steps.map((step) =>
              parseMonth(step.from)! <= start ? step : { ...step, from: late(step.from) },
            ),
          }
        : draw.policy === 'ramp'
          ? { ...draw, from: late(draw.from), to: late(draw.to) }
          : { ...draw, from: late(draw.from) }
  const oneOffs =
    storm.oneOffCost > 0
      ? [
          ...plan.household.oneOffs,
          {
            id: 'storm-cost',
            name: storm.name,
            month: storm.from,
            cost: storm.oneOffCost,
            todaysPrices: true,
          },
        ]
      : plan.household.oneOffs
  return { ...plan, draw: draws, household: { ...plan.household, oneOffs } }
}

const weatherOf = (plan: Span, storm: Storm): Weather => {
  const weather = calmWeather(plan.months)
  const from = parseMonth(storm.from)! - plan.firstMonth
  const end = from + storm.months
  for (let m = Math.max(0, from); m < plan.months; m += 1) {
    weather.premiumFactor[m] = 1 + storm.premiumJump
    if (m >= end) continue
    weather.salesFactor[m] = storm.salesShare
    weather.livingFactor[m] = storm.livingShare
    weather.hoursLost[m] = storm.hoursLostPerWeek * (365.25 / 12 / 7)
  }
  if (storm.lostMarket !== undefined)
    weather.lostMarket = { id: storm.lostMarket, from: Math.max(0, from), months: end - Math.max(0, from) }
  return weather
}

/** Falls of markets go into the year of the storm's first month; lost work by person. */
const strike = (plan: Plan, storm: Storm, compiled: CompiledPlan, shocks: CourseShocks) => {
  const from = parseMonth(storm.from)! - compiled.firstMonth
  const y = yearOf((compiled.firstMonth + Math.max(0, from)) as Month) - compiled.firstYear
  if (y < compiled.years && from + storm.months > 0) {
    shocks.stocks[y] = (1 + shocks.stocks[y]!) * (1 - storm.stockFall) - 1
    shocks.bonds[y] = (1 + shocks.bonds[y]!) * (1 - storm.bondFall) - 1
  }
  const person = plan.household.people.findIndex((one) => one.id === storm.person)
  if (person < 0) return
  const begins = Math.max(0, from)
  const lasts = from + storm.months - begins
  if (lasts <= 0 || begins >= compiled.months) return
  shocks.lossOfWorkMonth[person * compiled.years + Math.floor(begins / 12)] = begins
  shocks.lossOfWorkMonths[person] = lasts
}
