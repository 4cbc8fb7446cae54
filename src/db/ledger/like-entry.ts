// The entry of the books that one about to be recorded repeats: the same money on the same day with the same payee.
import type { Books } from '#db/open.ts'
import type { DraftLine, EntryDraft } from '#ledger/entry.ts'

/**
 * The number of the newest entry of the draft's side, day and payee that holds all of `lines`, by account and amount; null without
 * one. What was taken back, and what takes back, repeats nothing.
 */
export const likeEntry = (
  books: Books,
  draft: Pick<EntryDraft, 'sideId' | 'day' | 'payee'>,
  lines: readonly Pick<DraftLine, 'accountId' | 'amountCents'>[],
): number | null => {
  const [first, ...others] = lines
  if (!first) return null
  const holds = (no: number) =>
    others.every(({ accountId, amountCents }) =>
      books.sqlite
        .prepare('SELECT 1 FROM postings WHERE entry_no = ? AND account_id = ? AND amount_cents = ?')
        .get(no, accountId, amountCents),
    )
  const found = books.sqlite
    .prepare(
      `SELECT e.no FROM postings AS p JOIN entries AS e ON e.no = p.entry_no
       WHERE p.account_id = ? AND p.day = ? AND p.amount_cents = ? AND e.side_id = ? AND lower(e.payee) = lower(?)
         AND +e.reverses_no IS NULL AND NOT EXISTS (SELECT 1 FROM entries AS back WHERE back.reverses_no = e.no)
       ORDER BY e.no DESC`,
    )
    .pluck()
    .all(first.accountId, draft.day, first.amountCents, draft.sideId, draft.payee.trim()) as number[]
  return found.find(holds) ?? null
}
