// For which year what went into retirement and health savings counts: proposed from its day and its words, said where two readings fit.
import { Hono } from 'hono'
import { z } from 'zod'
import { yearIn } from '#calendar/month.ts'
import { saySavings } from '#db/tax/saving-moves.ts'
import { savingReadingsOf } from '#ledger/tax/saving-move.ts'
import { savingUses } from '#ledger/tax/tax-use.ts'
import { currentPlan } from '#today/current-plan.ts'
import { movesOfSavings, savedFor } from '#today/tax/saved-for.ts'
import { ContributionsPage, type SavingRow } from '#views/tax-paid/contributions.tsx'
import { actOf } from '#web/forms/act.ts'
import { answer, moveOn, type PageContext } from '#web/forms/answer.tsx'
import { tableOf } from '#web/forms/csv.ts'
import { choice, formIdField, wholeNumber } from '#web/forms/fields.ts'
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
import { isOutdated, showOverTheirs, versionOf } from '#web/forms/two-versions.tsx'
import type { PageEnv } from '#web/server/context.ts'
import { overClosedYears } from './closed-years.ts'
import { yearAskedFor } from './year-asked.ts'

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

/** What went in during the year, was for it, or may have been. */
const rowsOf = (c: PageContext): SavingRow[] => {
  const year = yearAskedFor(c)
  return movesOfSavings(c.var.web.books)
    .map((move) => ({ move, readings: savingReadingsOf(move) }))
    .filter(
      ({ move, readings }) => yearIn(move.day) === year || readings.some(({ taxYear }) => taxYear === year),
    )
}

const textOf = (rows: readonly SavingRow[]): Record<string, string> =>
  Object.fromEntries(
    rows.flatMap(({ move, readings: [reading] }) => [
      [`s.m${move.postingId}.use`, reading.use],
      [`s.m${move.postingId}.year`, String(reading.taxYear)],
    ]),
  )

const formOf = (rows: readonly SavingRow[]): TypedForm => {
  const shown = textOf(rows)
  return openingForm({ ...shown, basedOn: versionOf(shown) })
}

const save = (c: PageContext) =>
  posted(c, {
    check: (typed) => checkForm(contributionsForm, typed),
    again: (typed, errors) => show(c, typed, errors),
    keep({ formId, s }, typed) {
      const there = `/year-pack/contributions?year=${yearAskedFor(c)}`
      const kept = () => moveOn(c, there, 'Kept: the contributions count as said.')
      const now = formOf(rowsOf(c))
      if (isOutdated(c, typed, now))
        return showOverTheirs(c, {
          what: 'what contributions count as',
          typed,
          now,
          subject: 'household',
          theirs: there,
          alike: kept,
        })
      const said = Object.entries(s).map(([key, { use, year }]) => ({
        postingId: Number(key.slice(1)),
        reading: { use, taxYear: year },
      }))
      const act = actOf(c, formId)
      const saved = overClosedYears(c, typed, act, () => saySavings(c.var.web.books, act, said))
      return saved.ok ? kept() : saved
    },
  })

const show = (c: PageContext, typed: TypedForm, errors: FormErrors) => {
  const { books } = c.var.web
  const year = yearAskedFor(c)
  const rows = rowsOf(c)
  const current = currentPlan(books)
  const sums = savedFor(books, current.status === 'read' ? current.plan : null, year)
  const flat = rows.map(({ move, readings: [reading, ...others] }) => ({
    ...move,
    ...reading,
    undecided: others.length > 0,
  }))
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
