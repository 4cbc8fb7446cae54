// Forms of the year's return that are shown line by line, from the figures it was worked with.
import type { YearIncome } from '#ledger/reports/income-of-year.ts'
import { coveredMonths } from '#ledger/tax/cover-papers.ts'
import type { Plan } from '#plan/plan.ts'
import { type Form7206Line, form7206 } from '#rules/forms/form-7206.ts'
import { type Form8962, form8962 } from '#rules/forms/form-8962.ts'
import { type Form8995, form8995, type OwnedBusiness } from '#rules/forms/form-8995.ts'
import { type ScheduleSeLine, scheduleSe } from '#rules/forms/schedule-se.ts'
import type { HouseholdYear } from '#rules/household-year.ts'
import type { LawYear } from '#rules/law-year.ts'
import type { ReturnLines } from '#rules/return/return-lines.ts'
import { wholeCents } from '#rules/rounding.ts'
import { placeOfVenture } from './earners.ts'

export interface YearForms {
  /** Form 8962 where its papers were entered; else null. */
  premiumCredit: Form8962 | null
  /** Schedule SE of each who has one, by name. */
  selfEmployment: readonly { name: string; lines: readonly ScheduleSeLine[] }[]
  /** Form 7206; empty where no premiums were paid or no business earned anything. */
  healthInsurance: readonly Form7206Line[]
  /** Form 8995; null where there is no business. */
  qualifiedBusiness: Form8995 | null
}

export const yearForms = (
  law: LawYear,
  plan: Plan,
  household: HouseholdYear,
  income: YearIncome,
  lines: ReturnLines,
): YearForms => ({
  premiumCredit: hasPapers(income) ? form8962(law, lines.cover, monthsOf(income)) : null,
  selfEmployment: plan.household.people
    .slice(0, household.people)
    .map(({ name }, place) => ({ name, lines: scheduleSe(law, lines.business.people[place]!) }))
    .filter((one) => one.lines.length > 0),
  healthInsurance: form7206(household, lines),
  qualifiedBusiness: form8995(law, household, lines, businessesOf(plan, household, income, lines)),
})

const hasPapers = ({ coverMonths = [] }: YearIncome): boolean => coveredMonths(coverMonths).length > 0

const monthsOf = ({ coverMonths = [] }: YearIncome) =>
  coverMonths.map(({ premiumCents, benchmarkCents, advanceCents }) => ({
    premium: premiumCents,
    benchmark: premiumCents > 0 ? benchmarkCents : 0,
    advance: premiumCents > 0 ? advanceCents : 0,
  }))

/** The farm of each, as far as it is theirs, each venture, and what ventures made before the books began. */
const businessesOf = (
  plan: Plan,
  household: HouseholdYear,
  income: YearIncome,
  { business }: ReturnLines,
): OwnedBusiness[] => {
  const places = ([0, 1] as const).slice(0, household.people)
  const whose = (place: 0 | 1) =>
    household.people === 2 ? ` of ${plan.household.people[place]?.name ?? 'the other'}` : ''
  const ventures = income.ventures.map(
    (venture): OwnedBusiness => ({
      name: venture.name,
      owner: placeOfVenture(plan, household.people, venture),
      isFarm: false,
      profit: wholeCents(venture.profit),
    }),
  )
  const rest = places.map((place): OwnedBusiness => {
    const told = ventures.filter(({ owner }) => owner === place).reduce((sum, { profit }) => sum + profit, 0)
    return {
      name: `Businesses${whose(place)} before the books began`,
      owner: place,
      isFarm: false,
      profit: business.people[place]!.otherProfit - told,
    }
  })
  const farms = places.map(
    (place): OwnedBusiness => ({
      name: `Farm${whose(place)}`,
      owner: place,
      isFarm: true,
      profit: business.people[place]!.farmProfit,
    }),
  )
  return [...farms, ...ventures, ...rest].filter(
    ({ profit, isFarm, owner }) => profit !== 0 || (isFarm && business.people[owner]!.farmOptional > 0),
  )
}
