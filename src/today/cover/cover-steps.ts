// A year's marketplace cover over household income: at each line of a program more people pass to the marketplace, with the premiums
// that these then cost.
import { absent, type CoverageKind, coverageKinds, marketplace } from '#rules/coverage/coverage-kinds.ts'
import type { CoverageStep } from '#rules/coverage/coverage-steps.ts'
import { countFamily } from '#rules/marketplace/premium-by-age.ts'
import type { CompiledCoverage } from '#runway/compile/compiled-coverage.ts'
import { kindAt } from '#runway/coverage/kind-at.ts'

/** Months of the projection that lie in the year, `to` not included. */
export interface YearMonths {
  y: number
  from: number
  to: number
  /** Months of the whole projection: the rows of `coverage` are that long. */
  months: number
  /** What one more person adds to the poverty line of the year's household, as a part of it. */
  perChild: number
}

/** `isThere`: whether a member lives in a month. `level`: the year's premiums over the plan's first ones. */
export const coverageSteps = (
  coverage: CompiledCoverage,
  year: YearMonths,
  level: number,
  isThere: (member: number, m: number) => boolean,
): CoverageStep[] => {
  const limits = coverage.limits[year.y] ?? null
  const percents = limits === null ? [] : Object.values(limits).filter((percent) => percent > 0)
  const lines = [
    ...new Set(factorsOf(coverage, year).flatMap((factor) => percents.map((one) => one * factor))),
  ].sort((a, b) => a - b)
  const steps = [...lines, Number.POSITIVE_INFINITY].map((toPercent) =>
    stepTo(coverage, year, level, isThere, toPercent),
  )
  return steps.filter((step, k) => k === steps.length - 1 || !isAlike(step, steps[k + 1]!))
}

/** How far the lines of members lie above the household's own: by the children not yet born who count for them. */
const factorsOf = (
  { unborn, members }: CompiledCoverage,
  { from, to, months, perChild }: YearMonths,
): number[] => {
  const counts = members.flatMap((_, i) => [...unborn.subarray(i * months + from, i * months + to)])
  return [...new Set([0, ...counts])].map((count) => 1 + count * perChild)
}

const isAlike = (a: CoverageStep, b: CoverageStep): boolean =>
  a.coverMonths === b.coverMonths &&
  a.premiumMonthly === b.premiumMonthly &&
  a.people.every(({ kind }, i) => kind === b.people[i]!.kind)

const stepTo = (
  coverage: CompiledCoverage,
  year: YearMonths,
  level: number,
  isThere: (member: number, m: number) => boolean,
  toPercent: number,
): CoverageStep => {
  const { y, months, perChild } = year
  const kindOf = (i: number, m: number) =>
    isThere(i, m) ? kindAt(coverage, i * months + m, y, toPercent, perChild) : absent
  const { coverMonths, premiumMonthly, benchmarkMonthly } = premiumsOf(
    coverage,
    year,
    level,
    (i, m) => kindOf(i, m) === marketplace,
  )
  return {
    // As the run measures a first year that is part of one.
    toPercent: toPercent / (y === 0 ? coverage.firstYearScale : 1),
    coverMonths,
    premiumMonthly: toCent(premiumMonthly),
    benchmarkMonthly: toCent(benchmarkMonthly),
    people: coverage.members.map(({ name }, i) => ({ name, kind: firstKind(year, (m) => kindOf(i, m)) })),
  }
}

const firstKind = ({ from, to }: YearMonths, kindIn: (m: number) => number): CoverageKind => {
  for (let m = from; m < to; m += 1) {
    const kind = coverageKinds[kindIn(m)]!
    if (kind !== 'absent') return kind
  }
  return 'absent'
}

/** Dollars of the year, on average over the months with anyone on the marketplace; and each member's part of the premium. */
export interface YearPremiums {
  coverMonths: number
  premiumMonthly: number
  benchmarkMonthly: number
  byMember: number[]
}

/** What the marketplace charges in a year for whoever is on it. `level`: the year's premiums over the plan's first ones. */
export const premiumsOf = (
  coverage: CompiledCoverage,
  { y, from, to }: Omit<YearMonths, 'perChild'>,
  level: number,
  isOn: (member: number, m: number) => boolean,
): YearPremiums => {
  const adds = new Float64Array(coverage.members.length)
  const byMember = coverage.members.map(() => 0)
  let factors = 0
  let coverMonths = 0
  for (let m = from; m < to; m += 1) {
    const on = coverage.members.map((_, i) => (isOn(i, m) ? 1 : 0))
    const factor = countFamily(coverage.rating, coverage.factor[y]!, coverage.isRatedChild[y]!, on, adds)
    if (factor > 0) coverMonths += 1
    factors += factor
    for (let i = 0; i < byMember.length; i += 1) byMember[i]! += on[i] === 1 ? adds[i]! : 0
  }
  const mean = (sum: number) => (coverMonths > 0 ? (sum / coverMonths) * level : 0)
  return {
    coverMonths,
    premiumMonthly: coverage.planAt21[y]! * mean(factors),
    benchmarkMonthly: coverage.benchmarkAt21[y]! * mean(factors),
    byMember: byMember.map((sum) => coverage.planAt21[y]! * mean(sum)),
  }
}

const toCent = (dollars: number): number => Math.round(dollars * 100) / 100
