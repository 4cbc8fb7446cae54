// What was bought on accounts of lasting things, a posting each: openings, moves among such accounts and what was taken back are none.
import type { Day } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'
import type { Cents } from '#money/cents.ts'

export interface Bought {
  accountId: number
  day: Day
  memo: string
  amountCents: Cents
}

export const boughtOn = (
  books: Books,
  accounts: readonly { id: number }[],
  days: { from: Day; to: Day },
): Bought[] =>
  accounts.length === 0
    ? []
    : (books.sqlite
        .prepare(boughtText)
        .all({ accounts: JSON.stringify(accounts.map(({ id }) => id)), ...days }) as Bought[])

const boughtText = `
  SELECT p.account_id AS accountId, p.day, CASE WHEN p.memo = '' THEN e.memo ELSE p.memo END AS memo,
    p.amount_cents AS amountCents
  FROM postings AS p JOIN entries AS e ON e.no = p.entry_no
  WHERE p.account_id IN (SELECT value FROM json_each(@accounts)) AND p.day BETWEEN @from AND @to
    AND p.amount_cents > 0 AND e.source <> 'opening' AND e.reverses_no IS NULL
    AND NOT EXISTS (SELECT 1 FROM entries AS back WHERE back.reverses_no = e.no)
    AND NOT EXISTS (SELECT 1 FROM postings AS o JOIN accounts AS a ON a.id = o.account_id
      WHERE o.entry_no = e.no AND a.system_role = 'opening_balances')
    AND EXISTS (SELECT 1 FROM postings AS o
      WHERE o.entry_no = e.no AND o.account_id NOT IN (SELECT value FROM json_each(@accounts)))
  ORDER BY p.day, p.id`
