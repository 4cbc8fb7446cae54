// Works out the Slower years page: phases beside the farm before them, the plan's years, people's ages of change, the split of side income.
import { ageOn, type Day, day } from '#calendar/day.ts'
import {
  addMonths,
  type Month,
  month,
  monthName,
  monthOfYear,
  monthText,
  parseMonth,
  yearOf,
} from '#calendar/month.ts'
import { type FarmCourse, farmCourse } from '#farm/course.ts'
import type { Phase } from '#farm/farm-document.ts'
import { yearOfCourse } from '#farm/farm-year.ts'
import { weeksPerMonth } from '#farm/work-months.ts'
import type { Plan } from '#plan/plan.ts'
import { birthMonthByLaw, medicareStart } from '#rules/age-by-law.ts'
import { contributionLimits, ownerSepContribution, soloPlanContribution } from '#rules/contribution-limits.ts'
import { steadyIndexing } from '#rules/dated.ts'
import { lawFor } from '#rules/law.ts'
import { requiredDistributionOf } from '#rules/required-distributions.ts'
import { selfEmploymentTax } from '#rules/return/self-employment-tax.ts'
import { slowerYears } from '#solve/slower-years.ts'
import type { PersonFigures, PhaseFigures, SlowerFigures, SplitFigures } from '#views/slower-years/figures.ts'
import { projectionOf } from './courses.ts'

export const slowerFigures = (
  plan: Plan,
  revision: { planId: string; name: string; revisionNo: number },
  today: Day,
): SlowerFigures => {
  const projection = projectionOf(plan)
  return {
    planName: revision.name,
    planId: revision.planId,
    revisionNo: revision.revisionNo,
    years: slowerYears(plan, projection),
    phases: phaseFigures(plan),
    people: plan.household.people.map((person) => personFigures(person)),
    split: splitFigures(plan, Number(today.slice(0, 4))),
    firstSlower: projection.milestones.firstSlowerMonth,
    reserveMonths: plan.savings.reserveMonths,
  }
}

const phaseFigures = (plan: Plan): PhaseFigures[] => {
  const { farm } = plan
  const sorted = [...farm.phases].sort((a, b) => (a.from < b.from ? -1 : 1))
  if (sorted.length === 0) return []
  const firstYear = yearOf(parseMonth(sorted[0]!.from)!) - 1
  const lastYear = yearOf(parseMonth(sorted.at(-1)!.from)!) + 1
  const course = farmCourse(farm, month(firstYear, 1), (lastYear - firstYear + 1) * 12)
  return sorted.map((phase) => onePhase(plan, phase, course, farm.phases.indexOf(phase)))
}

/** The phase's first whole year beside the last whole year before it. */
const onePhase = (plan: Plan, phase: Phase, course: FarmCourse, index: number): PhaseFigures => {
  const from = parseMonth(phase.from)!
  const year = monthOfYear(from) === 1 ? yearOf(from) : yearOf(from) + 1
  const [now, before] = [yearOfCourse(course, year), yearOfCourse(course, yearOf(from) - 1)]
  const at = month(year, 7) - course.firstMonth
  const wasAt = month(yearOf(from) - 1, 7) - course.firstMonth
  const nameOf = (who: string) => plan.household.people.find((person) => person.id === who)?.name ?? who
  return {
    index,
    from: phase.from,
    name: phase.name,
    weeklyHours: phase.weeklyHours.map(({ who, hours }) => ({ name: nameOf(who), hours })),
    busiest: busiestMonth(course, month(year, 1)),
    net: now.net + now.leaseIncome,
    netBefore: before.net + before.leaseIncome,
    hours: now.hours,
    hoursBefore: before.hours,
    scales: course.rows.map((row, r) => ({
      name: row.name,
      unit: plan.farm.enterprises[r]?.unit ?? 'breeding female',
      before: course.units[r * course.monthCount + wasAt]!,
      value: course.units[r * course.monthCount + at]!,
    })),
    trips: course.markets.map((market, k) => ({
      name: market.name,
      before: tripsIn(course, k, yearOf(from) - 1),
      value: tripsIn(course, k, year),
    })),
    landLeasedOut: phase.landLeasedOut,
    leaseAYear: phase.landLeasedOut * phase.leasePerAcreAndYear,
    sales: phase.sales,
    wound: plan.farm.herds.flatMap((herd, h) => {
      const months = course.herds[h]!
      const start = from - course.firstMonth
      const sold = months.culledHeads.subarray(start, start + 3).reduce((a, b) => a + b, 0)
      return phase.herdLimits.some((limit) => limit.herd === herd.id)
        ? [{ name: herd.name, heads: sold }]
        : []
    }),
  }
}

