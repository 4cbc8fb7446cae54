// Heads, market days, trips and goods that left without money: written in the field, read by days.
import { and, asc, between, desc, eq, getTableColumns, isNotNull, sql } from 'drizzle-orm'
import { addDays, type Day, dayName } from '#calendar/day.ts'
import { isAmong } from '#db/among.ts'
import type { Act } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { type HeadMove, headsMoved, headsOn } from '#farm/notebook/heads.ts'
import type { MeansOfPay } from '#farm/notebook/kinds.ts'
import type { FieldProblem, Outcome } from '#ledger/problem.ts'
import type { Cents } from '#money/cents.ts'
import { findBatch, noteProblems } from './batch-store.ts'
import { asStored, type WithClass, withClass } from './head-class.ts'
import { writeNote, writtenBy } from './note-rows.ts'
import { goodsEntries, goodsNotes, headTallies, marketDays, marketTakings, trips } from './schema-notes.ts'

type Written = 'id' | 'recordedAt' | 'recordedBy'

export type HeadTally = WithClass<typeof headTallies.$inferSelect>
export const writeHeads = (
  books: Books,
  act: Act,
  heads: Omit<HeadTally, Written>,
): Outcome<{ id: string }> =>
  writeNote(books, act, 'heads', heads, () => {
    const problems = tooManyHeads(books, heads)
    if (problems.length > 0) return problems
    books.db
      .insert(headTallies)
      .values({ id: act.formId, ...heads, ...asStored(heads.headClass), ...writtenBy(act) })
      .run()
    return []
  })

/** All tallies up to a day, oldest first: how many stand there follows from them. */
export const listHeads = (books: Books, to: Day): HeadTally[] =>
  books.db
    .select()
    .from(headTallies)
    .where(sql`${headTallies.day} <= ${to}`)
    .orderBy(asc(headTallies.day), asc(headTallies.recordedAt))
    .all()
    .map((row) => withClass(row))

export interface Taking {
  /** Tag of the enterprise sold; empty when it was not told apart. */
  enterpriseId: string
  means: MeansOfPay
  amountCents: Cents
}

export interface NewMarketDay {
  day: Day
  marketId: string
  minutes: number | null
  /** Short names of people of the plan. */
  people: readonly string[]
  miles: number | null
  feeCents: Cents | null
  note: string
  takings: readonly Taking[]
}

export interface KeptMarketDay extends NewMarketDay {
  id: string
  recordedBy: string
  settledAt: string | null
  entryNo: number | null
}

export const writeMarketDay = (books: Books, act: Act, day: NewMarketDay): Outcome<{ id: string }> =>
  writeNote(books, act, 'market', day, () => {
    const { takings, people, ...rest } = day
    if (listMarketDays(books, day.day, day.day).some((one) => isSameDay(one, day)))
      return [
        {
          path: 'day',
          message:
            'This market day is written down already, with the same takings. Remove it first to write it again',
        },
      ]
    books.db
      .insert(marketDays)
      .values({ id: act.formId, ...rest, people: people.join(','), ...writtenBy(act) })
      .run()
    for (const taking of takings)
      books.db
        .insert(marketTakings)
        .values({ marketDayId: act.formId, ...taking })
        .run()
    return []
  })

/** A market may be held twice on a day; the same takings and hours at it are the same day told twice. */
const isSameDay = (some: NewMarketDay, other: NewMarketDay): boolean =>
  some.marketId === other.marketId &&
  some.minutes === other.minutes &&
  some.miles === other.miles &&
  takingsText(some) === takingsText(other)

const takingsText = ({ takings }: NewMarketDay): string =>
  takings
    .map(({ enterpriseId, means, amountCents }) => `${enterpriseId} ${means} ${amountCents}`)
    .sort()
    .join('|')

export const listMarketDays = (books: Books, from: Day, to: Day): KeptMarketDay[] =>
  withTakings(
    books,
    books.db
      .select()
      .from(marketDays)
      .where(between(marketDays.day, from, to))
      .orderBy(asc(marketDays.day), asc(marketDays.recordedAt))
      .all(),
  )

export const findMarketDay = (books: Books, id: string): KeptMarketDay | undefined =>
  withTakings(books, books.db.select().from(marketDays).where(eq(marketDays.id, id)).all())[0]

/** The newest first: hours, miles and fee of the last one are offered for the next. */
export const latestMarketDays = (books: Books, limit: number): KeptMarketDay[] =>
  withTakings(
    books,
    books.db
      .select()
      .from(marketDays)
      .orderBy(desc(marketDays.day), desc(marketDays.recordedAt))
      .limit(limit)
      .all(),
  )

const withTakings = (books: Books, rows: readonly (typeof marketDays.$inferSelect)[]): KeptMarketDay[] => {
  const takings = books.db
    .select()
    .from(marketTakings)
    .where(
      isAmong(
        marketTakings.marketDayId,
        rows.map(({ id }) => id),
      ),
    )
    .orderBy(asc(marketTakings.enterpriseId), asc(marketTakings.means))
    .all()
  return rows.map(({ people, recordedAt: _, ...row }) => ({
    ...row,
    people: people === '' ? [] : people.split(','),
    takings: takings
      .filter(({ marketDayId }) => marketDayId === row.id)
      .map(({ enterpriseId, means, amountCents }) => ({ enterpriseId, means, amountCents })),
  }))
}

export type Trip = typeof trips.$inferSelect
export const writeTrip = (books: Books, act: Act, trip: Omit<Trip, Written>): Outcome<{ id: string }> =>
  writeNote(books, act, 'trip', trip, () => {
    const problems = backwards(books, trip)
    if (problems.length > 0) return problems
    books.db
      .insert(trips)
      .values({ id: act.formId, ...trip, ...writtenBy(act) })
      .run()
    return []
  })

