// Money that came out of invested savings of the household to be spent: what was sold for it, the books do not know.
import { firstDayOfYear, lastDayOfYear } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'
import { householdSide } from '#ledger/account.ts'
import type { Cents } from '#money/cents.ts'

export interface TakenFromBroker {
  accountId: number
  name: string
  /** Positive. */
  cents: Cents
}

/** By account that is taxed by gains as they are taken; what was taken back, and a change in value, is none. */
export const takenFromBroker = (books: Books, year: number): TakenFromBroker[] =>
  books.sqlite.prepare(takenText).all({
    household: householdSide,
    from: firstDayOfYear(year),
    to: lastDayOfYear(year),
  }) as TakenFromBroker[]

const takenText = `
  SELECT a.id AS accountId, a.name, -sum(p.amount_cents) AS cents
  FROM accounts AS a
  JOIN postings AS p ON p.account_id = a.id
  JOIN entries AS e ON e.no = p.entry_no
  WHERE a.side_id = @household AND a.kind = 'asset' AND a.savings_kind = 'taxable'
    AND p.day BETWEEN @from AND @to
    AND p.amount_cents < 0 AND e.source <> 'opening' AND +e.reverses_no IS NULL
    AND NOT EXISTS (SELECT 1 FROM entries AS back WHERE back.reverses_no = e.no)
    AND EXISTS (SELECT 1 FROM postings AS o JOIN accounts AS b ON b.id = o.account_id
      WHERE o.entry_no = e.no AND o.amount_cents > 0 AND (b.crossing_role IS NOT NULL OR b.kind = 'liability'
        OR (b.kind = 'asset' AND b.cash_role <> 'none' AND coalesce(b.savings_kind, 'cash') <> 'taxable')))
  GROUP BY a.id ORDER BY a.id`
