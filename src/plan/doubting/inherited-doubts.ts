// What an inherited account cannot be: cash, without a death, of a death to come, evenly paid, put into; and what it hardly is.
import { monthName, parseMonth, yearOf } from '#calendar/month.ts'
import { emptyBy, tenYearsFromDeathsIn } from '#rules/inherited-distributions.ts'
import type { Doubt } from '../doubt.ts'
import type { Plan } from '../plan.ts'
import { dueBeforePlan } from '../savings/inherited-due.ts'
import { type Account, inheritedAccountOf } from '../savings-plan.ts'

export const inheritedDoubts = (plan: Plan): Doubt[] =>
  plan.savings.accounts.flatMap((account, place) =>
    account.inherited === undefined ? [] : doubtsOf(plan, account, place),
  )

const doubtsOf = (plan: Plan, account: Account, place: number): Doubt[] => {
  const { name, kind } = account
  const at = (field: string, message: string, asks?: true): Doubt[] => [
    {
      path: ['savings', 'accounts', place, field],
      message: `${name}: ${message}`,
      ...(asks ? { asks } : {}),
    },
  ]
  if (kind !== 'traditional' && kind !== 'roth')
    return at(
      'inherited',
      'money that was inherited in cash or in a taxable account is one’s own. Leave this empty',
    )
  if (account.inheritedIn === undefined)
    return at('inheritedIn', 'enter the month in which the one before died')
  if (account.evenPaymentsFrom !== undefined)
    return at('evenPaymentsFrom', 'an inherited account has no early withdrawals. Leave even payments empty')
  if (plan.savings.contributions.some((line) => line.account === account.id && line.perMonth > 0))
    return at('inherited', 'nothing can be put into an inherited account. Take its contributions out first')
  const ofTime = [...aboutDeath(plan, account, at), ...aboutTime(plan, account, at)]
  return ofTime.length > 0 ? ofTime : aboutFirstYear(plan, account, at)
}

type At = (field: string, message: string, asks?: true) => Doubt[]

const aboutDeath = ({ startMonth }: Plan, account: Account, at: At): Doubt[] => {
  const { inheritedIn, inheritedFromBorn, inherited } = account
  const died = parseMonth(inheritedIn!)!
  if (died > parseMonth(startMonth)!)
    return at(
      'inheritedIn',
      `${monthName(died)} is after the plan begins. An account counts here once it is inherited`,
    )
  if (inheritedFromBorn !== undefined && inheritedFromBorn > yearOf(died))
    return at('inheritedFromBorn', 'born after the death. Correct one of the two')
  return inherited === 'tenYears' && yearOf(died) < tenYearsFromDeathsIn
    ? at(
        'inherited',
        `the ten years are of deaths from ${tenYearsFromDeathsIn} on; of earlier ones it is spread over a life. Is it so all the same?`,
        true,
      )
    : []
}

/** Each January the plan takes the year's part; in a first year that began before it, somebody else has to. */
const aboutFirstYear = (plan: Plan, account: Account, at: At): Doubt[] => {
  const due = dueBeforePlan(plan, account)
  if (due === null) return []
  const much =
    due.part === 1 ? 'all of it' : `last December’s balance divided by ${Math.round(10 / due.part) / 10}`
  return at(
    'balance',
    `by December 31, ${due.year}, the law has ${much} out, and the plan, which begins in ${monthName(due.begins)}, takes nothing of that year. Is it out already, so that this balance is without it?`,
    true,
  )
}

/** What should have been empty before the plan begins is taken out in its first January. */
const aboutTime = (plan: Plan, account: Account, at: At): Doubt[] => {
  const start = parseMonth(plan.startMonth)!
  const last = emptyBy(inheritedAccountOf(account, 0, start))
  return last !== null && last < yearOf(start) && account.balance > 0
    ? at(
        'inheritedIn',
        `all of it was to be out by the end of ${last}. Is the month of the death right?`,
        true,
      )
    : []
}
