// Coverage to months and years: who is at home, what the plan lists for each, their age factors, and the limits of the state's programs.
import { day, monthOfDay } from '#calendar/day.ts'
import { monthOfYear } from '#calendar/month.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import { isRelative, lastMonthAtHome } from '#plan/life/lived.ts'
import {
  benchmarkPremiums,
  limitsOfPlan,
  type PremiumAt21,
  planPremiums,
  ratingPlaceOf,
} from '#plan/place/follows-from-place.ts'
import { issuedIn } from '#plan/place/issued-in.ts'
import type { Plan } from '#plan/plan.ts'
import { medicareStart } from '#rules/age-by-law.ts'
import { absent, marketplace, medicare, otherPlan, uncovered } from '#rules/coverage/coverage-kinds.ts'
import { askedForNothing, makesParents, standingOf } from '#rules/coverage/program-of.ts'
import { unbornAdded } from '#rules/coverage/unborn.ts'
import { monthsAfterBirth } from '#rules/data/coverage-ages.ts'
import { inForce } from '#rules/in-force.ts'
import { familyRating, ownFactor, ratedAge } from '#rules/marketplace/premium-by-age.ts'
import { basicByCreditLine } from '#rules/places/published.ts'
import type { RunwayRules } from '#runway/runway-rules.ts'
import { monthsOf, type Span } from '#runway/span.ts'
import type { CompiledCoverage } from './compiled-coverage.ts'

/** Calendar months. */
interface Member {
  id: string
  name: string
  /** Place among the plan's people; −1 for a dependent. */
  person: number
  isChild: boolean
  bornMonth: number
  leaves: number
  medicareFrom: number
  /** Pregnant or within a year of a birth, from and until (not included). */
  pregnancies: { from: number; born: number; to: number }[]
}

/** `premiumLevel`: what a year's premiums are expected to be over the plan's first ones. */
export const compileCoverage = (
  plan: Plan,
  rules: RunwayRules,
  span: Span,
  premiumLevel: (year: number) => number,
): CompiledCoverage => {
  const members = membersOf(plan)
  const place = ratingPlaceOf(plan)
  const years = Array.from({ length: span.years }, (_, y) => span.firstYear + y)
  const rated = years.map((year) =>
    members.map(({ id, bornMonth, isChild }) => {
      const age = ratedAge(bornMonth, year, issuedIn(plan, id, year))
      return ownFactor(place, { age, isDependent: isChild }, rules.lastPublishedYear)
    }),
  )
  const at21 = (premiums: readonly PremiumAt21[]) =>
    Float64Array.from(years, (year) => premiumAtFirst(premiums, year, premiumLevel))
  const listed = listedByMonth(plan, members, span)
  const standing = standingByMonth(members, span)
  const more = moreByMonth(plan, members, span)
  const state = plan.household.place.state ?? ''
  const turns = turnsOf(listed, standing, more)
  return {
    members: members.map(({ id, name, isChild }) => ({ id, name, isChild })),
    person: Int32Array.from(members, ({ person }) => person),
    listed,
    standing,
    more,
    turns,
    someTurns: someOf(turns, span.months),
    state,
    asksMeasure: basicByCreditLine(state) || more.some((count) => count !== 0),
    factor: rated.map((row) => Float64Array.from(row, ({ factor }) => factor)),
    isRatedChild: rated.map((row) => Uint8Array.from(row, ({ isChild }) => (isChild ? 1 : 0))),
    rating: familyRating(place, rules.lastPublishedYear),
    limits: years.map((year) => {
      const limits = limitsOfPlan(plan, year)
      return Object.values(limits).some((percent) => percent > 0) ? limits : null
    }),
    opens: opensByYear(listed, span),
    firstYearScale: 12 / (13 - monthOfYear(firstMonthOf(plan))),
    tellsBefore: incomesSoFar.some((name) => plan.tax.soFar[name] !== 0),
    benchmarkAt21: at21(benchmarkPremiums(plan)),
    planAt21: at21(planPremiums(plan)),
  }
}

/** 1 in each cell that differs from the one before it, which the first always does. */
const turnsOf = (listed: Uint8Array, standing: Uint8Array, more: Int8Array): Uint8Array => {
  const out = new Uint8Array(listed.length).fill(1, 0, 1)
  for (let cell = 1; cell < out.length; cell += 1) {
    const before = cell - 1
    const isAlike =
      listed[cell] === listed[before] && standing[cell] === standing[before] && more[cell] === more[before]
    if (!isAlike) out[cell] = 1
  }
  return out
}

const someOf = (turns: Uint8Array, months: number): Uint8Array => {
  const out = new Uint8Array(months)
  turns.forEach((turn, cell) => {
    if (turn === 1) out[cell % months] = 1
  })
  return out
}

const opensByYear = (listed: Uint8Array, { firstMonth, firstYear, months, years }: Span): Uint8Array => {
  const out = new Uint8Array(years)
  listed.forEach((kind, cell) => {
    if (kind === marketplace || kind === uncovered)
      out[Math.floor((firstMonth + (cell % months)) / 12) - firstYear] = 1
  })
  return out
}

const incomesSoFar = [
  'farmProfit',
  'farmGross',
  'otherSelfEmployment',
  'wages',
  'otherIncome',
  'propertyGain',
  'ordinaryGain',
] as const

/** Of nature, not of law. */
const monthsBeforeBirth = 9

