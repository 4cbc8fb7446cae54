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
import type { Plan } from '#plan/plan.ts'
import { medicareStart } from '#rules/age-by-law.ts'
import { type CoverageKind, coverageKinds } from '#rules/coverage/coverage-kinds.ts'
import type { CoverageStep } from '#rules/coverage/coverage-steps.ts'
import { measureFor, plainMeasure } from '#rules/coverage/measure.ts'
import { householdSize } from '#rules/household-year.ts'
import type { LawYear } from '#rules/law.ts'
import { ratedAge } from '#rules/marketplace/premium-by-age.ts'
import { programPovertyLine } from '#rules/marketplace/premium-credit.ts'
import { planSpan, premiumLevel } from '#runway/compile/compile.ts'
import { compileCoverage } from '#runway/compile/compile-coverage.ts'
import type { CompiledCoverage } from '#runway/compile/compiled-coverage.ts'
import type { MemberCoverage, ProjectedMonth, ProjectedYear, Projection } from '#runway/project.ts'
import type { RunwayRules } from '#runway/runway-rules.ts'
import { isIn, type Span } from '#runway/span.ts'
import { noCoverYet } from '#today/projection/cover-so-far.ts'
import { peopleOfYear } from './cover-household.ts'
import { coverageSteps, premiumsOf, type WholeYear, wholeYear, type YearMonths } from './cover-steps.ts'
import type { CoverSpan, CoverYear, MonthsPaid, YearPart } from './cover-year.ts'
import { type BeyondJanuary, foundInJanuary, movedBy } from './found-in-january.ts'

export const coverYears = (plan: Plan, rules: RunwayRules, projection: Projection): CoverYear[] => {
  const run = planSpan(plan)
  const lead = monthsBefore(plan, run)
  const span: Span = { ...run, firstMonth: (run.firstMonth - lead) as Month, months: run.months + lead }
  const coverage = compileCoverage(plan, rules, span, premiumLevel(plan))
  const members = projection.coverage.map((member, i) => ({
    ...member,
    months: [
      ...kindsBefore(
        coverage.listed.subarray(i * span.months),
        lead,
        member.months[0],
        plan.tax.soFar.marketplaceMonths,
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
    const law = projected.year < rules.firstYear ? null : rules.lawFor(projected.year)
    return yearOfCover(plan, law, { firstMonth: span.firstMonth, coverage, members, rows }, projected, {
      y,
      from,
      to,
      months: span.months,
      firstSeason: (span.firstMonth + from) % 12,
      ...measuredBy(plan, rules, projected, y === 0 ? projection : nothingBehind),
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

type Measured = Pick<
  YearMonths,
  'measure' | 'householdSize' | 'behindPercent' | 'childrenBehindPercent' | 'yearBehindPercent'
>
type Behind = Pick<Projection, 'incomeBehind' | 'premiumsAdded'>
const nothingBehind: Behind = { incomeBehind: 0, premiumsAdded: 0 }

const measuredBy = (
  plan: Plan,
  rules: RunwayRules,
  { year, signers }: ProjectedYear,
  { incomeBehind, premiumsAdded }: Behind,
): Measured => {
  const household = { ...peopleOfYear(plan, year), people: signers }
  const size = householdSize(household)
  if (year < rules.firstYear)
    return {
      measure: plainMeasure,
      householdSize: size,
      behindPercent: 0,
      childrenBehindPercent: 0,
      yearBehindPercent: 0,
    }
  const law = rules.lawFor(year)
  const percentOf = (dollars: number) => percentOfLevel(plan, law, { year, signers }, dollars)
  return {
    measure: measureFor(law, household.region, size, plan.household.place.state ?? ''),
    householdSize: size,
    behindPercent: percentOf(incomeBehind),
    childrenBehindPercent: percentOf(incomeBehind - premiumsAdded),
    yearBehindPercent: 0,
  }
}

/** Months of the year under way that the plan had already run when it was continued from the books: covered as it lists them. */
const monthsBefore = ({ startMonth }: Plan, run: Span): number =>
  Math.max(0, run.firstMonth - Math.max(parseMonth(startMonth)!, month(run.firstYear, 1)))

/**
 * As listed, or by the program that covers the person now; the months of the marketplace that the year had are the last ones, with
 * everyone who is listed for it: their premiums are counted so.
 */
const kindsBefore = (
  listed: ArrayLike<number>,
  lead: number,
  now: CoverageKind | undefined,
  onMarketplace: number,
): CoverageKind[] =>
  Array.from({ length: lead }, (_, m) => {
    const kind = coverageKinds[listed[m]!]!
    if (kind === 'marketplace' && m >= lead - onMarketplace) return kind
    return now !== undefined && programs.has(now) && (kind === 'marketplace' || kind === 'none') ? now : kind
  })

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
  months: YearMonths,
): CoverYear => {
  const { from, to } = months
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
              age: ratedAge(bornIn(plan, member.id), projected.year),
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
    byProgram: members.some(({ months: kinds }) => kinds.slice(from, to).some((kind) => programs.has(kind))),
    monthsRun: rows.length,
    part: partOf((firstMonth + from) as Month, to - from),
    premiumsPaid: rows.reduce((sum, row) => sum + row.premiums, 0),
    paidIn: { over: months.behind.paid, ahead: paidAhead(all, rows) },
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
  const found = foundInJanuary({ plan, law, cover, scale, stepsAt, isAsRun })
  return { ...cover, steps: found.steps, expectedIncome: found.expected }
}

/** In percent of the level by which Medicaid measures the household of the year's return. */
const percentOfLevel = (
  plan: Plan,
  law: LawYear | null,
  { year, signers }: Pick<ProjectedYear, 'year' | 'signers'>,
  dollars: number,
): number => {
  if (law === null) return 0
  const household = { ...peopleOfYear(plan, year), people: signers }
  return (dollars * 100) / programPovertyLine(law, household.region, householdSize(household))
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

const programs: ReadonlySet<CoverageKind> = new Set([
  'Medicaid',
  'children’s program',
  'basic health program',
])

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
          .filter(({ month: at }) => isIn(line, monthOfDay(day(`${at}-01`))))
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
