// Standing transfers: set up, changed from a month on, posted or skipped month by month, caught up, ended.
import { Hono } from 'hono'
import { z } from 'zod'
import { monthOfDay } from '#calendar/day.ts'
import { addMonths, monthName, monthText } from '#calendar/month.ts'
import {
  changeStanding,
  dueTransfers,
  endStanding,
  findStanding,
  type NewStanding,
  postOccurrence,
  skipOccurrence,
  startStanding,
} from '#db/transfers/standing-store.ts'
import { crossingKinds } from '#ledger/crossing-kind.ts'
import { centsToDecimalText } from '#money/format.ts'
import { standingRows } from '#today/crossings/crossing-figures.ts'
import { StandingForm } from '#views/crossings/crossing-form.tsx'
import { StandingPage } from '#views/crossings/standing.tsx'
import { actOf, actOfForm, errorsOf } from '#web/forms/act.ts'
import { answer, moveOn, notFound, type PageContext } from '#web/forms/answer.tsx'
import {
  bookedMonth,
  bookedMonthOrNull,
  choice,
  formIdField,
  moneyAboveZero,
  monthField,
  optionalText,
  requiredText,
  rowId,
  wholeNumber,
} from '#web/forms/fields.ts'
import {
  checkForm,
  type FormErrors,
  newFormId,
  openingForm,
  readForm,
  statusOf,
  type TypedForm,
} from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { posted } from '#web/forms/posted.ts'
import type { PageEnv } from '#web/server/context.ts'
import { endOptions, kindOptions, withLikelyEnds } from './crossings.tsx'

export const standingPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/crossings/standing/new', (c) => showForm(c, openForm(c), {}))
      .post('/crossings/standing/new', saveStanding)
      .post('/crossings/standing/catch-up', catchUp)
      .get('/crossings/standing/:id', (c) => showStanding(c, {}))
      .post('/crossings/standing/:id/post', settle)
      .post('/crossings/standing/:id/skip', settle)
      .post('/crossings/standing/:id/end', endOne),
}

const standingForm = z.object({
  formId: formIdField(),
  /** The transfer that this one takes over from. */
  replaces: optionalText(80),
  name: requiredText('Give the transfer a name, like “monthly draw”', 80),
  kind: choice(crossingKinds, 'Choose a kind'),
  amount: moneyAboveZero(),
  fromAccount: rowId('Choose the account it leaves'),
  toAccount: rowId('Choose the account it reaches'),
  dayOfMonth: wholeNumber(1, 31),
  firstMonth: bookedMonth(),
  lastMonth: bookedMonthOrNull(),
  posting: choice(['automatic', 'confirm'], 'Choose how it is recorded'),
})

const saveStanding = (c: PageContext) =>
  posted(c, {
    check: (typed) => checkForm(standingForm, typed),
    again: (typed, errors) => showForm(c, typed, errors),
    keep: (value) => keepStanding(c, value),
  })

function keepStanding(
  c: PageContext,
  { formId, replaces, amount, fromAccount, toAccount, ...rest }: z.output<typeof standingForm>,
) {
  const { books } = c.var.web
  const act = actOf(c, formId)
  const draft: NewStanding = {
    ...rest,
    amountCents: amount,
    fromAccountId: fromAccount,
    toAccountId: toAccount,
    // The form does not show the note, so the transfer keeps it.
    memo: findStanding(books, replaces)?.memo ?? '',
  }
  const done = replaces ? changeStanding(books, act, replaces, draft) : startStanding(books, act, draft)
  if (!done.ok) return done
  return moveOn(
    c,
    '/crossings',
    replaces
      ? `“${draft.name}” has its new terms from ${monthName(draft.firstMonth)}.`
      : `“${draft.name}” is set up.`,
  )
}

/** Empty, or with the terms of the transfer that is to be changed. */
function openForm(c: PageContext): TypedForm {
  const today = c.var.web.today()
  const old = findStanding(c.var.web.books, c.req.query('from') ?? '')
  const common = { formId: newFormId(), firstMonth: monthText(addMonths(monthOfDay(today), 1)) }
  if (!old) return openingForm({ ...common, dayOfMonth: '1', kind: c.req.query('kind') ?? 'draw' })
  return openingForm({
    ...common,
    replaces: old.id,
    name: old.name,
    kind: old.kind,
    amount: centsToDecimalText(old.amountCents),
    fromAccount: String(old.fromAccountId),
    toAccount: String(old.toAccountId),
    dayOfMonth: String(old.dayOfMonth),
    lastMonth: old.lastMonth === null ? '' : monthText(old.lastMonth),
    posting: old.posting,
  })
}

