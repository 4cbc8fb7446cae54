// Whether an adult on Medicaid meets the work requirement: by hours, by income, or because it does not ask them.
import { workAges, workHoursMonthly, workIncomeMonthly } from '../data/work-requirement.ts'
import { yearsOf } from '../dated.ts'
import { inForce } from '../in-force.ts'

export interface Worker {
  /** Years at the start of the year. */
  age: number
  hoursMonthly: number
  householdIncomeMonthly: number
  /** Of the youngest child at home; null without one. */
  youngestChild: number | null
}

export type WorkRequirement =
  | 'met by hours'
  | 'met by income'
  | 'not asked of parents of a young child'
  | 'not asked at this age'
  | 'not met'

/** Null in years before it begins. */
export const workRequirement = (year: number, worker: Worker): WorkRequirement | null => {
  if (year < yearsOf(workHoursMonthly).first) return null
  const { from, to, childTo } = inForce(workAges, year)
  if (worker.age < from || worker.age > to) return 'not asked at this age'
  if (worker.youngestChild !== null && worker.youngestChild <= childTo)
    return 'not asked of parents of a young child'
  if (worker.hoursMonthly >= inForce(workHoursMonthly, year)) return 'met by hours'
  return worker.householdIncomeMonthly >= inForce(workIncomeMonthly, year) ? 'met by income' : 'not met'
}
