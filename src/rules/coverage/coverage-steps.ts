// Marketplace cover over household income: each program that ends on the way up leaves more people on the marketplace.
import { type HouseholdYear, householdSize } from '../household-year.ts'
import type { LawYear } from '../law-year.ts'
import { programPovertyLine } from '../marketplace/premium-credit.ts'
import type { CoverageKind } from './coverage-kinds.ts'

export interface CoverageStep {
  /** Household income up to which it holds, in percent of the level by which programs measure; `Infinity` for the last. */
  toPercent: number
  /** Months with anyone on the marketplace, and dollars a month on average over them. */
  coverMonths: number
  premiumMonthly: number
  benchmarkMonthly: number
  /** Who is covered by what; empty where nothing but the adults' Medicaid line is known. */
  people: readonly { name: string; kind: CoverageKind }[]
}

/** Of a household of which only its own cover and whether its state covers adults are known. */
export const stepsOf = (law: LawYear, household: HouseholdYear): CoverageStep[] => {
  const { coverMonths, premiumMonthly, benchmarkMonthly } = household
  const last = {
    toPercent: Number.POSITIVE_INFINITY,
    coverMonths,
    premiumMonthly,
    benchmarkMonthly,
    people: [],
  }
  return household.medicaidExpansion === 1 && coverMonths > 0
    ? [{ ...last, toPercent: law.medicaidPercent, coverMonths: 0 }, last]
    : [last]
}

/** Income in cents up to which a step holds, by the guidelines of the year itself; no limit for the last. */
export const stepLineCents = (law: LawYear, household: HouseholdYear, { toPercent }: CoverageStep): number =>
  Number.isFinite(toPercent)
    ? Math.floor(programPovertyLine(law, household.region, householdSize(household)) * toPercent)
    : Number.POSITIVE_INFINITY

/** What ends where a step ends: who passes from which kind of coverage to which. */
export const movesBetween = (
  from: CoverageStep,
  to: CoverageStep,
): { name: string; from: CoverageKind; to: CoverageKind }[] =>
  from.people.flatMap(({ name, kind }, i) => {
    const next = to.people[i]?.kind ?? kind
    return next === kind ? [] : [{ name, from: kind, to: next }]
  })
