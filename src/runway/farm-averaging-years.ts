// The three years before a return, as farm income averaging needs them: from the plan at first, then from the course's own years.
import type { HouseholdTax } from '#rules/household-year.ts'
import type { BaseYear, FarmAveraging } from '#rules/return/farm-averaging.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'

export interface AveragingState {
  /** Of the years before this one, the last first; the course's prices over those of their law. */
  years: FarmAveraging
  levels: Float64Array
}

export const noAveraging = (): AveragingState => ({
  years: { years: [noYear(), noYear(), noYear()], elected: -1 },
  levels: new Float64Array(3),
})

const noYear = (): BaseYear => ({ law: null, status: 0, taxable: 0, preferred: 0, ratio: 1 })

/** The years before the plan. */
export const beginAveraging = ({ law }: CompiledPlan, averaging: AveragingState): void => {
  averaging.levels.fill(1)
  averaging.years.years.forEach((year, k) => {
    year.law = law.baseYears[k]!.law
    year.status = law.filing
    year.taxable = law.baseYears[k]!.taxable
    year.preferred = 0
  })
}

/** For the return of a year whose prices are `ratio` times its law's: null where the plan does not average. */
export const averagingFor = (
  { law }: CompiledPlan,
  averaging: AveragingState,
  ratio: number,
): FarmAveraging | null => {
  if (!law.averageFarmIncome) return null
  for (let k = 0; k < 3; k += 1) averaging.years.years[k]!.ratio = ratio / averaging.levels[k]!
  return averaging.years
}

/**
 * After the return: what was averaged has gone into the years before, which keep it; this year keeps the rest. A year of losses
 * counts as one without income, since they go to other years by themselves.
 */
export const keepBaseYear = (
  { law }: CompiledPlan,
  averaging: AveragingState,
  status: number,
  tax: HouseholdTax,
  y: number,
  ratio: number,
): void => {
  if (!law.averageFarmIncome) return
  const { years } = averaging.years
  const third = tax.averagedFarmIncome / ratio / 3
  for (const base of years) base.taxable += third * base.ratio
  for (let k = 2; k > 0; k -= 1) {
    copyYear(years[k - 1]!, years[k]!)
    averaging.levels[k] = averaging.levels[k - 1]!
  }
  averaging.levels[0] = ratio
  const newest = years[0]
  newest.law = law.years[y]!
  newest.status = status
  newest.taxable =
    (Math.max(0, tax.adjustedGrossIncome) - tax.deduction - tax.qbiDeduction - tax.averagedFarmIncome) / ratio
  newest.preferred = tax.preferredIncome / ratio
}

const copyYear = (from: BaseYear, to: BaseYear): void => {
  to.law = from.law
  to.status = from.status
  to.taxable = from.taxable
  to.preferred = from.preferred
}
