// The one place that takes prices out of what is shown: a projection in today's dollars, or in the dollars of each of its months.
import type { Day } from '#calendar/day.ts'
import { addMonths, type Month, monthsBetween, monthText, parseMonth } from '#calendar/month.ts'
import { byPart } from '#kept/by-part.ts'
import type { CourseParts } from '#runway/course-buffers.ts'
import { type MonthSeries, monthSeries, yearSeries } from '#runway/figures/course-figures.ts'
import { hair } from '#runway/figures/hair.ts'
import { figurePlace, monthRow } from '#runway/figures/month-row.ts'
import { figureAt, type MonthTable, rowsOf } from '#runway/figures/month-table.ts'
import type { Milestones, ProjectedYear, Projection } from '#runway/project.ts'
import { type SeenMonth, seenMonths } from './seen-month.ts'

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
export const pricesIn = ({ table }: Pick<Projection, 'table'>, dollars: Dollars): Prices => {
  const level = (place: number) =>
    figureAt(table, Math.max(0, Math.min(place, table.count - 1)), figurePlace.level)
  const placeOf = (month: string) => monthsBetween(table.firstMonth, parseMonth(month)!)
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
  const { table } = projection
  const prices = pricesIn(projection, dollars)
  const first = table.count > 0 ? prices.at(0) : 1
  const shown = shownTable(table, prices)
  return byPart<Projection>({
    months: () => rowsOf(shown),
    table: () => shown,
    years: () => projection.years.map((one) => yearTimes(one, prices.ofMonth(`${one.year}-12`))),
    milestones: () => shownMilestones(projection, prices),
    bought: () => projection.bought,
    coverage: () => projection.coverage,
    incomeBehind: () => projection.incomeBehind * first,
    premiumsAdded: () => projection.premiumsAdded * first,
    parts: () => projection.parts && partsTimes(projection.parts, prices),
  })
}

/** What charts and sentences read of a projection. */
export interface SeenCourse extends Pick<Projection, 'milestones' | 'parts'> {
  months: readonly SeenMonth[]
}
/** The same without writing out its rows. */
export const seenInDollars = (projection: Projection, dollars: Dollars): SeenCourse => {
  const shown = inDollars(projection, dollars)
  return byPart<SeenCourse>({
    months: () => seenMonths(shown.table),
    milestones: () => shown.milestones,
    parts: () => shown.parts,
  })
}

const shownTable = (table: MonthTable, prices: Prices): MonthTable => {
  const factors = new Float64Array(table.count)
  for (let m = 0; m < table.count; m += 1) factors[m] = prices.at(m)
  return { ...table, factors }
}

const shownMilestones = ({ table, milestones }: Projection, prices: Prices): Milestones => {
  const series = (name: MonthSeries) => {
    const out = new Float64Array(table.count)
    for (let m = 0; m < table.count; m += 1) out[m] = figureAt(table, m, figurePlace[name])
    return out
  }
  const told = { milestones, spendable: series('spendable'), unmetNeed: series('unmetNeed') }
  return milestonesIn(told, table.firstMonth, prices)
}

/** What doubles when its money does. */
const doubled = monthRow(new Float64Array(monthSeries.length).fill(1), 0, 2, '')
export const monthMoney = monthSeries.filter((name) => doubled[name] === 2)

const notMoney = new Set<string>(['povertyPercent', 'filingStatus', 'signers', 'firstSigner'])
export const yearMoney = yearSeries.filter((name) => !notMoney.has(name))

const yearTimes = (one: ProjectedYear, factor: number): ProjectedYear => {
  const shown = { ...one }
  for (const name of yearMoney) shown[name] = one[name] * factor
  return shown
}

/** Rows × months, each month by its own factor. */
const partsTimes = ({ months, ...rows }: CourseParts, prices: Prices): CourseParts => {
  const factors = new Float64Array(months)
  for (let m = 0; m < months; m += 1) factors[m] = prices.at(m)
  const shown = (rows: Float64Array) => {
    const out = new Float64Array(rows.length)
    for (let first = 0; first < rows.length; first += months)
      for (let m = 0; m < months; m += 1) out[first + m] = rows[first + m]! * factors[m]!
    return out
  }
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
