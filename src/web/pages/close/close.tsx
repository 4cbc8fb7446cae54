// Closing a month on a side, and opening the last one again.

import { Hono } from 'hono'
import { z } from 'zod'
import { monthOfDay } from '#calendar/day.ts'
import { addMonths, type Month, monthName, monthText, yearOf } from '#calendar/month.ts'
import { listSides, type Side } from '#db/ledger/account-store.ts'
import { spanOfBooks } from '#db/ledger/balances.ts'
import {
  begunOn,
  checklistOf,
  listClosings,
  monthsShutBy,
  reopenMonth,
  standingClosing,
} from '#db/reconcile/closing-store.ts'
import { keptPacksOf } from '#db/year/kept-packs.ts'
import { type ChecklistItem, mayClose } from '#ledger/close-checklist.ts'
import type { CloseFigures, SideClosingFigures } from '#today/close/figures.ts'
import { closeWithForecast } from '#today/projection/forecasts.ts'
import { ClosePage } from '#views/close/close.tsx'
import { houseFirst } from '#web/forms/account-options.ts'
import { actOf, actOfForm, errorsOf } from '#web/forms/act.ts'
import { answer, moveOn, notFound, type PageContext } from '#web/forms/answer.tsx'
import { tableOf } from '#web/forms/csv.ts'
import { formIdField, monthField, optionalText } from '#web/forms/fields.ts'
import {
  checkForm,
  type FormErrors,
  newFormId,
  openingForm,
  readForm,
  statusOf,
  type TypedForm,
} from '#web/forms/form.ts'
import { overClosedField } from '#web/forms/pack/closed-years.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { posted } from '#web/forms/posted.ts'
import { dayOfInstant } from '#web/server/clock.ts'
import type { PageEnv } from '#web/server/context.ts'

export const closePages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/books/close', (c) => showClose(c, openingForm({}), {}))
      .post('/books/close', close)
      .post('/books/close/:id/reopen', reopen),
}

const closeForm = z.object({ formId: formIdField(), month: monthField(), note: optionalText() })

const close = (c: PageContext) =>
  posted(c, {
    check: (typed) => checkForm(closeForm, ownFields(typed)),
    again: (typed, errors) => showClose(c, typed, atSide(typed, errors)),
    keep({ formId, month, note }, typed) {
      const { books, today } = c.var.web
      const side = listSides(books).find((one) => one.id === typed.value('side'))
      if (!side) return notFound(c, 'There are no such books.')
      const overBegun = typed.values(`begun_${typed.value('at')}[]`).map(Number)
      const draft = { sideId: side.id, month, note, overBegun }
      const closed = closeWithForecast(books, actOf(c, formId), draft, today())
      if (!closed.ok) return closed
      return moveOn(c, '/books/close', `${side.name} is closed through ${monthName(month)}.`)
    },
  })

async function reopen(c: PageContext) {
  const typed = await readForm(c)
  const id = c.req.param('id') ?? ''
  const act = actOfForm(c, typed)
  const year = closedYearOf(c, id, monthAsked(ownFields(typed)))
  if (year !== null && typed.value(overClosedField) !== 'yes')
    return showClose(
      c,
      typed,
      atSide(typed, {
        [overClosedField]: `${year} is closed with its pack. What is booked once this month is open changes it; the page Year pack then shows each line that reads otherwise, and keeps an amended copy`,
      }),
    )
  const fields = ownFields(typed)
  const reason = fields.value('reason').slice(0, 200)
  const from = monthAsked(fields)
  // What cannot be read must not open all that was closed together.
  if (from === undefined && fields.value('from') !== '')
    return showClose(c, typed, atSide(typed, { from: 'Choose one of the months that were closed together' }))
  const done = reopenMonth(c.var.web.books, act, id, reason, from)
  if (!done.ok) return showClose(c, typed, atSide(typed, errorsOf(done.problems)))
  return moveOn(
    c,
    '/books/close',
    from === undefined ? 'The month is open again.' : `Open again from ${monthName(from)} on.`,
  )
}

/** The first month to open; undefined where the closing shut but one. */
const monthAsked = (fields: TypedForm): Month | undefined => {
  const asked = monthField().safeParse(fields.value('from'))
  return asked.success ? asked.data : undefined
}

