// Reconciliations: one open at a time per account, ticked line by line, finished only at a difference of zero, the last one reopened with a trace.
import { and, eq } from 'drizzle-orm'
import { type Day, dayName } from '#calendar/day.ts'
import { isAmong } from '#db/among.ts'
import { logChange } from '#db/change-log.ts'
import { findAccount } from '#db/ledger/account-store.ts'
import { type Act, atomically, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { postings } from '#db/schema.ts'
import { reconciliations, reconciliationTicks } from '#db/schema-statements.ts'
import { balanceAsRead } from '#ledger/account.ts'
import { conflict, type FieldProblem, type Outcome, refuse } from '#ledger/problem.ts'
import { type Cents, cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import {
  findReconciliation,
  lastFinished,
  openReconciliation,
  type Reconciliation,
  type ReconciliationState,
  reconcileLines,
  reconciliationState,
} from './reconcile-reader.ts'
import { tickCancelledLines, tickOpenings, tickStatementLines, untickAfter } from './reconcile-ticks.ts'

export interface NewReconciliation {
  accountId: number
  statementDay: Day
  /** In the ledger's sign: a card that owes 50.00 is −5000. */
  statementBalanceCents: Cents
  statementId?: string | null
  note?: string
}

/** Opens a reconciliation and ticks what statement lines already stand for, up to the statement's day. */
export const startReconciliation = (
  books: Books,
  act: Act,
  draft: NewReconciliation,
): Outcome<{ reconciliationId: string }> =>
  once(books, act, 'reconciliation.start', draft, () => {
    const account = findAccount(books, draft.accountId)
    if (!account || (account.kind !== 'asset' && account.kind !== 'liability'))
      return refuse({ path: 'account', message: 'Choose a bank or card account' })
    if (openReconciliation(books, draft.accountId))
      return refuse({
        path: 'account',
        message: 'This account is being reconciled already. Finish that one, or put it aside',
      })
    const last = lastFinished(books, draft.accountId)
    if (last && draft.statementDay <= last.statementDay) return refuse(notAfter(last.statementDay))
    books.db
      .insert(reconciliations)
      .values({
        id: act.formId,
        accountId: draft.accountId,
        statementDay: draft.statementDay,
        statementBalanceCents: draft.statementBalanceCents,
        previousBalanceCents: last?.statementBalanceCents ?? cents(0),
        statementId: draft.statementId ?? null,
        note: draft.note ?? '',
        startedAt: act.at,
      })
      .run()
    const started = findReconciliation(books, act.formId)!
    tickStatementLines(books, started)
    tickCancelledLines(books, started)
    tickOpenings(books, started)
    logChange(books, act, {
      kind: 'reconciliation.started',
      subject: act.formId,
      sideId: account.sideId,
      summary: 'A reconciliation was started',
    })
    return { ok: true, result: { reconciliationId: act.formId } }
  })

/** What the person saw when the form was opened, and what it is to be. Amounts in the ledger's sign. */
export interface ReconciliationChange {
  seen: { statementDay: Day; statementBalanceCents: Cents; note: string }
  statementDay: Day
  statementBalanceCents: Cents
  note: string
}

/**
 * Puts right what was mistyped of an open reconciliation. Ticks stay, but for lines after the new last day that no statement
 * line names until then; a later last day ticks what the bank's file names in the days that came to it.
 */
export const changeReconciliation = (
  books: Books,
  act: Act,
  reconciliationId: string,
  change: ReconciliationChange,
): Outcome<{ ticksTakenAway: number }> =>
  once(books, act, 'reconciliation.change', { reconciliationId, ...change }, () => {
    const open = findReconciliation(books, reconciliationId)
    if (open?.state !== 'open')
      return refuse({ path: '', message: 'This reconciliation is finished. Reopen it to change it' })
    const { seen, statementDay, statementBalanceCents, note } = change
    if (
      open.statementDay !== seen.statementDay ||
      open.statementBalanceCents !== seen.statementBalanceCents ||
      open.note !== seen.note
    )
      return conflict(
        'This statement was changed on another device meanwhile. Look at what it says now, then enter yours again',
      )
    const last = lastFinished(books, open.accountId)
    if (last && statementDay <= last.statementDay) return refuse(notAfter(last.statementDay))
    const fields = { statementDay, statementBalanceCents, note }
    books.db.update(reconciliations).set(fields).where(eq(reconciliations.id, reconciliationId)).run()
    const changed = { ...open, ...fields }
    const ticksTakenAway = untickAfter(books, changed)
    if (statementDay > open.statementDay) {
      tickStatementLines(books, changed, open.statementDay)
      tickCancelledLines(books, changed, { after: open.statementDay })
      tickOpenings(books, changed, open.statementDay)
    }
    logChange(books, act, {
      kind: 'reconciliation.changed',
      subject: reconciliationId,
      sideId: findAccount(books, open.accountId)!.sideId,
      summary: 'The statement of a reconciliation was changed',
      details: { before: seen, after: fields, ticksTakenAway },
    })
    return { ok: true, result: { ticksTakenAway } }
  })

export interface TickChange {
  tick: readonly number[]
  untick: readonly number[]
}

/** Sets and takes away ticks. Ticking twice, or what the other one ticked already, changes nothing. */
export const changeTicks = (books: Books, reconciliationId: string, change: TickChange): Outcome<null> =>
  atomically<Outcome<null>>(books, () => {
    const open = findReconciliation(books, reconciliationId)
    if (open?.state !== 'open')
      return refuse({ path: '', message: 'This reconciliation is finished. Reopen it to change it' })
    if (change.untick.length > 0)
      books.db
        .delete(reconciliationTicks)
        .where(
          and(
            eq(reconciliationTicks.reconciliationId, reconciliationId),
            isAmong(reconciliationTicks.postingId, change.untick),
          ),
        )
        .run()
    for (const postingId of change.tick) {
      const line = books.db
        .select({ accountId: postings.accountId, ticked: reconciliationTicks.postingId })
        .from(postings)
        .leftJoin(reconciliationTicks, eq(reconciliationTicks.postingId, postings.id))
        .where(eq(postings.id, postingId))
        .get()
      if (line?.accountId !== open.accountId)
        return refuse({ path: '', message: 'A line is not of this account. Open the page again' })
      if (line.ticked === null)
        books.db.insert(reconciliationTicks).values({ postingId, reconciliationId }).run()
    }
    return { ok: true, result: null, repeated: false }
  })

export const finishReconciliation = (
  books: Books,
  act: Act,
  reconciliationId: string,
): Outcome<{ reconciliationId: string }> =>
  once(books, act, 'reconciliation.finish', { reconciliationId }, () => {
    const state = reconciliationState(books, reconciliationId)
    if (!state) return refuse({ path: '', message: 'There is no such reconciliation. Open the list again' })
    if (state.reconciliation.state === 'finished') return { ok: true, result: { reconciliationId } }
    if (state.differenceCents !== 0)
      return refuse({
        path: 'difference',
        message: `What is checked and the statement differ by ${formatCents(differenceShown(books, state))}. Check what the statement shows, or record what is missing, until the difference is zero`,
      })
    books.db
      .update(reconciliations)
      .set({ state: 'finished', finishedAt: act.at })
      .where(eq(reconciliations.id, reconciliationId))
      .run()
    logChange(books, act, {
      kind: 'reconciliation.finished',
      subject: reconciliationId,
      summary: 'An account was reconciled',
      details: finishedDetails(state.reconciliation),
    })
    return { ok: true, result: { reconciliationId } }
  })

/** In the sign in which the account is read, as the page shows what is left over. */
const differenceShown = (books: Books, { reconciliation, differenceCents }: ReconciliationState): Cents =>
  balanceAsRead(findAccount(books, reconciliation.accountId)!.kind, differenceCents)

/** It may be reopened and changed: the log keeps as what it was finished. */
const finishedDetails = ({ accountId, statementDay, statementBalanceCents }: Reconciliation) => ({
  accountId,
  statementDay,
  statementBalanceCents,
})

/**
 * Reconciles a statement that the books meet already, in one act: everything of the account up to its day is on it. Refused, with
 * nothing kept, when a cent is left over.
 */
export const reconcileWhole = (
  books: Books,
  act: Act,
  draft: NewReconciliation,
): Outcome<{ reconciliationId: string }> =>
  atomically(books, () => {
    const started = startReconciliation(books, act, draft)
    if (!started.ok) return started
    const { reconciliationId } = started.result
    if (!started.repeated) {
      const open = reconcileLines(books, reconciliationId).filter(({ ticked }) => !ticked)
      const ticked = changeTicks(books, reconciliationId, {
        tick: open.map(({ postingId }) => postingId),
        untick: [],
      })
      if (!ticked.ok) return ticked
    }
    return finishReconciliation(books, { ...act, formId: `${act.formId}.finish` }, reconciliationId)
  })

/** Takes the last finished reconciliation of an account up again; the log keeps that it was done. */
export const reopenReconciliation = (
  books: Books,
  act: Act,
  reconciliationId: string,
  reason: string,
): Outcome<{ reconciliationId: string }> =>
  once(books, act, 'reconciliation.reopen', { reconciliationId, reason }, () => {
    const found = findReconciliation(books, reconciliationId)
    if (found?.state !== 'finished')
      return refuse({ path: '', message: 'Only a finished reconciliation can be reopened' })
    if (
      lastFinished(books, found.accountId)?.id !== reconciliationId ||
      openReconciliation(books, found.accountId)
    )
      return refuse({
        path: '',
        message: 'A later statement of this account was started. Reopen that one first',
      })
    if (reason.trim() === '') return refuse({ path: 'reason', message: 'Say why' })
    books.db
      .update(reconciliations)
      .set({ state: 'open', finishedAt: null })
      .where(eq(reconciliations.id, reconciliationId))
      .run()
    logChange(books, act, {
      kind: 'reconciliation.reopened',
      subject: reconciliationId,
      summary: 'A reconciliation was reopened',
      details: { reason: reason.trim() },
    })
    return { ok: true, result: { reconciliationId } }
  })

/** Puts an open reconciliation aside: its ticks go with it. */
export const dropReconciliation = (books: Books, act: Act, reconciliationId: string): Outcome<null> =>
  once(books, act, 'reconciliation.drop', { reconciliationId }, () => {
    const open = findReconciliation(books, reconciliationId)
    if (open?.state !== 'open')
      return refuse({ path: '', message: 'Only an open reconciliation can be deleted' })
    books.db
      .delete(reconciliationTicks)
      .where(eq(reconciliationTicks.reconciliationId, reconciliationId))
      .run()
    books.db.delete(reconciliations).where(eq(reconciliations.id, reconciliationId)).run()
    logChange(books, act, {
      kind: 'reconciliation.dropped',
      subject: reconciliationId,
      summary: 'A reconciliation was deleted',
    })
    return { ok: true, result: null }
  })

const notAfter = (day: Day): FieldProblem => ({
  path: 'statementDay',
  message: `This account is reconciled through ${dayName(day)}. Enter a later statement`,
})
