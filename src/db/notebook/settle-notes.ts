// Goods at the table at home: what was noted in the field becomes crossings and entries, each by one press, or is set aside; and what waits.
import { and, asc, eq, isNotNull, notExists, or } from 'drizzle-orm'
import type { Day } from '#calendar/day.ts'
import { isAmong } from '#db/among.ts'
import { logChange } from '#db/change-log.ts'
import { findAccount } from '#db/ledger/account-store.ts'
import { writeCrossing } from '#db/ledger/crossing-store.ts'
import { writeParts } from '#db/ledger/ledger-writer.ts'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import type { Account } from '#ledger/account.ts'
import { goodsValue } from '#ledger/crossing.ts'
import { type Outcome, type Refusal, refuse } from '#ledger/problem.ts'
import { type Cents, negateCents } from '#money/cents.ts'
import type { GoodsNote } from './field-notes.ts'
import { withClass } from './head-class.ts'
import { goodsEntries, goodsNotes, marketDays } from './schema-notes.ts'
import { ofDay, settledAlready, waitingMarketDays } from './settle-market.ts'

/** Goods that wait for the table, oldest first. */
export const waitingGoods = (books: Books): GoodsNote[] =>
  books.db
    .select()
    .from(goodsNotes)
    .where(eq(goodsNotes.state, 'waiting'))
    .orderBy(asc(goodsNotes.day), asc(goodsNotes.recordedAt))
    .all()
    .map((row) => withClass(row))

/** The newest price at which the same goods were booked. */
export const lastPriceOf = (books: Books, what: string): Cents | null =>
  books.db
    .select({ price: goodsNotes.unitPriceCents, day: goodsNotes.day })
    .from(goodsNotes)
    .leftJoin(goodsEntries, eq(goodsEntries.goodsId, goodsNotes.id))
    .where(
      and(
        eq(goodsNotes.what, what),
        or(eq(goodsNotes.state, 'booked'), isNotNull(goodsEntries.entryNo)),
        isNotNull(goodsNotes.unitPriceCents),
      ),
    )
    .all()
    .sort((a, b) => (a.day < b.day ? 1 : -1))[0]?.price ?? null

export interface SettleGoods {
  id: string
  /** The day they are booked on, where their own lies in a closed month. */
  bookedOn?: Day
  unitPriceCents: Cents
  /** Goods for the kitchen leave the value of goods used at home; bartered ones are a sale of the farm. */
  fromAccountId: number
  /** What the house would have paid for; bartered for what the farm needed, a cost of the farm. */
  toAccountId: number
}

/** At fair value: a crossing, income of the farm and cost of the house; or, bartered for a cost of the farm, an entry of the farm alone. */
export const settleGoods = (
  books: Books,
  act: Act,
  settle: SettleGoods,
): Outcome<{ crossingId: string } | { entryNo: number }> =>
  once<{ crossingId: string } | { entryNo: number }>(books, act, 'goods.settle', settle, () => {
    const note = waitingGoods(books).find((one) => one.id === settle.id)
    if (!note) return refuse(settledAlready)
    const { unitPriceCents, fromAccountId, toAccountId, bookedOn = note.day } = settle
    const goods = { quantity: note.quantity, unit: note.unit, unitPriceCents }
    const cost = findAccount(books, toAccountId)
    if (note.kind === 'bartered' && cost?.sideId === 'farm')
      return settleWithinFarm(books, act, note, cost, settle)
    const written = writeCrossing(books, act.at, {
      id: act.formId,
      kind: 'goods_used_at_home',
      day: bookedOn,
      amountCents: goodsValue(goods),
      fromAccountId,
      toAccountId,
      memo: `${note.kind === 'kitchen' ? note.what : `Bartered: ${note.what}, for ${note.tradedFor}`}${ofDay(note.day, bookedOn)}`,
      goods,
    })
    if (!written.ok) return refuse(...written.problems)
    books.db
      .update(goodsNotes)
      .set({ state: 'booked', crossingId: act.formId, unitPriceCents, settledAt: act.at })
      .where(eq(goodsNotes.id, note.id))
      .run()
    logChange(books, act, {
      kind: 'crossing.posted',
      subject: act.formId,
      summary: 'Goods from the notebook were booked on both sides',
      details: { kind: 'goods_used_at_home', goods: note.id },
    })
    return { ok: true, result: { crossingId: act.formId } }
  })

