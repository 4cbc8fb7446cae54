// Statement lines set aside: kept, booked nowhere, listed with why, and taken up again when that was a mistake.
import { and, desc, eq, sql } from 'drizzle-orm'
import { isAmong } from '#db/among.ts'
import { lastDetailsOf, logChange } from '#db/change-log.ts'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { accounts } from '#db/schema.ts'
import { statementLines } from '#db/schema-statements.ts'
import type { Outcome } from '#ledger/problem.ts'
import { happenedOnceNote } from '#ledger/statements/corrected-line.ts'
import type { SetAsideLine } from '#ledger/statements/statement.ts'

/** Newest first. */
export const listSetAside = (books: Books, limit = 200): SetAsideLine[] =>
  books.db
    .select({
      id: statementLines.id,
      account: accounts.name,
      day: statementLines.day,
      amount: statementLines.amountCents,
      payee: statementLines.payee,
      memo: statementLines.memo,
      note: statementLines.note,
    })
    .from(statementLines)
    .innerJoin(accounts, eq(accounts.id, statementLines.accountId))
    .where(isSetAside)
    .orderBy(desc(statementLines.day), desc(statementLines.id))
    .limit(limit)
    .all()

/** The transaction waits to be sorted again; a line that is not set aside stays as it is. */
export const takeUpLine = (books: Books, act: Act, lineId: number): Outcome<{ lineId: number }> =>
  once(books, act, 'line.take-up', { lineId }, () => {
    const { changes } = books.db
      .update(statementLines)
      .set({ state: 'unsorted', sortedAt: null })
      .where(and(eq(statementLines.id, lineId), isSetAside))
      .run()
    if (changes === 0) return { ok: true, result: { lineId } }
    untie(books, lineId)
    logChange(books, act, {
      kind: 'line.taken-up',
      subject: `line ${lineId}`,
      summary: 'A skipped transaction waits again',
    })
    return { ok: true, result: { lineId } }
  })

/** The line that is skipped since this entry was reversed, its bank having the same once more. */
export const skippedWith = (books: Books, entryId: string): number | null => {
  const hung = lastDetailsOf(books, 'entry.reversed', entryId) as { lines?: { id: number }[] } | undefined
  const ids = (hung?.lines ?? []).map(({ id }) => id)
  if (ids.length === 0) return null
  const line = books.db
    .select({ id: statementLines.id })
    .from(statementLines)
    .where(and(isAmong(statementLines.id, ids), isSetAside, eq(statementLines.note, happenedOnceNote)))
    .get()
  return line?.id ?? null
}

/** A bank's word that an earlier line is void moves no money, so that there is nothing to take up. */
const isSetAside = sql`${statementLines.state} = 'ignored' AND ${statementLines.correction} IS NOT 'delete'`

/** A line taken up is a movement of its own: neither did another take its place, nor it another's that still counts. */
const untie = (books: Books, lineId: number): void => {
  const isStillCounted = sql`id = ${lineId} AND (SELECT state FROM statement_lines AS earlier WHERE earlier.id = statement_lines.corrects_id) <> 'ignored'`
  books.db
    .update(statementLines)
    .set({ correctsId: null, correction: null })
    .where(sql`corrects_id = ${lineId} OR (${isStillCounted})`)
    .run()
}
