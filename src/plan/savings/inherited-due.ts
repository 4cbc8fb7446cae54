// What the law has out of an inherited account in a year whose January lies before the plan: the plan itself takes each year's part in January.
import { type Month, monthOfYear, yearIn, yearOf } from '#calendar/month.ts'
import { inheritedPart } from '#rules/inherited-distributions.ts'
import { firstMonthOf } from '../first-month.ts'
import type { Plan } from '../plan.ts'
import { type Account, inheritedAccountOf } from '../savings-plan.ts'

export interface InheritedDue {
  year: number
  /** The plan's first month. */
  begins: Month
  /** Of the balance of the December before, 0 to 1 (26 USC 401(a)(9)(B), (H)). */
  part: number
}

/** Null where the plan begins in January, or nothing is due in that year. */
export const dueBeforePlan = (plan: Plan, account: Account): InheritedDue | null => {
  const begins = firstMonthOf(plan)
  const { people } = plan.household
  const heir = people.find(({ id }) => id === account.owner) ?? people[0]
  if (monthOfYear(begins) === 1 || account.inherited === undefined || account.balance <= 0 || !heir)
    return null
  const law = inheritedAccountOf(account, yearIn(heir.born), (begins - 1) as Month)
  const part = inheritedPart(law, yearOf(begins))
  return part > 0 ? { year: yearOf(begins), begins, part } : null
}