/** An odometer only counts up. */
const backwards = (books: Books, { day, vehicle, odometer }: Omit<Trip, Written>): FieldProblem[] => {
  if (odometer === null) return []
  const against = books.db
    .select()
    .from(trips)
    .where(and(eq(trips.vehicle, vehicle), isNotNull(trips.odometer)))
    .all()
    .find((one) => (one.day < day && one.odometer! > odometer) || (one.day > day && one.odometer! < odometer))
  return against
    ? [
        {
          path: 'amount',
          message: `On ${dayName(against.day)} ${vehicle} read ${against.odometer}, and an odometer only counts up. Correct one of the two; a new odometer gets a name of its own`,
        },
      ]
    : []
}

export const listTrips = (books: Books, from: Day, to: Day): Trip[] =>
  books.db
    .select()
    .from(trips)
    .where(between(trips.day, from, to))
    .orderBy(asc(trips.day))
    .all()

export type GoodsNote = WithClass<typeof goodsNotes.$inferSelect>
type NewGoods = Omit<GoodsNote, Written | 'state' | 'crossingId' | 'settledAt'>

export const writeGoods = (books: Books, act: Act, goods: NewGoods): Outcome<{ id: string }> =>
  writeNote(books, act, 'goods', goods, () => {
    const batch = goods.batchId === null ? undefined : findBatch(books, goods.batchId)
    const problems = batch ? noteProblems(books, batch, goods) : tooManyHeads(books, headOfGoods(goods))
    if (problems.length > 0) return problems
    books.db
      .insert(goodsNotes)
      .values({ id: act.formId, ...goods, ...asStored(goods.headClass), ...writtenBy(act) })
      .run()
    return []
  })

export const listGoods = (books: Books, from: Day, to: Day): GoodsNote[] =>
  books.db
    .select({ ...getTableColumns(goodsNotes), entryNo: goodsEntries.entryNo })
    .from(goodsNotes)
    .leftJoin(goodsEntries, eq(goodsEntries.goodsId, goodsNotes.id))
    .where(between(goodsNotes.day, from, to))
    .orderBy(asc(goodsNotes.day), asc(goodsNotes.recordedAt))
    .all()
    // Bartered for what the farm needed they are booked by an entry of the farm alone.
    .map(({ entryNo, ...row }) => withClass({ ...row, state: entryNo === null ? row.state : 'booked' }))

/** What the notebook tells of heads: counts, what came and went, and what left for the kitchen or was bartered. */
export const headMoves = (books: Books, to: Day): HeadMove[] => [
  ...listHeads(books, to),
  ...listGoods(books, '0001-01-01' as Day, to).flatMap((goods) => headOfGoods(goods) ?? []),
]

/** Heads that went to the kitchen or were bartered stand with the goods. */
const headOfGoods = ({ day, herdId, headClass, kind, quantity }: NewGoods): HeadMove | null =>
  herdId !== null && headClass !== null ? { day, herdId, headClass, kind, count: quantity } : null

/**
 * Of a class that was never counted no more go than came: a count has to be there first. A later count has the last word; on the day of
 * a count no more go than stood there as the day began, or were counted.
 */
const tooManyHeads = (books: Books, move: HeadMove | null): FieldProblem[] => {
  if (move === null || headsMoved([move]) >= 0) return []
  const { herdId, headClass, day } = move
  const all = headMoves(books, lastOfAll).filter(
    (one) => one.herdId === herdId && one.headClass === headClass,
  )
  if (!all.some((one) => one.kind === 'counted' && one.day <= day))
    return headsMoved([...all.filter((one) => one.day <= day), move]) >= 0
      ? []
      : [
          {
            path: 'count',
            message:
              'More would have gone than the notebook knows of. Write down first how many were counted',
          },
        ]
  const onDay = all.filter((one) => one.day === day)
  const counted = onDay.filter((one) => one.kind === 'counted').at(-1)
  if (counted) return tooManyOnDayOfCount(all, onDay, counted.count, move)
  const nextCount = all.find((one) => one.kind === 'counted' && one.day > day)?.day ?? lastOfAll
  const days = new Set([day, ...all.map((one) => one.day).filter((on) => on > day && on < nextCount)])
  const left = Math.min(...[...days].map((on) => headsOn(all, herdId, on)?.[headClass] ?? 0))
  return move.count <= left
    ? []
    : [
        {
          path: 'count',
          message: `Only ${Math.max(0, left)} are left by the notebook. Enter no more, or write down a new count`,
        },
      ]
}

const tooManyOnDayOfCount = (
  all: readonly HeadMove[],
  onDay: readonly HeadMove[],
  counted: number,
  { herdId, headClass, day, count }: HeadMove,
): FieldProblem[] => {
  const sum = (isComing: boolean) =>
    onDay
      .filter((one) => headsMoved([one]) > 0 === isComing)
      .reduce((heads, one) => heads + headsMoved([one]), 0)
  const asDayBegan = headsOn(all, herdId, addDays(day, -1))?.[headClass] ?? 0
  const left = Math.max(counted, asDayBegan + sum(true)) + sum(false)
  return count <= left
    ? []
    : [
        {
          path: 'count',
          message: `${counted} were counted that day, so no more than ${Math.max(0, left)} can have gone on it. Enter no more, or write down first how many there were the day before`,
        },
      ]
}

const lastOfAll = '9999-12-31' as Day
