// The plan against the books, and the runway history.
import { Hono } from 'hono'
import { z } from 'zod'
import { monthText } from '#calendar/month.ts'
import { listSayings } from '#db/runway-history-store.ts'
import { centsToDollars } from '#money/cents.ts'
import { type Suggestion, suggestionsFrom, varianceOf } from '#runway/actual.ts'
import { type ActualFigures, ActualPage } from '#views/runway/actual.tsx'
import { actOf } from './act.ts'
import { answer, moveOn, notFound, type PageContext } from './answer.tsx'
import type { PageEnv } from './context.ts'
import { projectionOf } from './courses.ts'
import type { PlanInUse } from './current-plan.ts'
import { formIdField, wholeNumber } from './fields.ts'
import { checkForm, newFormId, readForm } from './form.ts'
import type { PageRoom } from './page-room.ts'
import { actualMonths, saidToday, writeDownToday } from './runway-said.ts'
import { saveRevision } from './runway-saving.tsx'
import { withPlan } from './with-plan.tsx'

export const runwayActualPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/runway/actual', (c) => withPlan(c, (current) => showActual(c, current)))
      .post('/runway/actual/say', writeDown)
      .post('/runway/actual/take', takeSuggestion),
}

const suggestionsOf = (c: PageContext, current: PlanInUse): Suggestion[] => {
  const months = actualMonths(c.var.web.books, c.var.web.today())
  const variance = varianceOf(projectionOf(current.plan).months, months)
  return variance === null ? [] : suggestionsFrom(current.plan, variance, months)
}

const showActual = (c: PageContext, current: PlanInUse) => {
  const figures = actualFigures(c, current)
  return answer(c, {
    title: 'Plan against the books',
    figures,
    page: () => <ActualPage figures={figures} formId={newFormId()} />,
    tables: {
      variance: () => ({
        header: ['line', 'planned', 'actual', 'difference'],
        rows: (figures.variance?.lines ?? []).map((line) => [
          line.name,
          line.planned.toFixed(2),
          line.actual.toFixed(2),
          line.difference.toFixed(2),
        ]),
      }),
      history: () => ({
        header: ['month', 'months left', 'without draws', 'carry month', 'spendable', 'revision'],
        rows: figures.history.map((one) => [
          one.month,
          one.monthsLeft,
          one.monthsLeftWithoutDraws,
          one.carryMonth,
          one.spendable,
          one.revisionNo,
        ]),
      }),
    },
  })
}

const monthsBack = 36
const monthsAhead = 24

const actualFigures = (c: PageContext, current: PlanInUse): ActualFigures => {
  const { books } = c.var.web
  const months = actualMonths(books, c.var.web.today())
  const { months: projected } = projectionOf(current.plan)
  const said = saidToday(books, c.var.web.today())
  const past = months.slice(-monthsBack)
  const planned = new Map(
    projected.slice(0, monthsBack + monthsAhead).map((one) => [one.month, one.spendable]),
  )
  const actual = new Map(past.map((one) => [one.month, one.spendable]))
  return {
    planId: current.planId,
    revisionNo: current.revisionNo,
    monthsLeft: said?.monthsLeft ?? null,
    monthsLeftWithoutDraws: said?.monthsLeftWithoutDraws ?? null,
    fromBooks: said?.fromBooks ?? false,
    variance: varianceOf(projected, months),
    suggestions: suggestionsOf(c, current).map(({ says, plan }) => ({
      says,
      monthsLeft: projectionOf(plan).milestones.monthsLeft,
    })),
    savings: [...new Set([...actual.keys(), ...planned.keys()])].sort().map((month) => ({
      month,
      planned: planned.get(month) ?? null,
      actual: actual.get(month) ?? null,
    })),
    history: listSayings(books).map((one) => ({
      month: monthText(one.month),
      monthsLeft: one.monthsLeft,
      monthsLeftWithoutDraws: one.monthsLeftWithoutDraws,
      carryMonth: one.carryMonth === null ? null : monthText(one.carryMonth),
      spendable: one.spendableCents === null ? null : centsToDollars(one.spendableCents),
      revisionNo: one.planRevisionNo,
    })),
  }
}

async function writeDown(c: PageContext): Promise<Response> {
  const typed = await readForm(c)
  const act = actOf(c, typed.value('formId'))
  const done = writeDownToday(c.var.web.books, act, c.var.web.today())
  return moveOn(
    c,
    '/runway/actual',
    done ? 'Written down.' : 'Without a plan there is nothing to write down.',
  )
}

const takeForm = z.object({
  formId: formIdField(),
  basedOn: wholeNumber(0, 1_000_000),
  place: wholeNumber(0, 20),
})

async function takeSuggestion(c: PageContext): Promise<Response> {
  const checked = checkForm(takeForm, await readForm(c))
  return withPlan(c, (current) => {
    const suggestion = checked.ok ? suggestionsOf(c, current)[checked.value.place] : undefined
    if (!checked.ok || !suggestion)
      return notFound(c, 'That suggestion no longer stands. Open the page again.')
    return saveRevision(c, current, {
      formId: checked.value.formId,
      basedOn: checked.value.basedOn,
      document: suggestion.plan,
      note: 'From the books’ pace',
      next: '/runway',
      says: 'The plan follows the books’ pace.',
    })
  })
}
