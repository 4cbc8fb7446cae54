// What must be paid ahead for a year of the books, to the federal treasury and to the state, by the year before as filed or said.
import { yearIn } from '#calendar/month.ts'
import type { YearIncome } from '#ledger/reports/income-of-year.ts'
import type { Plan } from '#plan/plan.ts'
import type { Carryforwards } from '#rules/carryforwards.ts'
import type { EstimatedTaxInput, GrossIncome } from '#rules/estimated-tax.ts'
import type { HouseholdYear } from '#rules/household-year.ts'
import type { HouseholdReturn } from '#rules/return/household-return.ts'
import { type StateEstimatedTax, stateEstimatedTax } from '#rules/states/state-dates.ts'
import { onLine26, type PaidFor, withPaidEarlier } from './paid-for.ts'

/** The year before, where the books hold the whole of it. */
export interface LastYear {
  gross: GrossIncome
  /** Tax after its refundable credits, and adjusted gross income, dollars; null where its law is not known here. */
  filed: FiledYear | null
}

export interface FiledYear {
  tax: number
  stateTax: number
  adjustedGrossIncome: number
  /** What it leaves to later years: a farming loss that the plan carries back is not in it as far as those years used it. */
  carried: Carryforwards
  /** What comes back of their tax. */
  lossRefund: number
}

/** The year before as it was filed, where the plan starts in this one and says it; else as the books have it. */
export const estimatedInput = (
  plan: Plan,
  income: YearIncome,
  lastYear: LastYear | null,
  whose: 'tax' | 'stateTax',
  taxThisYear: number,
  { withheld, estimates }: Pick<PaidFor, 'withheld' | 'estimates'>,
): EstimatedTaxInput => {
  const { lastYear: said } = plan.tax
  const saidGross = grossSaidOfLastYear(plan, income.year)
  const filed = saidGross && said[whose] > 0 ? said : (lastYear?.filed ?? null)
  return {
    taxYear: income.year,
    thisYear: income.gross,
    lastYear: lastYear?.gross ?? saidGross ?? { farm: 0, total: 0 },
    taxThisYear,
    taxLastYear: filed?.[whose] ?? null,
    adjustedGrossIncomeLastYear: filed?.adjustedGrossIncome ?? 0,
    // Wages count it as paid in four equal parts over the year (26 USC 6654(g)(1)).
    withheld,
    paid: estimates,
    marriedSeparate: false,
  }
}

/** By the state where the plan's household lives, where its tax counts, by typed rates too. */
export const stateEstimatedOf = (
  plan: Plan,
  income: YearIncome,
  lastYear: LastYear | null,
  household: HouseholdYear,
  { figures }: HouseholdReturn,
  paid: PaidFor,
): StateEstimatedTax | null => {
  const state = household.state && (household.state.state ?? plan.household.place.state)
  if (!state) return null
  const owed = Math.max(0, figures.stateIncomeTax - figures.localIncomeTax)
  const all = withPaidEarlier(paid, income.earlier, 'state')
  return stateEstimatedTax(
    state,
    estimatedInput(plan, income, lastYear, 'stateTax', owed, {
      withheld: all.withheld,
      estimates: onLine26(all),
    }),
  )
}

/** What a plan that starts in `year` says of the year before it, as shares of one dollar; null of any other year. */
export const grossSaidOfLastYear = (plan: Plan, year: number): GrossIncome | null =>
  year === yearIn(plan.startMonth) ? { farm: plan.tax.lastYear.farmShare, total: 1 } : null
