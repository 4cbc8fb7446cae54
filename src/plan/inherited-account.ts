// An account of the plan that was inherited, as its law asks.
import { type Month, parseMonth } from '#calendar/month.ts'
import type { InheritedAccount } from '#rules/inherited-distributions.ts'
import type { Account } from './savings-plan.ts'

/** `unsaid`: when the owner is taken to have died where the plan says no month. Only for accounts that say they were inherited. */
export const inheritedAccountOf = (account: Account, heirBorn: number, unsaid: Month): InheritedAccount => ({
  heir: account.inherited ?? 'tenYears',
  diedIn: account.inheritedIn === undefined ? unsaid : parseMonth(account.inheritedIn)!,
  ownerBorn: account.inheritedFromBorn ?? null,
  isRoth: account.kind === 'roth',
  heirBorn,
})
