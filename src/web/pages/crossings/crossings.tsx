// The Crossings page, and the form that records one on both sides.
import { Hono } from 'hono'
import { z } from 'zod'
import { parseDay } from '#calendar/day.ts'
import { monthText } from '#calendar/month.ts'
import { listAccounts, listSides } from '#db/ledger/account-store.ts'
import { findCrossing, listCrossings, postCrossing } from '#db/ledger/crossing-store.ts'
import { findEntry } from '#db/ledger/entry-reader.ts'
import type { Books } from '#db/open.ts'
import { byPart } from '#kept/by-part.ts'
import { type Account, householdSide } from '#ledger/account.ts'
import { goodsValue } from '#ledger/crossing.ts'
import { type CrossingKind, crossingKindNames, crossingKinds } from '#ledger/crossing-kind.ts'
import type { Cents } from '#money/cents.ts'
import { centsToDecimalText, formatCents } from '#money/format.ts'
import {
  crossingRow,
  dueRows,
  equityFigures,
  leakFigures,
  standingRows,
} from '#today/crossings/crossing-figures.ts'
import type { CrossingsFigures } from '#today/crossings/figures.ts'
import { CrossingForm } from '#views/crossings/crossing-form.tsx'
import { CrossingsPage, type CrossingsRoom, crossingsRooms } from '#views/crossings/crossings.tsx'
import type { Option } from '#views/parts/field.tsx'
import { moneyAccounts, optionsBySide } from '#web/forms/account-options.ts'
import { actOf } from '#web/forms/act.ts'
import { answer, formatAsked, moveOn, notFound, type PageContext } from '#web/forms/answer.tsx'
import { type CsvTable, tableOf } from '#web/forms/csv.ts'
import {
  bookedDay,
  formIdField,
  moneyAboveZero,
  optionalText,
  quantity,
  requiredText,
  rowId,
} from '#web/forms/fields.ts'
import {
  type Checked,
  checkForm,
  type FormErrors,
  newFormId,
  openingForm,
  statusOf,
  type TypedForm,
} from '#web/forms/form.ts'
import { overdraws } from '#web/forms/overdraw.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { posted } from '#web/forms/posted.ts'
import { gateFigures } from '#web/pages/books/books.tsx'
import type { PageEnv } from '#web/server/context.ts'
import { undoable } from '#web/server/undo.ts'

export const crossingPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/crossings', showCrossings('overview'))
      .get('/crossings/house-money', showCrossings('houseMoney'))
      .get('/crossings/history', showCrossings('history'))
      .get('/crossings/new', (c) => {
        const kind = kindOf(c.req.query('kind'))
        return showForm(c, kind, openingForm({ day: c.var.web.today(), formId: newFormId() }), {})
      })
      .post('/crossings/new', postNew)
      .get('/crossings/:id', (c) => {
        const crossing = findCrossing(c.var.web.books, c.req.param('id'))
        const entry = crossing && findEntry(c.var.web.books, crossing.halves[0]?.entryId ?? '')
        return entry
          ? c.redirect(`/books/entries/${entry.no}`, 302)
          : notFound(c, 'There is no such crossing.')
      }),
}

const postNew = (c: PageContext) =>
  posted(c, {
    check: (typed) => crossingFromForm(kindOf(typed.value('kind')), typed),
    again: (typed, errors) => showForm(c, kindOf(typed.value('kind')), typed, errors),
    keep({ formId, ...draft }, typed) {
      const { books } = c.var.web
      const asked = overdraws(books, typed, { formId, ...draft })
      if (asked.amount) return showForm(c, draft.kind, typed, asked)
      const booked = postCrossing(books, actOf(c, formId), draft)
      if (!booked.ok) return booked
      const what = `${crossingKindNames[draft.kind]} of ${formatCents(draft.amountCents)}`
      return moveOn(c, '/crossings', undoable(c, `${what} is in the books of both sides.`))
    },
  })

