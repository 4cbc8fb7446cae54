// People and payees of a year: who each payee is, payroll accounts, and what the papers say that came.
import { Hono } from 'hono'
import { z } from 'zod'
import { listPayees, type PayeeWord, sayPayees } from '#db/tax/payees.ts'
import { addPayrollAccounts } from '#db/tax/payroll-accounts.ts'
import { refuse } from '#ledger/problem.ts'
import { payeeKinds } from '#ledger/tax/payee-kind.ts'
import { centsToDecimalText } from '#money/format.ts'
import { currentPlan } from '#today/current-plan.ts'
import { papersSetting, savePapers } from '#today/year-pack/papers-received.ts'
import { type PeopleFigures, peopleFigures } from '#today/year-pack/people-figures.ts'
import type { InputForm } from '#views/year-pack/inputs-shape.ts'
import { PeoplePage } from '#views/year-pack/people.tsx'
import { actOf } from '#web/forms/act.ts'
import { answer, moveOn, type PageContext } from '#web/forms/answer.tsx'
import { yearAskedFor } from '#web/forms/asked/year-asked.ts'
import {
  checkbox,
  formIdField,
  moneyOrNull,
  optionalText,
  requiredText,
  wholeNumber,
} from '#web/forms/fields.ts'
import { checkForm, newFormId, openingForm, type TypedForm } from '#web/forms/form.ts'
import { asksOverClosed, overClosedYears, settingOverClosed } from '#web/forms/pack/closed-years.ts'
import { peopleTables } from '#web/forms/pack/people-tables.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { posted } from '#web/forms/posted.ts'
import { isOutdated, showOverTheirs, versionOf } from '#web/forms/two-versions.tsx'
import type { PageEnv } from '#web/server/context.ts'

export const peoplePages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/year-pack/people', (c) => show(c, {}))
      .post('/year-pack/people', savePayees)
      .post('/year-pack/people/papers', keepPapers)
      .post('/year-pack/people/accounts', makeAccounts),
}

const payeeRow = z.object({
  name: requiredText('Open the page again', 200),
  kind: z
    .union([z.literal(''), z.enum(payeeKinds)], { error: 'Choose who it is' })
    .default('')
    .transform((kind) => (kind === '' ? null : kind)),
  sameAs: optionalText(200),
  formOnFile: checkbox(),
})

const payeesForm = z.object({
  formId: formIdField(),
  payees: z.array(payeeRow).max(2000).default([]),
  apart: z
    .array(z.string())
    .or(z.string().transform((one) => [one]))
    .default([]),
})

const papersForm = z.object({
  basedOn: wholeNumber(0, 1_000_000_000),
  paper: z.record(z.string().regex(/^a\d{1,12}$/), moneyOrNull()).default({}),
})

const figuresOf = (c: PageContext): PeopleFigures => {
  const { books } = c.var.web
  return peopleFigures(books, yearAskedFor(c), currentPlan(books))
}

const payeesText = (figures: PeopleFigures): Record<string, string> =>
  Object.fromEntries(
    figures.payees.flatMap(({ name, kind, formOnFile }, i) => [
      [`payees.${i}.name`, name],
      [`payees.${i}.kind`, kind ?? ''],
      [`payees.${i}.sameAs`, ''],
      [`payees.${i}.formOnFile`, formOnFile ? 'yes' : ''],
    ]),
  )

const payeesOpening = (figures: PeopleFigures): TypedForm => {
  const shown = payeesText(figures)
  return openingForm({ ...shown, basedOn: versionOf(shown) })
}

const papersOpening = ({ papers, papersRevision }: PeopleFigures): TypedForm =>
  openingForm({
    basedOn: String(papersRevision),
    ...Object.fromEntries(
      papers.map(({ key, paperCents }) => [
        `paper.${key}`,
        paperCents === null ? '' : centsToDecimalText(paperCents),
      ]),
    ),
  })

const there = (c: PageContext): string => `/year-pack/people?year=${yearAskedFor(c)}`

