// Enterprise budgets side by side: gross margin, what an hour of work brings, and the price and yield that just cover the costs.
import type { FarmCourse } from './course.ts'
import type { Farm } from './farm-document.ts'
import { unitOfRow } from './herd/unit-of-row.ts'
import { type BreakEven, breakEvensOf } from './told/break-even.ts'
import { weightOf } from './work-months.ts'

/** One line's year at plan prices, dollars and hours: of the work that is done, where hours are missing. */
export interface EnterpriseBudget {
  id: string
  name: string
  kind: 'enterprise' | 'herd'
  tag: string
  unit: string
  /** Units of the year's busiest month (breeding females of a herd). */
  units: number
  sales: number
  /** What was offered and no market took. */
  unsold: number
  directCosts: number
  grossMargin: number
  grossMarginPerUnit: number
  hours: number
  /** Gross margin by hour of the line itself. */
  marginPerHour: number | null
  /** Its share of market trips and overheads, by sales. */
  marketCosts: number
  marketHours: number
  overheads: number
  overheadHours: number
  /** What is paid for hired help in its own, its market and its overhead hours. */
  hiredCosts: number
  /** All its hours but those that are hired: market and overhead hours are in them. */
  ownHours: number
  /**
   * What is left of sales after all costs but the couple's own work, and by the hour of that work; null where no hours of the line itself
   * are known: its share of market and overhead hours alone would make an hour look rich.
   */
  returnToLabor: number
  returnPerHour: number | null
  /** By each measure in which its yield is sold; none where it has no yield. */
  breakEvens: BreakEven[]
}

/** Budgets of the calendar year that starts at month `from` of the course. `wage` prices hours in the second break-even. */
export const enterpriseBudgets = (
  farm: Farm,
  course: FarmCourse,
  from: number,
  wage: number,
): EnterpriseBudget[] => {
  const { rows } = course
  const sum = sumOfYear(course, from)
  const done = sumOfYear(course, from, course.work.share)
  const sales = rows.map((_, row) => sum(course.sales, row) + sum(course.culls, row))
  const allSales = sales.reduce((a, b) => a + b, 0)
  const atMarkets = marketShares(farm, course, from)
  const overheads = sum(course.overheads, 0)
  // From the overheads themselves: what is left of all hours after the others' is never quite 0, and would be divided by.
  const overheadHours = done(course.overheadHours, 0)
  const shareOf = (row: number) => (allSales > 0 ? sales[row]! / allSales : 0)
  const hoursOf = rows.map(
    (_, row) => done(course.hours, row) + atMarkets[row]!.hours + overheadHours * shareOf(row),
  )
  const hired = hiredShares(farm, course, from, { hours: hoursOf, atMarkets })
  return rows.map((line, row) => {
    const directCosts = sum(course.spent, row) + sum(course.stockBought, row)
    const hours = done(course.hours, row)
    const [share, market] = [shareOf(row), atMarkets[row]!]
    const grossMargin = sales[row]! - directCosts
    const hiredCosts = hired[row]!.costs
    const returnToLabor = grossMargin - market.costs - overheads * share - hiredCosts
    const ownHours = Math.max(0, hoursOf[row]! - hired[row]!.hours)
    const units = mostUnits(course, row, from)
    return {
      id: line.id,
      name: line.name,
      kind: line.kind,
      tag: line.tag,
      unit: unitOfRow(farm, row),
      units,
      sales: sales[row]!,
      unsold: done(course.offered, row) + sum(course.culls, row) - sales[row]!,
      directCosts,
      grossMargin,
      grossMarginPerUnit: units > 0 ? grossMargin / units : 0,
      hours,
      marginPerHour: hours > 0 ? grossMargin / hours : null,
      marketCosts: market.costs,
      marketHours: market.hours,
      overheads: overheads * share,
      overheadHours: overheadHours * share,
      hiredCosts,
      ownHours,
      returnToLabor,
      returnPerHour: hours > leastHours && ownHours > leastHours ? returnToLabor / ownHours : null,
      breakEvens: breakEvensOf(farm, row, {
        wage,
        units: units * course.work.share[from]!,
        directCosts,
        beside: market.costs + overheads * share + wage * hoursOf[row]!,
      }),
    }
  })
}

