// What books know and the plan does not, or the other way round, each with the plan that would know it as well.
import { type Day, monthOfDay } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import type { Books } from '#db/open.ts'
import { householdSide } from '#ledger/account.ts'
import { isCard } from '#ledger/money-held.ts'
import { centsToDollars, zeroCents } from '#money/cents.ts'
import { formatDollars } from '#money/format.ts'
import type { Plan } from '#plan/plan.ts'
import type { AccountKind } from '#plan/savings-plan.ts'
import { shortName } from '#plan/short-name.ts'
import type { PlanInUse } from '#today/current-plan.ts'
import { keptUntilChange } from '#today/kept.ts'
import { apartAsPlanned, heldSomewhere } from '#today/projection/accounts-apart.ts'
import { type BookFacts, bookFacts } from '#today/projection/book-facts.ts'
import { benefitsOfBooks } from './benefits.ts'
import type { OneSided } from './figures.ts'
import { oneSidedLoans } from './loans.ts'
import { onceNextMonth } from './once-next-month.ts'
import { otherIncomeOfBooks } from './other-income.ts'
import { premiumsPaid } from './premiums-paid.ts'
import { oneSidedVentures } from './ventures.ts'

/** Nothing before the books hold a month. The same list as long as nothing changes. */
export const oneSided = (books: Books, { plan, planId, revisionNo }: PlanInUse, today: Day): OneSided[] =>
  keptUntilChange(books, `one-sided ${today} ${planId} ${revisionNo}`, () => {
    const facts = bookFacts(books, monthOfDay(today))
    if (!facts) return []
    return [
      ...oneSidedLoans(books, plan, today),
      ...savingsOfBooks(plan, facts),
      ...savingsOfPlan(plan, facts),
      ...inheritedOfPlan(plan, facts),
      ...inheritedSomewhere(plan, facts),
      ...cards(books, plan, today),
      ...oneSidedVentures(books, plan, today),
      ...otherIncomeOfBooks(books, plan, today),
      ...benefitsOfBooks(books, plan, today),
      ...premiumsPaid(books, plan, today),
    ]
  })

const kindNames: Record<Exclude<AccountKind, 'cash'>, string> = {
  taxable: 'Taxable investments',
  traditional: 'Traditional retirement accounts',
  roth: 'Roth accounts',
  health: 'Health savings',
}
const kinds = ['taxable', 'traditional', 'roth', 'health'] as const

/** Cash has a place in every plan. */
const savingsOfBooks = (plan: Plan, { savings }: BookFacts): OneSided[] =>
  kinds.flatMap((kind) => {
    const held = savings[kind] ?? 0
    const { accounts } = plan.savings
    if (held < 1 || accounts.some((one) => one.kind === kind)) return []
    const name = kindNames[kind]
    const id = shortName(name, new Set(accounts.map((one) => one.id)), kind)
    const owner = plan.household.people[0]?.id
    const account = {
      id,
      name,
      kind,
      balance: held,
      mix: { stocks: 0, bonds: 0, bills: 0 },
      fee: 0,
      ...(owner === undefined || kind === 'taxable' ? {} : { owner }),
    }
    return [
      {
        id: `account-${kind}`,
        waits: true,
        says: `${name}: the books hold ${formatDollars(held)}, and the plan has no account of this kind. Its mix is asked for on Runway; until then it earns nothing`,
        change: {
          button: 'Take it into the plan',
          note: `${name} taken into the plan`,
          plan: { ...plan, savings: { ...plan.savings, accounts: [...accounts, account] } },
        },
        more: null,
      },
    ]
  })

