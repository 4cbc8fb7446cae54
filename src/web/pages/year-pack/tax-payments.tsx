// For which year and as what each payment of tax counts: proposed from its day, its entry and its words, said where two readings fit.
import { Hono } from 'hono'
import { z } from 'zod'
import { sayTaxOf } from '#db/tax/tax-moves.ts'
import type { ReadMove } from '#ledger/tax/tax-payment.ts'
import { incomeTaxOffices, paymentUses } from '#ledger/tax/tax-use.ts'
import { centsToDecimalText } from '#money/format.ts'
import { stateCodes } from '#rules/places/state-names.ts'
import { currentPlan } from '#today/current-plan.ts'
import { movesOfTax } from '#today/tax/paid-for.ts'
import { likelierReadings } from '#today/tax/payment-readings.ts'
import { appliedSetting, refundApplied, saveRefundApplied } from '#today/tax/refund-applied.ts'
import { type ReturnKind, returnKinds } from '#today/tax/return-kinds.ts'
import { taxPayments } from '#today/tax/tax-payments.ts'
import { TaxPaymentsPage } from '#views/tax-paid/tax-payments.tsx'
import type { InputForm } from '#views/year-pack/inputs-shape.ts'
import { actOf } from '#web/forms/act.ts'
import { answer, moveOn, type PageContext } from '#web/forms/answer.tsx'
import { yearAskedFor } from '#web/forms/asked/year-asked.ts'
import { tableOf } from '#web/forms/csv.ts'
import { choice, formIdField, moneyZeroOrMore, wholeNumber } from '#web/forms/fields.ts'
import {
  checkForm,
  type FormErrors,
  newFormId,
  openingForm,
  statusOf,
  type TypedForm,
} from '#web/forms/form.ts'
import { asksOverClosed, settingOverClosed } from '#web/forms/pack/closed-years.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { posted } from '#web/forms/posted.ts'
import { showOverTheirs } from '#web/forms/two-versions.tsx'
import type { PageEnv } from '#web/server/context.ts'
import { flatMoves, keepMoves, movesForm, rowsOfYear, saidOfMoves } from './said-moves.ts'

export const taxPaymentPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/year-pack/payments', (c) => show(c, formOf(rowsOf(c)), {}))
      .post('/year-pack/payments', save)
      .post('/year-pack/payments/applied', keepApplied),
}

const rowForm = z.object({
  use: choice(paymentUses, 'Choose what it was'),
  year: wholeNumber(1000, 9999),
  office: choice(incomeTaxOffices, 'Choose whose tax it is'),
  state: z.union([z.literal(''), z.enum(stateCodes)], {
    error: 'Two letters of a state, like PA, or nothing',
  }),
})

const paymentsForm = z.object({
  formId: formIdField(),
  p: z.record(z.string().regex(/^m\d{1,12}$/), rowForm).default({}),
})

const appliedForm = z.object({
  basedOn: wholeNumber(0, 1_000_000_000),
  federal: moneyZeroOrMore(),
  state: moneyZeroOrMore(),
  local: moneyZeroOrMore(),
})

const rowsOf = (c: PageContext): ReadMove[] => {
  const { books } = c.var.web
  const current = currentPlan(books)
  const plan = current.status === 'read' ? current.plan : null
  return rowsOfYear(movesOfTax(books), yearAskedFor(c)).map((read) => ({
    ...read,
    readings: likelierReadings(books, plan, read),
  }))
}

const formOf = (rows: readonly ReadMove[]): TypedForm =>
  movesForm('p', rows, ({ readings: [{ office, state }] }) => ({ office, state: state ?? '' }))

const save = (c: PageContext) =>
  posted(c, {
    check: (typed) => checkForm(paymentsForm, typed),
    again: (typed, errors) => show(c, typed, errors),
    keep: ({ formId, p }, typed) =>
      keepMoves(c, typed, {
        formId,
        at: '/year-pack/payments',
        what: 'what payments of tax count as',
        says: 'Saved: the payments count as you chose.',
        now: formOf(rowsOf(c)),
        say: (act) =>
          sayTaxOf(
            c.var.web.books,
            act,
            saidOfMoves(p, ({ use, year, office, state }) => ({
              use,
              office,
              state: state === '' ? null : state,
              taxYear: year,
            })),
          ),
      }),
  })

const appliedOpening = (c: PageContext): TypedForm => {
  const { applied, revision } = refundApplied(c.var.web.books, yearAskedFor(c))
  return openingForm({
    basedOn: String(revision),
    ...Object.fromEntries(
      returnKinds.map((to) => [to, applied[to] === 0 ? '' : centsToDecimalText(applied[to])]),
    ),
  })
}

const keepApplied = (c: PageContext) =>
  posted(c, {
    check: (typed) => checkForm(appliedForm, typed),
    again: (typed, errors) => show(c, formOf(rowsOf(c)), {}, { typed, errors }),
    keep({ basedOn, ...applied }, typed) {
      const year = yearAskedFor(c)
      const there = `/year-pack/payments?year=${year}`
      const kept = () => moveOn(c, there, `Kept: what was left for ${year + 1}.`)
      const act = actOf(c, newFormId())
      const saved = settingOverClosed(c, typed, act, () =>
        saveRefundApplied(c.var.web.books, act, year, applied, basedOn),
      )
      if (asksOverClosed(saved)) return saved
      return saved.ok
        ? kept()
        : showOverTheirs(c, {
            what: `what of the refund of ${year} was left for ${year + 1}`,
            typed,
            now: appliedOpening(c),
            subject: appliedSetting,
            theirs: there,
            alike: kept,
          })
    },
  })

const show = (
  c: PageContext,
  typed: TypedForm,
  errors: FormErrors,
  applied: InputForm = { typed: appliedOpening(c), errors: {} },
) => {
  const { books } = c.var.web
  const year = yearAskedFor(c)
  const rows = rowsOf(c)
  const current = currentPlan(books)
  const plan = current.status === 'read' ? current.plan : null
  const of = (to: ReturnKind) => taxPayments(books, plan, year, to)
  const sums = { federal: of('federal'), state: of('state'), local: of('local') }
  const flat = flatMoves(rows)
  return answer(c, {
    title: `Tax paid for ${year}`,
    status: statusOf({ ...errors, ...applied.errors }),
    figures: { year, sums, payments: flat },
    page: () => (
      <TaxPaymentsPage
        year={year}
        rows={rows}
        sums={sums}
        form={{ typed, errors }}
        applied={applied}
        formId={newFormId()}
      />
    ),
    tables: {
      payments: () =>
        tableOf(flat, {
          day: (one) => one.day,
          payee: (one) => one.payee,
          account: (one) => one.account,
          amount: (one) => (one.amountCents / 100).toFixed(2),
          use: (one) => one.use,
          office: (one) => one.office,
          state: (one) => one.state ?? '',
          'for year': (one) => String(one.taxYear),
          undecided: (one) => (one.undecided ? 'yes' : ''),
        }),
    },
  })
}
