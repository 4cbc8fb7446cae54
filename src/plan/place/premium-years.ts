// How premiums stray in drawn courses: by the spread that was typed, or as the benchmark premium of the household's county did year by year.
import { formatPercent } from '#money/format.ts'
import { type CountyPremium, countyPremiums, premiumSource } from '#rules/places/county-premiums.ts'
import { stateNames } from '#rules/places/state-names.ts'
import type { Plan } from '../plan.ts'

/** `ownYears`: what to add to the growth that the plan expects of a year, from the lowest on, their mean 0; null where the spread is drawn. */
export interface PremiumDraws {
  spread: number
  ownYears: Float64Array | null
}

/** Of fewer, one odd year would be a third of all that are drawn. */
const fewestChanges = 4

/** `history` from the oldest year on, as `countyPremiums` gives it. */
export const premiumDraws = (
  { premiums, premiumSpread }: Plan['chance'],
  history: readonly CountyPremium[],
): PremiumDraws => {
  const changes = yearlyChanges(history)
  if (premiums === 'stated' || changes.length < fewestChanges)
    return { spread: premiumSpread, ownYears: null }
  const mean = meanOf(changes)
  return { spread: premiumSpread, ownYears: Float64Array.from(changes, (each) => each - mean).sort() }
}

export const premiumHistory = (place: Plan['household']['place']): CountyPremium[] =>
  countyPremiums('benchmark', place)

export const hasOwnYears = (history: readonly CountyPremium[]): boolean =>
  yearlyChanges(history).length >= fewestChanges

/** Growth from one published year to the next; over a year without a premium nothing is known. */
const yearlyChanges = (history: readonly CountyPremium[]): number[] =>
  history.slice(1).flatMap(({ year, at21 }, k) => {
    const before = history[k]!
    return year === before.year + 1 ? [at21 / before.at21 - 1] : []
  })

const meanOf = (values: readonly number[]): number =>
  values.reduce((sum, each) => sum + each, 0) / values.length

/** Null where the plan does not ask for its county's own years. */
export const ownYearsWords = (plan: Plan): string | null =>
  plan.chance.premiums === 'county' ? premiumWords(plan).says : null

interface PremiumWords {
  says: string
  /** Where the county's premiums are published; null where none are used or compared with. */
  source: string | null
}

/** What a plan's drawn courses do with premiums, and what is done where its county has too few years. */
export const premiumWords = (
  { chance, household }: Plan,
  history: readonly CountyPremium[] = premiumHistory(household.place),
): PremiumWords => {
  const spread = formatPercent(chance.premiumSpread)
  const source = history.length === 0 ? null : premiumSource('benchmark')
  const isKnown = hasOwnYears(history)
  if (chance.premiums === 'county' && isKnown) {
    const says = `Premiums vary as in the county’s own years. From ${historyWords(household.place, history)} Medicare’s premiums, which no county sets, vary by the typed spread of ${spread}.`
    return { says, source }
  }
  if (chance.premiums === 'county')
    return {
      says: `The plan asks for the county’s own years of premiums, but ${whyNot(household.place, history)}. The typed spread of ${spread} is used instead.`,
      source,
    }
  const compared = isKnown ? ` To compare: from ${historyWords(household.place, history)}` : ''
  return { says: `Premiums vary by the typed spread of ${spread} a year.${compared}`, source }
}

const historyWords = (place: Plan['household']['place'], history: readonly CountyPremium[]): string => {
  const changes = yearlyChanges(history)
  const mean = meanOf(changes)
  const spread = Math.sqrt(meanOf(changes.map((each) => (each - mean) ** 2)))
  const percent = (value: number) => formatPercent(value, 1)
  return `${history[0]!.year} to ${history.at(-1)!.year} the benchmark premium of ${nameOf(place)} changed ${changes.length} times from one year to the next, by ${percent(Math.min(...changes))} to ${percent(Math.max(...changes))}, on average ${percent(mean)}, with a spread of ${percent(spread)}.`
}

const whyNot = (place: Plan['household']['place'], history: readonly CountyPremium[]): string => {
  if (place.state === undefined || place.county === undefined) return 'it names no county'
  const known = yearlyChanges(history).length
  return `of ${nameOf(place)} ${known === 0 ? 'no yearly change is' : known === 1 ? 'one yearly change is' : `${known} yearly changes are`} known, and ${fewestChanges} are needed`
}

const nameOf = ({ state, county }: Plan['household']['place']): string =>
  [county, state && stateNames[state]].filter(Boolean).join(', ')
