// A year's marketplace cover over household income: at each line of a program more people pass to the marketplace, with the premiums
// that these then cost.
import { absent, type CoverageKind, coverageKinds, marketplace } from '#rules/coverage/coverage-kinds.ts'
import { type LimitName, limitNames } from '#rules/coverage/coverage-limits.ts'
import type { CoverageStep, CoveredBy } from '#rules/coverage/coverage-steps.ts'
import type { Measure } from '#rules/coverage/measure.ts'
import { yearCounts } from '#rules/coverage/program-of.ts'
import type { CoverByMonth } from '#rules/household-year.ts'
import { countFamily } from '#rules/marketplace/premium-by-age.ts'
import type { CompiledCoverage } from '#runway/compile/compiled-coverage.ts'
import { noteMonthsBehind, unlikeMonths } from '#runway/coverage/cover-by-month.ts'
import { kindAt } from '#runway/coverage/kind-at.ts'
import type { MonthsPaid } from './cover-year.ts'

/** Months of the projection that lie in the year, `to` not included. */
export interface YearMonths {
  y: number
  from: number
  to: number
  /** Of `from`: 0 is January. */
  firstSeason: number
  /** Months of the whole projection: the rows of `coverage` are that long. */
  months: number
  /** How the programs measure the year's household, and how many it is. */
  measure: Measure
  householdSize: number
  /** Of its income, in percent of Medicaid's level, what ended with the months before the plan, less what premiums of these take off it. */
  behindPercent: number
  /** The same for children: what January asked of theirs has the adults' premiums taken off. */
  childrenBehindPercent: number
  /** The same of the whole year, where a program asks for that. */
  yearBehindPercent: number
  /** What of the year is over. */
  behind: MonthsOver
}

/** Marketplace cover of months that are over, dollars of all of them, and who was covered by what: at any income of the year it stays so. */
export interface MonthsOver {
  /** The first month that is not over, counted like `from`. */
  until: number
  cover: { months: number; premiums: number; benchmarks: number }
  paid: MonthsPaid
  kindOf(member: number, m: number): CoverageKind
}

/** `isThere`: whether a member lives in a month. `level`: the year's premiums over the plan's first ones. */
export const coverageSteps = (
  coverage: CompiledCoverage,
  year: YearMonths,
  level: number,
  isThere: (member: number, m: number) => boolean,
): CoverageStep[] => {
  const lines = linesOf(coverage, year)
  const steps = [...lines, { toPercent: Number.POSITIVE_INFINITY, limit: null }].map((line) =>
    stepTo(coverage, year, level, isThere, line),
  )
  return steps.filter((step, k) => k === steps.length - 1 || !isAlike(step, steps[k + 1]!))
}

type StepLine = Pick<CoverageStep, 'toPercent' | 'limit'>

/** Each limit of the state by each size of household in which a member counts, as incomes of the year; lowest first. */
const linesOf = (coverage: CompiledCoverage, year: YearMonths): StepLine[] => {
  const { measure, householdSize, y, behindPercent, childrenBehindPercent, yearBehindPercent } = year
  const limits = coverage.limits[y] ?? null
  if (limits === null) return []
  const { scale, asksYear } = firstPartOf(coverage, y)
  const byCreditLine = measure.basic !== 1
  /** Of the months, as an income of the year. */
  const ofMonths = (percent: number, name: LimitName) =>
    percent / scale + (ofChildren.includes(name) ? childrenBehindPercent : behindPercent)
  const all = sizesOf(coverage, year).flatMap((more) =>
    limitNames.flatMap((name): StepLine[] => {
      const percent = limits[name]
      if (percent <= 0) return []
      const people = householdSize + more
      const level = 1 + more * measure.perPerson
      if (name === 'basic') {
        const line = percent * (measure.basic + more * measure.basicPerPerson)
        return [
          {
            toPercent: asksYear ? line + yearBehindPercent : ofMonths(line, name),
            limit: { percent, people, byCreditLine, ofMonths: false },
          },
        ]
      }
      const line = {
        toPercent: ofMonths(percent * level, name),
        limit: { percent, people, byCreditLine: false, ofMonths: asksYear },
      }
      if (!asksYear || beyondMedicaid.includes(name)) return [line]
      const year = Math.min(percent, justUnder)
      return [
        line,
        {
          toPercent: year * level + yearBehindPercent,
          limit: { ...line.limit, percent: Math.ceil(year), ofMonths: false },
        },
      ]
    }),
  )
  return all
    .sort((a, b) => a.toPercent - b.toPercent)
    .filter(({ toPercent }, k) => k === 0 || toPercent > all[k - 1]!.toPercent)
}

