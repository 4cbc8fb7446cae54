// What people record for the year's papers beside the entries: stock and equipment, market values, and what cash books do not show.
import { and, asc, desc, eq, lte, sql } from 'drizzle-orm'
import { type Day, lastDayOfYear } from '#calendar/day.ts'
import { findAccount } from '#db/ledger/account-store.ts'
import type { SideId } from '#ledger/account.ts'
import { type FieldProblem, type Outcome, refuse } from '#ledger/problem.ts'
import type { AccrualItem, AccrualKind } from '#ledger/reports/accrual.ts'
import type { DatedValue } from '#ledger/reports/market-values.ts'
import type { Cents } from '#money/cents.ts'
import { logChange } from './change-log.ts'
import { type Act, once } from './once.ts'
import type { Books } from './open.ts'
import { accrualAdjustments, holdingParts, holdings, holdingValues, marketValues } from './schema-year.ts'
import { closedYearWith, type HoldingDraft, holdingProblems, partProblems } from './year/holding-checks.ts'
import { storedHolding } from './year/holding-list.ts'
import { writeHoldingValue } from './year/holding-values.ts'

export type { HoldingDraft } from './year/holding-checks.ts'

/** Adds a thing, or changes the one named. What was there before stays in the change log. */
export const saveHolding = (
  books: Books,
  act: Act,
  sideId: SideId,
  draft: HoldingDraft,
  id: string | null = null,
): Outcome<{ holdingId: string }> =>
  once(books, act, 'holding.save', { sideId, id, ...draft }, () => {
    const problems = holdingProblems(draft)
    const before = id === null ? null : storedHolding(books, sideId, id)
    if (before === undefined)
      problems.push({ path: '', message: 'That is no longer on the list. Open it again' })
    const holdingId = id ?? act.formId
    if (before) problems.push(...partProblems(draft, before))
    if (problems.length > 0) return refuse(...problems)
    const { valuedDay = null, ...kept } = draft
    const row = {
      ...kept,
      marketValueCents: valuedDay === null ? draft.marketValueCents : null,
      name: draft.name.trim(),
      disposedDay: draft.disposedDay ?? null,
      disposedForCents: draft.disposedForCents ?? null,
    }
    if (id === null)
      books.db
        .insert(holdings)
        .values({ ...row, id: holdingId, sideId, createdAt: act.at })
        .run()
    else books.db.update(holdings).set(row).where(eq(holdings.id, id)).run()
    if (valuedDay !== null) writeHoldingValue(books, act.at, holdingId, valuedDay, draft.marketValueCents)
    logChange(books, act, {
      kind: id === null ? 'holding.added' : 'holding.changed',
      subject: `holding ${holdingId}`,
      sideId,
      summary: id === null ? 'Stock or equipment was added' : 'Stock or equipment was changed',
      details: before ? { before, change: row } : {},
    })
    return { ok: true, result: { holdingId } }
  })

/** Takes a thing off the inventory while no closed year has it: what a closed year says must not change. The log keeps what it was. */
export const removeHolding = (
  books: Books,
  act: Act,
  sideId: SideId,
  id: string,
): Outcome<{ holdingId: string }> =>
  once(books, act, 'holding.remove', { sideId, id }, () => {
    const found = storedHolding(books, sideId, id)
    if (!found) return refuse({ path: '', message: 'That is no longer on the list. Open the page again' })
    const closed = closedYearWith(books, sideId, found)
    if (closed !== null)
      return refuse({
        path: '',
        message: `It is in the books of ${closed}, which are closed through December ${closed}. Enter the day it was sold or lost instead, or open that month again`,
      })
    books.db.delete(holdingParts).where(eq(holdingParts.holdingId, id)).run()
    books.db.delete(holdingValues).where(eq(holdingValues.holdingId, id)).run()
    books.db.delete(holdings).where(eq(holdings.id, id)).run()
    logChange(books, act, {
      kind: 'holding.removed',
      subject: `holding ${id}`,
      sideId,
      summary: 'Stock or equipment was removed from the inventory',
      details: { before: found },
    })
    return { ok: true, result: { holdingId: id } }
  })

