// Statements read in: judged against the lines the account has, then kept in one transaction; what the books have seen adds nothing.
import { and, desc, eq, sql } from 'drizzle-orm'
import type { Day } from '#calendar/day.ts'
import { logChange } from '#db/change-log.ts'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { accounts } from '#db/schema.ts'
import { statements } from '#db/schema-statements.ts'
import { type Outcome, refuse } from '#ledger/problem.ts'
import { type JudgedLine, judgeLines, type KeptLine, numberKeysOf } from '#ledger/statements/seeing-twice.ts'
import { type Statement, type StatementLine, textOfLine } from '#ledger/statements/statement.ts'
import type { Cents } from '#money/cents.ts'

export interface StatementFile {
  format: 'ofx' | 'csv'
  fileName: string
  /** SHA-256 of the bytes, in hex. */
  contentHash: string
  statement: Statement
  mappingId: string | null
}

export interface ImportResult {
  statementId: string
  newLines: number
  seenLines: number
  doubtfulLines: number
  remarks: number
}

/** Which lines of a statement are new, seen or doubtful for an account. Reads only. */
export const previewImport = (
  books: Books,
  accountId: number,
  lines: readonly StatementLine[],
): JudgedLine[] => judgeLines(lines, keptLines(books, accountId, lines))

/**
 * Keeps a statement's new lines as unsorted and its doubtful ones as doubtful, in one transaction. The same file again, or
 * one that overlaps, adds only what was not there. Nothing is posted: that is sorting.
 */
export const importStatement = (
  books: Books,
  act: Act,
  accountId: number,
  file: StatementFile,
): Outcome<ImportResult> => {
  const body = { accountId, contentHash: file.contentHash, part: file.statement.bankAccount }
  return once(books, act, 'statement.import', body, () => {
    const account = books.db.select().from(accounts).where(eq(accounts.id, accountId)).get()
    if (!account || (account.kind !== 'asset' && account.kind !== 'liability'))
      return refuse({ path: 'account', message: 'Choose the bank or card account this statement is of' })
    const judged = previewImport(books, accountId, file.statement.lines)
    const count = (verdict: JudgedLine['verdict']) =>
      judged.reduce((sum, each) => sum + (each.verdict === verdict ? 1 : 0), 0)
    const statementId = keepStatement(books, act, accountId, file, count('new') + count('doubtful'))
    insertLines(books, statementId, accountId, judged)
    rememberBankKey(books, accountId, file.statement.bankAccount)
    const result: ImportResult = {
      statementId,
      newLines: count('new'),
      seenLines: count('seen'),
      doubtfulLines: count('doubtful'),
      remarks: file.statement.remarks.length,
    }
    logChange(books, act, {
      kind: 'statement.imported',
      subject: statementId,
      sideId: account.sideId,
      summary: `Read in a statement: ${result.newLines} new lines, ${result.doubtfulLines} doubtful`,
      details: result,
    })
    return { ok: true, result }
  })
}

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
    .orderBy(desc(statements.importedAt), desc(sql`${statements}.rowid`))
    .limit(limit)
    .all()

/** The account that an earlier file with the same bank account went to. */
export const accountOfBank = (books: Books, bankAccount: string): number | null =>
  bankAccount === ''
    ? null
    : (books.db.select({ id: accounts.id }).from(accounts).where(eq(accounts.bankKey, bankAccount)).get()
        ?.id ?? null)

/** Whether these very bytes were read in for the account before. */
export const wasReadIn = (books: Books, accountId: number, contentHash: string): boolean =>
  sameFile(books, accountId, contentHash) !== undefined

const sameFile = (books: Books, accountId: number, contentHash: string) =>
  books.db
    .select()
    .from(statements)
    .where(and(eq(statements.accountId, accountId), eq(statements.contentHash, contentHash)))
    .get()

/** Lines of the days the file covers, and those that bear one of its bank numbers on another day. */
const keptLines = (books: Books, accountId: number, lines: readonly StatementLine[]): KeptLine[] => {
  const { sqlite } = books
  const span = spanOf(lines)
  const any = sqlite.prepare('SELECT 1 FROM statement_lines WHERE account_id = ? LIMIT 1').get(accountId)
  if (!span || !any) return []
  const columns = 'line_key, bank_id, day, amount_cents, payee, memo'
  const kept = (
    sqlite
      .prepare(
        `SELECT ${columns} FROM statement_lines WHERE account_id = ? AND day BETWEEN ? AND ? ORDER BY id`,
      )
      .raw()
      .all(accountId, span.first, span.last) as KeptRow[]
  ).map(keptFrom)
  const known = new Set(kept.map((line) => line.lineKey))
  const byKey = sqlite
    .prepare(`SELECT ${columns} FROM statement_lines WHERE account_id = ? AND line_key = ?`)
    .raw()
  for (const key of new Set(numberKeysOf(lines))) {
    if (known.has(key)) continue
    const row = byKey.get(accountId, key) as KeptRow | undefined
    if (row) kept.push(keptFrom(row))
  }
  return kept
}

type KeptRow = [string, string | null, Day, Cents, string, string]

const keptFrom = ([lineKey, bankNumber, day, amount, payee, memo]: KeptRow): KeptLine => ({
  lineKey,
  bankNumber: bankNumber ?? '',
  day,
  amount,
  text: textOfLine({ payee, memo }),
})

const keepStatement = (
  books: Books,
  act: Act,
  accountId: number,
  file: StatementFile,
  added: number,
): string => {
  const again = sameFile(books, accountId, file.contentHash)
  if (again) return again.id
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

const insertLines = (
  books: Books,
  statementId: string,
  accountId: number,
  judged: readonly JudgedLine[],
): void => {
  const insert = books.sqlite.prepare(
    `INSERT INTO statement_lines
       (statement_id, account_id, line_key, bank_id, position, day, amount_cents, payee, memo, check_number, state, note)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
  )
  judged.forEach(({ line, lineKey, verdict, why }, index) => {
    if (verdict === 'seen') return
    insert.run(
      statementId,
      accountId,
      lineKey,
      line.bankNumber === '' ? null : line.bankNumber,
      index + 1,
      line.day,
      line.amount,
      line.payee,
      line.memo,
      line.checkNumber === '' ? null : line.checkNumber,
      verdict === 'new' ? 'unsorted' : 'doubtful',
      why,
    )
  })
}

const rememberBankKey = (books: Books, accountId: number, bankAccount: string): void => {
  if (bankAccount === '' || accountOfBank(books, bankAccount) !== null) return
  books.db
    .update(accounts)
    .set({ bankKey: bankAccount })
    .where(and(eq(accounts.id, accountId), sql`${accounts.bankKey} IS NULL`))
    .run()
}

const spanOf = (lines: readonly StatementLine[]): { first: Day; last: Day } | null => {
  if (lines.length === 0) return null
  let [first, last] = [lines[0]!.day, lines[0]!.day]
  for (const { day } of lines) {
    if (day < first) first = day
    if (day > last) last = day
  }
  return { first, last }
}
