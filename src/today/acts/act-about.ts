// What an act of the log was about: the account, the day, the amount, the name of market or batch, with the page that shows it.
import { type Day, dayName } from '#calendar/day.ts'
import { type Month, monthName } from '#calendar/month.ts'
import { daysOfStatementLines, sumOfLines } from '#db/acts/told-lines.ts'
import { type Change, lastDetailsOf } from '#db/change-log.ts'
import { findAccount, listSides } from '#db/ledger/account-store.ts'
import { attachmentById } from '#db/ledger/attachment-store.ts'
import { type EntryRecord, entriesOfCrossing, entryByNo, findEntry } from '#db/ledger/entry-reader.ts'
import { findBatch } from '#db/notebook/batch-store.ts'
import { findNote, isNoteKind, type NoteKind } from '#db/notebook/note-rows.ts'
import type { Books } from '#db/open.ts'
import { findReconciliation } from '#db/reconcile/reconcile-reader.ts'
import { findStatement } from '#db/statements/statement-store.ts'
import { findStanding } from '#db/transfers/standing-store.ts'
import { balanceAsRead } from '#ledger/account.ts'
import { cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { noteSaysWithDay } from '#today/farm/note-says.ts'
import { type NotebookNames, notebookNames } from '#today/farm/notebook-names.ts'
import { loneAbout } from './lone-about.ts'

export interface ActAbout {
  says: string
  /** Where it is shown; null where it is not any more, or has no page. */
  href: string | null
}

/** For a list of acts: the names of the plan are read once. What an act named and the books no longer have is told by its side. */
export const actsTold = (books: Books): ((change: Change) => ActAbout) => {
  let names: NotebookNames | undefined
  const told: Told = { books, names: () => (names ??= notebookNames(books)) }
  return (change) => {
    const lone = loneAbout(books, change)
    if (lone && !(change.kind in tellers)) return lone
    const teller = tellers[change.kind] ?? ofEntry
    return teller(told, change) ?? { says: sideName(books, change.sideId), href: null }
  }
}

interface Told {
  books: Books
  names(): NotebookNames
}
type Teller = (told: Told, change: Change) => ActAbout | null

const sideName = (books: Books, id: string | null): string =>
  listSides(books).find((side) => side.id === id)?.name ?? ''

const parts = (...some: readonly (string | undefined)[]): string => some.filter(Boolean).join(', ')

/** The payee and the sum, on its day. */
const entryTold = (entry: EntryRecord | undefined): ActAbout | null => {
  if (!entry) return null
  const sum = entry.lines.reduce((all, line) => all + Math.max(0, line.amountCents), 0)
  return {
    says: parts(entry.payee || entry.memo, formatCents(cents(sum)), dayName(entry.day)),
    href: `/books/entries/${entry.no}`,
  }
}

const ofEntry: Teller = ({ books }, { subject }) => entryTold(findEntry(books, subject))

const ofCrossing: Teller = ({ books }, { subject }) => {
  const [no] = entriesOfCrossing(books, subject)
  return entryTold(no === undefined ? undefined : entryByNo(books, no))
}

const noteTold = ({ books, names }: Told, kind: NoteKind, id: string): ActAbout | null => {
  const note = findNote(books, kind, id)
  if (!note) return null
  const href = note.kind === 'mark' ? `/farm/batches/${note.row.batchId}` : null
  return { says: noteSaysWithDay(names(), note), href }
}

const tellers: Record<string, Teller> = {
  'crossing.posted': ofCrossing,
  'standing.posted': ofCrossing,
  'standing.skipped': ({ books }, { subject, details }) => {
    const transfer = findStanding(books, subject)
    const { month } = details as { month: Month }
    return transfer ? { says: parts(transfer.name, monthName(month)), href: '/crossings/standing' } : null
  },
  'note.written': (told, { subject, details }) => {
    const { kind } = details as { kind: string }
    return isNoteKind(kind) ? noteTold(told, kind, subject) : null
  },
  'market-day.settled': (told, { subject }) => noteTold(told, 'market', subject),
  'goods.set-aside': (told, { subject }) => noteTold(told, 'goods', subject),
  'batch.tied': (told, { subject, details }) =>
    tieTold(told, subject, (details as { postingIds: readonly number[] }).postingIds),
  'batch.untied': (told, { subject, details }) =>
    tieTold(told, subject, [(details as { postingId: number }).postingId]),
  'reconciliation.finished': ({ books }, { subject, details }) => {
    const now = findReconciliation(books, subject)
    // Older logs have no details; a reconciliation may have been changed since, or deleted.
    const was = { ...now, ...(details as Partial<NonNullable<typeof now>>) }
    const account = was.accountId === undefined ? undefined : findAccount(books, was.accountId)
    if (!account || was.statementDay === undefined || was.statementBalanceCents === undefined) return null
    return {
      says: parts(
        account.name,
        dayName(was.statementDay),
        formatCents(balanceAsRead(account.kind, was.statementBalanceCents)),
      ),
      href: now ? `/books/reconcile/${subject}` : null,
    }
  },
  'lines.sorted': ({ books }, { details }) => {
    const { lines } = details as { lines?: readonly number[] }
    const says = linesTold(books, lines ?? [])
    return says === '' ? null : { says, href: null }
  },
  'statement.imported': ({ books }, { subject }) => {
    const says = statementTold(books, subject)
    return says === '' ? null : { says, href: null }
  },
  'statements.imported': ({ books }, { details }) => {
    const { statements } = details as { statements: readonly string[] }
    const says = statements.map((id) => statementTold(books, id)).filter(Boolean)
    return says.length === 0 ? null : { says: says.join('; '), href: null }
  },
  'entries.changed': ({ books }, { details }) => {
    const { accountId, replaced } = details as { accountId: number; replaced: readonly unknown[] }
    const account = findAccount(books, accountId)
    return account
      ? { says: parts(account.name, `${replaced.length} entries`), href: `/books/accounts/${accountId}` }
      : null
  },
  'attachment.added': (told, change) => receiptTold(told, change),
  'attachment.removed': (told, change) => receiptTold(told, change),
}

const receiptTold: Teller = ({ books }, { subject }) => {
  const receipt = attachmentById(books, subject)
  const entry = receipt && entryTold(entryByNo(books, receipt.entryNo))
  return entry ? { says: parts(receipt.fileName, entry.says), href: entry.href } : null
}

/** How many lines, and what they come to. */
const tieTold = ({ books }: Told, batchId: string, postingIds: readonly number[]): ActAbout | null => {
  const batch = findBatch(books, batchId)
  if (!batch) return null
  const lines = `${postingIds.length} ${postingIds.length === 1 ? 'line' : 'lines'}`
  return {
    says: parts(batch.name, lines, formatCents(sumOfLines(books, postingIds))),
    href: `/farm/batches/${batchId}`,
  }
}

/** The account of a file and its name, also of one that was undone. */
const statementTold = (books: Books, id: string): string => {
  const statement = findStatement(books, id)
  if (statement) {
    const { accountName, fileName, firstDay, lastDay } = statement
    return parts(accountName, fileName, firstDay && lastDay ? span(firstDay, lastDay) : undefined)
  }
  const gone = lastDetailsOf(books, 'statement.taken-back', id)
  const { fileName, accountId } = (gone ?? {}) as { fileName?: string; accountId?: number }
  return parts(accountId === undefined ? undefined : findAccount(books, accountId)?.name, fileName)
}

const span = (first: Day, last: Day): string =>
  first === last ? dayName(first) : `${dayName(first)} to ${dayName(last)}`

/** Of each account the days of the lines that were sorted. */
const linesTold = (books: Books, ids: readonly number[]): string =>
  daysOfStatementLines(books, ids)
    .map(({ account, first, last }) => parts(account, span(first, last)))
    .join('; ')
