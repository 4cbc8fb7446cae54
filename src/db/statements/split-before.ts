// How the last transaction of a payee was split, read back from what was booked: its parts on every side.
import type { Books } from '#db/open.ts'
import { plainPayee } from '#ledger/statements/payee-text.ts'
import type { SplitPart } from '#ledger/statements/sorted-parts.ts'
import { type Part, type SplitShare, splitAlike } from '#ledger/statements/split-shares.ts'
import { textOfLine } from '#ledger/statements/statement.ts'
import type { Cents } from '#money/cents.ts'

interface Like {
  id: number
  accountId: number
  amount: Cents
  payee: string
  memo: string
}

/** What was asked to be kept; or how the payee is split, where it was the time before in the same way. */
export const sharesToKeep = (
  books: Books,
  line: Like,
  sorting: { parts: readonly SplitPart[]; keep?: readonly SplitShare[]; byRule?: string },
): readonly SplitShare[] | undefined => {
  if (sorting.keep || sorting.byRule !== undefined) return sorting.keep
  const before = lastSplit(books, line)
  const parts = sorting.parts.map(({ accountId, enterpriseId, size }) => ({
    accountId,
    enterpriseId: enterpriseId ?? null,
    size,
  }))
  return (before && splitAlike(before, parts)) ?? undefined
}

/** The payee's last booked transaction of this account and direction; null where it has none, or was not split by hand. */
const lastSplit = (books: Books, line: Like): Part[] | null => {
  const payee = plainPayee(textOfLine(line))
  const earlier = books.sqlite
    .prepare(earlierText)
    .all({ accountId: line.accountId, id: line.id, isOut: line.amount < 0 ? 1 : 0 }) as (Pick<
    Like,
    'payee' | 'memo'
  > & { postingId: number; isRuled: 0 | 1 })[]
  const last = earlier.find((one) => plainPayee(textOfLine(one)) === payee)
  if (!last || last.isRuled === 1) return null
  const parts = books.sqlite
    .prepare(partsText)
    .all({ postingId: last.postingId, sign: line.amount < 0 ? 1 : -1 }) as Part[]
  return parts.length >= 2 ? parts : null
}

/** Newest first; a payee that comes once a month is among so many. */
const earlierText = `
  SELECT payee, memo, posting_id AS postingId, rule_id IS NOT NULL AS isRuled FROM statement_lines
  WHERE account_id = @accountId AND id <> @id AND state = 'posted' AND (amount_cents < 0) = @isOut
  ORDER BY day DESC, id DESC LIMIT 1000`

/** Of the entry and those that stand with it over the line, without the money itself and what stands for the other side. */
const partsText = `
  WITH own AS (SELECT entry_no, account_id FROM postings WHERE id = @postingId),
    together AS (
      SELECT entry_no FROM own
      UNION SELECT other.entry_no FROM own
        JOIN postings AS line ON line.entry_no = own.entry_no AND line.crossing_id IS NOT NULL
        JOIN postings AS other ON other.crossing_id = line.crossing_id)
  SELECT p.account_id AS accountId, p.enterprise_id AS enterpriseId, sum(p.amount_cents) * @sign AS size
  FROM together JOIN postings AS p ON p.entry_no = together.entry_no
  JOIN accounts ON accounts.id = p.account_id AND accounts.crossing_role IS NULL
  WHERE p.account_id <> (SELECT account_id FROM own)
  GROUP BY p.account_id, p.enterprise_id`
