// Questions of the slower years on the expected course: the cushion, the claim ages, and one of us who can no longer work.

import { type Month, monthOfYear, monthText, parseMonth, yearIn, yearOf } from '#calendar/month.ts'
import { dial, judge } from '#chance/dials.ts'
import { levelPayment, monthlyRate } from '#farm/time-value.ts'
import { stormSchema } from '#plan/assumption-plan.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import type { Plan } from '#plan/plan.ts'
import { compilePlan } from '#runway/compile/compile.ts'
import { makeBuffers } from '#runway/course-buffers.ts'
import { type Dollars, dollarsOfTheYear, inDollars, pricesIn } from '#runway/dollars/dollars.ts'
import { type ProjectedMonth, type Projection, project } from '#runway/project.ts'
import { runCourse } from '#runway/run-course.ts'
import type { RunwayRules } from '#runway/runway-rules.ts'
import { expectedShocks } from '#runway/shocks.ts'
import { projectStorm } from '#runway/storms/storm.ts'
import { sayExpectedTerms } from './earnings.ts'

/** Savings with retirement accounts, less tax owed, at a month's end. */
const savingsAt = (month: ProjectedMonth): number =>
  month.cash + month.taxable + month.traditional + month.roth + month.health - month.taxOwed

/** All savings in the plan's last month: one figure for every page that says what is left at the end. */
export const savingsAtEnd = (months: readonly ProjectedMonth[]): number => {
  const last = months.at(-1)
  return last ? savingsAt(last) : 0
}

export interface ExpectedCushion {
  /** First month of the first slower year. */
  month: string
  /** What the plan has by then, and the least with which no month from then on goes short. */
  savings: number
  needed: number
  gap: number
  /** Level amount a month from now until then, in dollars of each month, that closes the gap at the plan's bond return. */
  setAside: number
  months: number
  yearlyReturn: number
  /** What money is taken to earn, where what is missing lies, and until when it must last, in sentences. */
  earns: string
}

/** `null` without a slower year ahead, or when no sum up to twenty million is enough. */
export const expectedCushion = (
  plan: Plan,
  rules: RunwayRules,
  dollars: Dollars = dollarsOfTheYear,
): ExpectedCushion | null => {
  const expected = project(plan, rules)
  const month = expected.milestones.firstSlowerMonth
  const at = month === null ? -1 : expected.months.findIndex((one) => one.month === month)
  if (month === null || at < 1) return null
  const compiled = compilePlan(plan, rules)
  const dialled = dial(compiled, { kind: 'cushion', month: at })
  const buffers = makeBuffers(dialled.plan, [])
  const course = judge(buffers, { kind: 'held', fromMonth: at })
  const shocks = expectedShocks(compiled.shape)
  const { level } = expected.months[at - 1]!
  const lasts = (held: number) => {
    dialled.turn(held / level)
    course.begin()
    runCourse(dialled.plan, shocks, buffers, course.isDecided)
    return course.isGood()
  }
  const savings = savingsAt(expected.months[at - 1]!)
  const needed = leastHeld(lasts, savings)
  if (needed === null) return null
  const gap = Math.max(0, needed - savings)
  const yearlyReturn = plan.assumptions.bonds
  const shown = pricesIn(expected, dollars).asBegins(month)
  return {
    month,
    savings: savings * shown,
    needed: needed * shown,
    gap: gap * shown,
    setAside: gap > 0 ? -levelPayment(monthlyRate(yearlyReturn), at, 0, gap) : 0,
    months: at,
    yearlyReturn,
    earns: sayExpectedTerms(plan, compiled),
  }
}

/** The least held with which the plan lasts, to 250 dollars; null where no sum tried does. */
const leastHeld = (lasts: (held: number) => boolean, savings: number): number | null => {
  if (lasts(0)) return 0
  let [low, high] = [0, Math.max(50_000, savings)]
  while (!lasts(high)) {
    low = high
    high *= 2
    if (high > 20_000_000) return null
  }
  while (high - low > 250) {
    const middle = (low + high) / 2
    if (lasts(middle)) high = middle
    else low = middle
  }
  return high
}

