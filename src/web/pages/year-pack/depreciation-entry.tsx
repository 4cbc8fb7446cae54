// Books what the depreciation schedule says beyond the books, on the last day of the year, and takes what was sold out of them.
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
import { statedDepreciation } from '#today/year-pack/depreciation-stated.ts'
import type { StatedDepreciation } from '#today/year-pack/figures.ts'
import { packGround } from '#today/year-pack/pack-ground.ts'
import { type Standing, salesAccountOf, takenOutWith } from '#today/year-pack/standing-sales.ts'
import { DepreciationEntryPage } from '#views/year-pack/depreciation-entry.tsx'
import { actOf } from '#web/forms/act.ts'
import { answer, moveOn, notFound, type PageContext } from '#web/forms/answer.tsx'
import { yearAskedFor } from '#web/forms/asked/year-asked.ts'
import { checkbox, formIdField, rowId } from '#web/forms/fields.ts'
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
  /** What was sold and still stands, as the page showed it. */
  sold: z
    .string()
    .regex(/^(\d{1,12} -?\d{1,13};?)*$/, { error: 'Open the page again' })
    .default(''),
  takeOut: checkbox(),
  cost: rowId('Choose the account of the cost'),
  asset: rowId('Choose the account that is written off'),
})

interface Open {
  books: BookYear
  stated: StatedDepreciation
  differenceCents: Cents
  /** Sold in the year and still in the books: taken out by the same entry, all that the schedule has written off with it. */
  sold: readonly Standing[]
  costs: AccountYear[]
  assets: AccountYear[]
}

/** What is to be booked of a side's year; null where form and books agree, or nothing is written off. */
const openOf = (c: PageContext): Open | null => {
  const ground = packGround(c.var.web.books, yearAskedFor(c))
  const side = ground.sides.find(({ sideId }) => sideId === c.req.query('side'))
  const stated = side ? statedDepreciation(ground, side.sideId) : null
  if (!side || stated === null || stated.differenceCents === 0) return null
  const { differenceCents } = stated
  const accounts = side.accounts.filter(({ account }) => account.archivedAt === null)
  return {
    books: side,
    stated,
    differenceCents,
    sold: takenOutWith(ground, side, differenceCents),
    costs: accounts.filter(({ account }) => lineRole(account) === 'depreciation'),
    // The account that gathers depreciation goes first; one of earlier books is known by a balance below zero.
    assets: accounts
      .filter(({ account }) => account.contraKind === 'depreciation' || isLasting(account))
      .sort((a, b) => gathers(b) - gathers(a)),
  }
}

const gathers = (row: AccountYear): number =>
  row.account.contraKind === 'depreciation' ? 2 : Number(closingOf(row) < 0)

/** As the form carries it: what is sold or written off otherwise meanwhile is not booked unseen, and the same form books the same. */
const soldText = (open: Open): string =>
  linesOf(open)
    .map(({ accountId, amountCents }) => `${accountId} ${amountCents}`)
    .join(';')

const linesIn = (text: string) =>
  text.split(';').map((line) => {
    const [accountId, amount] = line.split(' ').map(Number)
    return { accountId: accountId!, amountCents: cents(amount!) }
  })

/** Debits positive: the cost leaves its account, with it what was written off, and the rest lowers what the sale brought. */
const linesOf = ({ books, sold }: Open) =>
  sold.flatMap(({ row, contra, costCents, deductedCents }) =>
    [
      { accountId: contra!.account.id, amountCents: deductedCents },
      { accountId: salesAccountOf(books)!.account.id, amountCents: cents(costCents - deductedCents) },
      { accountId: row.account.id, amountCents: negateCents(costCents) },
    ].filter(({ amountCents }) => amountCents !== 0),
  )

const save = (c: PageContext) =>
  posted(c, {
    check: (typed) => checkForm(entryForm, typed),
    again: (typed, errors) => show(c, typed, errors),
    keep({ formId, difference, cost, asset, sold, takeOut }) {
      const { books } = c.var.web
      const year = yearAskedFor(c)
      const amountCents = cents(Number(difference))
      const open = openOf(c)
      const isOther = open !== null && (open.differenceCents !== amountCents || soldText(open) !== sold)
      if (isOther) return refuse({ path: '', message: 'The difference is another one now. Check it again' })
      const contra = open?.sold[0]?.contra
      if (takeOut && contra && contra.account.id !== asset)
        return refuse({
          path: 'asset',
          message: `What was sold is written off on “${contra.account.name}”: choose it, or leave the sales in the books for now`,
        })
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
          ...(takeOut && sold !== '' ? linesIn(sold) : []),
        ],
      }
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
  const { books, differenceCents, costs, assets, sold, stated } = open
  const options = (rows: readonly AccountYear[]) =>
    rows.map(({ account }) => ({ value: String(account.id), label: account.name }))
  const form =
    typed ??
    openingForm({
      formId: newFormId(),
      difference: String(differenceCents),
      sold: soldText(open),
      takeOut: sold.length > 0 ? 'yes' : '',
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
        stated={stated}
        sold={sold.map(({ sale, costCents, deductedCents }) => ({
          name: sale.name,
          soldDay: sale.soldDay!,
          costCents,
          deductedCents,
        }))}
        form={{ typed: form, errors }}
        costs={options(costs)}
        assets={options(assets)}
      />
    ),
  })
}
