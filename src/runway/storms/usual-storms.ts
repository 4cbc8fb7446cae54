// The usual bad years of a plan, each begun where it hurts most, and then the couple's own.
import { addMonths, type Month, monthText, parseMonth } from '#calendar/month.ts'
import { farmCourse } from '#farm/course.ts'
import { weeklyHoursAt } from '#farm/work-months.ts'
import { type Storm, stormSchema } from '#plan/assumption-plan.ts'
import { isGone } from '#plan/life/lived.ts'
import type { Plan } from '#plan/plan.ts'
import type { PlanOfDay } from '#runway/compile/plan-of-day.ts'
import { publishedRules } from '#runway/published-rules.ts'
import type { RunwayRules } from '#runway/runway-rules.ts'
import { badYearsFrom, floorPassed, worstOf } from './worst-start.ts'

/** The usual storms for this plan, and then the couple's own. */
export const stormsOf = (plan: PlanOfDay, rules: RunwayRules = publishedRules(plan)): Storm[] => {
  const passed = floorPassed(plan, rules)
  return [...usualStorms(plan).map((alike) => begun(plan, rules, alike, passed)), ...plan.storms]
}

type Alike = readonly [Storm, ...Storm[]]

/** Of usual storms alike the one that hurts most, from the month in which it does; one with a date of its own from that. */
export const begun = (plan: PlanOfDay, rules: RunwayRules, alike: Alike, passed?: number): Storm =>
  isDated(alike[0]) ? alike[0] : worstOf(plan, rules, alike, passed)

type Named = Partial<Storm> & { id: string; name: string }

/** Lasting ones outlast any plan. */
const forGood = 720

/**
 * Each with those alike that strike somebody else: only a run tells whose absence hurts most. Their first month is the next from which
 * they can begin; those without a date of their own are moved to the worst.
 */
export const usualStorms = (plan: PlanOfDay): Alike[] => {
  const now = badYearsFrom(plan)
  const slower = plan.farm.phases
    .map((phase) => phase.from)
    .filter((from) => parseMonth(from)! > now)
    .sort()[0]
  const market = largestMarket(plan, now)
  const storms: Named[][] = [
    market
      ? [{ id: 'lost-market', name: `Lost market: ${market.name}`, lostMarket: market.id, months: forGood }]
      : [],
    [{ id: 'bad-season', name: 'Bad season: half the sales of a year', salesShare: 0.5 }],
    [{ id: 'premium-jump', name: 'Premiums jump by 40% and stay', premiumJump: 0.4, months: forGood }],
    ...workAndLife(plan, now),
    [
      {
        id: 'market-crash',
        name: slower ? 'The stock market falls as you slow down' : 'The stock market falls',
        ...(slower ? { from: slower } : {}),
        stockFall: 0.4,
        bondFall: 0.1,
      },
    ],
    [{ id: 'late-draws', name: 'Draws come two years late', drawsLateMonths: 24, months: forGood }],
  ]
  return storms.flatMap((alike) => {
    const [first, ...others] = alike.map((storm) => stormSchema.parse({ from: monthText(now), ...storm }))
    return first ? [[first, ...others]] : []
  })
}

/** A crash as the farm slows down has the date of the slowing; late draws have those of the draws. */
const isDated = ({ id, name }: Storm): boolean =>
  id === 'late-draws' || (id === 'market-crash' && name !== 'The stock market falls')

/** What can happen to either; with nobody left the plan would simply end. */
const workAndLife = (plan: Plan, now: Month): Named[][] => {
  const people = busiestFirst(plan, now)
  const earns = people.filter(({ id }) => hasWages(plan, id, now))
  return [
    people.map(({ id, name }) => ({
      id: 'injury',
      name: `Injury: ${name} cannot work for a year`,
      person: id,
    })),
    people.map(({ id, name }) => ({
      id: 'lasting-injury',
      name: `Lasting injury: ${name} cannot work again`,
      person: id,
      months: forGood,
    })),
    people.length > 1
      ? people.map(({ id, name }) => ({ id: 'death', name: `A death: ${name}`, dies: id }))
      : [],
    earns.map(({ id, name }) => ({
      id: 'lost-job',
      name: `Job lost: no pay for ${name} for a year`,
      payStops: id,
    })),
  ]
}

const hasWages = ({ household }: Plan, id: string, now: Month): boolean =>
  household.pay.some(
    ({ person, kind, perMonth, to }) =>
      person === id && kind === 'wages' && perMonth > 0 && (to === undefined || parseMonth(to)! >= now),
  )

/** The market with the largest expected sales over the next two years. */
const largestMarket = (plan: Plan, now: Month) => {
  const months = 24
  const course = farmCourse(plan.farm, now, months)
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

/** Of those still at home, so that one who works is named where nobody’s absence is felt. */
const busiestFirst = (plan: Plan, now: Month) => {
  const hours = weeklyHoursAt(plan.farm, addMonths(now, 6))
  return plan.household.people
    .filter(({ id }) => !isGone(plan, id, now))
    .map((person) => ({
      person,
      hours: hours[plan.farm.crew.findIndex((one) => one.who === person.id)] ?? person.farmWorkShare,
    }))
    .sort((a, b) => b.hours - a.hours)
    .map(({ person }) => person)
}
