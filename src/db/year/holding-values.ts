// What stock and equipment was worth at market, a value a day.
import { and, asc, eq, sql } from 'drizzle-orm'
import type { Day } from '#calendar/day.ts'
import { logChange } from '#db/change-log.ts'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { prepared } from '#db/prepared.ts'
import { holdings, holdingValues } from '#db/schema-year.ts'
import type { SideId } from '#ledger/account.ts'
import { type Outcome, refuse } from '#ledger/problem.ts'
import type { DatedValue } from '#ledger/reports/market-values.ts'
import type { Cents } from '#money/cents.ts'

/** Values of all things of a side, or of all sides, by the thing's id, the oldest first. */
export const holdingValuesOf = (books: Books, sideId: SideId | null): Map<string, DatedValue[]> => {
  const values = new Map<string, DatedValue[]>()
  const rows = prepared(books, `values of things ${sideId !== null}`, (db) =>
    db
      .select({
        holdingId: holdingValues.holdingId,
        day: holdingValues.day,
        amountCents: holdingValues.amountCents,
      })
      .from(holdingValues)
      .innerJoin(holdings, eq(holdings.id, holdingValues.holdingId))
      .where(sideId === null ? undefined : eq(holdings.sideId, sql.placeholder('sideId')))
      .orderBy(asc(holdingValues.holdingId), asc(holdingValues.day))
      .prepare(),
  ).all({ sideId })
  for (const { holdingId, ...value } of rows) values.set(holdingId, [...(values.get(holdingId) ?? []), value])
  return values
}

/** Values of one day; null takes a value back. Things not named keep theirs. */
export const saveHoldingValues = (
  books: Books,
  act: Act,
  day: Day,
  values: readonly { holdingId: string; amountCents: Cents | null }[],
): Outcome<{ saved: number }> =>
  once(books, act, 'holding-values.save', { day, values }, () => {
    for (const { holdingId, amountCents } of values) {
      const found = books.db
        .select({ id: holdings.id })
        .from(holdings)
        .where(eq(holdings.id, holdingId))
        .get()
      if (!found) return refuse({ path: `value.${holdingId}`, message: 'That is no longer on the list' })
      writeHoldingValue(books, act.at, holdingId, day, amountCents)
    }
    logChange(books, act, {
      kind: 'holding-values.saved',
      subject: day,
      summary: 'Market values of stock and equipment were recorded',
      details: { values },
    })
    return { ok: true, result: { saved: values.length } }
  })

/** Call it inside a write. */
export const writeHoldingValue = (
  books: Books,
  at: string,
  holdingId: string,
  day: Day,
  amountCents: Cents | null,
): void => {
  if (amountCents === null) {
    books.db
      .delete(holdingValues)
      .where(and(eq(holdingValues.holdingId, holdingId), eq(holdingValues.day, day)))
      .run()
    return
  }
  books.db
    .insert(holdingValues)
    .values({ holdingId, day, amountCents, recordedAt: at })
    .onConflictDoUpdate({
      target: [holdingValues.holdingId, holdingValues.day],
      set: { amountCents, recordedAt: at },
    })
    .run()
}
