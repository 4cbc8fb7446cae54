// The receipts of a year with the entries they belong to: what is handed over with the year pack.
import type { Day } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'
import type { Cents } from '#money/cents.ts'

export interface YearReceipt {
  attachmentId: string
  fileName: string
  contentHash: string
  entryNo: number
  day: Day
  side: string
  payee: string
  memo: string
  /** What moved: the debits of the entry. */
  amountCents: Cents
}

/** By day; those taken off, and those of entries that were taken back, are not among them. */
export const receiptsOfYear = (books: Books, days: { from: Day; to: Day }): YearReceipt[] =>
  books.sqlite.prepare(receiptsText).all(days) as YearReceipt[]

const receiptsText = `
  SELECT kept.id AS attachmentId, kept.file_name AS fileName, kept.content_hash AS contentHash, entry.no AS entryNo, entry.day AS day,
    sides.name AS side, entry.payee AS payee, entry.memo AS memo,
    (SELECT coalesce(sum(amount_cents), 0) FROM postings WHERE entry_no = entry.no AND amount_cents > 0) AS amountCents
  FROM attachments AS kept JOIN entries AS entry ON entry.no = kept.entry_no JOIN sides ON sides.id = entry.side_id
  WHERE kept.removed_at IS NULL AND entry.day BETWEEN @from AND @to
    AND NOT EXISTS (SELECT 1 FROM entries AS back WHERE back.reverses_no = entry.no)
  ORDER BY entry.day, entry.no, kept.added_at`
