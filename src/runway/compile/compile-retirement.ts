// Plans at work and even payments: from when an account is free of the early addition, who is covered at work, what is paid evenly.
import { type Month, parseMonth, yearOf } from '#calendar/month.ts'
import type { Plan } from '#plan/plan.ts'
import { freeFrom, isWorkPlan } from '#plan/savings/early-addition.ts'
import { type Account, inheritedAccountOf, isOwnPlan } from '#plan/savings-plan.ts'
import { conversionWaitYears, rothWaitYears } from '#rules/data/retirement-accounts.ts'
import { evenPaymentMethods, evenPaymentsEnd, hasLifeExpectancy } from '#rules/even-payments.ts'
import { inForce } from '#rules/in-force.ts'
import { emptyBy, inheritedPart } from '#rules/inherited-distributions.ts'
import { ownPlanKinds } from '#rules/own-plan-limits.ts'
import { monthsOf, type Span, stepsTaken } from '#runway/span.ts'
import { compileConversions } from './compile-conversions.ts'
import type { CompiledPerson } from './compiled-person.ts'
import type { CompiledRetirement } from './compiled-retirement.ts'

/** `owner`: by account the place of its owner, below 0 for nobody. */
export const compileRetirement = (
  plan: Plan,
  span: Span,
  people: readonly CompiledPerson[],
  owner: Int32Array,
): Omit<CompiledRetirement, 'deferralLimit' | 'limits' | 'spendPart' | 'hasHealthSavings'> => {
  const { accounts } = plan.savings
  const evenFrom = Int32Array.from(accounts, (account, place) =>
    evenFromOf(account, people[owner[place]!], span),
  )
  return {
    freeFrom: Float64Array.from(accounts, (account, place) =>
      freeFromOf(account, plan.household.people[owner[place]!], people[owner[place]!], span),
    ),
    conversionWait: inForce(conversionWaitYears, span.firstYear),
    rothWait: inForce(rothWaitYears, span.firstYear),
    rothSince: Float64Array.of(rothSinceOf(accounts, owner, span, 0), rothSinceOf(accounts, owner, span, 1)),
    isWorkPlan: Uint8Array.from(accounts, (account) => (isWorkPlan(account) ? 1 : 0)),
    ownPlan: Int8Array.from(accounts, ownPlanOf),
    hasOwnPlans: accounts.some((account) => ownPlanOf(account) >= 0),
    covered: coveredOf(plan, span, owner),
    isInherited: Uint8Array.from(accounts, (account) => (isInherited(account) ? 1 : 0)),
    hasInherited: accounts.some(isInherited),
    inheritedPart: inheritedParts(accounts, span, people, owner),
    paysEvenly: evenFrom.some((month) => month >= 0),
    evenFrom,
    evenTo: Int32Array.from(accounts, (account, place) =>
      evenFrom[place]! < 0
        ? -1
        : evenPaymentsEnd(
            parseMonth(account.evenPaymentsFrom!)! - span.firstMonth,
            people[owner[place]!]!.month59Half,
          ),
    ),
    evenMethod: Uint8Array.from(accounts, (one) => evenPaymentMethods.indexOf(one.evenPaymentsBy)),
    evenRate: Float64Array.from(accounts, (one) => one.evenPaymentsRate),
    evenFactor: Float64Array.from(accounts, (one) => one.evenPaymentsFactor ?? 0),
    evenAmount: Float64Array.from(accounts, (one) => one.evenPaymentsAmount ?? 0),
    conversions: compileConversions(plan, span, people, owner),
  }
}

/** A place in `ownPlanKinds`, −1 for none. */
const ownPlanOf = ({ kind, heldAs, inherited }: Account): number =>
  kind === 'traditional' && isOwnPlan(heldAs) && inherited === undefined ? ownPlanKinds.indexOf(heldAs) : -1

const isInherited = ({ kind, inherited }: Account): boolean =>
  inherited !== undefined && (kind === 'traditional' || kind === 'roth')

