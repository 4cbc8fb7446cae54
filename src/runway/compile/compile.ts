// Makes a plan ready to run: months as numbers, growth beyond prices folded in, the law of each year looked up once.

import { day, monthOfDay } from '#calendar/day.ts'
import { type Month, monthsBetween, parseMonth, yearOf } from '#calendar/month.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import type { Person } from '#plan/household-plan.ts'
import { lastMonthOf, lastMonthOfPerson } from '#plan/life/last-month.ts'
import { departureOf, lived } from '#plan/life/lived.ts'
import type { Plan } from '#plan/plan.ts'
import { month59Half } from '#plan/savings/early-addition.ts'
import { birthMonthByLaw, medicareStart } from '#rules/age-by-law.ts'
import { hsaFreeAge } from '#rules/data/retirement-accounts.ts'
import { inForce } from '#rules/in-force.ts'
import { claimFactor, fullRetirementAgeMonths } from '#rules/social-security/claim-factors.ts'
import { leftFromOf, type PlanOfDay } from '#runway/compile/plan-of-day.ts'
import type { RunwayRules } from '#runway/runway-rules.ts'
import type { ShockShape } from '#runway/shocks.ts'
import { firstStep, grownBeyond, type Span, stepsTaken } from '#runway/span.ts'
import { calmWeather, type Weather } from '#runway/storms/weather.ts'
import { drawCode } from './codes.ts'
import { compileCoverage } from './compile-coverage.ts'
import { compileFarm } from './compile-farm.ts'
import { compileHealth } from './compile-health.ts'
import { compileHousehold } from './compile-household.ts'
import { compileLaw } from './compile-law.ts'
import { compileSavings } from './compile-savings.ts'
import type { CompiledDraw } from './compiled-draw.ts'
import type { CompiledPerson } from './compiled-person.ts'
import type { CompiledPlan } from './compiled-plan.ts'
import { grownOver, grownToStart, growthsOf } from './growth.ts'

export interface CompileOptions {
  /** Run until the last person reaches this age rather than the planned one: for drawn lengths of life. */
  untilAge?: number
  /** What a storm does month by month. */
  weather?: Weather
}

/** Compiles the farm of the plan anew, in place: a market closed to it is the only weather that changes what was compiled. */
export const compileFarmAnew = (
  into: CompiledPlan,
  plan: PlanOfDay,
  rules: RunwayRules,
  weather: Weather,
): void => {
  const { draw, household, law } = into
  const around = { draw, household, expectedLevel: law.expectedLevel }
  into.farm = compileFarm(plan, rules, planSpan(plan), weather, around)
}

/** Compiles a checked plan. Throws only for a year before the law's data. */
export const compilePlan = (
  saved: PlanOfDay,
  rules: RunwayRules,
  options: CompileOptions = {},
): CompiledPlan => {
  const plan = lived(saved)
  const span = planSpan(plan, options.untilAge)
  const { firstMonth, firstYear, months, years } = span
  const weather = options.weather ?? calmWeather(months)
  const people = plan.household.people.map((person) => compilePerson(plan, person, rules, span))
  const opening = openingLevels(plan, span)
  const household = compileHousehold(plan, span, weather, opening.prices)
  const draw = compileDraw(plan, span)
  const law = compileLaw(plan, rules, span, opening.prices)
  const farm = compileFarm(plan, rules, span, weather, { draw, household, expectedLevel: law.expectedLevel })
  return {
    firstMonth,
    firstYear,
    months,
    years,
    shape: shapeOf(plan, span, farm.rows),
    priceStepsMonthly: span.stepsMonthly,
    moneyMovesAtStart: plan.assumptions.timing === 'start',
    people,
    household,
    health: compileHealth(plan, span, weather),
    coverage: compileCoverage(plan, rules, span, premiumLevel(plan)),
    savings: compileSavings(plan, rules, span, weather, people),
    farm,
    draw,
    law,
    opening,
    growth: growthsOf(plan),
    firstStep: firstStep(span),
    firstSlowerMonth: firstSlowerMonth(plan, span),
    leftFrom: leftFromOf(saved) - firstMonth,
    hasPutIn: saved.hasPutIn === true,
  }
}

/** What the premiums of a year are expected to be over those of the plan's first year. */
export const premiumLevel =
  (plan: Plan) =>
  (year: number): number =>
    grownOver(
      growthsOf(plan).premiums,
      plan.assumptions.inflation,
      yearOf(parseMonth(plan.startMonth)!),
      year,
    )

/** Where prices, premiums and care stand as the projection begins: first prices, but in a plan that is continued. */
const openingLevels = (plan: Plan, span: Span): CompiledPlan['opening'] => {
  const { assumptions } = plan
  const growths = growthsOf(plan)
  return {
    prices: grownBeyond(span, 0, assumptions.inflation),
    premiums: premiumLevel(plan)(span.firstYear),
    medicare: grownOver(growths.medicare, assumptions.inflation, yearOf(span.pricesOf), span.firstYear),
    care: grownToStart(growths.care, assumptions.inflation, span),
  }
}

/** The months and years a plan covers. */
export const planSpan = (plan: Plan, untilAge?: number): Span => {
  const firstMonth = firstMonthOf(plan)
  const months = spanOf(plan, firstMonth, untilAge)
  const firstYear = yearOf(firstMonth)
  const years = yearOf((firstMonth + months - 1) as Month) - firstYear + 1
  return {
    firstMonth,
    firstYear,
    months,
    years,
    pricesOf: parseMonth(plan.startMonth)!,
    stepsMonthly: plan.assumptions.priceSteps === 'monthly',
  }
}