/** Those of the year's busiest month. */
const mostUnits = ({ units, monthCount }: FarmCourse, row: number, from: number): number =>
  Math.max(...units.subarray(row * monthCount + from, row * monthCount + from + 12))

/** Below it what is left of all hours after hired ones is what rounding left. */
const leastHours = 1e-6

/**
 * Hired hours and what is paid for them, by row: those that the plan gives to hired help by name are of that row; what is hired beyond
 * them, or paid without being needed, is spread over all other hours.
 */
const hiredShares = (
  farm: Farm,
  course: FarmCourse,
  from: number,
  all: { hours: readonly number[]; atMarkets: readonly { hired: number }[] },
): { hours: number; costs: number }[] => {
  const sum = sumOfYear(course, from)
  const done = sumOfYear(course, from, course.work.share)
  const lines = [...farm.enterprises.map(({ hoursBy }) => hoursBy), ...farm.herds.map(() => ({}))]
  const named = lines.map((by, row) => done(course.hours, row) * hiredPart(by) + all.atMarkets[row]!.hired)
  const rest = all.hours.map((hours, row) => Math.max(0, hours - named[row]!))
  const [allNamed, allRest] = [total(named), total(rest)]
  const [worked, paid] = [sum(course.work.hired, 0), sum(course.work.paid, 0)]
  const anHour = paid > 0 ? sum(course.hiredCosts, 0) / paid : 0
  const spread = (hours: number, row: number) => {
    const beyond = hours - allNamed
    return named[row]! + beyond * (allRest > 0 ? rest[row]! / allRest : 1 / named.length)
  }
  return named.map((_, row) => ({ hours: spread(worked, row), costs: spread(paid, row) * anHour }))
}

const hiredPart = (by: Record<string, number>): number => {
  const whole = total(Object.values(by))
  return whole > 0 ? weightOf(by, 'hired') / whole : 0
}

const total = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0)

/** Adds up twelve months from `from` on, in a table of row × month; of each month the share, where it is given. */
const sumOfYear =
  ({ monthCount }: FarmCourse, from: number, share?: Float64Array) =>
  (values: Float64Array, row: number): number => {
    let total = 0
    for (let m = from; m < from + 12; m += 1) total += values[row * monthCount + m]! * (share?.[m] ?? 1)
    return total
  }

/** Each market's costs and hours are borne by the lines that may sell there, by what those offer. */
const marketShares = (farm: Farm, course: FarmCourse, from: number) => {
  const shares = course.rows.map(() => ({ costs: 0, hours: 0, hired: 0 }))
  const sellers = [...farm.enterprises, ...farm.herds]
  const perMarket = course.markets.map(({ id }) => sellers.map((one) => one.markets.includes(id)))
  const sumOf = sumOfYear(course, from)
  const done = sumOfYear(course, from, course.work.share)
  const sales = course.rows.map((_, row) => sumOf(course.sales, row))
  course.markets.forEach((_, k) => {
    const whole = sales.reduce((sum, dollars, row) => sum + (perMarket[k]![row] ? dollars : 0), 0)
    if (whole <= 0) return
    sales.forEach((dollars, row) => {
      if (!perMarket[k]![row]) return
      shares[row]!.costs += (sumOf(course.marketCostsEach, k) * dollars) / whole
      const hours = (done(course.marketHours, k) * dollars) / whole
      shares[row]!.hours += hours
      shares[row]!.hired += hours * hiredPart(farm.markets[k]!.hoursBy)
    })
  })
  return shares
}