/** Account × year: what the law asks for while the heir lives, or an even part of what is left where the plan says so. */
const inheritedParts = (
  accounts: readonly Account[],
  span: Span,
  people: readonly CompiledPerson[],
  owner: Int32Array,
): Float64Array => {
  const parts = new Float64Array(accounts.length * span.years)
  accounts.forEach((account, place) => {
    const person = people[owner[place]!]
    if (!isInherited(account) || person === undefined) return
    const law = inheritedAccountOf(account, person.birthYear, (span.firstMonth - 1) as Month)
    const last = emptyBy(law)
    for (let y = 0; y < span.years; y += 1) {
      const year = span.firstYear + y
      const evenly =
        account.inheritedTaken === 'evenly' && last !== null && year > yearOf(law.diedIn)
          ? 1 / Math.max(1, last - year + 1)
          : 0
      parts[place * span.years + y] = Math.max(evenly, inheritedPart(law, year))
    }
  })
  return parts
}

/** Of an account with money that says no year it was long ago. */
const rothSinceOf = (accounts: readonly Account[], owner: Int32Array, span: Span, person: number): number =>
  accounts.reduce((first, { kind, balance, inherited, rothSince }, place) => {
    if (kind !== 'roth' || inherited !== undefined || Math.max(0, owner[place]!) !== person) return first
    const since = rothSince ?? (balance > 0 ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY)
    return Math.min(first, since - span.firstYear)
  }, Number.POSITIVE_INFINITY)

const freeFromOf = (
  account: Account,
  owner: Plan['household']['people'][number] | undefined,
  person: CompiledPerson | undefined,
  span: Span,
): number => {
  if (person === undefined || owner === undefined) return Number.NEGATIVE_INFINITY
  if (account.kind === 'health') return person.monthHealthFree
  return freeFrom(account, owner.born, span.firstYear) - span.firstMonth
}

/**
 * Years in which a person has pay from an employer whose plan holds an account of theirs, or puts money into a plan of their own
 * business (26 USC 219(g)(5)).
 */
const coveredOf = (plan: Plan, span: Span, owner: Int32Array): Uint8Array => {
  const covered = new Uint8Array(2 * span.years)
  plan.savings.accounts.forEach((account, place) => {
    const id = plan.household.people[owner[place]!]?.id
    if (ownPlanOf(account) >= 0) coverByOwnPlan(plan, span, account, owner[place]!, covered)
    if (!isWorkPlan(account) || id === undefined) return
    const left = account.leftWork === undefined ? Number.POSITIVE_INFINITY : parseMonth(account.leftWork)!
    for (const pay of plan.household.pay.filter((one) => one.person === id && one.kind === 'wages')) {
      const from = pay.from === undefined ? 0 : parseMonth(pay.from)!
      const to = Math.min(left, pay.to === undefined ? Number.POSITIVE_INFINITY : parseMonth(pay.to)!)
      for (let y = 0; y < span.years; y += 1) {
        const january = (span.firstYear + y) * 12
        if (from < january + 12 && to >= january) covered[owner[place]! * span.years + y] = 1
      }
    }
  })
  return covered
}

const coverByOwnPlan = (
  { savings }: Plan,
  span: Span,
  account: Account,
  person: number,
  covered: Uint8Array,
): void => {
  if (person < 0) return
  const lines = savings.contributions.filter((one) => one.account === account.id && one.perMonth > 0)
  for (const line of lines) {
    const { first, end } = monthsOf(line, span)
    for (let m = first; m < end; m += 1) covered[person * span.years + stepsTaken(span, m)] = 1
  }
}

/** Month of the plan in which even payments begin, its first where they have begun before; −1 for none. */
const evenFromOf = (account: Account, person: CompiledPerson | undefined, span: Span): number => {
  if (account.evenPaymentsFrom === undefined || account.kind !== 'traditional' || person === undefined)
    return -1
  if (isInherited(account)) return -1
  if (account.evenPaymentsBy === 'annuity' && account.evenPaymentsFactor === undefined) return -1
  const month = parseMonth(account.evenPaymentsFrom)! - span.firstMonth
  const begins = Math.max(0, month)
  const age = Math.floor((span.firstMonth + begins) / 12) - person.birthYear
  const ends = evenPaymentsEnd(month, person.month59Half)
  return month < person.month59Half && ends > 0 && hasLifeExpectancy(age) ? begins : -1
}