/** The latest market value of each account on or before a day, as a person reads it. */
export const marketValuesOn = (books: Books, on: Day): Map<number, DatedValue> => {
  const rows = books.db
    .select({
      accountId: marketValues.accountId,
      day: marketValues.day,
      amountCents: marketValues.amountCents,
    })
    .from(marketValues)
    .where(lte(marketValues.day, on))
    .orderBy(asc(marketValues.accountId), desc(marketValues.day))
    .all()
  const values = new Map<number, DatedValue>()
  for (const { accountId, ...value } of rows) if (!values.has(accountId)) values.set(accountId, value)
  return values
}

/** Market values of one day; null takes a value back. Accounts not named keep theirs. */
export const saveMarketValues = (
  books: Books,
  act: Act,
  on: Day,
  values: readonly { accountId: number; amountCents: Cents | null }[],
): Outcome<{ saved: number }> =>
  once(books, act, 'market-values.save', { on, values }, () => {
    const unknown = values.find(({ accountId }) => findAccount(books, accountId)?.kind !== 'asset')
    if (unknown)
      return refuse({ path: `market.${unknown.accountId}`, message: 'Choose an account of what is owned' })
    for (const { accountId, amountCents } of values) {
      if (amountCents === null) {
        books.db
          .delete(marketValues)
          .where(and(eq(marketValues.accountId, accountId), eq(marketValues.day, on)))
          .run()
      } else {
        books.db
          .insert(marketValues)
          .values({ accountId, day: on, amountCents, recordedAt: act.at })
          .onConflictDoUpdate({
            target: [marketValues.accountId, marketValues.day],
            set: { amountCents, recordedAt: act.at },
          })
          .run()
      }
    }
    logChange(books, act, {
      kind: 'market-values.saved',
      subject: on,
      summary: 'Market values were recorded',
      details: { values },
    })
    return { ok: true, result: { saved: values.length } }
  })

export interface StoredAccrual extends AccrualItem {
  id: string
  day: Day
}

/** What was recorded for the end of a year. */
export const listAccruals = (books: Books, sideId: SideId, year: number): StoredAccrual[] =>
  books.db
    .select({
      id: accrualAdjustments.id,
      day: accrualAdjustments.day,
      kind: accrualAdjustments.kind,
      name: accrualAdjustments.name,
      amountCents: accrualAdjustments.amountCents,
    })
    .from(accrualAdjustments)
    .where(
      and(
        eq(accrualAdjustments.sideId, sideId),
        sql`substr(${accrualAdjustments.day}, 1, 4) = ${String(year)}`,
      ),
    )
    .orderBy(asc(accrualAdjustments.kind), asc(accrualAdjustments.name))
    .all()

/** Adds one item to a year's end. */
export const addAccrual = (
  books: Books,
  act: Act,
  sideId: SideId,
  year: number,
  item: { kind: AccrualKind; name: string; amountCents: Cents },
): Outcome<{ accrualId: string }> =>
  once(books, act, 'accrual.add', { sideId, year, ...item }, () => {
    const problems: FieldProblem[] = []
    if (item.name.trim() === '')
      problems.push({ path: 'name', message: 'Say what it is, like unsold garlic' })
    if (item.amountCents <= 0)
      problems.push({ path: 'amount', message: 'Enter an amount above zero, like 12.34' })
    if (problems.length > 0) return refuse(...problems)
    books.db
      .insert(accrualAdjustments)
      .values({
        ...item,
        name: item.name.trim(),
        id: act.formId,
        sideId,
        day: lastDayOfYear(year),
        recordedAt: act.at,
      })
      .run()
    logChange(books, act, {
      kind: 'accrual.added',
      subject: act.formId,
      sideId,
      summary: 'A year-end item was recorded',
    })
    return { ok: true, result: { accrualId: act.formId } }
  })

/** Takes an item off again; the change log keeps what it was. */
export const removeAccrual = (
  books: Books,
  act: Act,
  sideId: SideId,
  id: string,
): Outcome<{ accrualId: string }> =>
  once(books, act, 'accrual.remove', { sideId, id }, () => {
    const found = books.db
      .select()
      .from(accrualAdjustments)
      .where(and(eq(accrualAdjustments.id, id), eq(accrualAdjustments.sideId, sideId)))
      .get()
    if (!found) return refuse({ path: '', message: 'That is no longer on the list. Open the page again' })
    books.db.delete(accrualAdjustments).where(eq(accrualAdjustments.id, id)).run()
    logChange(books, act, {
      kind: 'accrual.removed',
      subject: id,
      sideId,
      summary: 'A year-end item was removed',
      details: { before: found },
    })
    return { ok: true, result: { accrualId: id } }
  })
