// Who is covered by what in each year of a plan, and what the marketplace would charge them; from the plan's own members and ages.
import { day, monthOfDay } from '#calendar/day.ts'
import { type Month, month, yearOf } from '#calendar/month.ts'
import type { Plan } from '#plan/plan.ts'
import { medicareStart } from '#rules/age-by-law.ts'
import type { ProjectedYear, Projection } from '#runway/project.ts'
import type { RunwayRules } from '#runway/runway-rules.ts'
import { isIn } from '#runway/span.ts'

export type CoverKind = 'marketplace' | 'medicare' | 'medicaid' | 'other plan' | 'none'

export interface CoveredPerson {
  id: string
  name: string
  isChild: boolean
  /** Whole years on 1 January, the age premiums follow. */
  age: number
  /** Months of the year under each kind of cover; a child counts while at home. */
  months: Record<CoverKind, number>
  /** Dollars a month this person adds to the marketplace premium, in dollars of the year; 0 when not counted. */
  premiumMonthly: number
}

export interface CoverYear {
  year: number
  people: CoveredPerson[]
  /** Months with anyone on the marketplace, and its premium and benchmark a month on average over them. */
  marketplaceMonths: number
  premiumMonthly: number
  benchmarkMonthly: number
  /** The plan sends the marketplace members to Medicaid this year. */
  onMedicaid: boolean
  /** Of the projection: dollars of the year. */
  projected: ProjectedYear
}

export const coverYears = (plan: Plan, rules: RunwayRules, projection: Projection): CoverYear[] => {
  const members = membersOf(plan)
  const firstYear = projection.years[0]?.year ?? 0
  return projection.years.map((projected) => {
    const level = (1 + plan.assumptions.premiumGrowth) ** (projected.year - firstYear)
    return yearOfCover(plan, rules, members, projected, level)
  })
}

interface Member {
  id: string
  name: string
  isChild: boolean
  bornMonth: number
  /** First month of Medicare, and the month after the last at home. */
  medicareFrom: number
  leaves: number
  /** True in months the plan lists the person on the marketplace. */
  isListed: (at: number) => boolean
}

const membersOf = (plan: Plan): Member[] => {
  const listed = (id: string) => (at: number) =>
    plan.health.marketplace.members.some((one) => one.person === id && isIn(one, at))
  const adults = plan.household.people.map((person): Member => {
    const bornMonth = monthOfDay(day(person.born))
    return {
      id: person.id,
      name: person.name,
      isChild: false,
      bornMonth,
      medicareFrom: plan.health.medicareFrom65 ? medicareStart(person.born) : Number.POSITIVE_INFINITY,
      leaves: bornMonth + (person.planToAge + 1) * 12,
      isListed: listed(person.id),
    }
  })
  const children = plan.household.dependants.map((child): Member => {
    const bornMonth = monthOfDay(day(child.born))
    return {
      id: child.id,
      name: child.name,
      isChild: true,
      bornMonth,
      medicareFrom: Number.POSITIVE_INFINITY,
      leaves: bornMonth + child.untilAge * 12,
      isListed: listed(child.id),
    }
  })
  return [...adults, ...children]
}

const yearOfCover = (
  plan: Plan,
  rules: RunwayRules,
  members: readonly Member[],
  projected: ProjectedYear,
  level: number,
): CoverYear => {
  const january = month(projected.year, 1)
  const onMedicaid = goesToMedicaid(plan, rules, members, projected)
  const present = members.filter((one) => one.bornMonth <= january + 11 && one.leaves > january)
  const ages = present.map((one) => Math.max(0, Math.floor((january - one.bornMonth) / 12)))
  const people = present.map((member, place): CoveredPerson => {
    const months = monthsOfCover(plan, member, january, onMedicaid)
    return {
      id: member.id,
      name: member.name,
      isChild: member.isChild,
      age: ages[place]!,
      months,
      premiumMonthly: 0,
    }
  })
  const factors = rateMembers(rules, plan.health.marketplace.ageRating, present, ages, january)
  people.forEach((person, place) => {
    const mean = person.months.marketplace > 0 ? factors.byPerson[place]! / factors.months : 0
    person.premiumMonthly = plan.health.marketplace.planAt21 * mean * level
  })
  const months = onMedicaid ? 0 : factors.months
  const perMonth = months > 0 ? (factors.total / months) * level : 0
  return {
    year: projected.year,
    people,
    marketplaceMonths: months,
    premiumMonthly: plan.health.marketplace.planAt21 * perMonth,
    benchmarkMonthly: plan.health.marketplace.benchmarkAt21 * perMonth,
    onMedicaid,
    projected,
  }
}

const monthsOfCover = (
  plan: Plan,
  member: Member,
  january: number,
  onMedicaid: boolean,
): Record<CoverKind, number> => {
  const months: Record<CoverKind, number> = {
    marketplace: 0,
    medicare: 0,
    medicaid: 0,
    'other plan': 0,
    none: 0,
  }
  for (let at = january; at < january + 12; at += 1) {
    if (at < member.bornMonth || at >= member.leaves) continue
    const otherPlan = plan.health.premiums.some((line) => isIn(line, at))
    const kind: CoverKind =
      at >= member.medicareFrom
        ? 'medicare'
        : member.isListed(at)
          ? onMedicaid
            ? 'medicaid'
            : 'marketplace'
          : otherPlan
            ? 'other plan'
            : 'none'
    months[kind] += 1
  }
  return months
}

/** Sums of members’ factors over the months in which someone is on the marketplace. */
const rateMembers = (
  rules: RunwayRules,
  place: string,
  present: readonly Member[],
  ages: readonly number[],
  january: number,
): { months: number; total: number; byPerson: number[] } => {
  const byPerson = present.map(() => 0)
  let months = 0
  for (let at = january; at < january + 12; at += 1) {
    const listed = present.flatMap((one, index) =>
      one.isListed(at) && at < one.medicareFrom && at >= one.bornMonth && at < one.leaves ? [index] : [],
    )
    if (listed.length === 0) continue
    months += 1
    const rated = listed.map((one) => ({ age: ages[one]!, isDependant: present[one]!.isChild }))
    rules.memberFactors(place, rated).forEach((factor, index) => {
      byPerson[listed[index]!]! += factor
    })
  }
  return { months, total: byPerson.reduce((sum, factor) => sum + factor, 0), byPerson }
}

/**
 * The projection expects the year at or under the Medicaid line: neither advance nor credit, at an income where the
 * marketplace would have given one.
 */
const goesToMedicaid = (
  plan: Plan,
  rules: RunwayRules,
  members: readonly Member[],
  projected: ProjectedYear,
): boolean => {
  if (!plan.health.medicaidExpansion || plan.health.marketplace.benchmarkAt21 <= 0) return false
  const anyListed = members.some((one) =>
    Array.from({ length: 12 }, (_, index) => month(projected.year, 1) + index).some(
      (at) => one.isListed(at) && at < one.medicareFrom,
    ),
  )
  const { medicaidPercent } = rules.lawFor(projected.year)
  return (
    anyListed &&
    projected.advanceCredit === 0 &&
    projected.premiumTaxCredit === 0 &&
    projected.povertyPercent <= medicaidPercent
  )
}

/** Month in which each adult comes to Medicare, for those who do. */
export const medicareStarts = (plan: Plan): { id: string; name: string; month: Month; year: number }[] =>
  membersOf(plan)
    .filter((one) => Number.isFinite(one.medicareFrom))
    .map((one) => ({
      id: one.id,
      name: one.name,
      month: one.medicareFrom as Month,
      year: yearOf(one.medicareFrom as Month),
    }))
