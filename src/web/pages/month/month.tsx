// This month: the path from the bank's files to a closed month, each step done in place where it can be.

import { Hono } from 'hono'
import { z } from 'zod'
import { type Day, lastDayOf } from '#calendar/day.ts'
import { type Month, monthName, monthText, parseMonth } from '#calendar/month.ts'
import { fromTo } from '#calendar/spell.ts'
import { findAccount, hasHousehold, listSides } from '#db/ledger/account-store.ts'
import { waitingNotes } from '#db/notebook/settle-notes.ts'
import { atomically } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { begunOn, holdsWork, shutWith } from '#db/reconcile/closing-store.ts'
import { reconcileWhole } from '#db/reconcile/reconcile-store.ts'
import { linesReadIn } from '#db/statements/months-read.ts'
import { sortLines } from '#db/statements/sorting-store.ts'
import { withMore } from '#kept/by-part.ts'
import { balanceAsRead } from '#ledger/account.ts'
import { refuse } from '#ledger/problem.ts'
import { cents } from '#money/cents.ts'
import { centsToDecimalText } from '#money/format.ts'
import { loanBook } from '#today/loan-terms.ts'
import { againstLastYear } from '#today/month/against-last-year.ts'
import { monthPath } from '#today/month/month-path.ts'
import { knowsReview, monthReview } from '#today/month-review/month-review.ts'
import { closeWithForecast } from '#today/projection/forecasts.ts'
import type { DeskRow } from '#views/books-sorting/line-facts.tsx'
import type { MonthPageFigures, MonthPageProps } from '#views/month/figures.ts'
import { MonthPage } from '#views/month/month.tsx'
import { SinceLastMonth } from '#views/now/since-last-month.tsx'
import { actOf, errorsOf } from '#web/forms/act.ts'
import { answer, formatAsked, moveOn, type PageContext } from '#web/forms/answer.tsx'
import { tableOf } from '#web/forms/csv.ts'
import { formIdField, monthField } from '#web/forms/fields.ts'
import { checkForm, type FormErrors, newFormId, statusOf, type TypedForm } from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { posted } from '#web/forms/posted.ts'
import { readSorting, sortedSaid } from '#web/pages/books-sorting/book-lines.ts'
import { readDesk } from '#web/pages/books-sorting/desk-read.ts'
import type { PageEnv } from '#web/server/context.ts'
import { bookValue } from './book-value.ts'

export const monthPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/month', (c) => showMonth(c, {}))
      .post('/month/sort', bookSure)
      .post('/month/reconcile', reconcileAgreeing)
      .post('/month/value', (c) =>
        bookValue(c, (typed, errors) => showMonth(c, errors, ticksOf(typed, 'agrees[]')), addressOf),
      )
      .post('/month/close', closeAll),
}

const formOf = z.object({ formId: formIdField(), month: monthField() })
const check = (typed: TypedForm) => checkForm(formOf, typed)
const addressOf = (month: Parameters<typeof monthText>[0]): string => `/month?month=${monthText(month)}`

/** Books what was shown and ticked, just as it was shown. */
const bookSure = (c: PageContext) =>
  posted(c, {
    check,
    again: (typed, errors) => showMonth(c, errors, ticksOf(typed, 'sure[]')),
    keep({ formId, month }, typed) {
      const sortings = typed.values('sure[]').map(sortingIn)
      if (sortings.length === 0) return refuse({ path: '', message: 'Check what is to be booked' })
      if (!areAllRead(sortings)) return refuse(unreadable)
      const { books } = c.var.web
      const done = sortLines(books, actOf(c, formId), sortings, { loans: loanBook(books) })
      if (!done.ok) return refuse({ path: '', message: done.problems[0]!.message })
      return moveOn(c, addressOf(month), sortedSaid(done.result, 0))
    },
  })

const unreadable = { path: '', message: 'What was checked cannot be read. Open the page again' }

const areAllRead = <One,>(all: readonly (One | null)[]): all is readonly One[] => !all.includes(null)

/** `12=a:7`: a line with the place that the page proposed for it. */
const sortingIn = (text: string) => {
  const [, id, to] = /^(\d{1,15})=(.+)$/.exec(text) ?? []
  return id === undefined ? null : readSorting(Number.parseInt(id, 10), to!)
}

/** Reconciles the ticked accounts, if their files and the books still say what the page showed. */
const reconcileAgreeing = (c: PageContext) =>
  posted(c, {
    check,
    again: (typed, errors) => showMonth(c, errors, ticksOf(typed, 'agrees[]')),
    keep({ formId, month }, typed) {
      const { books } = c.var.web
      const statements = typed.values('agrees[]').map((text) => statementIn(books, text))
      if (statements.length === 0) return refuse({ path: '', message: 'Check the accounts to reconcile' })
      if (!areAllRead(statements)) return refuse(unreadable)
      const act = actOf(c, formId)
      const done = atomically(books, () => {
        for (const statement of statements) {
          const step = { ...act, formId: `${formId}.${statement.accountId}` }
          const one = reconcileWhole(books, step, { ...statement, note: '' })
          if (!one.ok) return one
        }
        return { ok: true as const }
      })
      if (!done.ok) return refuse({ path: '', message: Object.values(errorsOf(done.problems))[0]! })
      const count = statements.length
      return moveOn(
        c,
        addressOf(month),
        `${count} ${count === 1 ? 'account is' : 'accounts are'} reconciled.`,
      )
    },
  })

