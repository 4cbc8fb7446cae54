// Takes an import back as one act: what its lines were booked as is reversed, and the lines are gone, so that the file can be read in anew.
import { and, asc, eq, ne } from 'drizzle-orm'
import { type Day, monthOfDay } from '#calendar/day.ts'
import { monthName } from '#calendar/month.ts'
import { logChange } from '#db/change-log.ts'
import { entryByNo, reversalOfEntry, wholeOf } from '#db/ledger/entry-reader.ts'
import { voidEntry } from '#db/ledger/ledger-store.ts'
import { closedThrough } from '#db/ledger/ledger-writer.ts'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { heldByStatements, wayToReconciliation } from '#db/reconcile/held-by-statements.ts'
import { accounts, postings } from '#db/schema.ts'
import { changeLog } from '#db/schema-records.ts'
import { reconciliations, statementLines, statementMappings, statements } from '#db/schema-statements.ts'
import { type Outcome, type Refusal, refuse } from '#ledger/problem.ts'
import { forgetBankKeys, type LearnedKey } from './bank-keys.ts'
import { forgetLineChoices } from './line-choices.ts'
import { giveBackPlace, type StoredLine } from './replaced-lines.ts'

export interface TakenBack {
  lines: number
  entries: number
}

/** What taking it back would undo, or why it cannot be. Reads only. */
export const planTakeBack = (
  books: Books,
  statementId: string,
): { ok: true; lines: number; entries: number } | Refusal => {
  const found = gather(books, statementId)
  return found.ok ? { ok: true, lines: found.lines.length, entries: found.entryNos.length } : found
}

/** All or nothing. Entries that only matched a line of the import stay: they were there without it. */
export const takeBackImport = (books: Books, act: Act, statementId: string): Outcome<TakenBack> =>
  once(books, act, 'statement.take-back', { statementId }, () => {
    const found = gather(books, statementId)
    if (!found.ok) return found
    const { statement, lines, entryNos } = found
    for (const no of entryNos) {
      const entry = entryByNo(books, no)!
      // Taken back by hand, or as the other half of one that was just taken back.
      if (reversalOfEntry(books, no)) continue
      const back = voidEntry(books, { ...act, formId: `${act.formId}.${no}` }, entry.id, entry.day, 'part')
      if (!back.ok) return back
    }
    for (const line of linesOf(books, statementId)) giveBackPlace(books, line)
    removeLines(books, lines)
    forgetAccount(books, statement)
    books.db.delete(statements).where(eq(statements.id, statementId)).run()
    forgetColumns(books, statement)
    const result = { lines: lines.length, entries: entryNos.length }
    logChange(books, act, {
      kind: 'statement.taken-back',
      subject: statementId,
      sideId: found.sideId,
      summary: 'A statement that was read in was undone',
      details: {
        ...result,
        accountId: statement.accountId,
        fileName: statement.fileName,
        contentHash: statement.contentHash,
      },
    })
    return { ok: true, result }
  })

type Gathered = {
  ok: true
  statement: typeof statements.$inferSelect
  sideId: string
  lines: StoredLine[]
  /** Entries that sorting its lines made. */
  entryNos: number[]
}

const gather = (books: Books, statementId: string): Gathered | Refusal => {
  const row = books.db
    .select({ statement: statements, sideId: accounts.sideId })
    .from(statements)
    .innerJoin(accounts, eq(accounts.id, statements.accountId))
    .where(eq(statements.id, statementId))
    .get()
  if (!row) return refuse({ path: '', message: 'This statement was undone already' })
  const reconciliation = reconciledBy(books, statementId)
  if (reconciliation)
    return refuse({
      path: '',
      message: 'The account was reconciled against this statement. Undo that first',
      way: wayToReconciliation(reconciliation.id),
    })
  const lines = linesOf(books, statementId)
  const posted = lines.flatMap(({ state, postingId }) => (state === 'posted' ? [postingId!] : []))
  const entryNos = [...new Set(posted.map((id) => entryNoOf(books, id)))]
  const held = heldByStatements(books, postingsOf(books, lines, entryNos))
  if (held) return refuse(held)
  const closed = closedProblem(books, row.sideId, lines, entryNos)
  return closed ? refuse({ path: '', message: closed }) : { ok: true, ...row, lines, entryNos }
}

