// What covered whom in the months of the year that are over: as the plan lists it, or by the program that took the person then.
import { type Month, month, parseMonth } from '#calendar/month.ts'
import type { Plan } from '#plan/plan.ts'
import { type CoverageKind, coverageKinds, statePrograms } from '#rules/coverage/coverage-kinds.ts'
import type { CompiledCoverage } from '#runway/compile/compiled-coverage.ts'
import { kindAt } from '#runway/coverage/kind-at.ts'
import type { Projection } from '#runway/project.ts'
import type { RunwayRules } from '#runway/runway-rules.ts'
import type { Span } from '#runway/span.ts'
import { measuredBy, nothingBehind, percentOfLevel } from './measured-by.ts'

/** Months of the year under way that the plan had already run when it was continued from the books: covered as it lists them. */
export const monthsBefore = ({ startMonth }: Plan, run: Span): number =>
  Math.max(0, run.firstMonth - Math.max(parseMonth(startMonth)!, month(run.firstYear, 1)))

interface Before {
  coverage: CompiledCoverage
  span: Span
  rules: RunwayRules
  projection: Projection
  incomeIn: (month: Month) => number | null
}

/**
 * The program that covers a member now, in a month before: null where that month's own income was beyond its line, as Medicaid and the
 * children's program go by the month (42 CFR 435.603(h)(1), 457.315(a)).
 */
export const programBefore = (
  plan: Plan,
  { coverage, span, rules, projection, incomeIn }: Before,
  member: number,
  m: number,
): CoverageKind | null => {
  const now = projection.coverage[member]!.months[0]
  if (now === undefined || !statePrograms.has(now)) return null
  const income = incomeIn((span.firstMonth + m) as Month)
  const year = projection.years[0]
  if (income === null || year === undefined || year.year < rules.firstYear) return now
  const law = rules.lawFor(year.year)
  const { measure } = measuredBy(plan, rules, year, nothingBehind)
  const percentOf = (dollars: number) => percentOfLevel(plan, law, year, dollars)
  const cell = member * span.months + m
  const took = kindAt(coverage, cell, 0, percentOf(income), percentOf(year.householdIncome), measure)
  return coverageKinds[took] === now ? now : null
}

/**
 * As listed, or by the program that covers the person now and did so in the month; the months of the marketplace that the year had are the last ones, with
 * everyone who is listed for it: their premiums are counted so.
 */
export const kindsBefore = (
  listed: ArrayLike<number>,
  lead: number,
  onMarketplace: number,
  programIn: (m: number) => CoverageKind | null,
): CoverageKind[] =>
  Array.from({ length: lead }, (_, m) => {
    const kind = coverageKinds[listed[m]!]!
    if (kind === 'marketplace' && m >= lead - onMarketplace) return kind
    if (kind !== 'marketplace' && kind !== 'none') return kind
    return programIn(m) ?? (kind === 'none' ? 'not known' : kind)
  })