type ClaimAge = Plan['household']['people'][number]['claimAge']

export interface ClaimChoice {
  person: string
  name: string
  planned: ClaimAge
  /** The plan's own age among the whole ones. */
  choices: {
    age: ClaimAge
    /** Benefits of the household a month once this person is past 70; `null` where the plan ends before. */
    monthlyAfter70: number | null
    /** Whether the household has benefits in any month. */
    hasBenefits: boolean
    /** Savings when the plan ends, and the months that go short. */
    savingsAtEnd: number
    monthsShort: number
  }[]
}

/** Each whole claim age that the plan comes to and the plan's own for each person, the other's as planned. */
export const claimChoices = (
  plan: Plan,
  rules: RunwayRules,
  dollars: Dollars = dollarsOfTheYear,
): ClaimChoice[] => {
  const { firstMonth, months: planned, people: compiled, shape } = compilePlan(plan, rules)
  const isReached = (place: number) => (age: ClaimAge) =>
    compiled[place]!.bornMonth + age.years * 12 + age.months <
    firstMonth + Math.min(planned, shape.plannedDeathMonth?.[place] ?? planned)
  return plan.household.people.map((person, place) => ({
    person: person.id,
    name: person.name,
    planned: person.claimAge,
    choices: agesTried(person.claimAge, isReached(place)).map((claimAge) => {
      const people = plan.household.people.map((one) => (one.id === person.id ? { ...one, claimAge } : one))
      const course = project({ ...plan, household: { ...plan.household, people } }, rules)
      const { months } = inDollars(course, dollars)
      return { age: claimAge, ...outcomeOf(months, person.born) }
    }),
  }))
}

const agesTried = (planned: ClaimAge, isReached: (age: ClaimAge) => boolean): ClaimAge[] => {
  const isPlanned = (age: ClaimAge) => age.years === planned.years && age.months === planned.months
  const whole = Array.from({ length: 9 }, (_, k) => ({ years: 62 + k, months: 0 }))
  const reached = whole.filter((age) => isReached(age) || isPlanned(age))
  return reached.some(isPlanned)
    ? reached
    : [...reached, planned].sort((a, b) => a.years - b.years || a.months - b.months)
}

/** Without what children and others at home have. */
const ownBenefits = (one: ProjectedMonth): number => one.socialSecurity - one.othersBenefits

const outcomeOf = (months: readonly ProjectedMonth[], born: string) => {
  const past70 = months.find((one) => yearIn(one.month) > yearIn(born) + 70)
  return {
    monthlyAfter70: past70 ? ownBenefits(past70) : null,
    hasBenefits: months.some((one) => ownBenefits(one) >= 1),
    savingsAtEnd: savingsAtEnd(months),
    monthsShort: months.filter((one) => one.unmetNeed > 0.5).length,
  }
}

export interface OneAlone {
  person: string
  name: string
  from: string
  /** What the plan then says, hired help doing the farm hours that fall away. */
  floorMonth: string | null
  /** Whether that is before anyone's work ends, and so the plan's own. */
  floorAsPlanned: boolean
  lowestSpendable: number
  lowestMonth: string
  monthsShort: number
  /** What nothing can pay, in all. */
  unmetNeed: number
  savingsAtEnd: number
}

