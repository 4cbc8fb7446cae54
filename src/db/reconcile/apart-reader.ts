// What the bank's files and the books of an account hold up to a statement's day: the ground on which their difference is explained.
import type { Day } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'
import type { UnbookedLine } from '#ledger/reconcile-apart.ts'
import type { Cents } from '#money/cents.ts'

/** Lines of the files that stand for nothing in the books. An earlier form of a line that came anew is none of them. */
export const unbookedLines = (books: Books, accountId: number, through: Day): UnbookedLine[] =>
  (
    books.sqlite.prepare(unbookedText).all({ accountId, through }) as (Omit<UnbookedLine, 'isSetAside'> & {
      aside: 0 | 1
    })[]
  ).map(({ aside, ...line }) => ({ ...line, isSetAside: aside === 1 }))

/** The postings of the account that a line of a file stands for. */
export const postingsOfFiles = (books: Books, accountId: number): Set<number> =>
  new Set(
    books.sqlite
      .prepare('SELECT posting_id FROM statement_lines WHERE account_id = ? AND posting_id IS NOT NULL')
      .pluck()
      .all(accountId) as number[],
  )

/**
 * What the account held before the first line of its files: the newest balance they state, less all lines through its day. Null
 * where opening balances or a finished statement say it, where no file states a balance, and for what is owed, whose sign files
 * write either way.
 */
export const openingByFiles = (books: Books, accountId: number): { cents: Cents; first: Day } | null => {
  const row = books.sqlite.prepare(openingText).get({ accountId }) as
    | { cents: Cents | null; first: Day | null }
    | undefined
  return row?.cents && row.first ? { cents: row.cents, first: row.first } : null
}

/** Of the lines as they stand, without those that came anew and those that took one back. */
const stands = `line.correction IS NOT 'delete'
  AND NOT EXISTS (SELECT 1 FROM statement_lines AS later WHERE later.corrects_id = line.id AND line.state = 'ignored')`

const unbookedText = `
  SELECT line.id AS lineId, line.day, CASE line.payee WHEN '' THEN line.memo ELSE line.payee END AS payee,
    line.amount_cents AS amountCents, line.state = 'ignored' AS aside
  FROM statement_lines AS line
  WHERE line.account_id = @accountId AND line.day <= @through AND line.posting_id IS NULL AND ${stands}
  ORDER BY line.day, line.id`

const openingText = `
  WITH newest AS (
    SELECT closing_balance_cents AS balance, closing_day AS day FROM statements
    WHERE account_id = @accountId AND closing_balance_cents IS NOT NULL AND closing_day IS NOT NULL
    ORDER BY closing_day DESC LIMIT 1)
  SELECT newest.balance - sum(line.amount_cents) AS cents, min(line.day) AS first
  FROM newest JOIN statement_lines AS line ON line.account_id = @accountId AND line.day <= newest.day
  WHERE ${stands}
    AND EXISTS (SELECT 1 FROM accounts WHERE id = @accountId AND kind = 'asset')
    AND NOT EXISTS (SELECT 1 FROM reconciliations WHERE account_id = @accountId AND state = 'finished')
    AND NOT EXISTS (
      SELECT 1 FROM postings AS held JOIN entries AS entry ON entry.no = held.entry_no
      WHERE held.account_id = @accountId AND entry.source = 'opening'
        AND NOT EXISTS (SELECT 1 FROM entries AS back WHERE back.reverses_no = entry.no))`
