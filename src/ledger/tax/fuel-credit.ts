// Tax on fuel that comes back with the return, since it was burned on the farm and not on a road (26 USC 34(a), 6420, 6427(l)).
import { type Cents, dollarsToCents, zeroCents } from '#money/cents.ts'
import { Decimal } from '#money/decimal.ts'
import { farmFuelCredit } from '#rules/data/business-deductions.ts'
import { yearsOf } from '#rules/dated.ts'
import { inForce } from '#rules/in-force.ts'
import type { FarmFuel } from './form-said.ts'

/** To the cent. It is income of the next year where the fuel was deducted with its tax (IRS Pub. 225, Fuel excise tax credits; from memory). */
export const fuelCredit = ({ gasolineGallons, dieselGallons }: FarmFuel, year: number): Cents => {
  if (year < yearsOf(farmFuelCredit).first) return zeroCents
  const { gasoline, diesel } = inForce(farmFuelCredit, year)
  const of = (gallons: number | null, rate: number) => new Decimal(String(gallons ?? 0)).times(String(rate))
  return dollarsToCents(of(gasolineGallons, gasoline).plus(of(dieselGallons, diesel)).toNumber())
}
