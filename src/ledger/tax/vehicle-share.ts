// What part of a car's or truck's running costs is deducted: the business share of its miles, or of its use as the inventory has it.
import { type Cents, cents, zeroCents } from '#money/cents.ts'
import { formatCents, formatPercent } from '#money/format.ts'
import type { FormLine } from '../reports/form-lines.ts'
import type { StockInventory } from '../reports/stock-inventory.ts'
import { milesDeduction } from './deducted-by-rate.ts'
import type { VehicleSaid } from './form-said.ts'

/** Business shares of the year's listed things, each once. */
export const listedShares = ({ rows }: StockInventory): number[] => [
  ...new Set(rows.flatMap(({ writeOff }) => (writeOff?.isListed ? [writeOff.useShare] : []))),
]

/** Null where all that is booked counts: by miles, of one thing used for the business alone, or where the books hold the business's part only. */
export const vehicleShare = (
  said: VehicleSaid,
  listed: readonly number[],
): { share: number; by: 'miles' | 'inventory' } | null => {
  if (said.by === 'miles' || said.booked === 'part') return null
  const { businessMiles, commutingMiles, otherMiles } = said
  const all = (businessMiles ?? 0) + (commutingMiles ?? 0) + (otherMiles ?? 0)
  const isTold = businessMiles !== null && otherMiles !== null && all > 0
  const share = isTold ? businessMiles / all : listed.length === 1 ? listed[0]! : 1
  return share < 1 ? { share, by: isTold ? 'miles' : 'inventory' } : null
}

/** Several things used in part, each otherwise: without miles nobody can tell whose costs are booked. */
export const isShareUntold = (said: VehicleSaid, listed: readonly number[]): boolean =>
  said.by === 'costs' &&
  said.booked !== 'part' &&
  (said.businessMiles === null || said.otherMiles === null) &&
  listed.length > 1

/** Gas, oil, repairs and the like by the share of business use (IRS Pub. 463, chapter 4; instructions of line 10 of Schedule F). */
export const businessPartOf = (line: FormLine, said: VehicleSaid, listed: readonly number[]): FormLine => {
  const of = vehicleShare(said, listed)
  if (of === null || line.amountCents <= 0) return line
  const amountCents = cents(Math.round(line.amountCents * of.share))
  return {
    ...line,
    amountCents,
    note: `${formatPercent(of.share, 1)} business use by ${of.by === 'miles' ? 'its miles' : 'the inventory'}, of ${formatCents(line.amountCents)} booked; ${formatCents(cents(line.amountCents - amountCents))} is private and not deducted`,
  }
}

/** Of costs on a form what is the business's: of its car at the line `at` that part, and nothing where miles are deducted in its place. */
export const carPart =
  (at: string, said: VehicleSaid, year: number, listed: readonly number[]) =>
  (line: FormLine): Cents => {
    if (line.line !== at) return line.amountCents
    return milesDeduction(said, year) === null ? businessPartOf(line, said, listed).amountCents : zeroCents
  }
