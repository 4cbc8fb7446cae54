// Statements read in: judged against the lines the account has, then kept in one transaction; what the books have seen adds nothing.
import { and, desc, eq, sql } from 'drizzle-orm'
import type { Day } from '#calendar/day.ts'
import { logChange } from '#db/change-log.ts'
import { type Act, atomicallyInTurns, onceInTurns } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { accounts } from '#db/schema.ts'
import { statements } from '#db/schema-statements.ts'
import { atOnce, eachInTurns, type InTurns } from '#kept/in-turns.ts'
import { type Outcome, type Refusal, refuse } from '#ledger/problem.ts'
import type { ColumnMapping } from '#ledger/statements/reading/column-mapping.ts'
import { type JudgedLine, judging } from '#ledger/statements/seeing-twice.ts'
import type { Statement, StatementLine } from '#ledger/statements/statement.ts'
import type { Cents } from '#money/cents.ts'
import { type LearnedKey, learnBankKey } from './bank-keys.ts'
import { boundsOf, keptLines, spanOf } from './kept-lines.ts'
import { rememberMapping } from './mapping-store.ts'
import { earlierLine, storedLine, takePlace } from './replaced-lines.ts'

export interface StatementFile {
  format: 'ofx' | 'csv'
  fileName: string
  /** SHA-256 of the bytes, in hex. */
  contentHash: string
  statement: Statement
  mappingId: string | null
}

export interface FileToReadIn extends Omit<StatementFile, 'mappingId'> {
  /** The headings of a CSV and what its columns mean; null for OFX. */
  columns: { header: readonly string[]; mapping: ColumnMapping } | null
}

export interface ImportResult {
  statementId: string
  newLines: number
  seenLines: number
  doubtfulLines: number
  /** Lines that took the place of an earlier form of the same movement. */
  replacedLines: number
  remarks: number
  /** How the account is known by the file’s bank account from now on: as its first number, as a further one, or as before. */
  learnedKey: LearnedKey
  /** These very bytes were not read in before. */
  isFirst: boolean
}

/** Which lines of a statement are new, seen or doubtful for an account. Reads only. */
export const previewImport = (
  books: Books,
  accountId: number,
  lines: readonly StatementLine[],
  today: Day,
): JudgedLine[] => atOnce(previewing(books, accountId, lines, today))

/** The same, with stops between which the books may change: to be shown, not to be kept by. */
export function* previewing(
  books: Books,
  accountId: number,
  lines: readonly StatementLine[],
  today: Day,
): InTurns<JudgedLine[]> {
  const kept = yield* keptLines(books, accountId, lines)
  return yield* judging(lines, kept, boundsOf(books, accountId, today))
}

/**
 * Keeps a statement's new lines as unsorted and its doubtful ones as doubtful, in one transaction. The same file again, or
 * one that overlaps, adds only what was not there. Nothing is posted: that is sorting.
 */
export const importStatement = (
  books: Books,
  act: Act,
  accountId: number,
  file: StatementFile,
  today: Day,
): Outcome<ImportResult> => atOnce(importing(books, act, accountId, file, today))

function* importing(
  books: Books,
  act: Act,
  accountId: number,
  file: StatementFile,
  today: Day,
): InTurns<Outcome<ImportResult>> {
  const body = { accountId, contentHash: file.contentHash, part: file.statement.bankAccount }
  return yield* onceInTurns(books, act, 'statement.import', body, () =>
    keeping(books, act, accountId, file, today),
  )
}

function* keeping(
  books: Books,
  act: Act,
  accountId: number,
  file: StatementFile,
  today: Day,
): InTurns<{ ok: true; result: ImportResult } | Refusal> {
  const account = books.db.select().from(accounts).where(eq(accounts.id, accountId)).get()
  if (!account || (account.kind !== 'asset' && account.kind !== 'liability'))
    return refuse({ path: 'account', message: 'Choose the bank or card account this statement is of' })
  const judged = yield* previewing(books, accountId, file.statement.lines, today)
  const count = (verdict: JudgedLine['verdict']) =>
    judged.reduce((sum, each) => sum + (each.verdict === verdict ? 1 : 0), 0)
  const added = judged.length - count('seen')
  const again = sameFile(books, accountId, file.contentHash)
  const statementId = again?.id ?? keepStatement(books, act, accountId, file, added)
  yield* insertingLines(books, act, { statementId, accountId }, judged)
  const result: ImportResult = {
    statementId,
    newLines: count('new'),
    seenLines: count('seen'),
    doubtfulLines: count('doubtful'),
    replacedLines: count('replaces'),
    remarks: file.statement.remarks.filter(({ isRead }) => !isRead).length,
    isFirst: again === undefined,
    learnedKey: learnBankKey(books, { accountId, statementId, bankKey: file.statement.bankAccount }),
  }
  logChange(books, act, {
    // A file read in again adds to its first reading, which alone can be taken back.
    kind: again ? 'statement.read-again' : 'statement.imported',
    subject: statementId,
    sideId: account.sideId,
    summary: `Read in a statement: ${result.newLines} new ${result.newLines === 1 ? 'transaction' : 'transactions'}, ${result.doubtfulLines} doubtful`,
    details: result,
  })
  return { ok: true, result }
}

