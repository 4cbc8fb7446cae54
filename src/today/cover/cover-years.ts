// Who is covered by what in each year of a plan, read off the projection, and what the marketplace charges them.
import { day, monthOfDay } from '#calendar/day.ts'
import {
  addMonths,
  type Month,
  month,
  monthName,
  monthNames,
  monthOfYear,
  parseMonth,
  yearOf,
} from '#calendar/month.ts'
import { isGone } from '#plan/life/lived.ts'
import { issuedIn } from '#plan/place/issued-in.ts'
import type { Plan } from '#plan/plan.ts'
import { medicareStart } from '#rules/age-by-law.ts'
import { type CoverageKind, statePrograms } from '#rules/coverage/coverage-kinds.ts'
import type { CoverageStep } from '#rules/coverage/coverage-steps.ts'
import type { LawYear } from '#rules/law.ts'
import { ratedAge } from '#rules/marketplace/premium-by-age.ts'
import { planSpan, premiumLevel } from '#runway/compile/compile.ts'
import { compileCoverage } from '#runway/compile/compile-coverage.ts'
import type { CompiledCoverage } from '#runway/compile/compiled-coverage.ts'
import type { MemberCoverage, ProjectedMonth, ProjectedYear, Projection } from '#runway/project.ts'
import type { RunwayRules } from '#runway/runway-rules.ts'
import { isIn, isInSeason, type Span } from '#runway/span.ts'
import { noCoverYet } from '#today/projection/cover-so-far.ts'
import { coverageSteps, premiumsOf, type WholeYear, wholeYear, type YearMonths } from './cover-steps.ts'
import type { CoverSpan, CoverYear, MonthsPaid, YearPart } from './cover-year.ts'
import { type BeyondJanuary, foundInJanuary, movedBy } from './found-in-january.ts'
import { measuredBy, nothingBehind, percentOfLevel } from './measured-by.ts'
import { kindsBefore, monthsBefore, programBefore } from './months-behind.ts'

/** `incomeIn`: what a month that is over brought, dollars as of a whole year of such months; null where that is not known. */
export const coverYears = (
  plan: Plan,
  rules: RunwayRules,
  projection: Projection,
  incomeIn: (month: Month) => number | null = () => null,
): CoverYear[] => {
  const run = planSpan(plan)
  const lead = monthsBefore(plan, run)
  const span: Span = { ...run, firstMonth: (run.firstMonth - lead) as Month, months: run.months + lead }
  const coverage = compileCoverage(plan, rules, span, premiumLevel(plan))
  const members = projection.coverage.map((member, i) => ({
    ...member,
    months: [
      ...kindsBefore(coverage.listed.subarray(i * span.months), lead, plan.tax.soFar.marketplaceMonths, (m) =>
        programBefore(plan, { coverage, span, rules, projection, incomeIn }, i, m),
      ).map((kind, m) => (isGone(plan, member.id, span.firstMonth + m) ? 'absent' : kind)),
      ...member.months,
    ],
  }))
  return projection.years.map((projected) => {
    const january = month(projected.year, 1) - span.firstMonth
    const from = Math.max(0, january)
    const to = Math.min(january + 12, projection.months.length + lead)
    const y = projected.year - span.firstYear
    const rows = projection.months.slice(Math.max(0, from - lead), to - lead)
    const before = y === 0 ? plan.tax.soFar : noCoverYet
    const behind = y === 0 ? projection : nothingBehind
    const law = projected.year < rules.firstYear ? null : rules.lawFor(projected.year)
    return yearOfCover(plan, law, { firstMonth: span.firstMonth, coverage, members, rows }, projected, {
      y,
      from,
      to,
      months: span.months,
      firstSeason: (span.firstMonth + from) % 12,
      ...measuredBy(plan, rules, projected, behind),
      premiumsAdded: behind.premiumsAdded,
      behind: {
        until: to - rows.length,
        cover: {
          months: before.marketplaceMonths,
          premiums: before.marketplacePremiums,
          benchmarks: before.marketplaceBenchmark,
        },
        paid: {
          months: before.marketplaceMonths,
          charged: before.marketplacePremiums,
          advance: before.advanceCredit,
        },
        kindOf: (i, m) => members[i]!.months[m]!,
      },
    })
  })
}

interface Read {
  /** The month that `coverage` begins with. */
  firstMonth: Month
  coverage: CompiledCoverage
  /** Months from the first of `coverage` on. */
  members: readonly MemberCoverage[]
  /** The projection's months of the year. */
  rows: readonly ProjectedMonth[]
}