const ofChildren: readonly LimitName[] = ['infant', 'youngChild', 'olderChild', 'childrensProgram']
const beyondMedicaid: readonly LimitName[] = ['childrensProgram', 'basic']
/** Percent: less than a cent below the level under which a year's income counts for Medicaid. */
const justUnder = yearCounts - 1e-6

/** By how much the months ahead of a first part-year are more over twelve, and whether its year's income counts beside theirs. */
const firstPartOf = ({ firstYearScale }: CompiledCoverage, y: number) => ({
  scale: y === 0 ? firstYearScale : 1,
  asksYear: y === 0 && firstYearScale > 1,
})

/** By how many the households in which members count differ from that of the return. */
const sizesOf = ({ more, members }: CompiledCoverage, { from, to, months }: YearMonths): number[] => {
  const counts = members.flatMap((_, i) => [...more.subarray(i * months + from, i * months + to)])
  return [...new Set([0, ...counts])]
}

const isAlike = (a: CoverageStep, b: CoverageStep): boolean =>
  a.coverMonths === b.coverMonths &&
  a.premiumMonthly === b.premiumMonthly &&
  a.people.every(({ kinds }, i) => kinds.every((kind, k) => kind === b.people[i]!.kinds[k]))

const stepTo = (
  coverage: CompiledCoverage,
  year: YearMonths,
  level: number,
  isThere: (member: number, m: number) => boolean,
  line: StepLine,
): CoverageStep => {
  const { y, months, from, to, firstSeason, measure, behindPercent, childrenBehindPercent, behind } = year
  const ofYear = line.toPercent - year.yearBehindPercent
  const { scale, asksYear } = firstPartOf(coverage, y)
  const percentOf = (i: number) =>
    (line.toPercent - (coverage.members[i]!.isChild ? childrenBehindPercent : behindPercent)) * scale
  const kindOf = (i: number, m: number) => {
    if (!isThere(i, m)) return absent
    if (m < behind.until) return coverageKinds.indexOf(behind.kindOf(i, m))
    const percent = percentOf(i)
    return kindAt(coverage, i * months + m, y, percent, asksYear ? ofYear : percent, measure)
  }
  const { monthsAhead, premiumAhead, coverMonths, premiumMonthly, benchmarkMonthly, byMonth } = wholeYear(
    coverage,
    year,
    level,
    (i, m) => kindOf(i, m) === marketplace,
  )
  return {
    ...line,
    coverMonths,
    monthsAhead,
    premiumAhead: toCent(premiumAhead),
    premiumMonthly: toCent(premiumMonthly),
    benchmarkMonthly: toCent(benchmarkMonthly),
    byMonth,
    people: coverage.members.map(({ name }, i) => {
      const kinds = Array.from({ length: to - from }, (_, k) => coverageKinds[kindOf(i, from + k)]!)
      return { name, ...changesOf(kinds, firstSeason), kinds }
    }),
  }
}

/** What comes first, and each change after it with its month; months away from home are left out. */
const changesOf = (
  kinds: readonly CoverageKind[],
  firstSeason: number,
): Pick<CoveredBy, 'kind' | 'later'> => {
  const later: { month: number; kind: CoverageKind }[] = []
  let kind: CoverageKind = 'absent'
  kinds.forEach((one, k) => {
    const last = later.at(-1)?.kind ?? kind
    if (one === 'absent' || one === last) return
    if (kind === 'absent') kind = one
    else later.push({ month: firstSeason + k + 1, kind: one })
  })
  return { kind, later }
}

