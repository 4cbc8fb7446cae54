// Marketplace premiums by age from one known premium: the age curve of the state, and the family rule (45 CFR 147.102).
import { month } from '#calendar/month.ts'
import { federalAgeCurve, ratedChildren } from '../data/age-curve.ts'
import { childFactor, familyTiers, stateAgeCurves, tierChildBelow } from '../data/state-age-curves.ts'
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

/** A covered person: age in whole years at the start of the policy year, and whether they are someone’s dependent. */
export interface Rated {
  age: number
  isDependent: boolean
}

/** States and the District whose premiums do not follow the federal curve, by their two letters. */
export const placesOfTheirOwn: readonly string[] = [childFactor, stateAgeCurves, familyTiers]
  .flatMap((fact) => Object.keys(fact.values[2018]!))
  .sort()

/** How a family is put together from its members’ own factors, as plain numbers for a loop. Members stand oldest first. */
export interface FamilyRating {
  /** What children add to none, one, and two adults or more where the family is rated; null where ages are. */
  childrenAdd: readonly number[] | null
}

/**
 * The age that a year’s premiums follow: whole years as the policy is issued or renewed (45 CFR 147.102(a)(1)(iii)), so on January 1 or,
 * where cover begins within the year, in its first month; 0 before. `bornMonth` and `begins`: calendar months.
 */
export const ratedAge = (bornMonth: number, year: number, begins: number = month(year, 1)): number =>
  Math.max(0, Math.floor((Math.max(begins, month(year, 1)) - bornMonth) / 12))

/** `place`: two letters of a state, or `federal`. Factors over the premium of one adult (45 CFR 147.102(c)(2)). */
export const familyRating = (place: string, year: number): FamilyRating => {
  const tiers = inForce(familyTiers, year)[place]
  if (!tiers) return { childrenAdd: null }
  const add = (adults: number) =>
    tierFactor(adults, true, tiers) - (adults > 0 ? tierFactor(adults, false, tiers) : 0)
  return { childrenAdd: [add(0), add(1), add(2)] }
}

/** A member’s factor by itself, and whether it counts among the children. */
export const ownFactor = (
  place: string,
  { age, isDependent }: Rated,
  year: number,
): { factor: number; isChild: boolean } => {
  if (place in inForce(familyTiers, year))
    return { factor: 1, isChild: isDependent && age < inForce(tierChildBelow, year) }
  return {
    factor: ageFactor(place, age, year)! / ageFactor(place, adultAge, year)!,
    isChild: isDependent && age < adultAge,
  }
}

/**
 * Writes what each member who is covered adds and returns their sum: of children only the three oldest count; where the family
 * is rated, what all children add stands under the first of them.
 */
export const countFamily = (
  { childrenAdd }: FamilyRating,
  factor: ArrayLike<number>,
  isChild: ArrayLike<number>,
  isCovered: ArrayLike<number>,
  out: Float64Array,
): number => {
  let adults = 0
  let children = 0
  let total = 0
  if (childrenAdd !== null)
    for (let i = 0; i < out.length; i += 1) if (isCovered[i] === 1 && isChild[i] === 0) adults += 1
  for (let i = 0; i < out.length; i += 1) {
    let adds = 0
    if (isCovered[i] === 1 && isChild[i] === 0) adds = factor[i]!
    else if (isCovered[i] === 1) {
      if (childrenAdd === null) adds = children < ratedChildren ? factor[i]! : 0
      else adds = children === 0 ? childrenAdd[Math.min(2, adults)]! : 0
      children += 1
    }
    out[i] = adds
    total += adds
  }
  return total
}

/**
 * Each covered person’s factor on the premium of one adult of 21 in the same place, in the order asked. `place`: two letters; any
 * other text is the federal curve.
 */
export const memberFactors = (place: string, members: readonly Rated[], year: number): number[] => {
  const oldestFirst = members
    .map((_, index) => index)
    .sort((a, b) => members[b]!.age - members[a]!.age || a - b)
  const own = oldestFirst.map((index) => ownFactor(place, members[index]!, year))
  const out = new Float64Array(members.length)
  countFamily(
    familyRating(place, year),
    own.map(({ factor }) => factor),
    own.map(({ isChild }) => (isChild ? 1 : 0)),
    own.map(() => 1),
    out,
  )
  const factors = members.map(() => 0)
  oldestFirst.forEach((index, rank) => {
    factors[index] = out[rank]!
  })
  return factors
}

export interface FamilyPremium {
  /** Dollars a month of each covered person, in the order asked; 0 for children beyond the three oldest. */
  perPerson: number[]
  total: number
}

/**
 * Premium of a family by each covered person at the start of the policy year. All of 21 and over count; of dependents under
 * 21 only the three oldest. In New York and Vermont the family tier counts instead, and the whole premium stands under the
 * first person.
 */
export const familyPremium = (
  known: { premiumMonthly: number; age: number },
  people: readonly Rated[],
  state: string,
  year: number,
): FamilyPremium => {
  const factors = memberFactors(state, people, year)
  if (ageRating(state, year) === 'none') {
    const total = wholeCents(known.premiumMonthly * factors.reduce((sum, factor) => sum + factor, 0)) / 100
    return { perPerson: people.map((_, index) => (index === 0 ? total : 0)), total }
  }
  const perPerson = people.map(({ age }, index) =>
    factors[index] === 0 ? 0 : premiumAtAge(known, age, state, year),
  )
  return { perPerson, total: wholeCents(perPerson.reduce((sum, premium) => sum + premium, 0)) / 100 }
}

const adultAge = 21

/** Adults beyond two are rated as single adults of their own. */
const tierFactor = (adults: number, children: boolean, tiers: Readonly<Record<string, number>>): number => {
  if (adults === 0) return tiers.childOnly ?? 1
  const further = Math.max(0, adults - 2)
  if (adults === 1) return children ? tiers.oneAdultWithChildren! : tiers.oneAdult!
  return (children ? tiers.twoAdultsWithChildren! : tiers.twoAdults!) + further
}
