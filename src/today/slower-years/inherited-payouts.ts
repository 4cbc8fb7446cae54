// When the law makes an inherited account pay out: all of it by a year, or a part of it each year.
import type { Month } from '#calendar/month.ts'
import { yearIn } from '#calendar/month.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import type { Plan } from '#plan/plan.ts'
import { dueBeforePlan } from '#plan/savings/inherited-due.ts'
import { type Account, inheritedAccountOf } from '#plan/savings-plan.ts'
import { emptyBy } from '#rules/inherited-distributions.ts'

export interface InheritedPayout {
  account: string
  /** Place among the people. */
  heir: number
  /** The year by whose end all must be out, and the heir's age in it; null where the law spreads it over a life. */
  by: { year: number; age: number } | null
  takenEvenly: boolean
  /** What comes out is income of its year: not of a Roth account. */
  isIncome: boolean
  /** Of a year that began before the projection: about so much by its end, dollars, which the projection takes to be out; else null. */
  dueNow: { year: number; dollars: number } | null
}

const dueNow = (plan: Plan, account: Account): InheritedPayout['dueNow'] => {
  const due = dueBeforePlan(plan, account)
  return due && { year: due.year, dollars: account.balance * due.part }
}

/** Of accounts with money in them; where no month of the death is told, as the projection takes it: the month before its first. */
export const inheritedPayouts = (plan: Plan): InheritedPayout[] =>
  plan.savings.accounts.flatMap((account) => {
    const heir = Math.max(
      0,
      plan.household.people.findIndex(({ id }) => id === account.owner),
    )
    const person = plan.household.people[heir]
    if (account.inherited === undefined || account.balance <= 0 || person === undefined) return []
    const born = yearIn(person.born)
    const last = emptyBy(inheritedAccountOf(account, born, (firstMonthOf(plan) - 1) as Month))
    return [
      {
        account: account.name,
        heir,
        by: last === null ? null : { year: last, age: last - born },
        takenEvenly: account.inheritedTaken === 'evenly',
        isIncome: account.kind === 'traditional',
        dueNow: dueNow(plan, account),
      },
    ]
  })
