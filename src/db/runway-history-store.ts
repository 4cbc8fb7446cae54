// The runway history: what months left was said to be and what was expected, one line a month. What a closing kept stands; else the latest.
import { asc } from 'drizzle-orm'
import { z } from 'zod'
import { type Month, monthText } from '#calendar/month.ts'
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
  /** Kept when the month before was closed: no visit writes over it. */
  isOfClosing: boolean
  /** What was expected of the months from this one on. */
  expected: readonly ExpectedMonth[]
}

const expectedMonthSchema = z.object({ month: z.string() }).catchall(z.number())

/** A month by the names of what it holds, dollars; whoever keeps it knows them. */
export type ExpectedMonth = { month: string } & Readonly<Record<string, number | string>>

/** Sayings of an older Dooryard have none. */
const detailsSchema = z.object({
  isOfClosing: z.boolean().default(false),
  expected: z.array(expectedMonthSchema).default([]),
})

/** False where a closing's forecast stands already and this is none. */
export const recordSaying = (
  books: Books,
  act: Pick<Act, 'at' | 'actor'>,
  { isOfClosing, expected, ...saying }: RunwaySaying,
): boolean =>
  atomically(books, () => {
    const stands = listSayings(books).find(({ month }) => month === saying.month)
    if (stands?.isOfClosing && !isOfClosing) return { ok: true, isKept: false }
    const row = { ...saying, saidAt: act.at, details: { isOfClosing, expected } }
    books.db
      .insert(runwayHistory)
      .values(row)
      .onConflictDoUpdate({ target: runwayHistory.month, set: row })
      .run()
    logChange(books, act, {
      kind: 'runway.said',
      subject: String(saying.month),
      summary: 'A forecast of months left was saved',
      details: { ...saying },
    })
    return { ok: true, isKept: true }
  }).isKept

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
      details: runwayHistory.details,
    })
    .from(runwayHistory)
    .orderBy(asc(runwayHistory.month))
    .all()
    .map(({ details, ...said }) => ({ ...said, ...readDetails(said.month, details) }))

const readDetails = (month: Month, details: unknown): Pick<RunwaySaying, 'isOfClosing' | 'expected'> => {
  const read = detailsSchema.safeParse(details)
  if (!read.success) throw new Error(`The forecast of ${monthText(month)} in the file: ${read.error.message}`)
  return read.data
}
