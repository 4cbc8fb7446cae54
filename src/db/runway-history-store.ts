// The runway history: what months left was said to be, one line a month, the latest saying of a month standing.
import { asc } from 'drizzle-orm'
import type { Month } from '#calendar/month.ts'
import type { Cents } from '#money/cents.ts'
import { logChange } from './change-log.ts'
import { type Act, atomically } from './once.ts'
import type { Books } from './open.ts'
import { runwayHistory } from './schema-records.ts'

export interface RunwaySaying {
  month: Month
  /** Null when savings last to the end of the plan. */
  monthsLeft: number | null
  monthsLeftWithoutDraws: number | null
  carryMonth: Month | null
  floorMonth: Month | null
  spendableCents: Cents | null
  planId: string | null
  planRevisionNo: number | null
}

export const recordSaying = (books: Books, act: Pick<Act, 'at' | 'actor'>, saying: RunwaySaying): void => {
  atomically(books, () => {
    const row = { ...saying, saidAt: act.at, details: {} }
    books.db
      .insert(runwayHistory)
      .values(row)
      .onConflictDoUpdate({ target: runwayHistory.month, set: row })
      .run()
    logChange(books, act, {
      kind: 'runway.said',
      subject: String(saying.month),
      summary: 'What months left is said to be was written down',
      details: { ...saying },
    })
    return { ok: true }
  })
}

/** Oldest first. */
export const listSayings = (books: Books): (RunwaySaying & { saidAt: string })[] =>
  books.db
    .select({
      month: runwayHistory.month,
      saidAt: runwayHistory.saidAt,
      monthsLeft: runwayHistory.monthsLeft,
      monthsLeftWithoutDraws: runwayHistory.monthsLeftWithoutDraws,
      carryMonth: runwayHistory.carryMonth,
      floorMonth: runwayHistory.floorMonth,
      spendableCents: runwayHistory.spendableCents,
      planId: runwayHistory.planId,
      planRevisionNo: runwayHistory.planRevisionNo,
    })
    .from(runwayHistory)
    .orderBy(asc(runwayHistory.month))
    .all()
