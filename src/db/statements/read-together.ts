// Statements read in by one press: all or nothing, and taken back as the one act it was.
import { and, asc, eq } from 'drizzle-orm'
import type { Day } from '#calendar/day.ts'
import { logChange } from '#db/change-log.ts'
import { type Act, onceInTurns } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { changeLog } from '#db/schema-records.ts'
import type { InTurns } from '#kept/in-turns.ts'
import { type Outcome, type Refusal, refuse } from '#ledger/problem.ts'
import { type FileToReadIn, findStatement, readingIn } from './statement-store.ts'
import { takeBackImport } from './take-back.ts'

export interface PartToRead {
  accountId: number
  file: FileToReadIn
}

export interface ReadTogether {
  statements: number
  /** New, doubtful, and those that took the place of an earlier form. */
  lines: number
}

/** With stops, for a connection of its own. */
export function* readingTogether(
  books: Books,
  act: Act,
  parts: readonly PartToRead[],
  today: Day,
): InTurns<Outcome<ReadTogether>> {
  const body = parts.map(({ accountId, file }) => [accountId, file.contentHash, file.statement.bankAccount])
  return yield* onceInTurns(books, act, 'statements.import', body, () =>
    readingEach(books, act, parts, today),
  )
}

function* readingEach(
  books: Books,
  act: Act,
  parts: readonly PartToRead[],
  today: Day,
): InTurns<{ ok: true; result: ReadTogether } | Refusal> {
  const result: ReadTogether = { statements: parts.length, lines: 0 }
  const first: string[] = []
  for (const [index, { accountId, file }] of parts.entries()) {
    const one = yield* readingIn(books, { ...act, formId: `${act.formId}.${index}` }, accountId, file, today)
    if (!one.ok) return one
    const { statementId, newLines, doubtfulLines, replacedLines, isFirst } = one.result
    result.lines += newLines + doubtfulLines + replacedLines
    if (isFirst) first.push(statementId)
  }
  // Of one alone its own act says all.
  if (first.length > 1)
    logChange(books, act, {
      kind: 'statements.imported',
      subject: act.formId,
      summary: `Read in ${first.length} statements together: ${result.lines} transactions`,
      details: { statements: first },
    })
  return { ok: true, result }
}

/** Takes back those of them that still are in the books, the last first, or none; call it inside a write. */
export const takeBackTogether = (
  books: Books,
  act: Act,
  statementIds: readonly string[],
): { ok: true } | Refusal => {
  const left = statementIds.filter((id) => findStatement(books, id)).reverse()
  if (left.length === 0) return refuse({ path: '', message: 'These statements were undone already' })
  for (const [index, id] of left.entries()) {
    const back = takeBackImport(books, { ...act, formId: `${act.formId}.${index}` }, id)
    if (!back.ok) return back
    const imported = books.db
      .select({ id: changeLog.id })
      .from(changeLog)
      .where(and(eq(changeLog.kind, 'statement.imported'), eq(changeLog.subject, id)))
      .orderBy(asc(changeLog.id))
      .get()
    if (imported)
      logChange(books, act, {
        kind: 'change.undone',
        subject: id,
        summary: 'Undone: a statement read in with others',
        undoesId: imported.id,
      })
  }
  return { ok: true }
}
