// The law of the state in one year for the household of a plan; null where no state tax counts.
import { parseMonth, yearOf } from '#calendar/month.ts'
import { steadyIndexing } from '#rules/dated.ts'
import type { StateLaw } from '#rules/states/state-year.ts'
import { stateLaws } from '#rules/states/typed-tax.ts'
import type { Plan } from './plan.ts'

/** Typed amounts are in prices of the plan's first year, also for a year before it. */
export const stateLawOf = (plan: Plan, year: number): StateLaw | null => {
  const indexing = steadyIndexing(plan.assumptions.inflation)
  const first = yearOf(parseMonth(plan.startMonth)!)
  const level = year > first ? indexing.prices(year) / indexing.prices(first) : 1
  return stateLaws(plan.tax.stateTax, plan.household.place.state, [{ year, level }], indexing)[0]!
}

/** The part of what is withheld that the plan says is the state's; null where it says none, or no state tax counts. */
export const statePartOfWithheld = ({ tax, household: { place } }: Plan): number | null => {
  const { kind } = tax.stateTax
  const counts = tax.method === 'law' && kind !== 'none' && (kind !== 'law' || place.state !== undefined)
  return counts ? (tax.withheldForState ?? null) : null
}
