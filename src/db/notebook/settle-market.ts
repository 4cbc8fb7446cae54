// A market day at the table: its cash and its fee become one entry of the farm, or wait for the bank's statement.
import { and, asc, eq, isNotNull, isNull } from 'drizzle-orm'
import { type Day, dayName } from '#calendar/day.ts'
import { logChange } from '#db/change-log.ts'
import { crossingAccountId, findAccount } from '#db/ledger/account-store.ts'
import { groundOf, type LedgerParts, writeParts } from '#db/ledger/ledger-writer.ts'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { buildCrossing } from '#ledger/crossing.ts'
import { type FieldProblem, type Outcome, refuse } from '#ledger/problem.ts'
import { marketDayLines } from '#ledger/simple-entry.ts'
import { type Cents, cents, sumCents } from '#money/cents.ts'
import { findMarketDay, type KeptMarketDay } from './field-notes.ts'
import { marketDays } from './schema-notes.ts'

export const settledAlready = { path: '', message: 'That was settled already. Open the page again' }

/** Market days of whose cash and fee nobody has spoken yet. */
export const waitingMarketDays = (books: Books): KeptMarketDay[] =>
  books.db
    .select({ id: marketDays.id })
    .from(marketDays)
    .where(isNull(marketDays.settledAt))
    .orderBy(asc(marketDays.day))
    .all()
    .map(({ id }) => findMarketDay(books, id)!)
    .filter((day) => cashOf(day) > 0 || (day.feeCents ?? 0) > 0)

/** Cash and checks by product: what a person carries home. Cards come by the bank's statement. */
export const cashByProduct = ({
  takings,
}: Pick<KeptMarketDay, 'takings'>): { enterpriseId: string; amountCents: Cents }[] => {
  const carried = takings.filter(({ means }) => means === 'cash' || means === 'check')
  return [...new Set(carried.map(({ enterpriseId }) => enterpriseId))].map((enterpriseId) => ({
    enterpriseId,
    amountCents: sumCents(
      carried.filter((one) => one.enterpriseId === enterpriseId).map(({ amountCents }) => amountCents),
    ),
  }))
}

/** What can be paid out of the takings on the spot: coins and bills, no checks. */
export const coinsOf = ({ takings }: Pick<KeptMarketDay, 'takings'>): Cents =>
  sumCents(takings.filter(({ means }) => means === 'cash').map(({ amountCents }) => amountCents))

export const cashOf = (day: Pick<KeptMarketDay, 'takings'>): Cents =>
  sumCents(cashByProduct(day).map(({ amountCents }) => amountCents))

export interface SettleMarketDay {
  id: string
  /** The day it is booked on, where its own lies in a closed month. */
  bookedOn?: Day
  /** The account the cash lies in now; null: it goes to the bank, and the statement will show it. */
  cashAccountId: number | null
  /** For each product that brought cash, in their order of `cashByProduct`: the income account of its sales, and the batch they are of. */
  sales: readonly { accountId: number; batchId: string | null }[]
  /** How the fee was paid; null without one. */
  fee: FeePaid | null
  payee: string
}

/**
 * Out of the day's cash, by the bank's line that comes, or from an account: the farm's, or the household's, from which it is a
 * contribution to the farm.
 */
export type FeePaid =
  | { how: 'line' }
  | { how: 'takings'; costAccountId: number }
  | { how: 'account'; accountId: number; costAccountId: number }

export const settleMarketDay = (
  books: Books,
  act: Act,
  settle: SettleMarketDay,
): Outcome<{ entryNo: number | null }> =>
  once(books, act, 'market-day.settle', settle, () => {
    const day = findMarketDay(books, settle.id)
    if (!day || day.settledAt !== null) return refuse(settledAlready)
    const parts = partsOfDay(books, act, day, settle)
    if (!parts.ok) return refuse(...parts.problems)
    let entryNo: number | null = null
    if (parts.entries.length > 0) {
      const written = writeParts(books, act.at, parts)
      if (!written.ok) return refuse(...written.problems)
      entryNo = written.entries[0]!.no
    }
    books.db.update(marketDays).set({ settledAt: act.at, entryNo }).where(eq(marketDays.id, day.id)).run()
    logSettled(books, act, day.id, entryNo)
    return { ok: true, result: { entryNo } }
  })

