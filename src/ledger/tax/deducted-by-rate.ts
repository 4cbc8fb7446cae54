// What is deducted by a rate and not by what was paid: business miles, and the part of the home used for a business.
import { dayNumber, firstDayOf, lastDayOf } from '#calendar/day.ts'
import { month } from '#calendar/month.ts'
import { type Cents, cents, dollarsToCents, zeroCents } from '#money/cents.ts'
import { Decimal } from '#money/decimal.ts'
import { homeOfficeByArea, standardMileageRate } from '#rules/data/business-deductions.ts'
import { lookUp, steadyIndexing, yearsOf } from '#rules/dated.ts'
import { inForce } from '#rules/in-force.ts'
import type { BusinessSaid, VehicleSaid } from './form-said.ts'

/** Null where costs are deducted as booked, where no miles are said, and in years whose rate is not kept here. */
export const milesDeduction = ({ by, businessMiles }: VehicleSaid, year: number): Cents | null => {
  if (by !== 'miles' || businessMiles === null || year < yearsOf(standardMileageRate).first) return null
  const { value } = lookUp(standardMileageRate, year, steadyIndexing(0))
  return dollarsToCents(new Decimal(String(value)).times(String(businessMiles)).toNumber())
}

type HomeSaid = Pick<BusinessSaid, 'homeSquareFeet' | 'homeFrom' | 'homeUntil'>

/**
 * By the average area of the year's twelve months, and no more than the profit without it (IRS Pub. 587; Rev. Proc. 2013-13 sec. 4.08,
 * from memory); nothing before the law had this way.
 */
export const homeDeduction = (said: HomeSaid, year: number, profit: Cents): Cents => {
  const { homeSquareFeet } = said
  if (homeSquareFeet === null || year < yearsOf(homeOfficeByArea).first) return zeroCents
  const { perSquareFoot, mostSquareFeet } = inForce(homeOfficeByArea, year)
  const area = new Decimal(String(Math.min(homeSquareFeet, mostSquareFeet)))
  const byArea = dollarsToCents(area.times(homeMonths(said, year)).div(12).times(perSquareFoot).toNumber())
  return cents(Math.max(0, Math.min(byArea, profit)))
}

/** Months of the year with so many days of that use that they count. */
export const homeMonths = ({ homeFrom, homeUntil }: HomeSaid, year: number): number =>
  Array.from({ length: 12 }, (_, i) => month(year, i + 1)).filter((one) => {
    const [first, last] = [firstDayOf(one), lastDayOf(one)]
    const from = homeFrom !== null && homeFrom > first ? homeFrom : first
    const until = homeUntil !== null && homeUntil < last ? homeUntil : last
    return dayNumber(until) - dayNumber(from) + 1 >= inForce(homeOfficeByArea, year).fewestDays
  }).length

/** As the form's line says it; nothing where no area is said. */
export const homeNote = (said: HomeSaid, year: number): string => {
  if (said.homeSquareFeet === null) return ''
  const months = homeMonths(said, year)
  return `${said.homeSquareFeet} square feet${months === 12 ? '' : `, ${months} of 12 months,`} by the year’s rate`
}
