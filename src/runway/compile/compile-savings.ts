// Accounts to arrays: who owns which, in what order they are spent, where a surplus goes, and the limits of each year.
import { yearIn } from '#calendar/month.ts'
import type { Plan } from '#plan/plan.ts'
import {
  type Account,
  type AccountKind,
  healthForCare,
  isOwnPlan,
  ownedKinds,
  rothContributions,
} from '#plan/savings-plan.ts'
import type { ContributionLimits } from '#rules/contribution-limits.ts'
import type { RunwayRules } from '#runway/runway-rules.ts'
import { monthsOf, type Span } from '#runway/span.ts'
import type { Weather } from '#runway/storms/weather.ts'
import { accountCode, isSpendable } from './codes.ts'
import { compileRetirement } from './compile-retirement.ts'
import type { CompiledPerson } from './compiled-person.ts'
import type { CompiledSavings } from './compiled-plan.ts'
import { accountParts } from './compiled-retirement.ts'

export const compileSavings = (
  plan: Plan,
  rules: RunwayRules,
  span: Span,
  weather: Weather,
  people: readonly CompiledPerson[],
): CompiledSavings => {
  const { savings, household } = plan
  const { accounts } = savings
  const of = (pick: (account: Account) => number) => Float64Array.from(accounts, pick)
  const personOf = (id: string | undefined) => household.people.findIndex((person) => person.id === id)
  const firstOf = (kind: AccountKind) => accounts.findIndex((account) => account.kind === kind)
  const cashAccount = firstOf('cash')
  const taxableAccount = firstOf('taxable')
  const surplusAccount = taxableAccount >= 0 ? taxableAccount : cashAccount
  const owner = Int32Array.from(accounts, (account) =>
    ownerOf(account, personOf(account.owner), household.people.length),
  )
  const order = orderOf(accounts, savings.spendOrder)
  return {
    count: accounts.length,
    kind: Int32Array.from(accounts, (account) => accountCode[account.kind]),
    owner,
    opening: of((account) => account.balance),
    openingBasis: of((account) => account.basis ?? account.balance),
    stocks: of((account) => account.mix.stocks),
    bonds: of((account) => account.mix.bonds),
    bills: of((account) => account.mix.bills),
    fee: of((account) => account.fee),
    growsLike: Int32Array.from(accounts, (account) => accounts.findIndex((one) => growAlike(one, account))),
    spendOrder: Int32Array.from(order, ({ place }) => place),
    spendPart: Uint8Array.from(order, ({ part }) => part),
    cashAccount,
    surplusAccount,
    retirementAccount: Int32Array.from([0, 1], (person) =>
      firstOwned(plan, person, ['traditional', 'roth'], 'ira'),
    ),
    matchAccount: Int32Array.from([0, 1], (person) => firstOwned(plan, person, ['traditional'])),
    addedTo: addedTo(accounts, surplusAccount, cashAccount),
    reserveMonths: savings.reserveMonths,
    surplusToRetirement: savings.surplusToRetirement,
    retirementIsSpendable: savings.retirementIsSpendable,
    spendRetirementBeforeAge: savings.spendRetirementBeforeAge,
    requiredFromAge: savings.requiredDistributionsFrom ?? 0,
    requiredAccount:
      savings.requiredDistributionsTo === undefined
        ? surplusAccount
        : accounts.findIndex((account) => account.id === savings.requiredDistributionsTo),
    stockYield: plan.assumptions.stockYield,
    marketFall: weather.marketFall,
    broughtTo: { month: -1, amount: 0, spendableAlone: false },
    contributes: savings.contributions.length > 0,
    contributions: contributionsOf(plan, span),
    contributionLimit: limitsOf(plan, span, rules.contributionLimit),
    deferralLimit: limitsOf(plan, span, rules.deferralLimit),
    ...yearLimits(plan, rules, span),
    ...compileRetirement(plan, span, people, owner),
  }
}

/**
 * Money added lies as the plan begins with its cash and taxable savings, in those that earn: nobody leaves a cushion for decades in a checking
 * account. Where the plan begins with nothing in them, where a surplus goes if that earns, else in the first that does; where none does, as cash.
 */
function addedTo(accounts: readonly Account[], surplusAccount: number, cashAccount: number): Float64Array {
  const earns = ({ kind, mix }: Account) =>
    isSpendable(accountCode[kind]) && mix.stocks + mix.bonds + mix.bills > 0
  const held = accounts.map((account) => (earns(account) ? account.balance : 0))
  const sum = held.reduce((all, each) => all + each, 0)
  if (sum > 0) return Float64Array.from(held, (each) => each / sum)
  const first = accounts.findIndex(earns)
  const surplus = accounts[surplusAccount]
  const only = surplus && earns(surplus) ? surplusAccount : first >= 0 ? first : cashAccount
  return Float64Array.from(accounts, (_, place) => (place === only ? 1 : 0))
}

