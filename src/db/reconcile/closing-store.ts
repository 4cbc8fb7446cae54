// Closing months: the checklist from the books, the lock, and reopening, which leaves the closing in place with its reason.
import { and, desc, eq, inArray, isNull, lt, lte, max, sql } from 'drizzle-orm'
import { type Day, firstDayOf, lastDayOf } from '#calendar/day.ts'
import { type Month, monthName } from '#calendar/month.ts'
import { chainEnd } from '#db/chain/chain.ts'
import { logChange } from '#db/change-log.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { balancesOn, monthSumsOfSide } from '#db/ledger/balances.ts'
import { closedThrough } from '#db/ledger/ledger-writer.ts'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { accounts } from '#db/schema.ts'
import { monthClosings } from '#db/schema-records.ts'
import { statementLines } from '#db/schema-statements.ts'
import { gapsBetween, linesReadIn, unreadIn } from '#db/statements/months-read.ts'
import { dueTransfers } from '#db/transfers/standing-store.ts'
import { isReconcilable, type SideId } from '#ledger/account.ts'
import { type ChecklistItem, closeChecklist, mayClose } from '#ledger/close-checklist.ts'
import { type Outcome, refuse } from '#ledger/problem.ts'
import { brokenReconciliation } from './changed-since.ts'
import { isReconciledThrough, lastFinished, openReconciliation } from './reconcile-reader.ts'

export type MonthClosing = typeof monthClosings.$inferSelect

/** What should be done before the month is closed on a side. */
export const checklistOf = (books: Books, sideId: SideId, month: Month, today: Day): ChecklistItem[] => {
  const own = listAccounts(books, { sideId, withArchived: true })
  const ownIds = new Set(own.map((account) => account.id))
  const reconcilable = own.filter(isReconcilable)
  const unread = unreadIn(books, month)
  const gaps = gapsBetween(books, (month - 1) as Month)
  const end = lastDayOf(month)
  const balances = balancesOn(books, end)
  const active = new Set(monthSumsOfSide(books, sideId, month, month).map((sum) => sum.accountId))
  const unsorted = books.db
    .select({ count: sql<number>`count(*)` })
    .from(statementLines)
    .innerJoin(accounts, eq(accounts.id, statementLines.accountId))
    .where(
      and(
        eq(accounts.sideId, sideId),
        inArray(statementLines.state, ['unsorted', 'doubtful']),
        lte(statementLines.day, end),
      ),
    )
    .get()
  return closeChecklist({
    month,
    isOver: end < today,
    unsortedLines: unsorted?.count ?? 0,
    readLines: linesReadIn(books, sideId, month),
    unreadAccounts: reconcilable.filter(({ id }) => unread.has(id)).map(({ name }) => name),
    unreadBefore: reconcilable.flatMap(({ id, name }) => {
      const months = gaps.get(id)?.filter((one) => one >= firstOpen(books, sideId)) ?? []
      return months.length === 0 ? [] : [{ name, months }]
    }),
    begunAccounts: begunOn(books, sideId).map(({ name }) => name),
    unsortedMoneyAccounts: own.filter(
      (account) => account.systemRole?.startsWith('unsorted') && (balances.get(account.id) ?? 0) !== 0,
    ).length,
    unsettledTransfers: dueTransfers(books, end < today ? end : today).filter(
      ({ transfer }) => ownIds.has(transfer.fromAccountId) || ownIds.has(transfer.toAccountId),
    ).length,
    accountsToReconcile: reconcilable
      .filter(({ id }) => active.has(id) || (balances.get(id) && lastFinished(books, id) === undefined))
      .map((account) => ({
        name: account.name,
        isReconciled: isReconciledThrough(books, account.id, end),
      })),
    changedSinceReconciled: reconcilable
      .filter(({ id }) => brokenReconciliation(books, id)?.changed.lines.some(({ day }) => day <= end))
      .map(({ name }) => name),
    openMonthsBefore: shutWith(books, sideId, month).length,
  })
}

