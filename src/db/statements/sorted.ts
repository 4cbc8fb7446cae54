// What carrying out choices for statement lines takes beside them, and what it came to.
import type { LoanBook } from '#ledger/loan-payment.ts'
import type { SortingTarget } from '#ledger/statements/sorting.ts'
import type { SplitShare } from '#ledger/statements/split-shares.ts'

/** A rule that a choice taught, and where its payee went before; null for a new one. */
export interface TaughtRule {
  ruleId: string
  before: SortingTarget | null
  /** Of a split that was kept: the rule's revision by it, and how the payee's bills were split before. */
  kept?: { revision: number; splitBefore: readonly SplitShare[] | null }
}

export interface Sorted {
  posted: number
  matched: number
  setAside: number
  madeGenuine: number
  replaced: number
  rulesLearned: number
  /** Of loan payments split by their loans' terms, what went to interest. */
  loanInterestCents: number
}

/** `loans`: the terms by which a payment sorted to a loan is split into interest and principal. */
export interface SortingOptions {
  learn?: boolean
  loans?: LoanBook
}

export const nothingSorted = (): Sorted => ({
  posted: 0,
  matched: 0,
  setAside: 0,
  madeGenuine: 0,
  replaced: 0,
  rulesLearned: 0,
  loanInterestCents: 0,
})
