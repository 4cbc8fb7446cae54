// Inherited accounts stand by themselves: what the books hold of their kind is no word about them, unless an account there bears their name.
import { centsToDollars, dollarsToCents } from '#money/cents.ts'
import type { Plan } from '#plan/plan.ts'
import type { Account, AccountKind } from '#plan/savings-plan.ts'
import type { ProjectedMonth, Projection } from '#runway/project.ts'
import type { BookFacts } from './book-facts.ts'
import { ventureKey } from './cash-handed-over.ts'

/** By account of the plan, in its order: dollars of one that stands by itself; null for a part of what its kind holds together. */
export type HeldApart = readonly (number | null)[]

export type SavingsByKind = Partial<Record<AccountKind, number>>

type Named = Pick<Account, 'kind' | 'name'>

const isAlone = ({ kind, inherited }: Account): boolean =>
  inherited !== undefined && (kind === 'traditional' || kind === 'roth')

/** Whether an account of the books is one of the plan by its kind and name. */
export const isNamedSo = (one: Named, other: Named): boolean =>
  one.kind === other.kind && ventureKey(one.name) === ventureKey(other.name)

/** Whether an account of the books is an inherited one of the plan, by its kind and name. */
export const isNamedInherited = ({ savings: { accounts } }: Plan, held: Named): boolean =>
  accounts.some((one) => isAlone(one) && isNamedSo(one, held))

/** What the books hold of retirement savings beside the inherited accounts that they name. */
const notNamed = (plan: Plan, facts: BookFacts | null): BookFacts['retirement'] =>
  (facts?.retirement ?? []).filter((held) => !isNamedInherited(plan, held))

/**
 * `planned`: what each account is expected to hold. A kind of which the plan has only inherited accounts is held by them. One that is
 * held together with own money, or of which nobody has said where, is a part of what the books hold of its kind, and never beside it.
 */
export function heldApart(plan: Plan, planned: readonly number[], facts: BookFacts | null): HeldApart {
  const { accounts } = plan.savings
  const left = sumsOf(notNamed(plan, facts))
  return accounts.map((account, place) => {
    if (!isAlone(account)) return null
    const named = facts?.retirement.filter((held) => isNamedSo(account, held)) ?? []
    if (named.length > 0) return named.reduce((sum, one) => sum + one.dollars, 0)
    const there = left[account.kind]
    const holdsItsKind = !accounts.some((one) => one.kind === account.kind && !isAlone(one))
    if (there === undefined) return planned[place]!
    if (holdsItsKind) return null
    if (account.inheritedHeld === 'beside') return planned[place]!
    const part = Math.min(planned[place]!, Math.max(0, there))
    left[account.kind] = there - part
    return part
  })
}

const sumsOf = (held: BookFacts['retirement']): SavingsByKind => {
  const sums: SavingsByKind = {}
  for (const { kind, dollars } of held) sums[kind] = (sums[kind] ?? 0) + dollars
  return sums
}

/** Inherited accounts with money that the books do not name, though they hold others of their kind. */
const unnamed = (plan: Plan, facts: BookFacts): Account[] => {
  const { accounts } = plan.savings
  const there = sumsOf(notNamed(plan, facts))
  return accounts.filter(
    (account) =>
      isAlone(account) &&
      account.balance > 0 &&
      !facts.retirement.some((held) => isNamedSo(account, held)) &&
      there[account.kind] !== undefined &&
      accounts.some((one) => one.kind === account.kind && !isAlone(one)),
  )
}

/** Those that go on as planned, beside what the books hold of their kind. */
export const apartAsPlanned = (plan: Plan, facts: BookFacts): Account[] =>
  unnamed(plan, facts).filter(({ inheritedHeld }) => inheritedHeld === 'beside')

/** Those of which nobody has said whether the books hold them together with own money. */
export const heldSomewhere = (plan: Plan, facts: BookFacts): Account[] =>
  unnamed(plan, facts).filter(({ inheritedHeld }) => inheritedHeld === undefined)

/** Of what the books hold, what accounts share that do not stand by themselves. */
export function sharedInBooks(plan: Plan, facts: BookFacts, apart: HeldApart): SavingsByKind {
  const { traditional: _, roth: __, ...shared }: SavingsByKind = facts.savings
  const sums: SavingsByKind = { ...shared, ...sumsOf(notNamed(plan, facts)) }
  const within = unnamed(plan, facts).filter(({ inheritedHeld }) => inheritedHeld !== 'beside')
  for (const account of within) {
    const part = apart[plan.savings.accounts.indexOf(account)] ?? 0
    // What the books hold is whole cents, and stays so when a part is taken off.
    sums[account.kind] = centsToDollars(dollarsToCents((sums[account.kind] ?? 0) - part))
  }
  return sums
}

/** The same of a projected month, of which each account is `planned` to hold so much. */
export function sharedIn(
  { savings: { accounts } }: Plan,
  { cash, taxable, traditional, roth, health }: Pick<ProjectedMonth, AccountKind>,
  planned: readonly number[],
  apart: HeldApart,
): Record<AccountKind, number> {
  const alone = (wanted: AccountKind) =>
    accounts.reduce(
      (sum, { kind }, place) => (kind === wanted && apart[place] !== null ? sum + planned[place]! : sum),
      0,
    )
  return {
    cash,
    taxable,
    traditional: Math.max(0, traditional - alone('traditional')),
    roth: Math.max(0, roth - alone('roth')),
    health,
  }
}

/** What each account holds at the end of the month at this place of a course; as the plan has it before the first. */
export const accountsIn = (
  { savings: { accounts } }: Plan,
  { parts }: Pick<Projection, 'parts'>,
  place: number,
): number[] =>
  accounts.map(({ balance }, account) =>
    parts === null || place < 0 ? balance : (parts.accounts[account * parts.months + place] ?? balance),
  )