function showForm(c: PageContext, typed: TypedForm, errors: FormErrors) {
  const kind = crossingKinds.find((one) => one === typed.value('kind')) ?? 'draw'
  const all = endOptions(c.var.web.books, 'loan')
  const likely = endOptions(c.var.web.books, kind)
  return answer(c, {
    title: 'Standing transfer',
    status: statusOf(errors),
    page: () => (
      <StandingForm
        kind={kind}
        kinds={kindOptions.filter((option) => option.value !== 'goods_used_at_home')}
        typed={withLikelyEnds(typed, likely.from, likely.to)}
        errors={errors}
        fromOptions={all.from}
        toOptions={all.to}
      />
    ),
  })
}

async function settle(c: PageContext) {
  const typed = await readForm(c)
  const id = c.req.param('id') ?? ''
  const month = monthField().safeParse(typed.value('month'))
  const transfer = findStanding(c.var.web.books, id)
  if (!transfer || !month.success) return notFound(c, 'There is no such transfer.')
  const act = actOfForm(c, typed)
  const isSkip = c.req.path.endsWith('/skip')
  const done = isSkip
    ? skipOccurrence(c.var.web.books, act, id, month.data)
    : postOccurrence(c.var.web.books, act, id, month.data)
  if (!done.ok) return showStanding(c, errorsOf(done.problems))
  return moveOn(
    c,
    backOf(typed),
    `“${transfer.name}” for ${monthName(month.data)} is ${isSkip ? 'skipped' : 'in the books of both sides'}.`,
  )
}

/** The page whose button it was. */
const backOf = (typed: TypedForm): string =>
  ({ now: '/now', month: '/month' })[typed.value('back')] ?? '/crossings'

/** All that are due at one press: those that the books have, when they are asked about, else the others. */
async function catchUp(c: PageContext) {
  const typed = await readForm(c)
  const { books } = c.var.web
  const act = actOfForm(c, typed)
  const inBooks = typed.value('which') === 'in the books'
  const settleOne = inBooks ? skipOccurrence : postOccurrence
  const outcomes = dueTransfers(books, c.var.web.today())
    .filter(({ alikeOn }) => (alikeOn !== null) === inBooks)
    .map((due) => ({ due, done: settleOne(books, act, due.transfer.id, due.month) }))
  const count = outcomes.filter(({ done }) => done.ok).length
  const refused = outcomes.flatMap(({ due, done }) =>
    done.ok ? [] : [`${due.transfer.name}, ${monthName(due.month)}: ${done.problems[0]?.message}`],
  )
  const says = inBooks ? `${count} are in the books as they came.` : `${count} posted.`
  return moveOn(c, backOf(typed), [says, ...refused].join(' '))
}

const endForm = z.object({ formId: formIdField(), firstMonthWithout: bookedMonth() })

const endOne = (c: PageContext) =>
  posted(c, {
    check: (typed) => checkForm(endForm, typed),
    again: (_typed, errors) => showStanding(c, errors),
    keep({ formId, firstMonthWithout }) {
      const id = c.req.param('id') ?? ''
      const done = endStanding(c.var.web.books, actOf(c, formId), id, firstMonthWithout)
      return done.ok
        ? moveOn(c, '/crossings', 'The transfer ends. What it recorded stays in the books.')
        : done
    },
  })

function showStanding(c: PageContext, errors: FormErrors) {
  const today = c.var.web.today()
  const row = standingRows(c.var.web.books, today).find((one) => one.id === c.req.param('id'))
  if (!row) return notFound(c, 'There is no such transfer.')
  return answer(c, {
    title: row.name,
    status: statusOf(errors),
    figures: row,
    page: () => (
      <StandingPage
        row={row}
        errors={errors}
        formId={newFormId()}
        endsFrom={monthText(addMonths(monthOfDay(today), 1))}
      />
    ),
  })
}