/** The first year of what would be opened whose pack was kept; null when none was. */
const closedYearOf = (c: PageContext, closingId: string, from: Month | undefined): number | null => {
  const { books } = c.var.web
  const closing = listClosings(books).find(({ id }) => id === closingId)
  if (!closing) return null
  const years = monthsShutBy(books, closing).filter((one) => from === undefined || one >= from)
  const kept = [...new Set(years.map(yearOf))].filter((year) => keptPacksOf(books, year).length > 0)
  return kept[0] ?? null
}

/** The fields of the side the form stood at, without its place in their names. */
const ownFields = (typed: TypedForm): TypedForm => {
  const of = (name: string) => typed.value(`${name}_${typed.value('at')}`)
  return openingForm({
    formId: typed.value('formId'),
    month: of('month'),
    note: of('note'),
    reason: of('reason'),
    from: of('from'),
  })
}

const atSide = (typed: TypedForm, errors: FormErrors): FormErrors =>
  Object.fromEntries(
    Object.entries(errors).map(([name, message]) => [
      ['month', 'note', 'reason', 'from'].includes(name) ? `${name}_${typed.value('at')}` : name,
      message,
    ]),
  )

function showClose(c: PageContext, typed: TypedForm, errors: FormErrors) {
  const figures = closeFigures(c, typed)
  const formIds = Object.fromEntries(
    figures.sides.flatMap(({ side }) => [
      [side.id, newFormId()],
      [`${side.id}-reopen`, newFormId()],
    ]),
  )
  return answer(c, {
    title: 'Close a month',
    status: statusOf(errors),
    figures,
    page: () => (
      <ClosePage
        figures={figures}
        errors={errors}
        typedSide={typed.value('side')}
        typed={typed}
        formIds={formIds}
      />
    ),
    tables: {
      closings: () =>
        tableOf(
          figures.sides.flatMap(({ side, closings }) => closings.map((one) => ({ side, one }))),
          {
            month: ({ one }) => monthText(one.month),
            books: ({ side }) => side.name,
            closed: ({ one }) => one.closedAt,
            note: ({ one }) => one.note,
            'opened again': ({ one }) => one.reopenedAt,
            because: ({ one }) => one.reopenReason,
          },
        ),
    },
  })
}

const closeFigures = (c: PageContext, typed: TypedForm): CloseFigures => ({
  sides: houseFirst(listSides(c.var.web.books)).map((side) => sideClosing(c, side, typed)),
})

function sideClosing(c: PageContext, side: Side, typed: TypedForm): SideClosingFigures {
  const { books, today } = c.var.web
  const standing = standingClosing(books, side.id)
  const asked =
    typed.value('side') === side.id ? monthField().safeParse(ownFields(typed).value('month')) : null
  const month = asked?.success ? asked.data : nextToClose(c, standing?.month ?? null)
  const checklist = checklistOf(books, side.id, month, today())
  return {
    side: { id: side.id, kind: side.kind, name: side.name },
    closedThrough: standing?.month ?? null,
    month,
    checklist,
    mayClose: mayClose(checklist),
    begun: begunOn(books, side.id),
    closings: listClosings(books, side.id).map((one) => ({
      id: one.id,
      month: one.month,
      closedAt: one.closedAt,
      closedOn: dayOfInstant(one.closedAt),
      note: one.note,
      reopenedAt: one.reopenedAt,
      reopenedOn: one.reopenedAt === null ? null : dayOfInstant(one.reopenedAt),
      reopenReason: one.reopenReason,
      openItems: (one.checklist as ChecklistItem[]).filter((item) => item.state !== 'done').length,
    })),
    reopenId: standing?.id ?? null,
    reopens: standing ? monthsShutBy(books, standing) : [],
  }
}

/** The month after the last closed one; else the first with entries. */
function nextToClose(c: PageContext, closedThrough: Month | null): Month {
  if (closedThrough !== null) return addMonths(closedThrough, 1)
  return spanOfBooks(c.var.web.books)?.first ?? addMonths(monthOfDay(c.var.web.today()), -1)
}