/** `12.2026-10-31.123456`: an account with the day and the balance that its file says, as they were shown. */
const statementIn = (books: Books, text: string) => {
  const [, id, day, shown] = /^(\d{1,15})\.(\d{4}-\d\d-\d\d)\.(-?\d{1,15})$/.exec(text) ?? []
  const account = id === undefined ? undefined : findAccount(books, Number.parseInt(id, 10))
  if (!account) return null
  const balance = cents(Number.parseInt(shown!, 10))
  return {
    accountId: account.id,
    statementDay: day as Day,
    statementBalanceCents: balanceAsRead(account.kind, balance),
  }
}

/** All sides together, or none. */
const closeAll = (c: PageContext) =>
  posted(c, {
    check,
    again: (typed, errors) => showMonth(c, errors, ticksOf(typed, 'begun[]')),
    keep({ formId, month }, typed) {
      const { books, today } = c.var.web
      const act = actOf(c, formId)
      const sides = listSides(books).filter((side) => holdsWork(books, side.id, month))
      const before = sides.flatMap((side) => shutWith(books, side.id, month))
      const overBegun = typed.values('begun[]').map(Number)
      const left = sides.flatMap((side) => begunOn(books, side.id).map(({ name }) => name))
      const done = atomically(books, () => {
        for (const side of sides) {
          const step = { ...act, formId: `${formId}.${side.id}` }
          const one = closeWithForecast(books, step, { sideId: side.id, month, note: '', overBegun }, today())
          if (!one.ok) return { ...one, problems: one.problems.map((problem) => ({ ...problem, path: '' })) }
        }
        return { ok: true as const }
      })
      return done.ok
        ? moveOn(
            c,
            addressOf(month),
            `${spanName(Math.min(month, ...before) as Month, month)} closed.${leftWords(left)}`,
          )
        : done
    },
  })

const leftWords = (names: readonly string[]): string =>
  names.length === 0 ? '' : ` Reconciling ${names.join(', ')} is still to be finished.`

/** "October 2026 is", "June 2026 to October 2026 are". */
const spanName = (first: Month, last: Month): string =>
  `${fromTo(monthName(first), monthName(last))} ${first === last ? 'is' : 'are'}`

/** A form of the page that comes back: its month, and which boxes of that name stay ticked. */
interface SentBack {
  month: string
  isTicked: MonthPageProps['isTicked']
}

const ticksOf = (typed: TypedForm, boxes: string): SentBack => ({
  month: typed.value('month'),
  isTicked: (name, value) => (name === boxes ? typed.values(name).includes(value) : opensTicked(name)),
})

/** What is proposed opens ticked; a yes is the person's own. */
const opensTicked = (name: string): boolean => name !== 'begun[]'

function showMonth(c: PageContext, errors: FormErrors, sentBack?: SentBack) {
  const { books } = c.var.web
  if (!hasHousehold(books)) return c.redirect('/start', 303)
  const { month, isTicked } = sentBack ?? { month: c.req.query('month') ?? '', isTicked: opensTicked }
  const figures = monthFigures(c, month)
  const review = reviewFigures(c)
  return answer(c, {
    title: 'This month',
    status: statusOf(errors),
    figures: withMore(figures, review),
    page: () => <MonthPage {...{ figures, review, errors, isTicked }} formId={newFormId()} />,
    parts: { since: () => <SinceLastMonth figures={review} /> },
    tables: {
      sure: () =>
        tableOf(figures.sort.sure, {
          day: (row) => row.day,
          account: (row) => row.account,
          payee: (row) => row.payee,
          amount: (row) => centsToDecimalText(row.amount),
          to: (row) => row.proposal?.says ?? '',
        }),
    },
  })
}

/** What the last month that is over changed: the page does not wait for it, its figures hold it. */
const reviewFigures = (c: PageContext) => {
  const { books, today } = c.var.web
  const isAsked = c.req.query('review') === 'yes' || formatAsked(c) !== 'html'
  const waits = !isAsked && !knowsReview(books, today())
  return { reviewWaits: waits, review: waits ? null : monthReview(books, today()) }
}

/** The other line of a transfer; 0 for anything else. */
const otherHalf = ({ proposal }: DeskRow): number =>
  Number.parseInt(/^t:(\d+)$/.exec(proposal?.value ?? '')?.[1] ?? '0', 10)

/** As many as one press books: years of statements read in at once would make a page of megabytes. */
const mostAtOnce = 300

const monthFigures = (c: PageContext, month: string): MonthPageFigures => {
  const { books, today } = c.var.web
  const { desk, rows: all } = readDesk(books)
  const waiting = desk.lines.map(({ line }) => line)
  const path = monthPath(books, today(), { asked: parseMonth(month), waiting })
  const end = lastDayOf(path.month)
  const rows = all.filter((row) => row.day <= end)
  const sure = rows.filter((row) => row.doubt === '' && row.proposal?.isSure)
  const ids = new Set(sure.map(({ id }) => id))
  // Either half of a transfer books both: the one that came first stands for them.
  const toBook = sure.filter((row) => !ids.has(otherHalf(row)) || row.id < otherHalf(row))
  const shown = toBook.slice(0, mostAtOnce)
  const inShown = shown.length + shown.filter((row) => ids.has(otherHalf(row))).length
  return {
    ...path,
    against: againstLastYear(books, path.month),
    notes: waitingNotes(books, end),
    sort: {
      sure: shown,
      inShown,
      moreSure: sure.length - inShown,
      left: rows.length - sure.length,
      doubtful: rows.filter((row) => row.doubt !== '').length,
      read: listSides(books).reduce((sum, side) => sum + linesReadIn(books, side.id, path.month), 0),
      later: desk.waiting - rows.length,
    },
  }
}
