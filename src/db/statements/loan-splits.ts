// A statement line sorted to a loan that has terms, taken apart into interest and principal before it is booked.
import { loanState } from '#db/ledger/loan-state.ts'
import type { Books } from '#db/open.ts'
import { type LoanBook, loanParts, partsByAccount } from '#ledger/loan-payment.ts'
import type { LineChoice, LineToSort } from '#ledger/statements/sorted-parts.ts'
import { type Cents, cents, zeroCents } from '#money/cents.ts'

/** Any other choice comes back as it is. Lines come oldest first, each booked before the next is looked at. */
export const splitByTerms = (
  books: Books,
  loans: LoanBook,
  line: LineToSort,
  choice: LineChoice,
): { choice: LineChoice; interestCents: Cents } => {
  const target = choice.kind === 'target' ? choice.target : null
  const terms = target?.kind === 'account' ? loans.get(target.accountId) : undefined
  if (!terms || line.amount >= 0) return { choice, interestCents: zeroCents }
  const state = loanState(books, terms.loanAccountId, line.day)
  const parts = loanParts(terms, state, line.day, cents(-line.amount))
  return {
    choice: { kind: 'split', parts: partsByAccount(terms, parts) },
    interestCents: parts.interestCents,
  }
}
