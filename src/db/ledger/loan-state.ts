// A loan on a day, as the books have it: what a payment of that day finds.
import type { Day } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'
import type { LoanState } from '#ledger/loan-payment.ts'
import { cents, negateCents } from '#money/cents.ts'
import { balanceOn } from './balances.ts'

export const loanState = (books: Books, loanAccountId: number, on: Day): LoanState => ({
  owedCents: negateCents(cents(balanceOn(books, loanAccountId, on))),
  lastPaid: (books.sqlite.prepare(lastPaidText).pluck().get({ loanAccountId, on }) ?? null) as Day | null,
})

/** Payments are debits; what was taken back, and what takes back, is none. */
const lastPaidText = `
  SELECT max(p.day) FROM postings AS p JOIN entries AS e ON e.no = p.entry_no
  WHERE p.account_id = @loanAccountId AND p.day <= @on AND p.amount_cents > 0
    AND e.source <> 'opening' AND +e.reverses_no IS NULL
    AND NOT EXISTS (SELECT 1 FROM entries AS r WHERE r.reverses_no = e.no)`
