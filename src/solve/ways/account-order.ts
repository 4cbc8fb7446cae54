// From which accounts a shortfall is met: the orders worth trying for the accounts that a plan has, and even payments before 59½.

import { type Month, monthsBetween, monthText, parseMonth } from '#calendar/month.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import type { Plan } from '#plan/plan.ts'
import { type AccountKind, rothContributions, spendWords } from '#plan/savings-plan.ts'
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
  return [...ways, ...usedSooner(plan), ...evenPayments(plan)]
}

/** One of them by its short name, be it the plan's own. */
export const orderNamed = (plan: Plan, id: string): Way | undefined =>
  [...orders.map(wayOf), ...usedSooner(plan), ...evenPayments(plan)].find((way) => way.id === id)

const wayOf = ({ order, ...words }: Order): Way => ({
  ...words,
  change: (changed) => ({ ...changed, savings: { ...changed.savings, spendOrder: order } }),
})

/** The order as far as it says anything for the kinds there are. */
const inOrder = (order: readonly string[], kinds: ReadonlySet<string>): string =>
  order
    .filter((word) => kinds.has(word === rothContributions ? 'roth' : word) || !spendWords.includes(word))
    .join(' ')

/** Whether the owner of an account is under 59½ as the plan begins. */
function isYoung(plan: Plan, owner: string | undefined): boolean {
  const { people } = plan.household
  const person = owner === undefined ? people[0] : people.find((one) => one.id === owner)
  if (!person) return false
  const born = parseMonth(person.born.slice(0, 7))!
  return monthsBetween(born as Month, firstMonthOf(plan)) < 59 * 12 + 6
}

/** Where the plan leaves retirement accounts alone until 59½: to use them before, once all else is gone. */
function usedSooner(plan: Plan): Way[] {
  const kept = plan.savings.accounts.filter(
    (one) =>
      (one.kind === 'traditional' || one.kind === 'roth') && one.balance > 0 && isYoung(plan, one.owner),
  )
  if (plan.savings.spendRetirementBeforeAge || kept.length === 0) return []
  return [
    {
      id: 'before-59',
      name: 'Retirement accounts before 59½ too',
      says: `${kept.map((one) => one.name).join(' and ')} may pay before 59½, once what comes before in the order is used up, with tax and the addition for early withdrawals where the law asks for it (26 USC 72(t)).`,
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
      isYoung(plan, one.owner),
  )
  if (accounts.length === 0) return []
  const ids = new Set(accounts.map((one) => one.id))
  return [
    {
      id: 'even-payments',
      name: 'Even payments from traditional accounts before 59½',
      says: `Even payments by life expectancy from ${monthText(first)} out of ${accounts.map((one) => one.name).join(' and ')}, without the addition for early withdrawals (26 USC 72(t)(2)(A)(iv)). They cannot be changed for five years or until 59½, whichever is later.`,
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