/** Accounts of a side whose reconciliation was begun and not finished. */
export const begunOn = (books: Books, sideId: SideId): { id: number; name: string }[] =>
  listAccounts(books, { sideId })
    .filter((account) => isReconcilable(account) && openReconciliation(books, account.id) !== undefined)
    .map(({ id, name }) => ({ id, name }))

/**
 * Shuts a side's books through a month. Refused while the checklist has something that must be mended first,
 * and over a reconciliation that was begun unless its account is among `overBegun`.
 */
export const closeMonth = (
  books: Books,
  act: Act,
  draft: { sideId: SideId; month: Month; note: string; overBegun?: readonly number[] },
  today: Day,
): Outcome<{ closingId: string }> =>
  once(books, act, 'month.close', draft, () => {
    const through = closedThrough(books, draft.sideId)
    if (through !== null && draft.month <= through)
      return refuse({
        path: 'month',
        message: `These books are closed through ${monthName(through)} already. Choose a later month`,
      })
    const checklist = checklistOf(books, draft.sideId, draft.month, today)
    if (!mayClose(checklist))
      return refuse(
        ...checklist
          .filter((item) => item.state === 'stops')
          .map((item) => ({ path: 'month', message: item.text })),
      )
    const begun = begunOn(books, draft.sideId).filter(({ id }) => !draft.overBegun?.includes(id))
    if (begun.length > 0)
      return refuse({
        path: '',
        message: `Reconciling ${begun.map(({ name }) => name).join(', ')} was begun and is not finished. Finish it first, or say yes at its box to close over it`,
      })
    books.db
      .insert(monthClosings)
      .values({
        id: act.formId,
        sideId: draft.sideId,
        month: draft.month,
        closedAt: act.at,
        note: draft.note,
        checklist,
        chainDigest: chainEnd(books.sqlite)?.digest ?? null,
      })
      .run()
    logChange(books, act, {
      kind: 'month.closed',
      subject: act.formId,
      sideId: draft.sideId,
      summary: `${monthName(draft.month)} was closed`,
      details: { month: draft.month },
    })
    return { ok: true, result: { closingId: act.formId } }
  })

/**
 * Opens a side's last closing again, all months that it shut or those from a month on: what it shut before stays closed. The closing
 * and the reason stay in the list.
 */
export const reopenMonth = (
  books: Books,
  act: Act,
  closingId: string,
  reason: string,
  from?: Month,
): Outcome<{ closingId: string }> =>
  once(books, act, 'month.reopen', { closingId, reason, ...(from === undefined ? {} : { from }) }, () => {
    const closing = books.db.select().from(monthClosings).where(eq(monthClosings.id, closingId)).get()
    if (!closing || closing.reopenedAt !== null)
      return refuse({ path: '', message: 'This month is open already. Open the list again' })
    if (closedThrough(books, closing.sideId) !== closing.month)
      return refuse({ path: '', message: 'A later month is closed. Reopen that one first' })
    if (reason.trim() === '') return refuse({ path: 'reason', message: 'Say why' })
    const shut = monthsShutBy(books, closing)
    if (from !== undefined && !shut.includes(from))
      return refuse({ path: 'from', message: 'Choose one of the months that were closed together' })
    books.db
      .update(monthClosings)
      .set({ reopenedAt: act.at, reopenReason: reason.trim() })
      .where(eq(monthClosings.id, closingId))
      .run()
    const first = from ?? shut[0] ?? closing.month
    if (first > (shut[0] ?? first)) stayClosed(books, act, closing, (first - 1) as Month)
    logChange(books, act, {
      kind: 'month.reopened',
      subject: closingId,
      sideId: closing.sideId,
      summary: `${monthsSaid(first, closing.month)} ${first === closing.month ? 'was' : 'were'} reopened`,
      details: { reason: reason.trim() },
    })
    return { ok: true, result: { closingId } }
  })