const linesOf = (books: Books, statementId: string): StoredLine[] =>
  books.db
    .select()
    .from(statementLines)
    .where(eq(statementLines.statementId, statementId))
    .orderBy(asc(statementLines.id))
    .all()

const entryNoOf = (books: Books, postingId: number): number =>
  books.db.select({ no: postings.entryNo }).from(postings).where(eq(postings.id, postingId)).get()!.no

const reconciledBy = (books: Books, statementId: string) =>
  books.db
    .select({ id: reconciliations.id })
    .from(reconciliations)
    .where(eq(reconciliations.statementId, statementId))
    .get()

/** No line of it, and no line that taking it back would reverse, whatever its account, may stand on a finished statement. */
const postingsOf = (books: Books, lines: readonly StoredLine[], entryNos: readonly number[]): number[] => [
  ...lines.flatMap(({ postingId }) => (postingId === null ? [] : [postingId])),
  ...entryNos
    .filter((no) => !reversalOfEntry(books, no))
    .flatMap((no) => wholeOf(books, entryByNo(books, no)!).entries)
    .flatMap((entry) => entry.lines.map(({ postingId }) => postingId)),
]

/** Nothing of it may lie in a closed month, on any side that its entries touch. */
const closedProblem = (
  books: Books,
  sideId: string,
  lines: readonly StoredLine[],
  entryNos: readonly number[],
): string | null => {
  const days: [string, Day][] = lines.map(({ day }) => [sideId, day])
  for (const no of entryNos)
    for (const entry of wholeOf(books, entryByNo(books, no)!).entries) days.push([entry.sideId, entry.day])
  for (const side of new Set(days.map(([each]) => each))) {
    const through = closedThrough(books, side)
    if (through !== null && days.some(([each, day]) => each === side && monthOfDay(day) <= through))
      return `Part of it lies in a closed month: the books are closed through ${monthName(through)}. Reopen the month first`
  }
  return null
}

/** Later forms first, so that no line is left that names one which is gone. */
const removeLines = (books: Books, lines: readonly StoredLine[]): void => {
  const ids = lines.map(({ id }) => id)
  forgetLineChoices(books, ids)
  for (const id of ids)
    books.db
      .update(statementLines)
      .set({ correctsId: null })
      .where(and(eq(statementLines.correctsId, id), ne(statementLines.id, id)))
      .run()
  for (const id of ids.reverse()) books.db.delete(statementLines).where(eq(statementLines.id, id)).run()
}

/** Which account the bank means, where only this import taught it. */
const forgetAccount = (books: Books, { id, accountId }: Gathered['statement']): void => {
  const imported = books.db
    .select({ details: changeLog.details })
    .from(changeLog)
    .where(and(eq(changeLog.kind, 'statement.imported'), eq(changeLog.subject, id)))
    .get()
  // `isBankKeyNew` stands in older logs.
  const details = imported?.details as { learnedKey?: LearnedKey; isBankKeyNew?: boolean } | undefined
  const isFirst = details?.learnedKey === 'first' || details?.isBankKeyNew === true
  forgetBankKeys(books, { accountId, statementId: id, isFirst })
}

/** How its columns are read, where only this import taught it. */
const forgetColumns = (books: Books, { id, accountId, mappingId }: Gathered['statement']): void => {
  const isOwn = mappingId !== null && id === `${mappingId.replace(/\.mapping$/, '')}.${accountId}`
  const isUsed =
    mappingId !== null &&
    books.db.select({ id: statements.id }).from(statements).where(eq(statements.mappingId, mappingId)).get()
  if (isOwn && !isUsed) books.db.delete(statementMappings).where(eq(statementMappings.id, mappingId)).run()
}