/** Dollars of the year, on average over the months with anyone on the marketplace; and each member's part of the premium. */
export interface YearPremiums {
  coverMonths: number
  premiumMonthly: number
  benchmarkMonthly: number
  byMember: number[]
  byMonth: CoverByMonth
}

export type WholeYear = Pick<
  YearPremiums,
  'coverMonths' | 'premiumMonthly' | 'benchmarkMonthly' | 'byMember'
> & {
  monthsAhead: number
  /** Dollars a month of those. */
  premiumAhead: number
  /** Null where all months with cover are alike. */
  byMonth: CoverByMonth | null
}

/** The months ahead as `isOn` has them, with those that are over. */
export const wholeYear = (
  coverage: CompiledCoverage,
  year: YearMonths,
  level: number,
  isOn: (member: number, m: number) => boolean,
): WholeYear => {
  const { until, cover } = year.behind
  const season = year.firstSeason + until - year.from
  const ahead = premiumsOf(coverage, { ...year, from: until, firstSeason: season }, level, isOn)
  const coverMonths = ahead.coverMonths + cover.months
  const mean = (monthly: number, over: number) =>
    coverMonths > 0 ? (monthly * ahead.coverMonths + over) / coverMonths : 0
  noteMonthsBehind(
    {
      coverMonths: cover.months,
      marketplacePremium: cover.premiums,
      benchmark: cover.benchmarks,
      premiumByMonth: ahead.byMonth.premium,
      benchmarkByMonth: ahead.byMonth.benchmark,
    },
    season,
  )
  return {
    coverMonths,
    monthsAhead: ahead.coverMonths,
    premiumAhead: ahead.premiumMonthly,
    premiumMonthly: mean(ahead.premiumMonthly, cover.premiums),
    benchmarkMonthly: mean(ahead.benchmarkMonthly, cover.benchmarks),
    byMember: ahead.byMember,
    byMonth: unlikeMonths(ahead.byMonth),
  }
}

/** What the marketplace charges in a year for whoever is on it. `level`: the year's premiums over the plan's first ones. */
export const premiumsOf = (
  coverage: CompiledCoverage,
  { y, from, to, firstSeason }: Pick<YearMonths, 'y' | 'from' | 'to' | 'firstSeason'>,
  level: number,
  isOn: (member: number, m: number) => boolean,
): YearPremiums => {
  const adds = new Float64Array(coverage.members.length)
  const byMember = coverage.members.map(() => 0)
  let factors = 0
  let coverMonths = 0
  const byMonth = { premium: new Float64Array(12), benchmark: new Float64Array(12) }
  for (let m = from; m < to; m += 1) {
    const on = coverage.members.map((_, i) => (isOn(i, m) ? 1 : 0))
    const factor = countFamily(coverage.rating, coverage.factor[y]!, coverage.isRatedChild[y]!, on, adds)
    if (factor > 0) coverMonths += 1
    factors += factor
    const season = firstSeason + m - from
    byMonth.premium[season] = toCent(coverage.planAt21[y]! * factor * level)
    byMonth.benchmark[season] = toCent(coverage.benchmarkAt21[y]! * factor * level)
    for (let i = 0; i < byMember.length; i += 1) byMember[i]! += on[i] === 1 ? adds[i]! : 0
  }
  const mean = (sum: number) => (coverMonths > 0 ? (sum / coverMonths) * level : 0)
  return {
    coverMonths,
    premiumMonthly: coverage.planAt21[y]! * mean(factors),
    benchmarkMonthly: coverage.benchmarkAt21[y]! * mean(factors),
    byMember: byMember.map((sum) => coverage.planAt21[y]! * mean(sum)),
    byMonth,
  }
}

const toCent = (dollars: number): number => Math.round(dollars * 100) / 100
