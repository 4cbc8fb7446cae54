// One calendar year of the course: net farm cash before purchases, loans and draws, and the hours it takes.
import { month } from '#calendar/month.ts'
import { type FarmCourse, farmCourse } from './course.ts'
import type { Farm } from './farm-document.ts'

/** Dollars of the year at plan prices. */
export interface FarmYear {
  year: number
  sales: number
  culls: number
  directCosts: number
  stockBought: number
  marketCosts: number
  hiredCosts: number
  overheads: number
  leaseIncome: number
  /** Sales and culls less all of the above; lease income apart. */
  net: number
  hours: number
  /** Of these, those that somebody works: hours beyond what a crew can give are done by nobody unless the plan hires for them. */
  worked: number
  /** Of the hours, those that are hired. */
  hiredHours: number
}

export const farmYear = (farm: Farm, year: number): FarmYear =>
  yearOfCourse(farmCourse(farm, month(year, 1), 12), year)

/** A year that lies whole within the course. Throws when it does not. */
export const yearOfCourse = (course: FarmCourse, year: number): FarmYear => {
  const from = month(year, 1) - course.firstMonth
  if (from < 0 || from + 12 > course.monthCount)
    throw new Error(`Year ${year} lies outside the months of the plan`)
  const perMonth = (values: Float64Array) => {
    let sum = 0
    for (let m = from; m < from + 12; m += 1) sum += values[m]!
    return sum
  }
  const perRow = (values: Float64Array) =>
    course.rows.reduce(
      (sum, _, row) =>
        sum + perMonth(values.subarray(row * course.monthCount, (row + 1) * course.monthCount)),
      0,
    )
  const found = {
    year,
    sales: perRow(course.sales),
    culls: perRow(course.culls),
    directCosts: perRow(course.spent),
    stockBought: perRow(course.stockBought),
    marketCosts: perMonth(course.marketCosts),
    hiredCosts: perMonth(course.hiredCosts),
    overheads: perMonth(course.overheads),
    leaseIncome: perMonth(course.leaseIncome),
    hours: perMonth(course.hoursNeeded),
    worked: perMonth(course.work.worked),
    hiredHours: perMonth(course.work.hired),
  }
  return { ...found, net: netOf(found) }
}

export const netOf = (year: Omit<FarmYear, 'net'>): number =>
  year.sales +
  year.culls -
  (year.directCosts + year.stockBought + year.marketCosts + year.hiredCosts + year.overheads)
