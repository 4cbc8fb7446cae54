// Inherited accounts stand by themselves: what the books hold of their kind is no word about them, unless an account there bears their name.
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

const areOne = (one: Named, other: Named): boolean =>
  one.kind === other.kind && ventureKey(one.name) === ventureKey(other.name)

/** What the books hold of retirement savings beside the inherited accounts that they name. */
const notNamed = ({ savings: { accounts } }: Plan, facts: BookFacts | null): BookFacts['retirement'] =>
  (facts?.retirement ?? []).filter((held) => !accounts.some((one) => isAlone(one) && areOne(one, held)))

/** `planned`: what each account is expected to hold. A kind of which the plan has only inherited accounts is held by them. */
export function heldApart(plan: Plan, planned: readonly number[], facts: BookFacts | null): HeldApart {
  const { accounts } = plan.savings
  const others = notNamed(plan, facts)
  return accounts.map((account, place) => {
    if (!isAlone(account)) return null
    const named = facts?.retirement.filter((held) => areOne(account, held)) ?? []
    if (named.length > 0) return named.reduce((sum, one) => sum + one.dollars, 0)
    const holdsItsKind = !accounts.some((one) => one.kind === account.kind && !isAlone(one))
    return holdsItsKind && others.some(({ kind }) => kind === account.kind) ? null : planned[place]!
  })
}

/** Inherited accounts with money that go on as planned, as the books hold none of their names. */
export const apartAsPlanned = (plan: Plan, facts: BookFacts): Account[] => {
  const { accounts } = plan.savings
  const apart = heldApart(
    plan,
    accounts.map(({ balance }) => balance),
    facts,
  )
  return accounts.filter(
    (account, place) =>
      apart[place] !== null && account.balance > 0 && !facts.retirement.some((held) => areOne(account, held)),
  )
}

/** Of what the books hold, what accounts share that do not stand by themselves. */
export function sharedInBooks(plan: Plan, facts: BookFacts): SavingsByKind {
  const { traditional: _, roth: __, ...shared }: SavingsByKind = facts.savings
  const sums: SavingsByKind = shared
  for (const { kind, dollars } of notNamed(plan, facts)) sums[kind] = (sums[kind] ?? 0) + dollars
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