const savePayees = (c: PageContext) =>
  posted(c, {
    check: (typed) => checkForm(payeesForm, typed),
    again: (typed, errors) => show(c, { payees: { typed, errors } }, 422),
    keep({ formId, payees, apart }, typed) {
      const { books } = c.var.web
      const figures = figuresOf(c)
      const kept = () => moveOn(c, there(c), 'Saved: the payees are as you entered them.')
      const now = payeesOpening(figures)
      if (isOutdated(c, typed, now))
        return showOverTheirs(c, {
          what: 'who payees are',
          typed,
          now,
          subject: 'payees',
          theirs: there(c),
          alike: kept,
        })
      const known = new Map(listPayees(books).map((one) => [one.name, one]))
      const shown = new Set(figures.payees.flatMap(({ name, spellings }) => [name, ...spellings]))
      if (
        payees.some(
          ({ name, sameAs }) =>
            !shown.has(name) || (sameAs !== '' && (!shown.has(sameAs) || sameAs === name)),
        )
      )
        return refuse({
          path: '',
          message: 'One of these payees is no longer on the list. Open the page again',
        })
      const chained = payees.findIndex(
        ({ sameAs }) => sameAs !== '' && payees.some((other) => other.name === sameAs && other.sameAs !== ''),
      )
      if (chained >= 0)
        return refuse({
          path: `payees.${chained}.sameAs`,
          message: 'That one counts with another itself. Choose the name that stands for all of them',
        })
      const wrong = notWorkers(payees, figures)
      if (wrong) return wrong
      const words = payees.map(
        ({ name, kind, sameAs, formOnFile }): PayeeWord => ({
          name,
          kind: kind ?? (sameAs === '' ? null : (kindOf(payees, sameAs) ?? 'contractor')),
          sameAs: sameAs === '' ? null : sameAs,
          formOnFile,
        }),
      )
      const freed = apart
        .filter((name) => known.get(name)?.sameAs)
        .map((name): PayeeWord => ({ name, kind: null, sameAs: null, formOnFile: false }))
      const act = actOf(c, formId)
      const saved = overClosedYears(c, typed, act, () => sayPayees(books, act, [...words, ...freed]))
      return saved.ok ? kept() : saved
    },
  })

/** Whose pay tax was kept back from is no contractor, whatever is said. */
const notWorkers = (payees: z.output<typeof payeesForm>['payees'], { onPayroll }: PeopleFigures) => {
  const at = payees.findIndex(
    ({ name, kind }) => (kind === 'contractor' || kind === 'company') && onPayroll.includes(name),
  )
  return at < 0
    ? null
    : refuse({
        path: `payees.${at}.kind`,
        message: `Tax was kept back from the pay of ${payees[at]!.name}: that is a worker, with Form W-2 and not 1099. If it was booked so by mistake, reverse that pay first`,
      })
}

const kindOf = (payees: z.output<typeof payeesForm>['payees'], name: string) =>
  payees.find((one) => one.name === name)?.kind ?? null

const keepPapers = (c: PageContext) =>
  posted(c, {
    check: (typed) => checkForm(papersForm, typed),
    again: (typed, errors) => show(c, { papers: { typed, errors } }, 422),
    keep({ basedOn, paper }, typed) {
      const amounts = Object.fromEntries(
        Object.entries(paper).flatMap(([key, amount]) => (amount === null ? [] : [[key, amount]])),
      )
      const kept = () => moveOn(c, `${there(c)}#papers`, 'Kept: what the papers say.')
      const act = actOf(c, newFormId())
      const saved = settingOverClosed(c, typed, act, () =>
        savePapers(c.var.web.books, act, yearAskedFor(c), amounts, basedOn),
      )
      if (asksOverClosed(saved)) return saved
      return saved.ok
        ? kept()
        : showOverTheirs(c, {
            what: `what the papers of ${yearAskedFor(c)} say`,
            typed,
            now: papersOpening(figuresOf(c)),
            subject: papersSetting,
            theirs: there(c),
            alike: kept,
          })
    },
  })

const makeAccounts = (c: PageContext) =>
  posted(c, {
    check: (typed) => checkForm(z.object({ formId: formIdField() }), typed),
    again: (_typed, errors) => show(c, { accounts: errors }, 422),
    keep({ formId }) {
      const made = addPayrollAccounts(c.var.web.books, actOf(c, formId))
      return made.ok ? moveOn(c, `${there(c)}#payroll`, 'The accounts for payroll are there.') : made
    },
  })

interface Typed {
  payees?: InputForm
  papers?: InputForm
  accounts?: InputForm['errors']
}

const show = (c: PageContext, typed: Typed, status: 200 | 422 = 200) => {
  const figures = figuresOf(c)
  return answer(c, {
    title: `People and payees of ${figures.year}`,
    status,
    figures,
    page: () => (
      <PeoplePage
        figures={figures}
        payees={typed.payees ?? { typed: payeesOpening(figures), errors: {} }}
        papers={typed.papers ?? { typed: papersOpening(figures), errors: {} }}
        accountErrors={typed.accounts ?? {}}
        formIds={{ payees: newFormId(), accounts: newFormId() }}
        csv={(table) => `/year-pack/people.csv?year=${figures.year}&table=${table}`}
      />
    ),
    tables: peopleTables(figures),
  })
}