const savingsOfPlan = (plan: Plan, { savings }: BookFacts): OneSided[] =>
  kinds.flatMap((kind) => {
    const own = plan.savings.accounts.filter((one) => one.kind === kind)
    const planned = own.reduce((sum, one) => sum + one.balance, 0)
    if (savings[kind] !== undefined || planned < 1) return []
    const names = own.map(({ name }) => `“${name}”`).join(', ')
    return [
      {
        id: `planned-account-${kind}`,
        waits: true,
        says: `${names}: the plan counts ${formatDollars(planned)}, and the books hold no account of this kind; it goes on as planned`,
        change: {
          button: 'Remove it from the plan',
          note: `${names} removed from the plan`,
          plan: withoutAccounts(plan, new Set(own.map(({ id }) => id))),
        },
        more: { text: 'Enter what it holds in the books', href: '/settings#books-title' },
      },
    ]
  })

/** Of a kind that the books do hold: it is not among what they hold unless an account there bears its name. */
const inheritedOfPlan = (plan: Plan, facts: BookFacts): OneSided[] =>
  apartAsPlanned(plan, facts)
    .filter(({ kind }) => facts.savings[kind] !== undefined)
    .map(({ id, name, balance }) => ({
      id: `planned-inherited-${id}`,
      waits: true,
      says: `“${name}”: the plan counts ${formatDollars(balance)}, inherited, and the books hold no account of that name; it goes on as planned, beside what they hold`,
      change: {
        button: 'Remove it from the plan',
        note: `“${name}” removed from the plan`,
        plan: withoutAccounts(plan, new Set([id])),
      },
      more: { text: 'Enter what it holds in the books', href: '/settings#books-title' },
    }))

/** In one account of the books with own money, or in none of them: only a person knows. */
const inheritedSomewhere = (plan: Plan, facts: BookFacts): OneSided[] =>
  heldSomewhere(plan, facts).map(({ id, name, kind, balance }) => {
    const held = `${formatDollars(facts.savings[kind] ?? 0)} of ${kind === 'roth' ? 'Roth' : 'traditional'} savings in the books`
    const heldAs = (inheritedHeld: 'among' | 'beside'): Plan => ({
      ...plan,
      savings: {
        ...plan.savings,
        accounts: plan.savings.accounts.map((one) => (one.id === id ? { ...one, inheritedHeld } : one)),
      },
    })
    return {
      id: `inherited-held-${id}`,
      waits: true,
      says: `“${name}”: the plan counts ${formatDollars(balance)}, inherited, and the books hold no account of that name. Until you say where it is, it is taken as a part of the ${held}, so that nothing counts twice`,
      change: {
        button: 'It is a part of them',
        note: `“${name}” is held together with own money`,
        plan: heldAs('among'),
      },
      other: {
        asks: `Is “${name}”, inherited, a part of the ${held}, or beside them?`,
        button: 'It is beside them',
        note: `“${name}” is held beside what the books hold`,
        plan: heldAs('beside'),
      },
      more: { text: 'Enter what it holds in the books', href: '/settings#books-title' },
    }
  })

const withoutAccounts = (plan: Plan, gone: ReadonlySet<string>): Plan => {
  const { savings } = plan
  const into = savings.requiredDistributionsTo
  return {
    ...plan,
    savings: {
      ...savings,
      accounts: savings.accounts.filter(({ id }) => !gone.has(id)),
      contributions: savings.contributions.filter(({ account }) => !gone.has(account)),
      conversions: savings.conversions.filter(({ from, into }) => !gone.has(from) && !gone.has(into)),
      spendOrder: savings.spendOrder.filter((word) => !gone.has(word)),
      requiredDistributionsTo: into !== undefined && gone.has(into) ? undefined : into,
    },
  }
}

/** What is owed on spendable cards is taken off savings already; on another it counts nowhere. */
const cards = (books: Books, plan: Plan, today: Day): OneSided[] => {
  const balances = balancesOn(books, today)
  return listAccounts(books, { sideId: householdSide }).flatMap((account) => {
    const owed = -centsToDollars(balances.get(account.id) ?? zeroCents)
    if (!isCard(account) || account.cashRole === 'spendable' || owed < 1) return []
    const says = `${account.name}: ${formatDollars(owed)} is owed and counts nowhere in the plan`
    return onceNextMonth(plan, today, {
      id: `card-${account.number}`,
      waits: true,
      name: account.name,
      cost: owed,
      says,
    })
  })
}