/** Nothing crosses: what the farm sold so paid a cost of its own. */
const settleWithinFarm = (
  books: Books,
  act: Act,
  note: GoodsNote,
  cost: Account,
  { unitPriceCents, fromAccountId, bookedOn = note.day }: SettleGoods,
): { ok: true; result: { entryNo: number } } | Refusal => {
  if (cost.kind !== 'expense' || cost.crossingRole !== null)
    return refuse({ path: 'toAccount', message: 'Choose a cost' })
  const sold = findAccount(books, fromAccountId)
  if (sold?.sideId !== 'farm' || sold.kind !== 'income' || sold.crossingRole !== null)
    return refuse({ path: 'fromAccount', message: 'Choose an income of the farm' })
  const amountCents = goodsValue({ quantity: note.quantity, unit: note.unit, unitPriceCents })
  const written = writeParts(books, act.at, {
    crossings: [],
    entries: [
      {
        id: act.formId,
        sideId: 'farm',
        day: bookedOn,
        payee: note.tradedFor,
        memo: `Bartered: ${note.what}, for ${note.tradedFor}${ofDay(note.day, bookedOn)}`,
        source: 'form',
        lines: [
          { accountId: cost.id, amountCents },
          { accountId: sold.id, amountCents: negateCents(amountCents), enterpriseId: note.enterpriseId },
        ],
      },
    ],
  })
  if (!written.ok) return refuse(...written.problems)
  const entryNo = written.entries[0]!.no
  books.db
    .update(goodsNotes)
    .set({ state: 'set_aside', unitPriceCents, settledAt: act.at })
    .where(eq(goodsNotes.id, note.id))
    .run()
  books.db.insert(goodsEntries).values({ goodsId: note.id, entryNo }).run()
  logChange(books, act, {
    kind: 'entry.posted',
    subject: act.formId,
    sideId: 'farm',
    summary: 'Goods bartered for a cost of the farm were booked',
    details: { goods: note.id },
  })
  return { ok: true, result: { entryNo } }
}

/** Looked at, and nothing is to be booked; it can wait again. */
export const setGoodsAside = (books: Books, act: Act, id: string): Outcome<{ id: string }> =>
  once(books, act, 'goods.set-aside', { id }, () => {
    if (!waitingGoods(books).some((one) => one.id === id)) return refuse(settledAlready)
    books.db
      .update(goodsNotes)
      .set({ state: 'set_aside', settledAt: act.at })
      .where(eq(goodsNotes.id, id))
      .run()
    logChange(books, act, {
      kind: 'goods.set-aside',
      subject: id,
      sideId: 'farm',
      summary: 'Goods from the notebook were looked at, and nothing is booked',
    })
    return { ok: true, result: { id } }
  })

/** Goods of which nothing was booked wait for the table again; false where none such are there. Call it inside a write. */
export const goodsWaitAgain = (books: Books, id: string): boolean =>
  books.db
    .update(goodsNotes)
    .set({ state: 'waiting', settledAt: null })
    .where(
      and(
        eq(goodsNotes.id, id),
        eq(goodsNotes.state, 'set_aside'),
        notExists(books.db.select().from(goodsEntries).where(eq(goodsEntries.goodsId, goodsNotes.id))),
      ),
    )
    .run().changes > 0

/** Goods and market days that wait, up to a day. */
export const waitingNotes = (books: Books, to: Day): number =>
  [...waitingGoods(books), ...waitingMarketDays(books)].filter(({ day }) => day <= to).length

/** What was booked from notes and is taken back waits for the table again. Call it inside the write that takes back. */
export const waitAgain = (
  books: Books,
  { entryNos, crossingIds }: { entryNos: readonly number[]; crossingIds: readonly string[] },
): void => {
  books.db
    .update(goodsNotes)
    .set({ state: 'waiting', crossingId: null, settledAt: null })
    .where(isAmong(goodsNotes.crossingId, crossingIds))
    .run()
  const bartered = books.db
    .delete(goodsEntries)
    .where(isAmong(goodsEntries.entryNo, entryNos))
    .returning({ id: goodsEntries.goodsId })
    .all()
    .map(({ id }) => id)
  books.db
    .update(goodsNotes)
    .set({ state: 'waiting', settledAt: null })
    .where(isAmong(goodsNotes.id, bartered))
    .run()
  books.db
    .update(marketDays)
    .set({ entryNo: null, settledAt: null })
    .where(isAmong(marketDays.entryNo, entryNos))
    .run()
}