const kindOf = (text: string | undefined): CrossingKind =>
  crossingKinds.find((kind) => kind === text) ?? 'draw'

/** A page is read, a file is kept: it holds the whole history. */
const crossingsShown = { html: 20, json: 50, csv: 20_000 } as const

/** The rooms of Crossings are views of the same figures, whose JSON and tables each address has. */
const showCrossings = (room: CrossingsRoom) => (c: PageContext) => {
  const { books } = c.var.web
  const today = c.var.web.today()
  const sides = listSides(books, { withArchived: true })
  const kind = crossingKinds.find((one) => one === c.req.query('kind'))
  const before = crossingKey(c.req.query('before'))
  const perPage = crossingsShown[formatAsked(c)]
  const found = listCrossings(books, {
    limit: perPage + 1,
    ...(kind ? { kind } : {}),
    ...(before ? { before } : {}),
  })
  const shown = found.slice(0, perPage)
  const last = shown.at(-1)
  const figures = byPart<CrossingsFigures>({
    equity: () => equityFigures(books),
    leak: () => leakFigures(books, today),
    due: () => dueRows(books, today),
    standing: () => standingRows(books, today),
    history: () => shown.map((crossing) => crossingRow(crossing, sides)),
  })
  const query = kind ? `kind=${kind}` : ''
  const earlier =
    found.length > perPage && last
      ? `/crossings/history?${query ? `${query}&` : ''}before=${last.day}.${last.id}`
      : undefined
  return answer(c, {
    title: crossingsRooms[room].title,
    figures,
    page: () => (
      <CrossingsPage
        room={room}
        figures={figures}
        gates={latestGates(books)}
        formId={newFormId()}
        kind={kind ?? ''}
        kinds={kindOptions}
        pager={{ says: `${shown.length} crossings`, earlier }}
        csv={`/crossings.csv${query ? `?${query}` : ''}`}
      />
    ),
    tables: { crossings: () => historyTable(figures), leak: () => leakTable(figures) },
  })
}

const latestGates = (books: Books) => {
  const sides = listSides(books, { withArchived: true })
  return listCrossings(books, { limit: 8 })
    .filter((crossing) => crossing.reversesId === null)
    .slice(0, 5)
    .map((crossing) => gateFigures(crossing, sides))
}

export const kindOptions: readonly Option[] = crossingKinds.map((kind) => ({
  value: kind,
  label: crossingKindNames[kind],
}))

const crossingKey = (text: string | undefined) => {
  const match = /^([\d-]{10})\.(.{1,120})$/.exec(text ?? '')
  const day = match && parseDay(match[1]!)
  return match && day ? { day, id: match[2]! } : null
}

const historyTable = (figures: CrossingsFigures): CsvTable =>
  tableOf(figures.history, {
    day: (row) => row.day,
    kind: (row) => row.kindName,
    'from side': (row) => row.from.name,
    'from account': (row) => row.from.account,
    'to side': (row) => row.to.name,
    'to account': (row) => row.to.account,
    amount: (row) => centsToDecimalText(row.amountCents),
    note: (row) => row.memo,
    standing: (row) => (row.isTakenBack ? 'reversed' : row.takesBack ? 'reverses one' : ''),
  })

const leakTable = (figures: CrossingsFigures): CsvTable =>
  tableOf(figures.leak, {
    month: (one) => monthText(one.month),
    contributions: (one) => centsToDecimalText(one.contributionCents),
    draws: (one) => centsToDecimalText(one.drawCents),
    reimbursements: (one) => centsToDecimalText(one.reimbursementCents),
    change: (one) => centsToDecimalText(one.leakCents),
    'house money in the farm': (one) => centsToDecimalText(one.runningCents),
  })

const ends = {
  formId: formIdField(),
  day: bookedDay(),
  fromAccount: rowId('Choose the account it leaves'),
  toAccount: rowId('Choose the account it reaches'),
}

const plainForm = z.object({ ...ends, amount: moneyAboveZero(), memo: optionalText(500) })

