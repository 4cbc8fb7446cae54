// Money that went into retirement and health savings, in the books line by line, and for which year people said it was.
import type { Act } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { householdSide } from '#ledger/account.ts'
import type { Outcome } from '#ledger/problem.ts'
import { isSavingWorthSaying, type SavingMove, type SavingReading } from '#ledger/tax/saving-move.ts'
import { sayReadings } from './say-readings.ts'

type MoveRow = Omit<SavingMove, 'said' | 'isKeptFromPay'> & {
  isKeptFromPay: 0 | 1
  use: SavingReading['use'] | null
  taxYear: number | null
}

/**
 * Every amount put into such an account out of money on hand, of pay, or of another side's, oldest first. What an account earned,
 * what opened the books and what was taken back is none; from one such account to another is no contribution either.
 */
export const savingMoves = (books: Books): SavingMove[] =>
  (books.sqlite.prepare(movesText).all({ household: householdSide }) as MoveRow[]).map(
    ({ isKeptFromPay, use, taxYear, ...move }) => ({
      ...move,
      isKeptFromPay: isKeptFromPay === 1,
      said: use === null ? null : { use, taxYear: taxYear! },
    }),
  )

const movesText = `
  SELECT p.id AS postingId, e.no AS entryNo, p.day, e.payee, CASE WHEN p.memo = '' THEN e.memo ELSE p.memo END AS memo,
    a.name AS account, a.savings_kind AS savingsKind, coalesce(a.person_id,
      (SELECT b.person_id FROM postings AS o JOIN accounts AS b ON b.id = o.account_id
        WHERE o.entry_no = e.no AND b.purpose = 'pay' AND b.person_id IS NOT NULL LIMIT 1)) AS personId, p.amount_cents AS amountCents,
    EXISTS (SELECT 1 FROM postings AS o JOIN accounts AS b ON b.id = o.account_id
      WHERE o.entry_no = e.no AND b.purpose = 'pay') AS isKeptFromPay,
    said.tax_use AS use, said.tax_year AS taxYear
  FROM accounts AS a
  JOIN postings AS p ON p.account_id = a.id
  JOIN entries AS e ON e.no = p.entry_no
  LEFT JOIN posting_tax AS said ON said.posting_id = p.id AND said.tax_use IN ('contribution', 'rollover')
  WHERE a.side_id = @household AND a.kind = 'asset' AND a.savings_kind IN ('traditional', 'roth', 'health')
    AND p.amount_cents > 0 AND e.source <> 'opening' AND +e.reverses_no IS NULL
    AND NOT EXISTS (SELECT 1 FROM entries AS back WHERE back.reverses_no = e.no)
    AND EXISTS (SELECT 1 FROM postings AS o JOIN accounts AS b ON b.id = o.account_id
      WHERE o.entry_no = e.no AND o.amount_cents < 0 AND (b.purpose = 'pay' OR b.crossing_role IS NOT NULL
        OR (b.cash_role <> 'none' AND coalesce(b.savings_kind, 'cash') NOT IN ('traditional', 'roth', 'health'))))
  ORDER BY p.day, p.id`

/** Says for which year contributions were, or that they were none, all or none. What the books tell by themselves is not kept. */
export const saySavings = (
  books: Books,
  act: Act,
  said: readonly { postingId: number; reading: SavingReading }[],
): Outcome<{ said: number }> =>
  sayReadings(books, act, said, {
    act: 'contributions.say',
    kind: 'contributions.said',
    summary: 'The year of contributions was chosen',
    gone: 'One of these contributions is no longer in the books. Open the page again',
    moves: () => savingMoves(books),
    isWorthSaying: isSavingWorthSaying,
    isSame: (a, b) => a.use === b.use && a.taxYear === b.taxYear,
  })
