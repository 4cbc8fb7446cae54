// Books what the depreciation schedule says beyond the books, on the last day of the year, so that statements and form agree.
import { Hono } from 'hono'
import { z } from 'zod'
import { day, lastDayOfYear } from '#calendar/day.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { isLasting } from '#ledger/account.ts'
import { refuse } from '#ledger/problem.ts'
import { type AccountYear, type BookYear, closingOf } from '#ledger/reports/book-year.ts'
import { lineRole } from '#ledger/schedule-lines.ts'
import { type Cents, cents, negateCents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { booksYear } from '#today/tax/books-year.ts'
import { DepreciationEntryPage } from '#views/year-pack/depreciation-entry.tsx'
import { actOf } from '#web/forms/act.ts'
import { answer, moveOn, notFound, type PageContext } from '#web/forms/answer.tsx'
import { formIdField, rowId } from '#web/forms/fields.ts'
import {
  checkForm,
  type FormErrors,
  newFormId,
  openingForm,
  statusOf,
  type TypedForm,
} from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { posted } from '#web/forms/posted.ts'
import type { PageEnv } from '#web/server/context.ts'
import { undoable } from '#web/server/undo.ts'
import { yearAskedFor } from './year-asked.ts'

export const depreciationEntryPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/year-pack/depreciation', (c) => show(c, null, {}))
      .post('/year-pack/depreciation', save),
}

const entryForm = z.object({
  formId: formIdField(),
  /** As the page showed it: what changed meanwhile is not booked unseen. */
  difference: z.string().regex(/^-?\d{1,13}$/, { error: 'Open the page again' }),
  cost: rowId('Choose the account of the cost'),
  asset: rowId('Choose the account that is written off'),
})

interface Open {
  books: BookYear
  differenceCents: Cents
  costs: AccountYear[]
  assets: AccountYear[]
}

/** What is to be booked of a side's year; null where form and books agree, or nothing is written off. */
const openOf = (c: PageContext): Open | null => {
  const { farm, ventures } = booksYear(c.var.web.books, yearAskedFor(c))
  const side = c.req.query('side') ?? ''
  const found = [...(farm ? [farm] : []), ...ventures].find(({ books }) => books.sideId === side)
  if (!found) return null
  const { bookedCents, scheduleCents } = found.form.depreciation
  if (scheduleCents === null || scheduleCents === bookedCents) return null
  const accounts = found.books.accounts.filter(({ account }) => account.archivedAt === null)
  return {
    books: found.books,
    differenceCents: cents(scheduleCents - bookedCents),
    costs: accounts.filter(({ account }) => lineRole(account) === 'depreciation'),
    // The account that gathers depreciation goes first; one of earlier books is known by a balance below zero.
    assets: accounts
      .filter(({ account }) => account.contraKind === 'depreciation' || isLasting(account))
      .sort((a, b) => gathers(b) - gathers(a)),
  }
}

const gathers = (row: AccountYear): number =>
  row.account.contraKind === 'depreciation' ? 2 : Number(closingOf(row) < 0)

const save = (c: PageContext) =>
  posted(c, {
    check: (typed) => checkForm(entryForm, typed),
    again: (typed, errors) => show(c, typed, errors),
    keep({ formId, difference, cost, asset }) {
      const { books } = c.var.web
      const year = yearAskedFor(c)
      const amountCents = cents(Number(difference))
      const draft = {
        id: formId,
        sideId: c.req.query('side') ?? '',
        day: day(lastDayOfYear(year)),
        payee: '',
        memo: `Depreciation of ${year} by the schedule`,
        source: 'form' as const,
        lines: [
          { accountId: cost, amountCents },
          { accountId: asset, amountCents: negateCents(amountCents) },
        ],
      }
      const open = openOf(c)
      const isFirst = open !== null && open.differenceCents !== amountCents
      if (isFirst) return refuse({ path: '', message: 'The difference is another one now. Check it again' })
      const booked = postEntry(books, actOf(c, formId), draft)
      return booked.ok
        ? moveOn(
            c,
            `/year-pack?year=${year}`,
            undoable(c, `${formatCents(amountCents)} of depreciation is booked: statements and form agree.`),
          )
        : booked
    },
  })

const show = (c: PageContext, typed: TypedForm | null, errors: FormErrors) => {
  const year = yearAskedFor(c)
  const open = openOf(c)
  if (!open)
    return notFound(
      c,
      'Form and books agree on the depreciation of this year, or nothing is written off by a schedule.',
    )
  const { books, differenceCents, costs, assets } = open
  const options = (rows: readonly AccountYear[]) =>
    rows.map(({ account }) => ({ value: String(account.id), label: account.name }))
  const form =
    typed ??
    openingForm({
      formId: newFormId(),
      difference: String(differenceCents),
      cost: options(costs)[0]?.value ?? '',
      asset: options(assets)[0]?.value ?? '',
    })
  return answer(c, {
    title: `Depreciation of ${year}`,
    status: statusOf(errors),
    figures: { year, side: books.sideId, differenceCents },
    page: () => (
      <DepreciationEntryPage
        year={year}
        side={{ id: books.sideId, name: books.name }}
        differenceCents={differenceCents}
        form={{ typed: form, errors }}
        costs={options(costs)}
        assets={options(assets)}
      />
    ),
  })
}