const goodsForm = z.object({
  ...ends,
  quantity: quantity(),
  unit: optionalText(40),
  unitPrice: moneyAboveZero(),
  memo: requiredText('Say what it was, like “eggs”', 500),
})

type DraftFromForm = Parameters<typeof postCrossing>[2] & { formId: string }

function crossingFromForm(kind: CrossingKind, typed: TypedForm): Checked<DraftFromForm> {
  if (kind !== 'goods_used_at_home') {
    const checked = checkForm(plainForm, typed)
    if (!checked.ok) return checked
    return { ok: true, value: draftOf(kind, checked.value, checked.value.amount) }
  }
  const checked = checkForm(goodsForm, typed)
  if (!checked.ok) return checked
  const { quantity: used, unit, unitPrice } = checked.value
  if (!(used > 0 && used < 1_000_000)) {
    return { ok: false, errors: { quantity: 'Enter how much was used, like 12 or 1.5' } }
  }
  const goods = { quantity: used, unit, unitPriceCents: unitPrice }
  return { ok: true, value: { ...draftOf(kind, checked.value, goodsValue(goods)), goods } }
}

const draftOf = (
  kind: CrossingKind,
  value: Omit<z.output<typeof plainForm>, 'amount'>,
  amountCents: Cents,
): DraftFromForm => ({
  formId: value.formId,
  kind,
  day: value.day,
  amountCents,
  fromAccountId: value.fromAccount,
  toAccountId: value.toAccount,
  memo: value.memo,
})

function showForm(c: PageContext, kind: CrossingKind, typed: TypedForm, errors: FormErrors) {
  const { from, to } = endOptions(c.var.web.books, kind)
  return answer(c, {
    title: crossingKindNames[kind],
    status: statusOf(errors),
    page: () => (
      <CrossingForm
        kind={kind}
        typed={withLikelyEnds(typed, from, to)}
        errors={errors}
        fromOptions={from}
        toOptions={to}
      />
    ),
  })
}

/** The accounts each end may be, so that a wrong direction can hardly be chosen. */
export function endOptions(books: Books, kind: CrossingKind): { from: Option[]; to: Option[] } {
  const accounts = listAccounts(books)
  const sides = listSides(books)
  const isHome = (account: Account) => account.sideId === householdSide
  const money = moneyAccounts(accounts)
  const options = (some: readonly Account[]) => optionsBySide(some, sides)
  switch (kind) {
    case 'draw':
    case 'reimbursement':
      return { from: options(money.filter((one) => !isHome(one))), to: options(money.filter(isHome)) }
    case 'contribution':
      return { from: options(money.filter(isHome)), to: options(money.filter((one) => !isHome(one))) }
    case 'loan':
    case 'repayment':
      return { from: options(money), to: options(money) }
    case 'goods_used_at_home':
      return {
        from: options(accounts.filter((one) => one.systemRole === 'goods_value')),
        to: options(goodsUses(accounts)),
      }
  }
}

/** Food from the farm first, then the household's other living costs. */
const goodsUses = (accounts: readonly Account[]): Account[] => {
  const costs = accounts.filter((one) => one.sideId === householdSide && one.kind === 'expense')
  const usual = costs.filter((one) => one.systemRole === 'goods_cost')
  return [...usual, ...costs.filter((one) => one.systemRole === null && one.purpose === 'living')]
}

/** The first account of each end stands chosen until another is, on two sides: most households have one of each. */
export const withLikelyEnds = (
  typed: TypedForm,
  from: readonly Option[],
  to: readonly Option[],
): { value(name: string): string } => ({
  value: (name) => {
    const value = typed.value(name)
    if (value !== '' || typed.nested.fromAccount !== undefined) return value
    if (name === 'fromAccount') return from[0]?.value ?? ''
    return name === 'toAccount' ? (to.find(({ group }) => group !== from[0]?.group)?.value ?? '') : ''
  },
})
