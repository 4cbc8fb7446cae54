// What a retirement account cannot be: paid evenly at no age for it or by nothing to reckon with, of one's own business and not
// traditional, converted from or into what the law does not let in.
import { parseMonth, yearOf } from '#calendar/month.ts'
import { earlyWithdrawalAge } from '#rules/data/retirement-accounts.ts'
import { hasLifeExpectancy } from '#rules/even-payments.ts'
import { inForce } from '#rules/in-force.ts'
import type { Doubt } from '../doubt.ts'
import type { Plan } from '../plan.ts'
import { conversionFaults } from '../savings/conversions.ts'
import { isOwnPlan } from '../savings-plan.ts'
import { inheritedDoubts } from './inherited-doubts.ts'

export const accountDoubts = (plan: Plan): Doubt[] => [
  ...evenPayments(plan),
  ...annuityFactors(plan),
  ...ownPlans(plan),
  ...conversions(plan),
  ...inheritedDoubts(plan),
]

/** Payments need an owner, and a reason: from 59½ on there is none. */
const evenPayments = ({ household, savings }: Plan): Doubt[] =>
  savings.accounts.flatMap(({ name, kind, owner, evenPaymentsFrom }, place): Doubt[] => {
    if (evenPaymentsFrom === undefined) return []
    const path = ['savings', 'accounts', place, 'evenPaymentsFrom']
    if (kind !== 'traditional')
      return [{ path, message: `${name}: even payments come out of a traditional account` }]
    const born = (household.people.find(({ id }) => id === owner) ?? household.people[0])?.born
    if (born === undefined) return [{ path, message: `${name}: even payments need an owner` }]
    const from = parseMonth(evenPaymentsFrom)!
    const bornMonth = parseMonth(born.slice(0, 7))!
    const freeFrom = bornMonth + inForce(earlyWithdrawalAge, Number.POSITIVE_INFINITY) * 12
    return from >= bornMonth && hasLifeExpectancy(yearOf(from) - yearOf(bornMonth)) && from < freeFrom
      ? []
      : [{ path, message: `${name}: even payments begin before 59½ of the owner` }]
  })

/** Nothing here can work the factor out. */
const annuityFactors = ({ savings }: Plan): Doubt[] =>
  savings.accounts.flatMap((account, place) =>
    account.evenPaymentsFrom !== undefined &&
    account.evenPaymentsBy === 'annuity' &&
    account.evenPaymentsFactor === undefined
      ? [
          {
            path: ['savings', 'accounts', place, 'evenPaymentsFactor'],
            message: `${account.name}: enter the annuity factor, or choose another method`,
          },
        ]
      : [],
  )

const conversions = ({ household, savings }: Plan): Doubt[] =>
  savings.conversions.flatMap((one, place) =>
    conversionFaults(one, savings.accounts, household.people[0]?.id).map(({ field, message }) => ({
      path: ['savings', 'conversions', place, field],
      message,
    })),
  )

/** What goes in is deducted: a Roth part of such a plan is not reckoned here. */
const ownPlans = ({ savings }: Plan): Doubt[] =>
  savings.accounts.flatMap(({ name, kind, heldAs }, place) =>
    isOwnPlan(heldAs) && kind !== 'traditional'
      ? [
          {
            path: ['savings', 'accounts', place, 'heldAs'],
            message: `${name}: a SEP, SIMPLE or solo 401(k) is a traditional account here. Choose that kind`,
          },
        ]
      : [],
  )
