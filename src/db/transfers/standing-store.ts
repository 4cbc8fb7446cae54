// Standing transfers in the file: started, ended, posted month by month; the table holds at most one row per transfer and month.
import { and, eq, isNull, sql } from 'drizzle-orm'
import { type Day, dayInMonth } from '#calendar/day.ts'
import { addMonths, type Month, monthName } from '#calendar/month.ts'
import { logChange } from '#db/change-log.ts'
import { writeCrossing } from '#db/ledger/crossing-store.ts'
import { groundOf } from '#db/ledger/ledger-writer.ts'
import { type Act, atomically, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { standingOccurrences, standingTransfers } from '#db/schema.ts'
import { buildCrossing } from '#ledger/crossing.ts'
import { type FieldProblem, type Outcome, refuse } from '#ledger/problem.ts'
import { dueOccurrences, type Occurrence, type StandingTransfer, standingProblems } from '#ledger/standing.ts'
import { alikeInBooks } from './standing-alike.ts'
import { monthStates, nextCrossingId } from './standing-settled.ts'

export type NewStanding = Omit<StandingTransfer, 'id' | 'archivedAt'>

export const startStanding = (books: Books, act: Act, draft: NewStanding): Outcome<{ standingId: string }> =>
  once(books, act, 'standing.start', draft, () => {
    const problems = problemsOf(books, draft)
    if (problems.length > 0) return refuse(...problems)
    insertStanding(books, act, act.formId, draft)
    logChange(books, act, {
      kind: 'standing.started',
      subject: act.formId,
      summary: 'A standing transfer was set up',
    })
    return { ok: true, result: { standingId: act.formId } }
  })

/** From a month on the transfer has new terms: the old one ends the month before, so that what was posted stays explained. */
export const changeStanding = (
  books: Books,
  act: Act,
  id: string,
  draft: NewStanding,
): Outcome<{ standingId: string }> =>
  once(books, act, 'standing.change', { id, draft }, () => {
    const old = findStanding(books, id)
    if (!old) return refuse({ path: '', message: 'There is no such transfer. Open the list again' })
    const problems = problemsOf(books, draft)
    const settled = [...monthStates(books, id).keys()].filter((month) => month >= draft.firstMonth)
    if (settled.length > 0)
      problems.push({
        path: 'firstMonth',
        message: `${monthName(Math.max(...settled) as Month)} was settled already. Choose a later first month`,
      })
    if (problems.length > 0) return refuse(...problems)
    endBefore(books, act, old, draft.firstMonth)
    insertStanding(books, act, act.formId, draft)
    logChange(books, act, {
      kind: 'standing.changed',
      subject: act.formId,
      summary: 'A standing transfer was changed',
      details: { replaces: id },
    })
    return { ok: true, result: { standingId: act.formId } }
  })

/** Ends a transfer before a month. */
export const endStanding = (
  books: Books,
  act: Act,
  id: string,
  firstMonthWithout: Month,
): Outcome<{ standingId: string }> =>
  once(books, act, 'standing.end', { id, firstMonthWithout }, () => {
    const old = findStanding(books, id)
    if (!old) return refuse({ path: '', message: 'There is no such transfer. Open the list again' })
    endBefore(books, act, old, firstMonthWithout)
    logChange(books, act, {
      kind: 'standing.ended',
      subject: id,
      summary: 'A standing transfer was ended',
    })
    return { ok: true, result: { standingId: id } }
  })

/**
 * Posts one month's occurrence as a crossing on its day, or on `day` when that month is closed or the money moved later. Posted
 * already it is the same success; one that was taken back is posted anew.
 */
export const postOccurrence = (
  books: Books,
  act: Pick<Act, 'at' | 'actor'>,
  standingId: string,
  month: Month,
  day?: Day,
): Outcome<{ crossingId: string }> =>
  atomically<Outcome<{ crossingId: string }>>(books, () => {
    const transfer = findStanding(books, standingId)
    if (!transfer) return refuse({ path: '', message: 'There is no such transfer. Open the list again' })
    const before = occurrenceOf(books, standingId, month)
    const state = monthStates(books, standingId).get(month)
    if (before?.crossingId && state === 'posted')
      return { ok: true, result: { crossingId: before.crossingId }, repeated: true }
    if (state === 'skipped')
      return refuse({ path: '', message: `${monthName(month)} was skipped. Take the skip back first` })
    if (month < transfer.firstMonth || (transfer.lastMonth !== null && month > transfer.lastMonth))
      return refuse({
        path: '',
        message: `The transfer does not run in ${monthName(month)}. Change its months first`,
      })
    const crossingId = nextCrossingId(books, standingId, month)
    const written = writeCrossing(
      books,
      act.at,
      {
        id: crossingId,
        kind: transfer.kind,
        day: day ?? dayInMonth(month, transfer.dayOfMonth),
        amountCents: transfer.amountCents,
        fromAccountId: transfer.fromAccountId,
        toAccountId: transfer.toAccountId,
        memo: transfer.memo || transfer.name,
      },
      'standing',
    )
    if (!written.ok) return refuse(...written.problems)
    if (!before)
      books.db
        .insert(standingOccurrences)
        .values({ standingId, month, state: 'posted', crossingId, at: act.at })
        .run()
    logChange(books, act, {
      kind: 'standing.posted',
      subject: crossingId,
      summary: 'A standing transfer was recorded',
    })
    return { ok: true, result: { crossingId }, repeated: false }
  })

/** Lets a month pass without posting. Of one that was taken back the row stays as it is, and the log says it (`standing-settled.ts`). */
export const skipOccurrence = (
  books: Books,
  act: Pick<Act, 'at' | 'actor'>,
  standingId: string,
  month: Month,
): Outcome<null> =>
  atomically<Outcome<null>>(books, () => {
    const state = monthStates(books, standingId).get(month)
    if (state === 'skipped') return { ok: true, result: null, repeated: true }
    if (state === 'posted')
      return refuse({
        path: '',
        message: `${monthName(month)} was recorded already. Reverse the crossing instead`,
      })
    if (state === undefined)
      books.db.insert(standingOccurrences).values({ standingId, month, state: 'skipped', at: act.at }).run()
    logChange(books, act, {
      kind: 'standing.skipped',
      subject: standingId,
      summary: 'A month of a standing transfer was skipped',
      details: { month },
    })
    return { ok: true, result: null, repeated: false }
  })

/** Takes a skip back: the month is due again. */
export const unskipOccurrence = (
  books: Books,
  act: Pick<Act, 'at' | 'actor'>,
  standingId: string,
  month: Month,
): void => {
  atomically(books, () => {
    books.db
      .delete(standingOccurrences)
      .where(
        and(
          eq(standingOccurrences.standingId, standingId),
          eq(standingOccurrences.month, month),
          eq(standingOccurrences.state, 'skipped'),
        ),
      )
      .run()
    logChange(books, act, {
      kind: 'standing.unskipped',
      subject: standingId,
      summary: 'A skipped month is due again',
      details: { month },
    })
    return { ok: true }
  })
}

export interface DueTransfer extends Occurrence {
  transfer: StandingTransfer
  /** It was posted before: a person says whether it is to be again. */
  wasTakenBack: boolean
  /** The day of a crossing in the books that may be this very one: a person says whether it is. */
  alikeOn: Day | null
}

/** All months of all transfers that are due by today and not settled, oldest first. */
export const dueTransfers = (books: Books, today: Day): DueTransfer[] =>
  listStanding(books)
    .flatMap((transfer) => {
      const states = monthStates(books, transfer.id)
      const settled = new Set([...states].flatMap(([month, state]) => (state === 'reversed' ? [] : [month])))
      const due = dueOccurrences(transfer, settled, today)
      const alike = alikeInBooks(books, transfer, due)
      return due.map((one, index) => ({
        ...one,
        transfer,
        wasTakenBack: states.has(one.month),
        alikeOn: alike[index]!,
      }))
    })
    .sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0))

