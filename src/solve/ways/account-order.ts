// From which accounts a shortfall is met: the orders worth trying for the accounts that a plan has, even payments before 59½, and an even
// part each year of what was inherited.

import { type Month, monthName, monthText, yearIn } from '#calendar/month.ts'
import { allOf } from '#money/lists.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import type { Plan } from '#plan/plan.ts'
import { isAddedTo } from '#plan/savings/early-addition.ts'
import {
  type Account,
  type AccountKind,
  inheritedAccountOf,
  rothContributions,
  spendWords,
} from '#plan/savings-plan.ts'
import { emptyBy } from '#rules/inherited-distributions.ts'
import type { Way } from './way.ts'

const orders: readonly {
  id: string
  name: string
  says: string
  order: (AccountKind | typeof rothContributions)[]
}[] = [
  {
    id: 'contributions-first',
    name: 'Roth contributions first',
    says: 'Cash, then what was put into Roth accounts, which comes out free at any age, taxable savings, traditional accounts, and the rest of the Roth accounts last.',
    order: ['cash', rothContributions, 'taxable', 'traditional', 'roth'],
  },
  {
    id: 'taxable-first',
    name: 'Taxable savings first, Roth last',
    says: 'Cash, then taxable savings, then traditional accounts, and Roth accounts last.',
    order: ['cash', 'taxable', 'traditional', 'roth'],
  },
  {
    id: 'roth-before-traditional',
    name: 'Roth before traditional accounts',
    says: 'Cash, taxable savings, then Roth accounts, whose contributions come out free at any age, and traditional accounts last.',
    order: ['cash', 'taxable', 'roth', 'traditional'],
  },
  {
    id: 'roth-first',
    name: 'Roth before taxable savings',
    says: 'Cash, Roth accounts, taxable savings, traditional accounts last.',
    order: ['cash', 'roth', 'taxable', 'traditional'],
  },
  {
    id: 'traditional-first',
    name: 'Traditional accounts before taxable savings',
    says: 'Cash, then traditional accounts, while other income is low; taxable savings and Roth accounts are kept.',
    order: ['cash', 'traditional', 'taxable', 'roth'],
  },
]

type Order = (typeof orders)[number]

/** Those that differ for the kinds of accounts that the plan has, but for its own. */
export function orderWays(plan: Plan): readonly Way[] {
  const kinds = new Set(plan.savings.accounts.map((account) => account.kind))
  const own = inOrder(plan.savings.spendOrder, kinds)
  const seen = new Set([own])
  const ways: Way[] = []
  for (const each of orders) {
    const key = inOrder(each.order, kinds)
    if (seen.has(key)) continue
    seen.add(key)
    ways.push(wayOf(each))
  }
  return [...ways, ...besides(plan)]
}

const besides = (plan: Plan): Way[] => [...usedSooner(plan), ...evenPayments(plan), ...inheritedEvenly(plan)]

/** One of them by its short name, be it the plan's own. */
export const orderNamed = (plan: Plan, id: string): Way | undefined =>
  [...orders.map(wayOf), ...besides(plan)].find((way) => way.id === id)

const wayOf = ({ order, ...words }: Order): Way => ({
  ...words,
  change: (changed) => ({ ...changed, savings: { ...changed.savings, spendOrder: order } }),
})

/** The order as far as it says anything for the kinds there are. */
const inOrder = (order: readonly string[], kinds: ReadonlySet<string>): string =>
  order
    .filter((word) => kinds.has(word === rothContributions ? 'roth' : word) || !spendWords.includes(word))
    .join(' ')

const ownerOf = ({ household: { people } }: Plan, { owner }: Account) =>
  owner === undefined ? people[0] : people.find((one) => one.id === owner)

/** Whether money out of an account bears the addition as the plan begins: out of an inherited one at no age (26 USC 72(t)(2)(A)(ii)). */
function isEarly(plan: Plan, account: Account): boolean {
  const born = ownerOf(plan, account)?.born
  return born !== undefined && account.inherited === undefined && isAddedTo(account, born, firstMonthOf(plan))
}

