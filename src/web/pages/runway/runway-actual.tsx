// The plan against the books, and the runway history.
import { Hono } from 'hono'
import { monthText } from '#calendar/month.ts'
import { listSayings } from '#db/runway-history-store.ts'
import { centsToDollars } from '#money/cents.ts'
import { linesPlannedIn, type Suggestion, suggestionsFrom } from '#runway/against-books/suggestions.ts'
import { type Variance, varianceOf } from '#runway/against-books/variance.ts'
import { plannedMonths } from '#runway/against-books/variance-lines.ts'
import type { PlanInUse } from '#today/current-plan.ts'
import { keptUntilChange } from '#today/kept.ts'
import { oneSided } from '#today/one-sided/one-sided.ts'
import { continuedPlan } from '#today/projection/continued-plan.ts'
import { baselineOf, projectionOf, samePlan } from '#today/projection/courses.ts'
import { expectedMonths, writeDownToday } from '#today/projection/forecasts.ts'
import { actualMonths, comparedMonths, saidToday } from '#today/projection/months-left.ts'
import { type ActualFigures, ActualPage, otherAnswer } from '#views/runway/actual.tsx'
import { actOfForm } from '#web/forms/act.ts'
import { answer, moveOn, notFound, type PageContext } from '#web/forms/answer.tsx'
import { tableOf } from '#web/forms/csv.ts'
import { newFormId, readForm } from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { type PlanForm, postPlan, savePlanForm } from '#web/forms/plan-saving.tsx'
import { withPlan } from '#web/forms/with-plan.tsx'
import type { PageEnv } from '#web/server/context.ts'

export const runwayActualPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/runway/actual', (c) => withPlan(c, (current) => showActual(c, current)))
      .post('/runway/actual/say', writeDown)
      .post('/runway/actual/take', (c) => postPlan(c, '/runway', (form) => takeSuggestion(c, form))),
}

/** Against the plan in use as it was saved, not what was expected before it was changed. The same plans as long as nothing changes: their courses are kept with them. */
const suggestionsOf = (c: PageContext, { plan, planId, revisionNo }: PlanInUse): Suggestion[] => {
  const { books, today } = c.var.web
  return keptUntilChange(books, `suggestions ${today()} ${planId} ${revisionNo}`, () => {
    const months = comparedMonths(books, today())
    const course = baselineOf(plan)
    const variance = varianceOf(plannedMonths(plan, course.months), months, plan.assumptions.inflation)
    if (variance === null) return []
    const linesPlanned = linesPlannedIn(plan, course, variance)
    const suggestions = suggestionsFrom({ plan, variance, books: months, linesPlanned })
    return suggestions.map((one) => ({ ...one, plan: samePlan(plan, one.plan) }))
  })
}

const showActual = (c: PageContext, current: PlanInUse) => {
  const figures = actualFigures(c, current)
  return answer(c, {
    title: 'Plan against the books',
    figures,
    page: () => <ActualPage figures={figures} formId={newFormId()} />,
    tables: {
      variance: () =>
        tableOf(linesWithChange(figures.variance), {
          line: (line) => line.name,
          planned: (line) => line.planned.toFixed(2),
          actual: (line) => line.actual.toFixed(2),
          difference: (line) => line.difference.toFixed(2),
        }),
      history: () =>
        tableOf(figures.history, {
          month: (one) => one.month,
          'months left': (one) => one.monthsLeft,
          'without draws': (one) => one.monthsLeftWithoutDraws,
          'carry month': (one) => one.carryMonth,
          spendable: (one) => one.spendable,
          revision: (one) => one.revisionNo,
        }),
    },
  })
}

/** The lines, and what they come to. */
const linesWithChange = (variance: Variance | null) =>
  variance === null ? [] : [...variance.lines, variance.change]

const monthsBack = 36
const monthsAhead = 24

const actualFigures = (c: PageContext, current: PlanInUse): ActualFigures => {
  const { books } = c.var.web
  const today = c.var.web.today()
  const months = actualMonths(books, c.var.web.today())
  const { months: projected } = baselineOf(current.plan)
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
    variance: varianceOf(
      expectedMonths(books, current),
      comparedMonths(books, today),
      current.plan.assumptions.inflation,
    ),
    suggestions: suggestionsOf(c, current).map(({ id, says, plan }) => ({
      id,
      says,
      monthsLeft: projectionOf(continuedPlan(books, plan, today).plan).milestones.monthsLeft,
    })),
    oneSided: oneSided(books, current, today).map(({ change, other, ...one }) => ({
      ...one,
      button: change?.button ?? null,
      otherButton: other?.button ?? null,
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
  const act = actOfForm(c, typed)
  const done = writeDownToday(c.var.web.books, act, c.var.web.today())
  return moveOn(c, '/runway/actual', writtenWords[done])
}

const writtenWords = {
  written: 'Written down.',
  'closing stands': 'The forecast kept when last month was closed is this month’s.',
  'no plan': 'Without a plan there is nothing to write down.',
}

function takeSuggestion(c: PageContext, form: PlanForm) {
  const what = form.typed.value('what')
  const gone = 'That has changed since. Open the page again.'
  const suggestion = suggestionsOf(c, form.current).find(({ id }) => id === what)
  const taken = oneSided(c.var.web.books, form.current, c.var.web.today())
    .flatMap(({ id, change, other }) => [
      { id, change },
      { id: otherAnswer(id), change: other },
    ])
    .find(({ id }) => id === what)?.change
  if (!suggestion && !taken) return notFound(c, gone)
  const change = suggestion
    ? { changed: suggestion.plan, note: 'The plan follows your actual spending' }
    : { changed: taken!.plan, note: taken!.note, ...(taken!.countsOnce && { countsOnce: true as const }) }
  return savePlanForm(c, form, change, (issues) => notFound(c, issues[0]?.message ?? gone))
}