const growAlike = (a: Account, b: Account): boolean =>
  a.fee === b.fee &&
  a.mix.stocks === b.mix.stocks &&
  a.mix.bonds === b.mix.bonds &&
  a.mix.bills === b.mix.bills

/** A retirement account always has an owner: the first person where the plan names none. */
const ownerOf = (account: Account, person: number, people: number): number =>
  person < 0 && people > 0 && ownedKinds.includes(account.kind) ? 0 : person

/** An account named has its own place; a kind stands for its others, as listed. What the order leaves out is never spent. */
const orderOf = (
  accounts: readonly Account[],
  order: readonly string[],
): { place: number; part: number }[] => {
  const kinds = Object.keys(accountCode)
  const words = withHealth(accounts, [...new Set(order)])
  const isAfter = (word: string) =>
    words.includes(rothContributions) && words.indexOf(word) > words.indexOf(rothContributions)
  const named = new Set(words.filter((word) => !kinds.includes(word)))
  const isMeant = ({ id, kind }: Account, word: string) => {
    if (word === rothContributions) return kind === 'roth'
    if (word === healthForCare) return kind === 'health'
    return kinds.includes(word) ? kind === word && !named.has(id) : id === word
  }
  const partOf = ({ kind }: Account, word: string) => {
    if (word === rothContributions) return accountParts.contributions
    if (word === healthForCare) return accountParts.care
    return kind === 'roth' && isAfter(word) ? accountParts.rest : 0
  }
  return words.flatMap((word) =>
    accounts.flatMap((account, place) =>
      isMeant(account, word) ? [{ place, part: partOf(account, word) }] : [],
    ),
  )
}

/** Health savings that the order names in no way pay care first, which is free of tax, and anything else last. */
const withHealth = (accounts: readonly Account[], words: readonly string[]): string[] => {
  const own = new Set(accounts.filter(({ kind }) => kind === 'health').map(({ id }) => id))
  const isNamed = words.some((word) => word === 'health' || word === healthForCare || own.has(word))
  return own.size === 0 || isNamed ? [...words] : [healthForCare, ...words, 'health']
}

/** The first account of these kinds listed for a person; one without an owner is the first person's. −1 for none. */
const firstOwned = (
  plan: Plan,
  person: number,
  kinds: readonly AccountKind[],
  heldAs?: Account['heldAs'],
): number => {
  const id = plan.household.people[person]?.id
  if (id === undefined) return -1
  return plan.savings.accounts.findIndex(
    (account) =>
      kinds.includes(account.kind) &&
      account.inherited === undefined &&
      (heldAs === undefined || account.heldAs === heldAs) &&
      (account.owner === id || (account.owner === undefined && person === 0)),
  )
}

const contributionsOf = (plan: Plan, span: Span): Float64Array => {
  const { accounts, contributions } = plan.savings
  const out = new Float64Array(accounts.length * span.months)
  for (const line of contributions) {
    const place = accounts.findIndex((account) => account.id === line.account)
    const { first, end } = monthsOf(line, span)
    for (let m = first; m < end; m += 1) out[place * span.months + m]! += line.perMonth
  }
  return out
}

const yearLimits = (
  plan: Plan,
  rules: RunwayRules,
  span: Span,
): Pick<CompiledSavings, 'limits' | 'hasHealthSavings'> => {
  const { accounts } = plan.savings
  const hasHealthSavings = accounts.some(({ kind }) => kind === 'health')
  const isAsked = hasHealthSavings || accounts.some(({ heldAs }) => isOwnPlan(heldAs))
  return { limits: isAsked ? allLimits(plan, rules, span) : [], hasHealthSavings }
}

const allLimits = (plan: Plan, rules: RunwayRules, span: Span): ContributionLimits[] =>
  [0, 1].flatMap((person) =>
    Array.from({ length: span.years }, (_, y) =>
      rules.limits(span.firstYear + y, ageIn(plan, person, span.firstYear + y)),
    ),
  )

const ageIn = ({ household }: Plan, person: number, year: number): number => {
  const born = household.people[person]?.born
  return born === undefined ? 40 : year - yearIn(born)
}

const limitsOf = (plan: Plan, span: Span, limit: RunwayRules['contributionLimit']): Float64Array => {
  const out = new Float64Array(2 * span.years)
  for (let person = 0; person < 2; person += 1) {
    for (let y = 0; y < span.years; y += 1) {
      const year = span.firstYear + y
      out[person * span.years + y] = limit(year, ageIn(plan, person, year))
    }
  }
  return out
}