/** One of us stops for good in a month: pay and side ventures end, hired help takes over that one's farm hours. */
export const oneAlone = (
  plan: Plan,
  rules: RunwayRules,
  from: Month,
  dollars: Dollars = dollarsOfTheYear,
): OneAlone[] =>
  plan.household.people.map((person) => {
    const storm = stormSchema.parse({
      id: 'one-alone',
      name: `${person.name} can no longer work`,
      from: monthText(from),
      months: 720,
      person: person.id,
    })
    const { months, milestones } = inDollars(projectStorm(plan, rules, storm), dollars)
    return {
      person: person.id,
      name: person.name,
      from: monthText(from),
      floorMonth: milestones.floorMonth,
      floorAsPlanned: milestones.floorMonth !== null && milestones.floorMonth < monthText(from),
      lowestSpendable: milestones.lowestSpendable,
      lowestMonth: milestones.lowestMonth,
      monthsShort: months.filter((one) => one.unmetNeed > 0.5).length,
      unmetNeed: milestones.unmetNeed,
      savingsAtEnd: savingsAtEnd(months),
    }
  })

/**
 * The plan's years: flows of the year, balances at its end. Years that are not whole are left out. What comes in adds up to what goes
 * out: draws, benefits, side income, pay, other money, savings and what nothing met = living, premiums and care, taxes, loans,
 * one-off costs, and what is put into farm and savings.
 */
export interface SlowerYear {
  year: number
  weeklyHours: number
  farmNet: number
  draws: number
  socialSecurity: number
  side: number
  pay: number
  living: number
  premiumsAndCare: number
  taxes: number
  /** Loans drawn and one-off money. */
  otherIn: number
  /** Out of all accounts, cash too: what the year uses beyond what comes in, or what is taken out of accounts where that is more. */
  fromSavings: number
  fromTraditional: number
  loanPayments: number
  oneOffCosts: number
  intoFarm: number
  intoSavings: number
  savings: number
  farmCash: number
  unmetNeed: number
}

/** One row a whole calendar year, in the projection’s dollars. */
export const slowerYears = (plan: Plan, projection: Projection): SlowerYear[] => {
  const byYear = new Map<number, ProjectedMonth[]>()
  for (const one of projection.months) {
    const year = yearOf(parseMonth(one.month)!)
    const list = byYear.get(year)
    if (list) list.push(one)
    else byYear.set(year, [one])
  }
  return [...byYear]
    .filter(
      ([year, months]) =>
        months.length === 12 ||
        (year === yearOf(firstMonthOf(plan)) && monthOfYear(firstMonthOf(plan)) === 1),
    )
    .map(([year, months]) => {
      const sum = (value: (one: ProjectedMonth) => number) =>
        months.reduce((total, one) => total + value(one), 0)
      const last = months.at(-1)!
      const taken = sum(
        (one) => one.withdrawnTaxable + one.withdrawnTraditional + one.withdrawnRoth + one.withdrawnHealth,
      )
      const used = sum(usedOfSavings)
      const fromSavings = Math.max(taken, used)
      return {
        year,
        weeklyHours: sum((one) => one.farmHours) / 52.1775,
        farmNet: sum((one) => one.farmSales - one.farmCosts + one.farmStock),
        draws: sum((one) => one.draw),
        socialSecurity: sum((one) => one.socialSecurity),
        side: sum((one) => one.side),
        pay: sum((one) => one.pay),
        living: sum((one) => one.living),
        premiumsAndCare: sum((one) => one.premiums + one.care),
        taxes: sum((one) => one.taxes),
        otherIn: sum((one) => one.loanDrawn + Math.max(0, -one.oneOffs)),
        fromSavings,
        fromTraditional: sum((one) => one.withdrawnTraditional),
        loanPayments: sum((one) => one.loanPayments),
        oneOffCosts: sum((one) => Math.max(0, one.oneOffs)),
        intoFarm: sum((one) => one.contribution),
        intoSavings: fromSavings - used,
        savings: savingsAt(last),
        farmCash: last.farmCash,
        unmetNeed: sum((one) => one.unmetNeed),
      }
    })
}

/** What the month takes of all savings, cash too; below zero what it leaves to them. What accounts earn is not counted. */
const usedOfSavings = (one: ProjectedMonth): number =>
  one.householdCosts +
  one.oneOffs +
  one.contribution -
  (one.draw + one.pay + one.side + one.socialSecurity + one.loanDrawn) -
  one.unmetNeed
