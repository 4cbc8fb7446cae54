// Entries on accounts of sales that touch only accounts of what lasts, posting by posting: trades, and costs taken off.
import type { Books } from '#db/open.ts'
import type { KeptPosting } from '#ledger/tax/sold-in-kind.ts'

/** Of these days. `accounts` are all accounts of what lasts, `sales` those of them that have sales. */
export const keptPostings = (
  books: Books,
  accounts: readonly { id: number }[],
  sales: readonly { id: number }[],
  days: { from: string; to: string },
): KeptPosting[] => {
  const idsOf = (some: readonly { id: number }[]) => JSON.stringify(some.map(({ id }) => id))
  const rows = books.sqlite
    .prepare(keptText)
    .all({ accounts: idsOf(accounts), sales: idsOf(sales), ...days }) as (Omit<KeptPosting, 'reverses'> & {
    reverses: number
  })[]
  return rows.map((row) => ({ ...row, reverses: row.reverses === 1 }))
}

const keptText = `
  SELECT p.entry_no AS entryNo, e.reverses_no IS NOT NULL AS reverses, p.account_id AS accountId, p.amount_cents AS amountCents
  FROM postings AS p JOIN entries AS e ON e.no = p.entry_no
  WHERE p.entry_no IN (
      SELECT s.entry_no FROM postings AS s
      WHERE s.account_id IN (SELECT value FROM json_each(@sales)) AND s.day BETWEEN @from AND @to)
    AND NOT EXISTS (SELECT 1 FROM postings AS o
      WHERE o.entry_no = p.entry_no AND o.account_id NOT IN (SELECT value FROM json_each(@accounts)))
  ORDER BY p.entry_no, p.id`