/** To the plan's last month: at least a year. */
const spanOf = (plan: Plan, firstMonth: Month, untilAge?: number): number =>
  Math.min(1200, Math.max(12, lastMonthOf(plan, untilAge) - firstMonth + 1))

/** The month in which a person reaches `age`, as the birthday has it. */
const monthAt = (person: Person, age: number): number => monthOfDay(day(person.born)) + age * 12

const shapeOf = (plan: Plan, span: Span, rows: number): ShockShape => {
  const { assumptions } = plan
  const departures = plan.household.people.map(
    ({ id }) => (departureOf(plan, id)?.month ?? Number.POSITIVE_INFINITY) - span.firstMonth,
  )
  return {
    years: span.years,
    enterprises: rows,
    expected: {
      stocks: assumptions.stocks,
      bonds: assumptions.bonds,
      bills: assumptions.bills,
      inflation: assumptions.inflation,
      premiumGrowth: assumptions.premiumGrowth,
      medicareGrowth: growthsOf(plan).medicare.rate,
      careGrowth: assumptions.careGrowth,
    },
    plannedDeathMonth: plan.household.people.map((person, place) =>
      Math.min(lastMonthOfPerson(person) - span.firstMonth + 1, departures[place]!),
    ),
    departureMonth: departures,
  }
}

/** The draw policy to months. */
const compileDraw = (plan: Plan, span: Span): CompiledDraw => {
  const { draw } = plan
  const at = (text: string) => monthsBetween(span.firstMonth, parseMonth(text)!)
  const out: CompiledDraw = {
    policy: drawCode[draw.policy],
    planned: new Float64Array(span.months),
    withPrices: false,
    holdsFloor: plan.savings.drawsToHoldFloor,
    fromMonth: 0,
    fromShare: 0,
    toMonth: 0,
    toShare: 0,
  }
  if (draw.policy === 'steps') fillSteps(draw, span, out)
  else {
    out.fromMonth = at(draw.from)
    if (draw.policy === 'ramp')
      Object.assign(out, { fromShare: draw.fromShare, toMonth: at(draw.to), toShare: draw.toShare })
    if (draw.policy === 'share') out.toShare = draw.share
  }
  return out
}

/** The latest step that has begun holds; it is raised each January after it began, those before the first month counted. */
const fillSteps = (draw: Extract<Plan['draw'], { policy: 'steps' }>, span: Span, out: CompiledDraw) => {
  out.withPrices = draw.withPrices
  const steps = draw.steps
    .map((step) => ({ m: monthsBetween(span.firstMonth, parseMonth(step.from)!), perMonth: step.perMonth }))
    .sort((a, b) => a.m - b.m)
  for (const [place, step] of steps.entries()) {
    const end = Math.min(span.months, steps[place + 1]?.m ?? span.months)
    for (let m = Math.max(0, step.m); m < end; m += 1)
      out.planned[m] = step.perMonth * (1 + draw.growth) ** (stepsTaken(span, m) - stepsTaken(span, step.m))
  }
}

const compilePerson = (plan: Plan, person: Person, rules: RunwayRules, span: Span): CompiledPerson => {
  const bornMonth = birthMonthByLaw(person.born)
  const departure = departureOf(plan, person.id)
  const lastYear = Math.max(span.firstYear + span.years, yearOf(bornMonth) + 72)
  const law = rules.benefitLaw(lastYear)
  const earnings = new Float64Array(lastYear - law.firstYear + 1)
  for (const { year, amount } of person.earnings)
    if (year >= law.firstYear && year <= lastYear) earnings[year - law.firstYear]! += amount
  const shares = plan.household.people.map((one) => one.farmWorkShare)
  const whole = shares.reduce((a, b) => a + b, 0)
  return {
    id: person.id,
    name: person.name,
    partsMonth:
      departure?.kind === 'separation' ? departure.month - span.firstMonth : Number.POSITIVE_INFINITY,
    bornYear: Math.floor(bornMonth / 12),
    bornMonth,
    claimMonth: bornMonth + person.claimAge.years * 12 + person.claimAge.months,
    month65: medicareStart(person.born) - span.firstMonth,
    birthYear: yearOf(monthOfDay(day(person.born))),
    monthHealthFree: monthAt(person, inForce(hsaFreeAge, span.firstYear)) - span.firstMonth,
    month59Half: month59Half(person.born, span.firstYear) - span.firstMonth,
    farmShare: whole > 0 ? person.farmWorkShare / whole : 1 / shares.length,
    putInSoFar: { ...person.putInSoFar },
    earnings,
    statementPrimary: primaryOfStatement(person, Math.floor(bornMonth / 12)),
  }
}

/** What the estimate is a share of: reduced for age at 62, raised by delayed credits at 70 (42 USC 402(q), (w)). */
const primaryOfStatement = ({ statementBenefit = 0, statementAt }: Person, bornYear: number): number => {
  const full = fullRetirementAgeMonths(bornYear)
  const age = statementAt === 'full' ? full : Number(statementAt) * 12
  return statementBenefit / claimFactor(bornYear, age)
}

const firstSlowerMonth = (plan: Plan, span: Span): number => {
  const starts = plan.farm.phases.map((phase) => parseMonth(phase.from)! - span.firstMonth)
  return Math.max(0, Math.min(span.months, ...starts))
}