const membersOf = (plan: Plan): Member[] => {
  const { people, dependents } = plan.household
  const births = (id: string) =>
    dependents
      .filter((child) => child.mother === id)
      .map((child) => monthOfDay(day(child.born)))
      .map((born) => ({
        from: born - monthsBeforeBirth,
        born,
        // Through the month in which they end.
        to: born + inForce(monthsAfterBirth, Number.POSITIVE_INFINITY) + 1,
      }))
  const adults = people.map(
    (one, person): Member => ({
      id: one.id,
      name: one.name,
      person,
      isChild: false,
      bornMonth: monthOfDay(day(one.born)),
      leaves: Number.POSITIVE_INFINITY,
      medicareFrom: medicareFrom(plan, one.born),
      pregnancies: births(one.id),
    }),
  )
  const others = dependents.map(
    (one): Member => ({
      id: one.id,
      name: one.name,
      person: -1,
      isChild: !isRelative(one),
      bornMonth: monthOfDay(day(one.born)),
      leaves: lastMonthAtHome(one) + 1,
      medicareFrom: isRelative(one) ? medicareFrom(plan, one.born) : Number.POSITIVE_INFINITY,
      pregnancies: [],
    }),
  )
  return [...adults, ...others].sort((a, b) => a.bornMonth - b.bornMonth)
}

const medicareFrom = (plan: Plan, born: string): number =>
  plan.health.medicareFrom65 ? medicareStart(born) : Number.POSITIVE_INFINITY

/** Later ones go before earlier ones: Medicare before an employer’s plan, that before the marketplace, and that before premiums of another kind. */
const listedByMonth = ({ health }: Plan, members: readonly Member[], span: Span): Uint8Array => {
  const out = new Uint8Array(members.length * span.months)
  members.forEach((member, i) => {
    const row = out.subarray(i * span.months, (i + 1) * span.months).fill(uncovered)
    const fill = (kind: number, line: Parameters<typeof monthsOf>[0]) => {
      const { first, end } = monthsOf(line, span)
      row.fill(kind, first, Math.max(first, end))
    }
    for (const line of health.premiums)
      if (line.person === undefined || line.person === member.id) fill(otherPlan, line)
    for (const one of health.marketplace.members) if (one.person === member.id) fill(marketplace, one)
    for (const one of health.employerPlans) if (one.person === member.id) fill(otherPlan, one)
    row.fill(medicare, placeIn(span, member.medicareFrom))
    row.fill(absent, 0, placeIn(span, member.bornMonth))
    row.fill(absent, placeIn(span, member.leaves))
  })
  return out
}

/** Of a calendar month: the plan’s first or its end for one outside of it. */
const placeIn = (span: Span, at: number): number => Math.max(0, Math.min(span.months, at - span.firstMonth))

const standingByMonth = (members: readonly Member[], span: Span): Uint8Array => {
  const areParents = parentsByMonth(members, span)
  const out = new Uint8Array(members.length * span.months)
  members.forEach(({ bornMonth, person, isChild, pregnancies }, i) => {
    const row = out.subarray(i * span.months, (i + 1) * span.months)
    // Medicaid asks a relative whom they claim by her or his own income (42 CFR 435.603(f)(2)(i)), which no plan holds.
    if (person < 0 && !isChild) row.fill(askedForNothing)
    else
      for (let m = 0; m < span.months; m += 1)
        row[m] = standingOf(span.firstMonth + m - bornMonth, person >= 0 && areParents[m] === 1, false)
    for (const { from, to } of pregnancies)
      row.fill(standingOf(0, false, true), placeIn(span, from), placeIn(span, to))
  })
  return out
}

/** 1 in the months in which a child at home makes parents of the adults. */
const parentsByMonth = (members: readonly Member[], span: Span): Uint8Array => {
  const out = new Uint8Array(span.months)
  for (const { isChild, bornMonth, leaves } of members) {
    if (!isChild) continue
    const end = placeIn(span, leaves)
    for (let m = 0; m < end; m += 1) if (makesParents(span.firstMonth + m - bornMonth)) out[m] = 1
  }
  return out
}

/** A child born within the year is on its return, so that before its birth it is counted once too often. */
const moreByMonth = (plan: Plan, members: readonly Member[], span: Span): Int8Array => {
  const out = new Int8Array(members.length * span.months)
  const add = (i: number, m: number, count: number) => {
    out[i * span.months + m]! += count
  }
  for (const { person, bornMonth } of members) {
    if (person >= 0) continue
    const january = bornMonth - (bornMonth % 12)
    for (let m = placeIn(span, january); m < placeIn(span, bornMonth); m += 1)
      for (let i = 0; i < members.length; i += 1) add(i, m, -1)
  }
  for (const mother of members) {
    const { pregnancies } = mother
    if (pregnancies.length === 0) continue
    const end = placeIn(span, Math.max(...pregnancies.map(({ born }) => born)))
    for (let m = placeIn(span, Math.min(...pregnancies.map(({ from }) => from))); m < end; m += 1) {
      const at = span.firstMonth + m
      const expected = pregnancies.filter(({ from, born }) => at >= from && at < born).length
      members.forEach((member, i) => {
        add(i, m, unbornAdded(expected, member === mother, plan.health.unbornForOthers))
      })
    }
  }
  return out
}

/** A year’s premium at 21, at the plan’s first premiums. What is typed is of those. Of published years each counts as itself, the last one for all later years. */
export const premiumAtFirst = (
  premiums: readonly PremiumAt21[],
  year: number,
  premiumLevel: (year: number) => number,
): number => {
  const known = premiums.findLast((one) => one.year === null || one.year <= year) ?? premiums[0]
  if (known === undefined) return 0
  return known.year === null ? known.at21 : known.at21 / premiumLevel(known.year)
}
