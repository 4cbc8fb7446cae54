// The commingling watch over the books, and the one click that makes a crossing of what it finds.
import { z } from 'zod'
import type { Day } from '#calendar/day.ts'
import { logChange } from '#db/change-log.ts'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { readSettingAs, writeSetting } from '#db/settings-store.ts'
import { carryTies, settleTicks } from '#db/statements/line-links.ts'
import { isMoney, type SideId, type SideKind } from '#ledger/account.ts'
import { type Suspicion, type WatchedLine, watchCommingling } from '#ledger/commingling.ts'
import { type MixedReceiptDraft, splitReceipt } from '#ledger/mixed-receipt.ts'
import { type Outcome, refuse } from '#ledger/problem.ts'
import type { Cents } from '#money/cents.ts'
import { crossingAccountId, findAccount } from './account-store.ts'
import { type EntryRecord, findEntry } from './entry-reader.ts'
import { writeReversal } from './ledger-store.ts'
import { groundOf, writeParts } from './ledger-writer.ts'

export interface WatchedEntryLine extends WatchedLine {
  entryId: string
  entryNo: number
  lineNo: number
  sideId: SideId
  accountId: number
  day: Day
  amountCents: Cents
}

const waivedKey = 'commingling.waived'

/** Suspicious spending of some days, newest first. What was waved through stays away. */
export const watchBooks = (books: Books, from: Day, to: Day): Suspicion<WatchedEntryLine>[] => {
  const lines = books.sqlite
    .prepare(
      `SELECT postings.id AS postingId, postings.line_no AS lineNo, entries.id AS entryId, entries.no AS entryNo, entries.side_id AS sideId, sides.kind AS sideKind,
         entries.payee, trim(entries.memo || ' ' || postings.memo) AS memo, accounts.id AS accountId, accounts.name AS accountName,
         postings.day, postings.amount_cents AS amountCents
       FROM postings JOIN entries ON entries.no = postings.entry_no JOIN sides ON sides.id = entries.side_id
       JOIN accounts ON accounts.id = postings.account_id
       WHERE accounts.kind = 'expense' AND postings.day BETWEEN ? AND ? AND postings.amount_cents > 0
         AND +entries.reverses_no IS NULL AND NOT EXISTS (SELECT 1 FROM entries AS back WHERE back.reverses_no = entries.no)
         AND NOT EXISTS (SELECT 1 FROM postings AS half WHERE half.entry_no = entries.no AND half.crossing_id IS NOT NULL)
       ORDER BY postings.day DESC, postings.id DESC`,
    )
    .all(from, to) as WatchedEntryLine[]
  const waived = new Set(waivedIds(books))
  const history = payeeHistory(books, from)
  return watchCommingling(
    lines.filter((line) => !waived.has(line.postingId)),
    (payee) => history.get(payee.toLowerCase()) ?? { farm: 0, household: 0 },
  )
}

/** This line is right where it is: it is not asked about again. */
export const waiveSuspicion = (books: Books, act: Act, postingId: number): Outcome<null> =>
  once(books, act, 'commingling.waive', { postingId }, () => {
    const { revision } = readSettingAs(books, waivedKey, waivedSchema)
    const saved = writeSetting(books, act, waivedKey, [...waivedIds(books), postingId], revision)
    return saved.ok ? { ok: true, result: null } : saved
  })

/**
 * Moves one line to an account of the other side: the entry is taken back and booked anew as a mixed receipt, which makes
 * the crossing itself. The day stays while its month is open on both sides.
 */
export const crossOver = (
  books: Books,
  act: Act,
  draft: { entryId: string; lineNo: number; toAccountId: number; day: Day },
): Outcome<{ crossingIds: string[] }> =>
  once(books, act, 'commingling.cross-over', draft, () => {
    const entry = findEntry(books, draft.entryId)
    const target = findAccount(books, draft.toAccountId)
    if (!entry) return refuse({ path: '', message: 'There is no such entry. Open the page again' })
    if (!target || target.sideId === entry.sideId || target.kind !== 'expense')
      return refuse({ path: 'toAccount', message: 'Choose what it was for in the other books' })
    const accountOf = (id: number) => findAccount(books, id)
    const paying = entry.lines.filter((line) => isMoney(accountOf(line.accountId)!))
    if (paying.length !== 1 || entry.lines.some((line) => line.crossingId !== null))
      return refuse({
        path: '',
        message:
          'This entry was paid from several accounts or is a crossing already. Reverse it and enter it as a mixed receipt',
      })
    const reversed = writeReversal(books, act, entry.id, draft.day)
    if (!reversed.ok) return reversed
    const ground = groundOf(books)
    const split = splitReceipt(
      receiptOf(act, reversed.day, entry, paying[0]!, { lineNo: draft.lineNo, accountId: target.id }),
      ground,
      (side, other, role) => crossingAccountId(books, act.at, side, other, role),
    )
    if (!split.ok) return refuse(...split.problems)
    const [payingEntry, ...rest] = split.entries
    const written = writeParts(
      books,
      act.at,
      { crossings: split.crossings, entries: [{ ...payingEntry!, correctsNo: entry.no }, ...rest] },
      ground,
    )
    if (!written.ok) return refuse(...written.problems)
    carryTies(books, entry.no, written.entries[0]!.no)
    settleTicks(
      books,
      reversed.entries.map((reversal) => reversal.no),
    )
    logChange(books, act, {
      kind: 'commingling.crossed-over',
      subject: `${act.formId}.1`,
      sideId: entry.sideId,
      summary: 'Spending was moved to the other books by a crossing',
    })
    return { ok: true, result: { crossingIds: split.crossings.map((crossing) => crossing.id) } }
  })

/** The entry as a receipt, one line of it for the other books. */
const receiptOf = (
  act: Act,
  day: Day,
  entry: EntryRecord,
  paid: EntryRecord['lines'][number],
  moved: { lineNo: number; accountId: number },
): MixedReceiptDraft => ({
  id: act.formId,
  day,
  payee: entry.payee,
  memo: entry.memo,
  paidFromAccountId: paid.accountId,
  lines: entry.lines
    .filter((line) => line !== paid)
    .map((line) => ({
      accountId: line.lineNo === moved.lineNo ? moved.accountId : line.accountId,
      amountCents: line.amountCents,
      memo: line.memo,
      enterpriseId: line.lineNo === moved.lineNo ? null : line.enterpriseId,
    })),
})

const waivedSchema = z.array(z.number().int())

const waivedIds = (books: Books): number[] => readSettingAs(books, waivedKey, waivedSchema).value ?? []

/** How often each payee was paid from each side before the days that are watched. */
const payeeHistory = (books: Books, before: Day): Map<string, { farm: number; household: number }> => {
  const rows = books.sqlite
    .prepare(
      `SELECT lower(entries.payee) AS payee, sides.kind AS kind, count(*) AS count FROM entries JOIN sides ON sides.id = entries.side_id
       WHERE entries.payee <> '' AND entries.day >= date(?, '-3 years') AND entries.day < ? AND +entries.reverses_no IS NULL
         AND NOT EXISTS (SELECT 1 FROM postings AS half WHERE half.entry_no = entries.no AND half.crossing_id IS NOT NULL)
       GROUP BY 1, 2`,
    )
    .all(before, before) as { payee: string; kind: SideKind; count: number }[]
  const history = new Map<string, { farm: number; household: number }>()
  for (const { payee, kind, count } of rows) {
    const known = history.get(payee) ?? { farm: 0, household: 0 }
    history.set(
      payee,
      kind === 'household' ? { ...known, household: count } : { ...known, farm: known.farm + count },
    )
  }
  return history
}