/** The farm's entry first; and where the household paid the fee, its half of the crossing. */
const partsOfDay = (
  books: Books,
  act: Act,
  day: KeptMarketDay,
  { bookedOn = day.day, cashAccountId, sales, fee, payee }: SettleMarketDay,
): ({ ok: true } & LedgerParts) | { ok: false; problems: FieldProblem[] } => {
  const amountCents = day.feeCents ?? cents(0)
  const paid = fee && fee.how !== 'line' && amountCents > 0 ? fee : null
  const isFarms = paid?.how !== 'account' || findAccount(books, paid.accountId)?.sideId === 'farm'
  const head = {
    sideId: 'farm',
    day: bookedOn,
    payee,
    memo: `Market day${ofDay(day.day, bookedOn)}`,
    source: 'form' as const,
  }
  const crossed =
    paid?.how === 'account' && !isFarms
      ? buildCrossing(
          {
            id: act.formId,
            kind: 'contribution',
            day: bookedOn,
            amountCents,
            fromAccountId: paid.accountId,
            toAccountId: paid.costAccountId,
            payee,
            memo: `Fee of a market day${ofDay(day.day, bookedOn)}`,
          },
          groundOf(books),
          (side, other, role) => crossingAccountId(books, act.at, side, other, role),
        )
      : null
  if (crossed && !crossed.ok) return crossed
  const [ofHouse, ofFarm] = crossed?.entries ?? []
  const lines = [
    ...marketDayLines({
      cashAccountId,
      sales: cashByProduct(day).map(({ enterpriseId, amountCents }, place) => ({
        ...(sales[place] ?? { accountId: 0 }),
        amountCents,
        enterpriseId: enterpriseId || null,
      })),
      fee:
        paid && isFarms
          ? {
              paidFrom: paid.how === 'account' ? paid.accountId : 'takings',
              costAccountId: paid.costAccountId,
              amountCents,
            }
          : null,
    }),
    ...(ofFarm?.lines ?? []),
  ]
  return {
    ok: true,
    crossings: crossed?.crossings ?? [],
    entries: lines.length === 0 ? [] : [{ ...head, id: act.formId, lines }, ...(ofHouse ? [ofHouse] : [])],
  }
}

/** What is booked on another day says of which it is. */
export const ofDay = (own: Day, booked: Day): string => (own === booked ? '' : ` of ${dayName(own)}`)

/** Days of which the bank's statements show cash and fee, many at once: nothing is booked. Those settled meanwhile stay as they are. */
export const leaveToBank = (books: Books, act: Act, ids: readonly string[]): Outcome<{ days: number }> =>
  once(books, act, 'market-days.settle', { ids }, () => {
    const waiting = waitingMarketDays(books).filter(({ id }) => ids.includes(id))
    for (const { id } of waiting) {
      books.db.update(marketDays).set({ settledAt: act.at }).where(eq(marketDays.id, id)).run()
      logSettled(books, act, id, null)
    }
    return { ok: true, result: { days: waiting.length } }
  })

const logSettled = (books: Books, act: Act, marketDay: string, entryNo: number | null): number =>
  logChange(books, act, {
    kind: entryNo === null ? 'market-day.settled' : 'entry.posted',
    subject: entryNo === null ? marketDay : act.formId,
    sideId: 'farm',
    summary: 'A market day was settled',
    details: { marketDay },
  })

/** A day that was settled without an entry waits for the table again; false where none such is there. Call it inside a write. */
export const dayWaitsAgain = (books: Books, id: string): boolean =>
  books.db
    .update(marketDays)
    .set({ settledAt: null })
    .where(and(eq(marketDays.id, id), isNotNull(marketDays.settledAt), isNull(marketDays.entryNo)))
    .run().changes > 0
