// What an hour of hired help costs, and what the employer has to do for it.
import { payrollTaxRates } from '#rules/data/business-deductions.ts'
import { farmUnemploymentTest, farmWageTests } from '#rules/data/farm-payroll.ts'
import { inForce } from '#rules/in-force.ts'
import type { Farm } from './farm-document.ts'

/** These stand in the statute without a year of their own. */
const newest = Number.POSITIVE_INFINITY

const payrollTaxRate = (): number => {
  const { socialSecurity, medicare } = inForce(payrollTaxRates, newest)
  return socialSecurity + medicare
}

/** At first prices. With a wage: the wage, the employer's payroll tax and workers' compensation; else what the plan says an hour costs. */
export const costOfHour = ({ wage, compensationRate, hourlyCost }: Farm['hired']): number =>
  wage === undefined ? hourlyCost : wage * (1 + payrollTaxRate() + compensationRate)

export interface HiredYear {
  hours: number
  /** Dollars at first prices. Null parts where the plan has no wage of its own. */
  cost: number
  wages: number | null
  payrollTax: number | null
  compensation: number | null
  /** Whether wages pass the line from which social security and Medicare tax is due whatever one worker gets. Null without a wage. */
  passesWageTest: boolean | null
  passesUnemploymentTest: boolean | null
  tests: { oneWorker: number; allWorkers: number; aQuarter: number }
}

/** `hours` of January to December. */
export const hiredYear = ({ hired }: Farm, hours: readonly number[]): HiredYear => {
  const all = hours.reduce((a, b) => a + b, 0)
  const { wage } = hired
  const { oneWorker, allWorkers } = inForce(farmWageTests, newest)
  const aQuarter = inForce(farmUnemploymentTest, newest)
  const tests = { oneWorker, allWorkers, aQuarter }
  const cost = all * costOfHour(hired)
  if (wage === undefined)
    return {
      hours: all,
      cost,
      wages: null,
      payrollTax: null,
      compensation: null,
      passesWageTest: null,
      passesUnemploymentTest: null,
      tests,
    }
  const quarters = [0, 3, 6, 9].map((from) => hours.slice(from, from + 3).reduce((a, b) => a + b, 0) * wage)
  return {
    hours: all,
    cost,
    wages: all * wage,
    payrollTax: all * wage * payrollTaxRate(),
    compensation: all * wage * hired.compensationRate,
    passesWageTest: all * wage >= allWorkers,
    passesUnemploymentTest: quarters.some((wages) => wages >= aQuarter),
    tests,
  }
}
