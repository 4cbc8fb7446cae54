// Money that was taken out of retirement savings, in the books line by line.
import { addDays, firstDayOfYear, lastDayOfYear } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'
import { householdSide } from '#ledger/account.ts'
import { rolloverDays, type SavingTaken, type TakenOut, takenInYear } from '#ledger/tax/savings-taken.ts'
import { savingMoves } from './saving-moves.ts'

/** By account. */
export const savingsTaken = (books: Books, year: number): Map<number, TakenOut> => {
  // What of the year before may still be put back in this one takes a rollover to itself.
  const from = addDays(firstDayOfYear(year), -rolloverDays)
  const taken = books.sqlite
    .prepare(takenText)
    .all({ household: householdSide, from, to: lastDayOfYear(year) }) as SavingTaken[]
  return taken.length === 0 ? new Map() : takenInYear(taken, savingMoves(books), year)
}

/**
 * Taken out to money on hand, to another side, to a debt or for tax, or from traditional savings into Roth savings. What was lost in
 * value or kept as a fee is none; nor is an entry that books income of a retirement account by itself: its line counts there.
 */
const takenText = `
  SELECT e.no AS entryNo, p.day, a.id AS accountId, a.savings_kind AS savingsKind, -p.amount_cents AS amountCents,
    (SELECT coalesce(sum(o.amount_cents), 0) FROM postings AS o JOIN accounts AS b ON b.id = o.account_id
      WHERE o.entry_no = e.no AND o.amount_cents > 0 AND b.kind = 'asset' AND b.savings_kind = a.savings_kind) AS movedOnCents,
    (SELECT coalesce(sum(o.amount_cents), 0) FROM postings AS o JOIN accounts AS b ON b.id = o.account_id
      WHERE o.entry_no = e.no AND o.amount_cents > 0 AND a.savings_kind = 'traditional' AND b.savings_kind = 'roth') AS convertedCents
  FROM accounts AS a
  JOIN postings AS p ON p.account_id = a.id
  JOIN entries AS e ON e.no = p.entry_no
  WHERE a.side_id = @household AND a.kind = 'asset' AND a.savings_kind IN ('traditional', 'roth')
    AND p.day BETWEEN @from AND @to
    AND p.amount_cents < 0 AND e.source <> 'opening' AND +e.reverses_no IS NULL
    AND NOT EXISTS (SELECT 1 FROM entries AS back WHERE back.reverses_no = e.no)
    AND NOT EXISTS (SELECT 1 FROM postings AS o JOIN accounts AS b ON b.id = o.account_id
      WHERE o.entry_no = e.no AND b.kind = 'income' AND b.schedule_line IN ('4b', '5b'))
    AND EXISTS (SELECT 1 FROM postings AS o JOIN accounts AS b ON b.id = o.account_id
      WHERE o.entry_no = e.no AND o.amount_cents > 0 AND (b.crossing_role IS NOT NULL OR b.kind = 'liability'
        OR b.purpose = 'tax' OR (a.savings_kind = 'traditional' AND b.savings_kind = 'roth')
        OR (b.cash_role <> 'none' AND coalesce(b.savings_kind, 'cash') NOT IN ('traditional', 'roth', 'health'))))
  ORDER BY p.day, p.id`
