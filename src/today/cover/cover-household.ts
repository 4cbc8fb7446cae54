// The household of one planned year as the tax law reads it, with cover for the whole calendar year: what the Cover page works with.
import { type Month, month, yearIn, yearOf } from '#calendar/month.ts'
import { departureOf } from '#plan/life/lived.ts'
import { regionOfPlan } from '#plan/place/follows-from-place.ts'
import type { Plan } from '#plan/plan.ts'
import { stateLawOf } from '#plan/state-law.ts'
import { survivingSpouseYears } from '#rules/data/income-tax.ts'
import { marriedJoint, regionIndex } from '#rules/filing-status.ts'
import { filingStatusOf } from '#rules/filing-status-of.ts'
import {
  emptyHouseholdTax,
  emptyHouseholdYear,
  type HouseholdYear,
  householdSize,
} from '#rules/household-year.ts'
import { inForce } from '#rules/in-force.ts'
import type { LawYear } from '#rules/law-year.ts'
import { assessHousehold } from '#rules/return/assess-household.ts'
import { childrenOfYear } from '#runway/children-of-year.ts'
import { chosenFiling } from '#runway/compile/compile-law.ts'
import type { ProjectedYear } from '#runway/project.ts'
import type { CoverAsRun } from './cover-year.ts'
import { otherIncomeMeeting } from './met-income.ts'

/** Amounts of the projected year. What the projection does not list apart (interest, dividends, contributions) comes in one sum. */
export const householdOfYear = (plan: Plan, law: LawYear, cover: CoverAsRun): HouseholdYear => {
  const household = peopleOfYear(plan, cover.year)
  fillSigners(household, plan, cover.projected)
  fillIncome(household, plan, cover.projected)
  household.coverMonths = cover.marketplaceMonths
  household.deductibleMonths = cover.marketplaceMonths
  household.premiumMonthly = Math.round(cover.premiumMonthly * 100) / 100
  household.benchmarkMonthly = Math.round(cover.benchmarkMonthly * 100) / 100
  household.coverByMonth = cover.byMonth
  // Paid in good faith it keeps a credit open below the poverty level (26 CFR 1.36B-2(b)(6)). What is still to come in advance does not:
  // at another income it would not come.
  const { over } = cover.paidIn
  household.advanceMonthly =
    over.advance > 0 ? Math.round((over.advance / cover.marketplaceMonths) * 100) / 100 : 0
  household.otherIncome = unlistedIncome(household, law, cover)
  return household
}

/** Who signs the projected year's return: after a death one alone, with the status of a surviving spouse while the law gives it. */
const fillSigners = (household: HouseholdYear, plan: Plan, projected: ProjectedYear): void => {
  const ageOf = (person: number) => {
    const one = plan.household.people[person]
    return one ? projected.year - yearIn(one.born) : 40
  }
  household.status = projected.filingStatus
  household.people = projected.signers
  household.age = [
    ageOf(projected.firstSigner),
    projected.signers < 2 ? 0 : ageOf(projected.firstSigner === 0 ? 1 : 0),
  ]
}

/** Who signs and who is at home on the last day of the year; no amounts. */
export const peopleOfYear = (plan: Plan, year: number): HouseholdYear => {
  const household = emptyHouseholdYear()
  const { people } = plan.household
  const signing = people.filter(({ id }) => signsIn(plan, id, year))
  const { relatives, ...dependents } = childrenOfYear(plan, year)
  Object.assign(household, dependents)
  const atHome = householdSize(household) - household.people
  household.status = filingStatusOf(
    chosenFiling(plan),
    people.length,
    signing.length,
    atHome > 0,
    yearsSinceDeath(plan, year),
    inForce(survivingSpouseYears, year),
    atHome > relatives,
  )
  household.people = household.status === marriedJoint ? 2 : 1
  signing.forEach(({ born }, place) => {
    household.age[place] = year - yearIn(born)
  })
  household.state = stateLawOf(plan, year)
  household.region = regionIndex(regionOfPlan(plan))
  return household
}

/** The year of a death is still filed together, that of a separation no more (26 USC 7703(a)). */
const signsIn = (plan: Plan, id: string, year: number): boolean => {
  const departure = departureOf(plan, id)
  if (departure === null) return true
  return departure.kind === 'death' ? departure.month > month(year, 1) : departure.month > month(year, 12)
}

/** Since the other died, whole years; infinite where nobody did. */
const yearsSinceDeath = (plan: Plan, year: number): number => {
  const death = plan.household.people
    .map(({ id }) => departureOf(plan, id))
    .find((departure) => departure?.kind === 'death' && departure.month <= month(year, 1))
  return death ? year - yearOf((death.month - 1) as Month) : Number.POSITIVE_INFINITY
}

/** Share of the farm's profit that counts as the first person's. */
export const farmShareOfFirst = (plan: Plan): number => {
  const shares = plan.household.people.slice(0, 2).map((person) => person.farmWorkShare)
  const all = shares.reduce((sum, share) => sum + share, 0)
  return all > 0 && shares.length === 2 ? shares[0]! / all : shares.length === 2 ? 0.5 : 1
}

const fillIncome = (household: HouseholdYear, plan: Plan, projected: ProjectedYear): void => {
  const isCouple = household.people === 2
  const share = isCouple ? farmShareOfFirst(plan) : 1
  const shares = [share, 1 - share]
  household.farmProfit = shares.map((part) => projected.farmProfit * part)
  household.farmGross = shares.map((part) => projected.farmGross * part)
  household.farmOptional = shares.map(() => (plan.tax.optionalSelfEmployment ? 1 : 0))
  const { sideProfit, wages } = projected
  const side = isCouple ? projected.sideProfitOfFirst : sideProfit
  const paid = isCouple ? projected.wagesOfFirst : wages
  household.otherSelfEmployment = [side, sideProfit - side]
  household.wages = [paid, wages - paid]
  const pensions = isCouple ? projected.pensionsOfFirst : projected.pensions
  household.pensions = [pensions, projected.pensions - pensions]
  household.longTermGains = projected.gains
  household.iraDistributions = projected.retirementIncome
  household.socialSecurity = projected.benefits
  household.itemized = plan.tax.itemized
  household.propertyTax = plan.household.place.propertyTax ?? 0
  household.rent = plan.household.place.rent ?? 0
  household.careCosts = projected.careCosts
}

/**
 * Interest, dividends, contributions and other deductible premiums are not listed by year: the sum that brings adjusted gross
 * income to the projected figure.
 */
const unlistedIncome = (household: HouseholdYear, law: LawYear, cover: CoverAsRun): number => {
  const { projected } = cover
  const tax = emptyHouseholdTax()
  const run = Object.assign(emptyHouseholdYear(), household)
  run.advanceMonthly = run.coverMonths > 0 ? projected.advanceCredit / run.coverMonths : 0
  return otherIncomeMeeting(projected.adjustedGrossIncome, 0, (otherIncome) => {
    run.otherIncome = otherIncome
    assessHousehold(law, run, tax)
    return tax.adjustedGrossIncome
  })
}
