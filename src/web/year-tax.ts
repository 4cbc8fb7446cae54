// The year's tax worksheet from the books and the plan's people: what the return takes in, the return itself, and when tax is due.
import type { BookYear } from '#ledger/reports/book-year.ts'
import { sumOfPurposes } from '#ledger/reports/income-statement.ts'
import { grossFarmIncome, type ScheduleF } from '#ledger/reports/schedule-f.ts'
import type { StockInventory } from '#ledger/reports/stock-inventory.ts'
import { cents, centsToDollars } from '#money/cents.ts'
import type { Plan } from '#plan/plan.ts'
import { steadyIndexing } from '#rules/dated.ts'
import { type EstimatedTaxPlan, estimatedTaxPlan } from '#rules/estimated-tax.ts'
import type { HouseholdYear } from '#rules/fast/household-year.ts'
import { firstLawYear, lawFor } from '#rules/law.ts'
import { familyPremium } from '#rules/marketplace/premium-by-age.ts'
import { fileReturn, type HouseholdReturn } from '#rules/return/household-return.ts'
import { stateIncomeTax } from '#rules/state-tax.ts'
import { peopleOfYear } from '#runway/cover-household.ts'
import { incomeFromBooks, type TaxInput } from './year-tax-income.ts'

export interface YearTax {
  year: number
  basis: 'enacted' | 'projected'
  household: HouseholdYear
  inputs: TaxInput[]
  return: HouseholdReturn
  /** By the brackets typed in the plan, dollars; 0 when the plan has none. */
  stateTax: number
  estimated: EstimatedTaxPlan
  /** What was assumed because the books and the plan do not say it. */
  assumed: string[]
}

export type YearTaxResult = { status: 'worked'; tax: YearTax } | { status: 'cannot'; says: string }

/** Works the federal return of the year as far as the books go. A year in progress counts what is booked so far. */
export const yearTax = (
  sides: readonly BookYear[],
  form: ScheduleF,
  inventory: StockInventory,
  plan: Plan | null,
): YearTaxResult => {
  const { year } = form
  if (!plan || plan.household.people.length === 0) {
    return {
      status: 'cannot',
      says: 'Add the people of the household to the plan, so that the return knows who signs it.',
    }
  }
  if (year < firstLawYear) return { status: 'cannot', says: `The tax tables here start in ${firstLawYear}.` }
  const assumed: string[] = []
  const household = { ...peopleOfYear(plan, year), itemized: plan.tax.itemized }
  const inputs = incomeFromBooks(household, sides, form, inventory, plan, assumed)
  fillCover(household, sides, plan, year, assumed)
  const law = lawFor(year, steadyIndexing(plan.assumptions.inflation))
  const worked = fileReturn(law, household)
  return {
    status: 'worked',
    tax: {
      year,
      basis: law.basis,
      household,
      inputs,
      return: worked,
      stateTax: stateIncomeTax(plan.tax.stateTax, worked.figures),
      estimated: estimatedOf(plan, form, household, worked.figures.totalTax),
      assumed,
    },
  }
}

/** Premiums as paid; a marketplace plan's full premium and benchmark by the plan's age-21 premiums. */
const fillCover = (
  household: HouseholdYear,
  sides: readonly BookYear[],
  plan: Plan,
  year: number,
  assumed: string[],
): void => {
  const home = sides.find((side) => side.kind === 'household')
  const paid = home ? centsToDollars(sumOfPurposes(home, ['premium'], 'expense')) : 0
  const { marketplace } = plan.health
  if (marketplace.members.length === 0 || marketplace.benchmarkAt21 === 0) {
    household.otherHealthPremiums = Math.max(0, paid)
    return
  }
  const months = home ? monthsWithPremiums(home) : 0
  const everyone = [...plan.household.people, ...plan.household.dependants]
  const rated = marketplace.members.flatMap(({ person }) => {
    const found = everyone.find((one) => one.id === person)
    if (!found) return []
    const isDependant = plan.household.dependants.some(({ id }) => id === person)
    return [{ age: Math.max(0, year - Number(found.born.slice(0, 4))), isDependant }]
  })
  const familyAt = (premiumMonthly: number) =>
    familyPremium({ age: 21, premiumMonthly }, rated, marketplace.ageRating, year).total
  household.coverMonths = months
  household.deductibleMonths = months
  household.benchmarkMonthly = familyAt(marketplace.benchmarkAt21)
  household.premiumMonthly = familyAt(marketplace.planAt21 || marketplace.benchmarkAt21)
  if (marketplace.advanceCredit && months > 0)
    household.advanceMonthly = Math.max(0, household.premiumMonthly - paid / months)
  assumed.push(
    'Marketplace premium and benchmark are the plan’s, by age; the advance credit is the premium less what was paid. Form 1095-A has the true figures.',
  )
}

const monthsWithPremiums = (home: BookYear): number => {
  const rows = home.accounts.filter(({ account }) => account.purpose === 'premium')
  const months = Array.from({ length: 12 }, (_, i) => rows.some((row) => row.monthsCents[i] !== 0))
  return months.filter(Boolean).length
}

/** The year before is known from the plan only when the plan starts in this one. */
const estimatedOf = (
  plan: Plan,
  form: ScheduleF,
  household: HouseholdYear,
  totalTax: number,
): EstimatedTaxPlan => {
  const gains = cents(Math.round(household.longTermGains * 100))
  const farm = centsToDollars(grossFarmIncome(form, gains))
  const earned = [...household.wages, ...household.otherSelfEmployment]
  const others = earned.reduce((sum, amount) => sum + Math.max(0, amount), 0)
  const { lastYear } = plan.tax
  const knows = form.year === Number(plan.startMonth.slice(0, 4))
  return estimatedTaxPlan({
    taxYear: form.year,
    thisYear: { farm, total: farm + others + household.interest + household.otherIncome },
    lastYear: knows ? { farm: lastYear.farmShare, total: 1 } : { farm: 0, total: 0 },
    taxThisYear: Math.max(0, totalTax),
    taxLastYear: knows ? lastYear.tax : null,
    adjustedGrossIncomeLastYear: knows ? lastYear.adjustedGrossIncome : 0,
    withheld: household.withheld,
    marriedSeparate: false,
  })
}