export interface CaughtUp {
  posted: DueTransfer[]
  /** Automatic ones the books refused, with the reason: they wait for a person. */
  refused: { due: DueTransfer; problems: FieldProblem[] }[]
}

/** Posts what is automatic and due, missed months included, but for what somebody took back and what the books may have. Safe to call at every start and every day. */
export const postDueTransfers = (books: Books, act: Pick<Act, 'at' | 'actor'>, today: Day): CaughtUp => {
  const result: CaughtUp = { posted: [], refused: [] }
  for (const due of dueTransfers(books, today)) {
    if (due.transfer.posting !== 'automatic' || due.wasTakenBack || due.alikeOn !== null) continue
    const outcome = postOccurrence(books, act, due.transfer.id, due.month)
    if (outcome.ok) result.posted.push(due)
    else result.refused.push({ due, problems: outcome.problems })
  }
  return result
}

export const listStanding = (books: Books, options: { withArchived?: boolean } = {}): StandingTransfer[] =>
  books.db
    .select(fields)
    .from(standingTransfers)
    .where(options.withArchived ? undefined : isNull(standingTransfers.archivedAt))
    .orderBy(standingTransfers.dayOfMonth, standingTransfers.name)
    .all()

export const findStanding = (books: Books, id: string): StandingTransfer | undefined =>
  books.db.select(fields).from(standingTransfers).where(eq(standingTransfers.id, id)).get()

const occurrenceOf = (books: Books, standingId: string, month: Month) =>
  books.db
    .select()
    .from(standingOccurrences)
    .where(and(eq(standingOccurrences.standingId, standingId), eq(standingOccurrences.month, month)))
    .get()

const insertStanding = (books: Books, act: Act, id: string, draft: NewStanding): void => {
  books.db
    .insert(standingTransfers)
    .values({ ...draft, name: draft.name.trim(), id, createdAt: act.at })
    .run()
}

const endBefore = (books: Books, act: Act, old: StandingTransfer, month: Month): void => {
  const end = addMonths(month, -1)
  const change =
    end < old.firstMonth
      ? { archivedAt: act.at }
      : { lastMonth: sql<Month>`min(coalesce(${standingTransfers.lastMonth}, ${end}), ${end})` }
  books.db.update(standingTransfers).set(change).where(eq(standingTransfers.id, old.id)).run()
}

/** A trial crossing finds the same problems that posting would. */
const problemsOf = (books: Books, draft: NewStanding): FieldProblem[] => {
  const own = standingProblems(draft)
  const trial = buildCrossing(
    { ...draft, id: 'trial', day: dayInMonth(draft.firstMonth, draft.dayOfMonth) },
    groundOf(books),
    () => 0,
  )
  return trial.ok
    ? own
    : [...own, ...trial.problems.filter((problem) => !own.some((o) => o.path === problem.path))]
}

const fields = {
  id: standingTransfers.id,
  name: standingTransfers.name,
  kind: standingTransfers.kind,
  fromAccountId: standingTransfers.fromAccountId,
  toAccountId: standingTransfers.toAccountId,
  amountCents: standingTransfers.amountCents,
  dayOfMonth: standingTransfers.dayOfMonth,
  firstMonth: standingTransfers.firstMonth,
  lastMonth: standingTransfers.lastMonth,
  posting: standingTransfers.posting,
  memo: standingTransfers.memo,
  archivedAt: standingTransfers.archivedAt,
}
