// Heads as they were counted take the place of those expected, and the herd goes on from them.
import { monthFromText } from '#farm/seasonal.ts'
import type { Herd } from './herd-document.ts'
import { sumHeads, type Yard } from './herd-yard.ts'

type HeadCount = Herd['counts'][number]

export const countsByMonth = ({ counts }: Herd): ReadonlyMap<number, HeadCount> =>
  new Map(counts.map((count) => [monthFromText(count.month), count]))

/** Within a class ages stay in proportion; a class that was expected to be empty stands at weaning age. Returns the heads that were missing, below zero for more. */
export const recount = (yard: Yard, count: HeadCount): number => {
  const before = headsOf(yard)
  const females = yard.raised + yard.bought
  const share = females > 0 ? count.breedingFemales / females : 0
  yard.bought *= share
  yard.raised = females > 0 ? yard.raised * share : count.breedingFemales
  if (count.males !== undefined) yard.males = count.males
  if (count.replacements !== undefined) scale(yard, yard.kept, count.replacements)
  if (count.young !== undefined) scale(yard, yard.forSale, count.young)
  return before - headsOf(yard)
}

const scale = ({ rates }: Yard, heads: Float64Array, counted: number): void => {
  const expected = sumHeads(heads)
  if (expected > 0) for (let age = 0; age < heads.length; age += 1) heads[age]! *= counted / expected
  else heads[Math.min(rates.weaningAgeMonths, heads.length - 2)] = counted
}

const headsOf = (yard: Yard): number =>
  yard.raised + yard.bought + yard.males + sumHeads(yard.forSale) + sumHeads(yard.kept)
