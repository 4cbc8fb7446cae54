// Marketplace cover over household income: each program that ends on the way up leaves more people on the marketplace.
import { type CoverByMonth, type HouseholdYear, householdSize } from '../household-year.ts'
import type { LawYear } from '../law-year.ts'
import { programPovertyLine } from '../marketplace/premium-credit.ts'
import type { CoverageKind } from './coverage-kinds.ts'

export interface CoverageStep {
  /** Household income up to which it holds, in percent of the level by which Medicaid measures the household; `Infinity` for the last. */
  toPercent: number
  /** The program's own limit that ends it, and the people of its poverty level; null for the last. */
  limit: CoverageLimit | null
  /** Months with anyone on the marketplace, and dollars a month on average over them. */
  coverMonths: number
  premiumMonthly: number
  benchmarkMonthly: number
  /** Of the months those still to come: what is behind stays as it was at any income. */
  monthsAhead: number
  /** Dollars a month of these, before any credit. */
  premiumAhead: number
  /** Each month's premium and benchmark where the months differ; null where they are alike. */
  byMonth: CoverByMonth | null
  /** Who is covered by what; empty where nothing but the adults' Medicaid line is known. */
  people: readonly CoveredBy[]
}

export interface CoverageLimit {
  percent: number
  people: number
  /** Goes by the poverty level of the year before, as the credit does. */
  byCreditLine: boolean
  /** Of the months ahead of a year that has begun: the year's income at it holds what is behind too, and is no such percent itself. */
  ofMonths: boolean
}

/** What covers someone first in the year, and each later change with its month, 1 to 12; `kinds` by month of the plan's part of it. */
export interface CoveredBy {
  name: string
  kind: CoverageKind
  later: readonly { month: number; kind: CoverageKind }[]
  kinds: readonly CoverageKind[]
}

/** Nobody on the marketplace at any income: what a household's income is without premiums. */
export const lastStepWithout: CoverageStep = {
  toPercent: Number.POSITIVE_INFINITY,
  limit: null,
  coverMonths: 0,
  monthsAhead: 0,
  premiumAhead: 0,
  premiumMonthly: 0,
  benchmarkMonthly: 0,
  byMonth: null,
  people: [],
}

/** Whether what the marketplace charges is known, for those whom it covers at the highest income. */
export const knowsPremiums = (steps: readonly CoverageStep[]): boolean => {
  const { coverMonths, premiumMonthly, benchmarkMonthly } = steps.at(-1)!
  return coverMonths > 0 && (premiumMonthly > 0 || benchmarkMonthly > 0)
}

/** Of a household of which only its own cover and whether its state covers adults are known. */
export const stepsOf = (law: LawYear, household: HouseholdYear): CoverageStep[] => {
  const { coverMonths, premiumMonthly, benchmarkMonthly } = household
  const last = {
    toPercent: Number.POSITIVE_INFINITY,
    limit: null,
    coverMonths,
    premiumMonthly,
    benchmarkMonthly,
    monthsAhead: coverMonths,
    premiumAhead: premiumMonthly,
    byMonth: household.coverByMonth,
    people: [],
  }
  if (household.medicaidExpansion !== 1 || coverMonths === 0) return [last]
  const percent = law.medicaidPercent
  const limit = { percent, people: householdSize(household), byCreditLine: false, ofMonths: false }
  return [{ ...last, toPercent: percent, limit, coverMonths: 0, monthsAhead: 0, byMonth: null }, last]
}

/** Income in cents up to which a step holds, by the guidelines of the year itself; no limit for the last. */
export const stepLineCents = (law: LawYear, household: HouseholdYear, { toPercent }: CoverageStep): number =>
  Number.isFinite(toPercent)
    ? Math.floor(programPovertyLine(law, household.region, householdSize(household)) * toPercent)
    : Number.POSITIVE_INFINITY

/** What ends where a step ends: who passes from which kind of coverage to which, in the first month in which they differ. */
export const movesBetween = (
  from: CoverageStep,
  to: CoverageStep,
): { name: string; from: CoverageKind; to: CoverageKind }[] =>
  from.people.flatMap(({ name, kinds }, i) => {
    const next = to.people[i]?.kinds ?? kinds
    const at = kinds.findIndex((kind, k) => kind !== next[k])
    return at < 0 ? [] : [{ name, from: kinds[at]!, to: next[at]! }]
  })