/** Where the plan leaves retirement accounts alone until 59½: to use them before, once all else is gone. */
function usedSooner(plan: Plan): Way[] {
  const kept = plan.savings.accounts.filter(
    (one) => (one.kind === 'traditional' || one.kind === 'roth') && one.balance > 0 && isEarly(plan, one),
  )
  if (plan.savings.spendRetirementBeforeAge || kept.length === 0) return []
  return [
    {
      id: 'before-59',
      name: 'Retirement accounts before 59½ too',
      says: `${allOf(kept.map((one) => one.name))} may pay before 59½, once what comes before in the order is used up, with tax and the addition for early withdrawals where the law asks for it (26 USC 72(t)).`,
      change: (changed) => ({
        ...changed,
        savings: {
          ...changed.savings,
          spendRetirementBeforeAge: true,
          spendOrder: [...new Set([...changed.savings.spendOrder, ...kept.map((one) => one.kind)])],
        },
      }),
    },
  ]
}

/** For each person under 59½ with a traditional account that is not paid evenly yet. */
function evenPayments(plan: Plan): Way[] {
  const first = firstMonthOf(plan)
  const accounts = plan.savings.accounts.filter(
    (one) =>
      one.kind === 'traditional' &&
      one.heldAs === 'ira' &&
      one.balance > 0 &&
      !one.evenPaymentsFrom &&
      isEarly(plan, one),
  )
  if (accounts.length === 0) return []
  const ids = new Set(accounts.map((one) => one.id))
  return [
    {
      id: 'even-payments',
      name: 'Even payments from traditional accounts before 59½',
      says: `Even payments by life expectancy from ${monthName(first)} out of ${allOf(accounts.map((one) => one.name))}, without the addition for early withdrawals (26 USC 72(t)(2)(A)(iv)). They cannot be changed for five years or until 59½, whichever is later.`,
      change: (changed) => ({
        ...changed,
        savings: {
          ...changed.savings,
          accounts: changed.savings.accounts.map((one) =>
            ids.has(one.id)
              ? {
                  ...one,
                  evenPaymentsFrom: monthText(firstMonthOf(changed)),
                  evenPaymentsBy: 'lifeExpectancy',
                }
              : one,
          ),
        },
      }),
    },
  ]
}

/** Of an inherited account that is to be empty by a year: not its least until then, and the rest at once. A Roth one gains most by waiting. */
function inheritedEvenly(plan: Plan): Way[] {
  const found = plan.savings.accounts.flatMap((account) => {
    const { kind, inherited, inheritedTaken, balance } = account
    const heir = ownerOf(plan, account)
    if (kind !== 'traditional' || inherited === undefined || inheritedTaken === 'evenly') return []
    if (balance <= 0 || heir === undefined) return []
    const unsaid = (firstMonthOf(plan) - 1) as Month
    const by = emptyBy(inheritedAccountOf(account, yearIn(heir.born), unsaid))
    return by === null ? [] : [{ account, by }]
  })
  if (found.length === 0) return []
  const ids = new Set(found.map(({ account }) => account.id))
  return [
    {
      id: inheritedEvenlyId,
      name: 'What was inherited in even parts',
      says: `Each January an even part of what is left, over the years until it must be empty (26 USC 401(a)(9)(B)(ii)): ${found.map(({ account, by }) => `${account.name} until ${by}`).join(', ')}.`,
      change: (changed) => ({
        ...changed,
        savings: {
          ...changed.savings,
          accounts: changed.savings.accounts.map((one) =>
            ids.has(one.id) ? { ...one, inheritedTaken: 'evenly' } : one,
          ),
        },
      }),
    },
  ]
}

/** It moves what is income to other years, as a conversion does: both are tried together whatever it leaves alone. */
export const inheritedEvenlyId = 'inherited-evenly'
