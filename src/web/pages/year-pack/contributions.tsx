// For which year what went into retirement and health savings counts: proposed from its day and its words, said where two readings fit.
import { Hono } from 'hono'
import { z } from 'zod'
import { saySavings } from '#db/tax/saving-moves.ts'
import { type SavingMove, savingReadingsOf } from '#ledger/tax/saving-move.ts'
import { savingUses } from '#ledger/tax/tax-use.ts'
import { currentPlan } from '#today/current-plan.ts'
import { movesOfSavings, savedFor, savedSums } from '#today/tax/saved-for.ts'
import { ContributionsPage, type SavingRow } from '#views/tax-paid/contributions.tsx'
import { answer, type PageContext } from '#web/forms/answer.tsx'
import { yearAskedFor } from '#web/forms/asked/year-asked.ts'
import { tableOf } from '#web/forms/csv.ts'
import { choice, formIdField, wholeNumber } from '#web/forms/fields.ts'
import { checkForm, type FormErrors, newFormId, statusOf, type TypedForm } from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { posted } from '#web/forms/posted.ts'
import type { PageEnv } from '#web/server/context.ts'
import { flatMoves, keepMoves, movesForm, rowsOfYear, saidOfMoves } from './said-moves.ts'

export const contributionPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/year-pack/contributions', (c) => show(c, formOf(rowsOf(c)), {}))
      .post('/year-pack/contributions', save),
}

const contributionsForm = z.object({
  formId: formIdField(),
  s: z
    .record(
      z.string().regex(/^m\d{1,12}$/),
      z.object({ use: choice(savingUses, 'Choose what it was'), year: wholeNumber(1000, 9999) }),
    )
    .default({}),
})

/** What a plan at work took off pay is of the pay's own year. */
const isOpenToSay = ({ isKeptFromPay, savingsKind }: SavingMove): boolean =>
  !isKeptFromPay || savingsKind === 'health'

const rowsOf = (c: PageContext): SavingRow[] =>
  rowsOfYear(
    movesOfSavings(c.var.web.books)
      .filter(isOpenToSay)
      .map((move) => ({ move, readings: savingReadingsOf(move) })),
    yearAskedFor(c),
  )

const formOf = (rows: readonly SavingRow[]): TypedForm => movesForm('s', rows)

const save = (c: PageContext) =>
  posted(c, {
    check: (typed) => checkForm(contributionsForm, typed),
    again: (typed, errors) => show(c, typed, errors),
    keep: ({ formId, s }, typed) =>
      keepMoves(c, typed, {
        formId,
        at: '/year-pack/contributions',
        what: 'what contributions count as',
        says: 'Saved: the contributions count for the years you chose.',
        now: formOf(rowsOf(c)),
        say: (act) =>
          saySavings(
            c.var.web.books,
            act,
            saidOfMoves(s, ({ use, year }) => ({ use, taxYear: year })),
          ),
      }),
  })

const show = (c: PageContext, typed: TypedForm, errors: FormErrors) => {
  const { books } = c.var.web
  const year = yearAskedFor(c)
  const rows = rowsOf(c)
  const current = currentPlan(books)
  const sums = savedSums(savedFor(books, current.status === 'read' ? current.plan : null, year))
  const flat = flatMoves(rows)
  return answer(c, {
    title: `Contributions for ${year}`,
    status: statusOf(errors),
    figures: { year, sums, contributions: flat },
    page: () => (
      <ContributionsPage year={year} rows={rows} sums={sums} form={{ typed, errors }} formId={newFormId()} />
    ),
    tables: {
      contributions: () =>
        tableOf(flat, {
          day: (one) => one.day,
          payee: (one) => one.payee,
          account: (one) => one.account,
          amount: (one) => (one.amountCents / 100).toFixed(2),
          use: (one) => one.use,
          'for year': (one) => String(one.taxYear),
          undecided: (one) => (one.undecided ? 'yes' : ''),
        }),
    },
  })
}