/** Reads a file in and remembers how its columns are read, both or neither. */
export const readIn = (
  books: Books,
  act: Act,
  accountId: number,
  file: FileToReadIn,
  today: Day,
): Outcome<ImportResult> => atOnce(readingIn(books, act, accountId, file, today))

/** The same with stops, for a connection of its own. */
export const readingIn = (
  books: Books,
  act: Act,
  accountId: number,
  { columns, ...file }: FileToReadIn,
  today: Day,
): InTurns<Outcome<ImportResult>> =>
  atomicallyInTurns(books, function* (): InTurns<Outcome<ImportResult>> {
    const mappingId = columns && rememberMapping(books, act, accountId, columns.header, columns.mapping)
    return yield* importing(books, act, accountId, { ...file, mappingId }, today)
  })

export interface StatementSummary {
  id: string
  accountId: number
  accountName: string
  sideId: string
  format: 'ofx' | 'csv' | 'typed'
  fileName: string
  importedAt: string
  firstDay: Day | null
  lastDay: Day | null
  closingBalance: Cents | null
  closingDay: Day | null
  lines: number
  newLines: number
}

/** Newest first. */
export const listStatements = (books: Books, limit = 100): StatementSummary[] =>
  summaries(books)
    .orderBy(desc(statements.importedAt), desc(sql`${statements}.rowid`))
    .limit(limit)
    .all()

export const findStatement = (books: Books, id: string): StatementSummary | undefined =>
  summaries(books).where(eq(statements.id, id)).get()

const summaries = (books: Books) =>
  books.db
    .select({
      id: statements.id,
      accountId: statements.accountId,
      accountName: accounts.name,
      sideId: accounts.sideId,
      format: statements.format,
      fileName: statements.fileName,
      importedAt: statements.importedAt,
      firstDay: statements.firstDay,
      lastDay: statements.lastDay,
      closingBalance: statements.closingBalanceCents,
      closingDay: statements.closingDay,
      lines: statements.lineCount,
      newLines: statements.newLineCount,
    })
    .from(statements)
    .innerJoin(accounts, eq(accounts.id, statements.accountId))
    .$dynamic()

/** The statement of these very bytes, read in for the account before. */
const sameFile = (books: Books, accountId: number, contentHash: string) =>
  books.db
    .select()
    .from(statements)
    .where(and(eq(statements.accountId, accountId), eq(statements.contentHash, contentHash)))
    .get()

const keepStatement = (
  books: Books,
  act: Act,
  accountId: number,
  file: StatementFile,
  added: number,
): string => {
  const { statement } = file
  const span = spanOf(statement.lines)
  const id = `${act.formId}.${accountId}`
  books.db
    .insert(statements)
    .values({
      id,
      accountId,
      format: file.format,
      fileName: file.fileName.slice(0, 200),
      contentHash: file.contentHash,
      importedAt: act.at,
      currency: statement.currency || 'USD',
      firstDay: span?.first ?? null,
      lastDay: span?.last ?? null,
      closingBalanceCents: statement.closing?.balance ?? null,
      closingDay: statement.closing?.asOf ?? null,
      lineCount: statement.lines.length,
      newLineCount: added,
      mappingId: file.mappingId,
    })
    .run()
  return id
}

function* insertingLines(
  books: Books,
  act: Act,
  { statementId, accountId }: { statementId: string; accountId: number },
  judged: readonly JudgedLine[],
): InTurns<void> {
  const insert = books.sqlite.prepare(
    `INSERT INTO statement_lines
       (statement_id, account_id, line_key, bank_id, position, day, amount_cents, payee, memo, check_number, state, note,
        correction, corrects_id)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?,
        (SELECT id FROM statement_lines WHERE account_id = ? AND line_key = ?))`,
  )
  let position = 0
  yield* eachInTurns(judged, ({ line, lineKey, verdict, why, earlier }) => {
    position += 1
    if (verdict === 'seen') return
    const { lastInsertRowid } = insert.run(
      statementId,
      accountId,
      lineKey,
      line.bankNumber === '' ? null : line.bankNumber,
      position,
      line.day,
      line.amount,
      line.payee,
      line.memo,
      line.checkNumber === '' ? null : line.checkNumber,
      verdict === 'doubtful' ? 'doubtful' : 'unsorted',
      why,
      line.correction?.action ?? null,
      accountId,
      earlier?.lineKey ?? null,
    )
    if (verdict !== 'replaces') return
    const id = Number(lastInsertRowid)
    takePlace(books, act.at, storedLine(books, id)!, earlierLine(books, id)!)
  })
}