const tripsIn = (course: FarmCourse, market: number, year: number): number => {
  const from = market * course.monthCount + (month(year, 1) - course.firstMonth)
  return course.marketTrips.subarray(from, from + 12).reduce((a, b) => a + b, 0)
}

const busiestMonth = (course: FarmCourse, from: Month): PhaseFigures['busiest'] => {
  const start = from - course.firstMonth
  const available = (m: number) =>
    course.workers.reduce((sum, _, worker) => sum + course.hoursAvailable[worker * course.monthCount + m]!, 0)
  const over = (m: number) => course.hoursNeeded[m]! - available(m)
  let found = start
  for (let m = start; m < start + 12; m += 1) if (over(m) > over(found)) found = m
  return {
    month: monthName(addMonths(course.firstMonth, found)),
    needed: course.hoursNeeded[found]! / weeksPerMonth,
    available: available(found) / weeksPerMonth,
  }
}

const personFigures = (person: Plan['household']['people'][number]): PersonFigures => {
  const born = birthMonthByLaw(person.born)
  const bornYear = Number(person.born.slice(0, 4))
  const distributions = requiredDistributionOf(bornYear, bornYear + 60, 0)
  const claimed = addMonths(born, person.claimAge.years * 12 + person.claimAge.months)
  return {
    name: person.name,
    born: person.born,
    claim: `${monthName(claimed)}, at ${person.claimAge.years}${person.claimAge.months ? ` and ${person.claimAge.months} months` : ''}`,
    medicareFrom: monthText(medicareStart(person.born)),
    distributionsFrom: `${distributions.firstYear}, at ${distributions.startAge}`,
  }
}

/** Side income of the year after its own costs, split as the plan says, against this year's limits. */
const splitFigures = (plan: Plan, year: number): SplitFigures => {
  const { inflation, wageGrowth } = plan.assumptions
  const indexing = steadyIndexing(inflation, wageGrowth)
  const { months } = projectionOf(plan)
  const ahead = months.slice(0, 12)
  const sideAhead = ahead.reduce((sum, one) => sum + one.side / one.level, 0)
  const ventures = plan.household.sideVentures.map((venture) => {
    const net = Math.max(0, 12 * (venture.perMonth * (1 - venture.costShare) - venture.costPerMonth))
    return {
      id: venture.id,
      name: venture.name,
      net,
      setAsideShare: venture.setAsideShare,
      toRetirement: net * venture.setAsideShare,
    }
  })
  const limits = plan.household.people.map((person) => {
    const age = ageOn(person.born as Day, day(`${year}-12-31`))
    const own = contributionLimits(year, age, indexing)
    const profit = plan.household.sideVentures.reduce(
      (sum, venture, k) => sum + (venture.person === person.id ? ventures[k]!.net : 0),
      0,
    )
    const { half } = selfEmploymentTax(lawFor(year, indexing), {
      ...noEarnings,
      otherProfit: Math.round(profit * 100),
    })
    const halfTax = half / 100
    return {
      name: person.name,
      age,
      ira: own.ira,
      sep: ownerSepContribution(profit, halfTax, own),
      soloPlan: soloPlanContribution(profit, halfTax, own).total,
      hsaSelfOnly: own.hsaSelfOnly,
      hsaFamily: own.hsaFamily,
      basis: own.basis,
    }
  })
  const toRetirement = ventures.reduce((sum, one) => sum + one.toRetirement, 0)
  const room = limits.reduce((sum, one) => sum + one.ira, 0)
  const costs =
    ahead.reduce((sum, one) => sum + one.householdCosts / one.level, 0) / Math.max(1, ahead.length)
  return {
    year,
    basis: limits.some((one) => one.basis === 'projected') ? 'projected' : 'enacted',
    ventures,
    toRetirement,
    toRainyDay: Math.max(0, (ventures.length > 0 ? sideAhead : 0) - toRetirement),
    rainyDayTarget: costs * plan.savings.reserveMonths,
    limits: limits.map(({ basis: _, ...one }) => one),
    aboveLimits: Math.max(0, toRetirement - room),
  }
}

const noEarnings = {
  wages: 0,
  farmProfit: 0,
  otherProfit: 0,
  useFarmOptional: false,
  farmGross: 0,
  useNonfarmOptional: false,
  nonfarmGross: 0,
}