/** Of a closing that is opened again in part, the months before stand closed as they were. */
const stayClosed = (books: Books, act: Act, closing: MonthClosing, month: Month): void => {
  books.db
    .insert(monthClosings)
    .values({
      ...closing,
      id: `${act.formId}-before`,
      month,
      closedAt: act.at,
      note: `Stayed closed when ${monthsSaid((month + 1) as Month, closing.month)} ${month + 1 === closing.month ? 'was' : 'were'} opened again`,
    })
    .run()
}

const monthsSaid = (first: Month, last: Month): string =>
  first === last ? monthName(last) : `${monthName(first)} to ${monthName(last)}`

/** The months that a closing shut, from the first with entries on, oldest first. */
export const monthsShutBy = (books: Books, { sideId, month }: MonthClosing): Month[] => {
  const before = books.db
    .select({ month: max(monthClosings.month) })
    .from(monthClosings)
    .where(
      and(eq(monthClosings.sideId, sideId), isNull(monthClosings.reopenedAt), lt(monthClosings.month, month)),
    )
    .get()?.month
  const sums = monthSumsOfSide(books, sideId, ((before ?? 11_999) + 1) as Month, month)
  const first = Math.min(month, ...sums.map((sum) => sum.month))
  return Array.from({ length: month - first + 1 }, (_, at) => (first + at) as Month)
}

/** Every closing of a side, newest first, reopened ones too. */
export const listClosings = (books: Books, sideId?: SideId): MonthClosing[] =>
  books.db
    .select()
    .from(monthClosings)
    .where(sideId === undefined ? undefined : eq(monthClosings.sideId, sideId))
    .orderBy(desc(monthClosings.closedAt), desc(monthClosings.id))
    .all()

/** The closing that can be reopened now, if there is one. */
export const standingClosing = (books: Books, sideId: SideId): MonthClosing | undefined =>
  books.db
    .select()
    .from(monthClosings)
    .where(and(eq(monthClosings.sideId, sideId), isNull(monthClosings.reopenedAt)))
    .orderBy(desc(monthClosings.month))
    .limit(1)
    .get()

/** The months before `month` that closing it shuts too: from the first open one with entries on, empty ones between with them. */
export const shutWith = (books: Books, sideId: SideId, month: Month): Month[] => {
  const [first] = openMonths(books, sideId, (month - 1) as Month)
  return first === undefined ? [] : Array.from({ length: month - first }, (_, at) => (first + at) as Month)
}

/** Whether open months of a side up to `last` hold more than opening balances: those alone are nothing to close. */
export const holdsWork = (books: Books, sideId: SideId, last: Month): boolean =>
  books.sqlite
    .prepare(workText)
    .pluck()
    .get({ sideId, first: firstDayOf(firstOpen(books, sideId)), last: lastDayOf(last) }) === 1

const workText = `
  SELECT EXISTS (SELECT 1 FROM accounts JOIN postings AS moved INDEXED BY postings_register ON moved.account_id = accounts.id
    WHERE accounts.side_id = @sideId AND moved.day BETWEEN @first AND @last AND NOT EXISTS (
      SELECT 1 FROM postings AS opening JOIN accounts AS own ON own.id = opening.account_id
      WHERE opening.entry_no = moved.entry_no AND own.system_role = 'opening_balances'))`

/** Months with entries up to `last` that are not closed on a side, oldest first. */
export const openMonths = (books: Books, sideId: SideId, last: Month): Month[] => {
  const sums = monthSumsOfSide(books, sideId, firstOpen(books, sideId), last)
  return [...new Set(sums.map((sum) => sum.month))].toSorted((a, b) => a - b)
}

/** The month after the last closed one; before any is, one before all books. */
const firstOpen = (books: Books, sideId: SideId): Month =>
  ((closedThrough(books, sideId) ?? 11_999) + 1) as Month
