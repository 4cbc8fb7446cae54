// What is deducted by a rate and not by what was paid: business miles, and the part of the home used for a business.
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

/** By area, and no more than the profit without it (IRS Pub. 587); nothing before the law had this way. */
export const homeDeduction = (
  { homeSquareFeet }: Pick<BusinessSaid, 'homeSquareFeet'>,
  year: number,
  profit: Cents,
): Cents => {
  if (homeSquareFeet === null || year < yearsOf(homeOfficeByArea).first) return zeroCents
  const { perSquareFoot, mostSquareFeet } = inForce(homeOfficeByArea, year)
  const byArea = dollarsToCents(perSquareFoot * Math.min(homeSquareFeet, mostSquareFeet))
  return cents(Math.max(0, Math.min(byArea, profit)))
}
