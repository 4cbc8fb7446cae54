// The one place that takes prices out of what is shown: a projection in today's dollars, or in the dollars of each of its months.
import type { Day } from '#calendar/day.ts'
import { addMonths, type Month, monthsBetween, monthText, parseMonth } from '#calendar/month.ts'
import type { CourseParts } from '#runway/course-buffers.ts'
import { type MonthFigures, monthSeries, yearSeries } from '#runway/figures/course-figures.ts'
import { monthRow, type ProjectedMonth } from '#runway/figures/month-row.ts'
import { hair } from '#runway/milestones.ts'
import type { Milestones, ProjectedYear, Projection } from '#runway/project.ts'
import { pricedMonth, type SeenMonth } from './seen-month.ts'

/** `today`: at the prices of a month, today's. `year`: what will be paid and held then, which rising prices make worth less. */
export type Dollars = { of: 'year' } | { of: 'today'; month: string }

export const dollarsOfTheYear: Dollars = { of: 'year' }

/** What is shown until a person chooses: over decades only today's dollars say how much it is. */
export const todaysDollars = (today: Day): Extract<Dollars, { of: 'today' }> => ({
  of: 'today',
  month: today.slice(0, 7),
})

/** What one dollar is shown as. Months outside the projection count as its first or last. */
export interface Prices {
  /** A dollar of the projection's month at this place. */
  at(place: number): number
  ofMonth(month: string): number
  /** A dollar held as that month begins: a balance of the month before, at the prices of that one. */
  asBegins(month: string): number
  /** A dollar of the plan's first prices, spent in that month. */
  ofFirst(month: string): number
}

/** By the price levels of the projection’s months: factors to multiply its dollars with. */
export const pricesIn = ({ months }: Pick<Projection, 'months'>, dollars: Dollars): Prices => {
  const first = parseMonth(months[0]!.month)!
  const level = (place: number) => months[Math.max(0, Math.min(place, months.length - 1))]!.level
  const placeOf = (month: string) => monthsBetween(first, parseMonth(month)!)
  if (dollars.of === 'year')
    return { at: () => 1, ofMonth: () => 1, asBegins: () => 1, ofFirst: (month) => level(placeOf(month)) }
  const shown = level(placeOf(dollars.month))
  const at = (place: number) => shown / level(place)
  return {
    at,
    ofMonth: (month) => at(placeOf(month)),
    asBegins: (month) => at(placeOf(month) - 1),
    ofFirst: () => shown,
  }
}

/** The same projection with its money as it is shown. Months left, the floor's month and the carry month are those of the run. */
export const inDollars = (projection: Projection, dollars: Dollars): Projection => {
  if (dollars.of === 'year') return projection
  const { months, years, parts, bought, coverage, incomeBehind, premiumsAdded } = projection
  const prices = pricesIn(projection, dollars)
  const first = months[0] ? prices.at(0) : 1
  return {
    bought,
    coverage,
    incomeBehind: incomeBehind * first,
    premiumsAdded: premiumsAdded * first,
    months: months.map((one, place) => monthTimes(one, prices.at(place))),
    years: years.map((one) => yearTimes(one, prices.ofMonth(`${one.year}-12`))),
    milestones: shownMilestones(projection, prices),
    parts: parts && partsTimes(parts, prices),
  }
}

/** What charts and sentences read of a projection. */
export interface SeenCourse extends Pick<Projection, 'milestones' | 'parts'> {
  months: readonly SeenMonth[]
}

/** The same without writing out its rows. */
export const seenInDollars = (projection: Projection, dollars: Dollars): SeenCourse => {
  if (dollars.of === 'year') return projection
  const { months, parts } = projection
  const prices = pricesIn(projection, dollars)
  return {
    months: months.map((one, place) => pricedMonth(one, prices.at(place))),
    milestones: shownMilestones(projection, prices),
    get parts() {
      return parts && partsTimes(parts, prices)
    },
  }
}

const shownMilestones = ({ months, milestones }: Projection, prices: Prices): Milestones => {
  const told = {
    milestones,
    spendable: months.map((one) => one.spendable),
    unmetNeed: months.map((one) => one.unmetNeed),
  }
  return milestonesIn(told, parseMonth(months[0]!.month)!, prices)
}

/** What doubles when its money does. */
const ones = Object.fromEntries(monthSeries.map((name) => [name, 1])) as unknown as MonthFigures
const doubled = monthRow(ones, 2, '')
export const monthMoney = monthSeries.filter((name) => doubled[name] === 2)

const notMoney = new Set<string>(['povertyPercent', 'filingStatus', 'signers', 'firstSigner'])
export const yearMoney = yearSeries.filter((name) => !notMoney.has(name))

const monthTimes = (one: ProjectedMonth, factor: number): ProjectedMonth => {
  const shown = monthRow(one, factor, one.month)
  shown.coverRatio = one.coverRatio
  return shown
}

const yearTimes = (one: ProjectedYear, factor: number): ProjectedYear => {
  const shown = { ...one }
  for (const name of yearMoney) shown[name] = one[name] * factor
  return shown
}

/** Rows × months, each month by its own factor. */
const partsTimes = ({ months, ...rows }: CourseParts, prices: Prices): CourseParts => {
  const shown = (row: Float64Array) => row.map((dollars, place) => dollars * prices.at(place % months))
  return {
    living: shown(rows.living),
    farmSales: shown(rows.farmSales),
    farmDirectCosts: shown(rows.farmDirectCosts),
    ventureCash: shown(rows.ventureCash),
    accounts: shown(rows.accounts),
    months,
  }
}

/** Milestones with the months that they were read from. */
interface Told {
  milestones: Milestones
  spendable: ArrayLike<number>
  unmetNeed: ArrayLike<number>
}

/** Which month is lowest is judged in the dollars shown: a sum that stays the same while prices rise is worth less each year. */
export const milestonesIn = (
  { milestones, spendable, unmetNeed }: Told,
  firstMonth: Month,
  { at, asBegins }: Prices,
): Milestones => {
  let unmet = 0
  const begins = beginsLooking(milestones, firstMonth, spendable.length)
  let lowest = begins
  for (let place = 0; place < spendable.length; place += 1) {
    unmet += unmetNeed[place]! * at(place)
    if (place > begins && spendable[place]! * at(place) < spendable[lowest]! * at(lowest) - hair)
      lowest = place
  }
  const { firstSlowerMonth, savingsAtFirstSlower } = milestones
  return {
    ...milestones,
    lowestSpendable: spendable.length === 0 ? 0 : spendable[lowest]! * at(lowest),
    lowestMonth: monthText(addMonths(firstMonth, lowest)),
    savingsAtFirstSlower:
      firstSlowerMonth === null || savingsAtFirstSlower === null
        ? null
        : savingsAtFirstSlower * asBegins(firstSlowerMonth),
    unmetNeed: unmet,
  }
}

/** The place of the month of today; the first where it lies outside of the months. */
const beginsLooking = ({ countedFrom }: Milestones, firstMonth: Month, months: number): number => {
  const place = parseMonth(countedFrom)! - firstMonth
  return place > 0 && place < months ? place : 0
}
