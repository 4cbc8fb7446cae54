// What must come out of a retirement account inherited from somebody, year by year: all within ten years, or over a life.
import { type Month, yearOf } from '#calendar/month.ts'
import { inheritedRules, singleLifeExpectancy } from './data/inherited-accounts.ts'
import { inForce } from './in-force.ts'
import { distributionStartAge } from './required-distributions.ts'

/**
 * tenYears: a child, grandchild, friend or any other heir, for deaths from 2020 on. lifetime: who may spread it over the own life
 * expectancy: not more than ten years younger than the one who died, disabled or chronically ill, or any heir of an earlier death.
 * spouse: the widow or widower who keeps it as an heir; one who made it the own account has no inherited one.
 */
export const heirKinds = ['tenYears', 'lifetime', 'spouse'] as const
export type HeirKind = (typeof heirKinds)[number]

export interface InheritedAccount {
  heir: HeirKind
  /** Month of the owner's death. */
  diedIn: Month
  /** The owner's year of birth; null where nobody knows: then yearly minimums are taken to have begun. */
  ownerBorn: number | null
  /** A Roth account's owner has no required distributions, so none have begun (26 CFR 1.408A-6, Q&A-14(b)). */
  isRoth: boolean
  heirBorn: number
}

const rules = inForce(inheritedRules, Number.POSITIVE_INFINITY)
const expectancies = inForce(singleLifeExpectancy, Number.POSITIVE_INFINITY)

/** Years left to who reaches an age, by the Single Life Table; a year at least. */
const yearsLeft = (age: number): number => Math.max(1, expectancies[Math.max(0, Math.min(120, age))]!)

/** The year by whose end all must be out; null where the law spreads it over a life (26 USC 401(a)(9)(B)(ii), (H)(i)). */
export const emptyBy = ({ heir, diedIn }: InheritedAccount): number | null =>
  heir === 'tenYears' ? yearOf(diedIn) + rules.years! : null

/** The year by whose end all must be out after the death of an heir who spread it over the own life (26 USC 401(a)(9)(H)(iii)). */
export const emptyAfterHeir = (yearOfDeath: number): number => yearOfDeath + rules.years!

/**
 * The part of the balance of December 31 before that must come out in `year`, 0 to 1, while the heir lives (26 USC 401(a)(9)(B), (H);
 * Treas. Reg. 1.401(a)(9)-3, -5(d), (e)). A spouse's is by the Single Life Table, though sec. 327 of P.L. 117-328 lets some take less.
 */
export const inheritedPart = (account: InheritedAccount, year: number): number => {
  const { heir, diedIn, ownerBorn, heirBorn } = account
  const since = year - yearOf(diedIn)
  if (since < 1) return 0
  const last = emptyBy(account)
  if (last !== null && year >= last) return 1
  const hadBegun = ownerHadBegun(account)
  if (heir === 'tenYears' && (!hadBegun || year < rules.minimumsFrom!)) return 0
  if (heir === 'spouse')
    return hadBegun || ownerBorn === null || year >= ownerBorn + distributionStartAge(ownerBorn)
      ? 1 / yearsLeft(year - heirBorn)
      : 0
  // Each year is one less than the year before; the longer of both lives counts where the owner's payments had begun.
  const heirs = yearsLeft(yearOf(diedIn) + 1 - heirBorn) - (since - 1)
  const owners =
    hadBegun && ownerBorn !== null ? yearsLeft(yearOf(diedIn) - ownerBorn) - since : Number.NEGATIVE_INFINITY
  return 1 / Math.max(1, heirs, owners)
}

/** Died on or after April 1 of the year after that of the starting age (26 USC 401(a)(9)(C)). */
const ownerHadBegun = ({ isRoth, diedIn, ownerBorn }: InheritedAccount): boolean => {
  if (isRoth) return false
  if (ownerBorn === null) return true
  const firstYear = ownerBorn + distributionStartAge(ownerBorn)
  return diedIn >= (firstYear + 1) * 12 + 3
}

/** Deaths before it go by older law: life expectancy, no ten years. */
export const tenYearsFromDeathsIn = rules.deathsFrom!
