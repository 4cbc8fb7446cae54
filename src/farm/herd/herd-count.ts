// Heads as they were counted take the place of those expected, and the herd goes on from them.
import type { Month } from '#calendar/month.ts'
import { monthFromText } from '#farm/seasonal.ts'
import type { Herd } from './herd-document.ts'
import { sumHeads, type Yard } from './herd-yard.ts'
import { ageAsBegins } from './young-age.ts'

type HeadCount = Herd['counts'][number]

export const countsByMonth = ({ counts }: Herd): ReadonlyMap<number, HeadCount> =>
  new Map(counts.map((count) => [monthFromText(count.month), count]))

/** As a month begins. Within a class ages stay in proportion; one that was expected to be empty is of the latest birth. Returns the heads that were missing, below zero for more. */
export const recount = (yard: Yard, count: HeadCount, at: Month): number => {
  const before = headsOf(yard)
  const females = yard.raised + yard.bought
  const share = females > 0 ? count.breedingFemales / females : 0
  yard.bought *= share
  yard.raised = females > 0 ? yard.raised * share : count.breedingFemales
  if (count.males !== undefined) yard.males = count.males
  if (count.replacements !== undefined)
    scale(yard.kept, count.replacements, ageAsBegins(yard.rates, at, yard.rates.weaningAgeMonths))
  if (count.young !== undefined) scale(yard.forSale, count.young, ageAsBegins(yard.rates, at, 0))
  return before - headsOf(yard)
}

const scale = (heads: Float64Array, counted: number, age: number): void => {
  const expected = sumHeads(heads)
  if (expected > 0) for (let age = 0; age < heads.length; age += 1) heads[age]! *= counted / expected
  else heads[Math.min(age, heads.length - 2)] = counted
}

const headsOf = (yard: Yard): number =>
  yard.raised + yard.bought + yard.males + sumHeads(yard.forSale) + sumHeads(yard.kept)
