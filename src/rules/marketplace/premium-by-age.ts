// Marketplace premiums by age from one known premium: the age curve of the state, and the family rule (45 CFR 147.102).
import { federalAgeCurve, ratedChildren } from '../data/age-curve.ts'
import { childFactor, familyTiers, stateAgeCurves } from '../data/state-age-curves.ts'
import { inForce } from '../in-force.ts'
import { wholeCents } from '../rounding.ts'

/** Which curve a state uses: the federal one, it with another child factor, its own, or none (family tiers). */
export type AgeRating = 'federal' | 'federal but children' | 'own' | 'none'

export const ageRating = (state: string, year: number): AgeRating => {
  if (state in inForce(familyTiers, year)) return 'none'
  if (state in inForce(stateAgeCurves, year)) return 'own'
  return state in inForce(childFactor, year) ? 'federal but children' : 'federal'
}

/** Factor of an age on the state's base premium; `null` in a state that rates no age. `state`: two letters, or '' for the federal curve. */
export const ageFactor = (state: string, age: number, year: number): number | null => {
  if (state in inForce(familyTiers, year)) return null
  const own = inForce(stateAgeCurves, year)[state]
  if (own) return own.factor[own.from.findLastIndex((from) => from <= age)]!
  const child = inForce(childFactor, year)[state]
  if (child !== undefined && age < adultAge) return child
  const curve = inForce(federalAgeCurve, year)
  return curve[Math.min(age, curve.length - 1)]!
}

/** Dollars a month at `age`, to the cent, from a known premium of the same plan at another age. */
export const premiumAtAge = (
  known: { premiumMonthly: number; age: number },
  age: number,
  state: string,
  year: number,
): number => {
  const [to, from] = [ageFactor(state, age, year), ageFactor(state, known.age, year)]
  if (to === null || from === null) return known.premiumMonthly
  return wholeCents((known.premiumMonthly * to) / from) / 100
}

export interface FamilyPremium {
  /** Dollars a month of each covered person, in the order asked; 0 for children beyond the three oldest. */
  perPerson: number[]
  total: number
}

/**
 * Premium of a family by the age of each covered person at the start of the policy year. All people of 21 and over count;
 * of those under 21 only the three oldest. In New York and Vermont the family tier counts instead, and the whole premium
 * stands under the first person.
 */
export const familyPremium = (
  known: { premiumMonthly: number; age: number },
  ages: readonly number[],
  state: string,
  year: number,
): FamilyPremium => {
  const tiers = inForce(familyTiers, year)[state]
  if (tiers) return tierPremium(known.premiumMonthly, ages, tiers)
  const counted = countedPeople(ages)
  const perPerson = ages.map((age, place) => (counted.has(place) ? premiumAtAge(known, age, state, year) : 0))
  return { perPerson, total: wholeCents(perPerson.reduce((sum, premium) => sum + premium, 0)) / 100 }
}

/** Places of the people whose rates are added up. */
export const countedPeople = (ages: readonly number[]): Set<number> => {
  const young = ages
    .map((age, place) => ({ age, place }))
    .filter(({ age }) => age < adultAge)
    .sort((a, b) => b.age - a.age || a.place - b.place)
  const beyond = new Set(young.slice(ratedChildren).map(({ place }) => place))
  return new Set(ages.map((_, place) => place).filter((place) => !beyond.has(place)))
}

const adultAge = 21

const tierPremium = (
  oneAdult: number,
  ages: readonly number[],
  tiers: Readonly<Record<string, number>>,
): FamilyPremium => {
  const adults = ages.filter((age) => age >= adultAge).length
  const children = ages.length > adults
  const total = wholeCents(oneAdult * tierFactor(adults, children, ages.length, tiers)) / 100
  return { perPerson: ages.map((_, place) => (place === 0 ? total : 0)), total }
}

/** Grown children on the plan beyond two adults are rated as single adults of their own. */
const tierFactor = (
  adults: number,
  children: boolean,
  people: number,
  tiers: Readonly<Record<string, number>>,
): number => {
  if (people === 0) return 0
  if (adults === 0) return tiers.childOnly ?? 1
  const further = Math.max(0, adults - 2)
  if (adults === 1) return children ? tiers.oneAdultWithChildren! : tiers.oneAdult!
  return (children ? tiers.twoAdultsWithChildren! : tiers.twoAdults!) + further
}