const yearOfCover = (
  plan: Plan,
  law: LawYear | null,
  { firstMonth, coverage, members, rows }: Read,
  projected: ProjectedYear,
  months: YearMonths & { premiumsAdded: number },
): CoverYear => {
  const { from, to, premiumsAdded } = months
  const level = premiumLevel(plan)(projected.year)
  const isOn = (i: number, m: number) => members[i]!.months[m] === 'marketplace'
  const charged = premiumsOf(coverage, months, level, isOn)
  const all = wholeYear(coverage, months, level, isOn)
  const cover = {
    year: projected.year,
    people: members.flatMap((member, i) => {
      const cover = coverSpans(member.months.slice(from, to), months.firstSeason + 1)
      return cover.length === 0
        ? []
        : [
            {
              id: member.id,
              name: member.name,
              isChild: member.isChild,
              age: ratedIn(plan, member.id, projected.year),
              turns: projected.year - yearOf(bornIn(plan, member.id)),
              cover,
              premiumMonthly: charged.byMember[i]!,
            },
          ]
    }),
    marketplaceMonths: all.coverMonths,
    premiumMonthly: all.premiumMonthly,
    benchmarkMonthly: all.benchmarkMonthly,
    byMonth: all.byMonth,
    marketplaceMonthsRun: all.monthsAhead,
    byProgram: members.some(({ months: kinds }) =>
      kinds.slice(from, to).some((kind) => statePrograms.has(kind)),
    ),
    monthsRun: rows.length,
    part: partOf((firstMonth + from) as Month, to - from),
    premiumsPaid: rows.reduce((sum, row) => sum + row.premiums, 0),
    paidIn: { over: months.behind.paid, ahead: paidAhead(all, rows) },
    goesOnFrom:
      rows.length > 0 && rows.length < to - from ? monthName((firstMonth + to - rows.length) as Month) : null,
    runFrom: monthOfYear((firstMonth + to - rows.length) as Month),
    amongLivingCosts: livingPremiums(plan, rows),
    projected,
  }
  const isThere = (i: number, m: number) => members[i]!.months[m] !== 'absent'
  const stepsAt = (beyond: BeyondJanuary | null) => {
    const percentOf = (dollars: number) => percentOfLevel(plan, law, projected, dollars)
    return coverageSteps(coverage, movedBy(months, beyond, percentOf), level, isThere)
  }
  if (law === null) return { ...cover, steps: stepsAt(null), expectedIncome: null }
  const isAsRun = ({ people }: CoverageStep) =>
    people.every(({ kinds }, i) => kinds.every((kind, k) => kind === members[i]!.months[from + k]))
  const scale = months.y === 0 ? coverage.firstYearScale : 1
  const found = foundInJanuary({ plan, law, cover, premiumsAdded, scale, stepsAt, isAsRun })
  return { ...cover, steps: found.steps, expectedIncome: found.expected }
}

const partOf = (first: Month, months: number): YearPart | null =>
  months === 12
    ? null
    : {
        months,
        says: `for ${monthsInYear(first, months)}`,
      }

/** Months of a year that lie before the plan, where it tells nothing of them; null where it does, or there are none. */
export const untoldMonths = (plan: Plan, year: number): string | null => {
  const { firstMonth, firstYear } = planSpan(plan)
  const january = month(firstYear, 1)
  const isTold = Object.values(plan.tax.soFar).some((amount) => amount !== 0)
  if (year !== firstYear || firstMonth === january || isTold) return null
  return monthsInYear(january, firstMonth - january)
}

/** "November and December 2026". */
const monthsInYear = (first: Month, months: number): string => {
  const last = monthName(addMonths(first, months - 1))
  if (months === 1) return last
  return `${monthNames[monthOfYear(first) - 1]!} ${months === 2 ? 'and' : 'to'} ${last}`
}

const paidAhead = (
  { monthsAhead, premiumAhead }: WholeYear,
  rows: readonly ProjectedMonth[],
): MonthsPaid => ({
  months: monthsAhead,
  charged: premiumAhead * monthsAhead,
  advance: rows.reduce((sum, row) => sum + row.advanceCredit, 0),
})

/** `first`: the month of the year, 1 to 12, of the first of `kinds`. */
const coverSpans = (kinds: readonly CoverageKind[], first: number): CoverSpan[] => {
  const spans: CoverSpan[] = []
  kinds.forEach((kind, k) => {
    const last = spans.at(-1)
    if (kind === 'absent') return
    if (last?.kind === kind && last.from + last.months === first + k) last.months += 1
    else spans.push({ kind, from: first + k, months: 1 })
  })
  return spans
}

const ratedIn = (plan: Plan, id: string, year: number): number =>
  ratedAge(bornIn(plan, id), year, issuedIn(plan, id, year))

const bornIn = (plan: Plan, id: string): Month => {
  const one = [...plan.household.people, ...plan.household.dependents].find((each) => each.id === id)!
  return monthOfDay(day(one.born))
}

/** A premium that somebody told among living costs is known by its name only. */
const isPremium = (name: string): boolean => /premium|(health|medical|dental) (insurance|plan)/i.test(name)

const livingPremiums = (plan: Plan, rows: readonly { month: string; level: number }[]): number =>
  plan.household.living
    .filter(({ name }) => isPremium(name))
    .reduce(
      (sum, line) =>
        sum +
        rows
          .filter(({ month: at }) => isIn(line, parseMonth(at)!) && isInSeason(line, parseMonth(at)!))
          .reduce((paid, { level }) => paid + line.perMonth * (line.growth === 'fixed' ? 1 : level), 0),
      0,
    )

/** Month in which each adult comes to Medicare, for those who do. */
export const medicareStarts = (plan: Plan): { id: string; name: string; month: Month; year: number }[] =>
  plan.health.medicareFrom65
    ? plan.household.people
        .map(({ id, name, born }) => {
          const start = medicareStart(born)
          return { id, name, month: start, year: yearOf(start) }
        })
        .filter(({ id, month: start }) => !isGone(plan, id, start))
    : []
