// What Schedule C asks of a venture and the books do not know: said once a year, what is no amount holds on.
import { Hono } from 'hono'
import { z } from 'zod'
import { yearIn } from '#calendar/month.ts'
import { type FieldProblem, refuse } from '#ledger/problem.ts'
import type { VentureSaid } from '#ledger/tax/form-said.ts'
import { currentPlan } from '#today/current-plan.ts'
import { booksYear } from '#today/tax/books-year.ts'
import { saidSetting, saveSaidOf, ventureSaid } from '#today/tax/said-of-year.ts'
import { VentureFormPage } from '#views/year-pack/venture-form.tsx'
import { actOf } from '#web/forms/act.ts'
import { answer, moveOn, notFound, type PageContext } from '#web/forms/answer.tsx'
import { yearAskedFor } from '#web/forms/asked/year-asked.ts'
import { optionalText } from '#web/forms/fields.ts'
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
import { businessFields, businessOf, businessProblems, businessText, wordOf, yesNo } from './business-form.ts'

export const ventureFormPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/year-pack/schedule-c/:side', (c) => show(c, null, {}))
      .post('/year-pack/schedule-c/:side', save),
}

const ventureForm = z.object({ ...businessFields, person: optionalText(60), began: yesNo() })

const saidOf = (read: z.output<typeof ventureForm>): VentureSaid => ({
  ...businessOf(read),
  person: read.person === '' ? null : read.person,
  began: read.began,
})

/** Line H and the day on which it began are one thing. */
const beganProblems = ({ began, beganOn }: z.output<typeof ventureForm>, year: number): FieldProblem[] => {
  if (began === null || beganOn === null || (began === 'yes') === (yearIn(beganOn) === year)) return []
  return [
    {
      path: 'began',
      message: `By the day below it began in ${yearIn(beganOn)}: change one of the two, or leave this to the day`,
    },
  ]
}

const formOf = (c: PageContext, sideId: string, year: number): TypedForm => {
  const { said, revision } = ventureSaid(c.var.web.books, sideId, year)
  return openingForm({
    ...businessText(said),
    person: said.person ?? '',
    began: wordOf(said.began),
    basedOn: String(revision),
  })
}

const ventureOf = (c: PageContext, year: number) =>
  booksYear(c.var.web.books, year).ventures.find(({ books }) => books.sideId === c.req.param('side'))

const noSuchVenture = 'There are no books of such a venture in this year.'

const save = (c: PageContext) =>
  posted(c, {
    check: (typed) => checkForm(ventureForm, typed),
    again: (typed, errors) => show(c, typed, errors),
    keep(read, typed) {
      const { books } = c.var.web
      const year = yearAskedFor(c)
      const venture = ventureOf(c, year)
      if (!venture) return refuse({ path: '', message: noSuchVenture })
      const problems = [...businessProblems(read, 'the business'), ...beganProblems(read, year)]
      if (problems.length > 0) return refuse(...problems)
      const { sideId, name } = venture.books
      const kept = () =>
        moveOn(c, `/year-pack/sheets/${sideId}-schedule-c?year=${year}`, 'Kept for Schedule C.')
      const act = actOf(c, newFormId())
      const saved = settingOverClosed(c, typed, act, () =>
        saveSaidOf(books, act, sideId, year, saidOf(read), read.basedOn),
      )
      if (asksOverClosed(saved)) return saved
      return saved.ok
        ? kept()
        : showOverTheirs(c, {
            what: `the entries for Schedule C of ${name}, ${year}`,
            typed,
            now: formOf(c, sideId, year),
            subject: saidSetting(sideId),
            theirs: `/year-pack/schedule-c/${sideId}?year=${year}`,
            alike: kept,
          })
    },
  })

const show = (c: PageContext, typed: TypedForm | null, errors: FormErrors) => {
  const { books } = c.var.web
  const year = yearAskedFor(c)
  const venture = ventureOf(c, year)
  if (!venture) return notFound(c, noSuchVenture)
  const { sideId, name } = venture.books
  const current = currentPlan(books)
  const { said, isOwn } = ventureSaid(books, sideId, year)
  return answer(c, {
    title: `Schedule C of ${name}, ${year}`,
    status: statusOf(errors),
    figures: { year, side: sideId, said, saidThisYear: isOwn },
    page: () => (
      <VentureFormPage
        year={year}
        side={{ id: sideId, name }}
        form={{ typed: typed ?? formOf(c, sideId, year), errors }}
        people={current.status === 'read' ? current.plan.household.people : []}
        isOwn={isOwn}
        netProfitCents={venture.form.netProfitCents}
      />
    ),
  })
}
