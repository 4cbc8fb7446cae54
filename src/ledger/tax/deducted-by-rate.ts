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

/** Square feet of each month of a year that count, by what the year's other businesses of the same person have taken of the most there is. */
export type HomeArea = readonly number[]

export const noHomeArea: HomeArea = Array.from({ length: 12 }, () => 0)

/**
 * One person has one limit for all businesses in a home: what one has taken, the next has no more (Rev. Proc. 2013-13, sec. 4.08, from
 * memory). `taken` is theirs.
 */
export const homeArea = (said: HomeSaid, year: number, taken: HomeArea = noHomeArea): HomeArea => {
  const { homeSquareFeet } = said
  if (homeSquareFeet === null || year < yearsOf(homeOfficeByArea).first) return noHomeArea
  const { mostSquareFeet } = inForce(homeOfficeByArea, year)
  return monthsOfUse(said, year).map((isUsed, i) =>
    isUsed ? Math.min(homeSquareFeet, Math.max(0, mostSquareFeet - taken[i]!)) : 0,
  )
}

/** Of two businesses of a person. */
export const areaTogether = (a: HomeArea, b: HomeArea): HomeArea => a.map((area, i) => area + b[i]!)

/**
 * By the average area of the year's twelve months, and no more than the profit without it (IRS Pub. 587; Rev. Proc. 2013-13 sec. 4.08,
 * from memory); nothing before the law had this way.
 */
export const homeDeduction = (
  said: HomeSaid,
  year: number,
  profit: Cents,
  taken: HomeArea = noHomeArea,
): Cents => {
  const area = homeArea(said, year, taken).reduce((sum, one) => sum.plus(String(one)), new Decimal(0))
  if (area.isZero()) return zeroCents
  const { perSquareFoot } = inForce(homeOfficeByArea, year)
  const byArea = dollarsToCents(area.div(12).times(perSquareFoot).toNumber())
  return cents(Math.max(0, Math.min(byArea, profit)))
}

/** By month, whether it has so many days of that use that it counts. */
const monthsOfUse = ({ homeFrom, homeUntil }: HomeSaid, year: number): boolean[] =>
  Array.from({ length: 12 }, (_, i) => month(year, i + 1)).map((one) => {
    const [first, last] = [firstDayOf(one), lastDayOf(one)]
    const from = homeFrom !== null && homeFrom > first ? homeFrom : first
    const until = homeUntil !== null && homeUntil < last ? homeUntil : last
    return dayNumber(until) - dayNumber(from) + 1 >= inForce(homeOfficeByArea, year).fewestDays
  })

/** As the form's line says it; nothing where no area is said. */
export const homeNote = (said: HomeSaid, year: number, taken: HomeArea = noHomeArea): string => {
  const { homeSquareFeet } = said
  if (homeSquareFeet === null) return ''
  const months = monthsOfUse(said, year).filter((isUsed) => isUsed).length
  const alone = homeArea(said, year)
  const least = homeArea(said, year, taken).filter((_, i) => alone[i]! > 0)
  const isLess = homeArea(said, year, taken).some((area, i) => area < alone[i]!)
  const shared = isLess
    ? `, of them ${Math.min(...least)} beside your other businesses in the home: one limit of ${inForce(homeOfficeByArea, year).mostSquareFeet} for all of a person’s`
    : ''
  return `${homeSquareFeet} square feet${shared}${months === 12 ? '' : `, ${months} of 12 months,`} by the year’s rate`
}

/** An area that was said and brings nothing this year: why, so that nobody looks for it; else nothing. */
export const homeUnused = (
  said: HomeSaid,
  year: number,
  homeCents: Cents,
  taken: HomeArea = noHomeArea,
): string => {
  if (homeCents > 0 || said.homeSquareFeet === null) return ''
  const isNone = (area: HomeArea) => area.every((one) => one === 0)
  const says = isNone(homeArea(said, year))
    ? 'it was not used for the business in this year'
    : isNone(homeArea(said, year, taken))
      ? 'your other businesses in the home have taken all that counts'
      : 'no profit is left that it could lower, and by area nothing is carried to a later year'
  return `Business use of the home, ${said.homeSquareFeet} square feet, is not deducted: ${says}.`
}
