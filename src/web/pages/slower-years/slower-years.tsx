// The Slower years page: its figures, the answers that take a moment, its JSON and CSV, and the split of side income.

import { Hono } from 'hono'
import { monthOfDay } from '#calendar/day.ts'
import { ageInWords } from '#calendar/spell.ts'
import { parsePercent, parseQuantity } from '#money/parse.ts'
import { textOf } from '#plan/form/texts.ts'
import type { Plan } from '#plan/plan.ts'
import type { PlanInUse } from '#today/current-plan.ts'

import type { SlowerAnswers, SlowerFigures } from '#today/slower-years/figures.ts'
import { keptMoney } from '#today/slower-years/kept-money.ts'
import { slowerFigures } from '#today/slower-years/slower-years-figures.ts'
import type { MixAsked } from '#today/slower-years/slower-years-work.ts'
import { withQuery } from '#views/parts/with-query.ts'
import { AnswersPage } from '#views/slower-years/answers.tsx'
import { AnswersBrief, answersPath } from '#views/slower-years/answers-brief.tsx'
import { KeptMoneyPage } from '#views/slower-years/kept-money.tsx'
import { SlowerYearsPage } from '#views/slower-years/slower-years.tsx'
import { answer, formatAsked, moveOn, type PageContext } from '#web/forms/answer.tsx'
import { type CsvTable, centTableOf, columnsOf } from '#web/forms/csv.ts'
import {
  type FormErrors,
  isUntouched,
  newFormId,
  openingForm,
  readQuery,
  type TypedForm,
} from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { errorsAt, openedIn, type PlanForm, postPlan, savePlanForm } from '#web/forms/plan-saving.tsx'
import { dollarsOf } from '#web/forms/shown-dollars.ts'
import { continuedToday, withPlan } from '#web/forms/with-plan.tsx'
import type { PageEnv } from '#web/server/context.ts'
import { slowerAnswers } from './slower-years-answers.ts'

export const slowerYearsPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/slower-years', (c) => withPlan(c, (current) => showPage(c, current)))
      .get('/slower-years/answers', (c) => withPlan(c, (current) => showAnswers(c, current)))
      .get('/slower-years/kept', (c) => withPlan(c, (current) => showKept(c, current)))
      .post('/slower-years/split', (c) => postPlan(c, '/slower-years#split', (form) => saveSplit(c, form))),
}

function showKept(c: PageContext, current: PlanInUse) {
  const dollars = dollarsOf(c)
  const kept = keptMoney(continuedToday(c, current).ongoing, dollars)
  return answer(c, {
    title: 'Money kept back',
    dollars,
    figures: kept,
    page: () => <KeptMoneyPage kept={kept} />,
  })
}

/** `aim=hours`, `keep[]=sheep`, `change=10`: how the mix is asked. */
export const mixAsked = (typed: TypedForm): MixAsked => {
  const change = parsePercent(typed.value('change'))
  const isShare = change.ok && change.value > 0 && change.value <= 1
  return {
    aim: typed.value('aim') === 'hours' ? 'fewest hours' : 'most net',
    pinned: [...typed.values('keep[]')].sort().slice(0, 40),
    largestChange: isShare ? change.value : null,
  }
}

/** What was typed into the split and is wrong, to show again. */
interface WrongSplit {
  typed: TypedForm
  errors: FormErrors
}

async function showPage(c: PageContext, current: PlanInUse, wrong?: WrongSplit) {
  const { web } = c.var
  const typed = readQuery(c)
  const isHtml = formatAsked(c) === 'html'
  // The address at which they were once asked for.
  if (isHtml && typed.value('answers') === 'yes') return moveOn(c, withQuery(answersPath, queryOf(typed)))
  const ongoing = continuedToday(c, current).ongoing
  const dollars = dollarsOf(c)
  const figures = slowerFigures(ongoing, current, web.today(), dollars)
  const order = { plan: ongoing, asked: mixAsked(typed), today: monthOfDay(web.today()), dollars }
  const answers = isHtml ? null : await slowerAnswers(order)
  const ids = { formId: newFormId(), planId: current.planId, basedOn: current.revisionNo }
  const split = wrong?.typed ?? openingForm(splitTexts(current.plan))
  return answer(c, {
    title: 'Slower years',
    dollars,
    status: wrong ? 422 : 200,
    figures: { ...figures, answers },
    page: () => (
      <SlowerYearsPage
        figures={figures}
        ids={wrong ? { formId: newFormId(), ...openedIn(wrong.typed, current) } : ids}
        split={{ value: split.value, errors: wrong?.errors ?? {} }}
      />
    ),
    tables: slowerTables(figures, answers),
  })
}

/** They take a moment: the page of the slower years asks for them in brief once it is shown. */
async function showAnswers(c: PageContext, current: PlanInUse) {
  const { web } = c.var
  const typed = readQuery(c)
  const { ongoing } = continuedToday(c, current)
  const dollars = dollarsOf(c)
  const figures = slowerFigures(ongoing, current, web.today(), dollars)
  const order = { plan: ongoing, asked: mixAsked(typed), today: monthOfDay(web.today()), dollars }
  const answers = await slowerAnswers(order)
  const ids = { formId: newFormId(), planId: current.planId, basedOn: current.revisionNo }
  return answer(c, {
    title: 'Mix, cushion, claims',
    dollars,
    figures: { answers },
    page: () => <AnswersPage answers={answers} figures={figures} ids={ids} query={queryOf(typed)} />,
    parts: { answers: () => <AnswersBrief answers={answers} /> },
    tables: answersTables(answers),
  })
}

const queryOf = (typed: TypedForm): string => {
  const query = new URLSearchParams()
  for (const name of ['aim', 'change']) if (typed.value(name)) query.set(name, typed.value(name))
  for (const id of typed.values('keep[]')) query.append('keep[]', id)
  return query.toString()
}

/** The fields of the split as they open: ventures by their places, for short names may hold what no field's name does. */
const splitTexts = ({ household, savings }: Plan): Record<string, string> => ({
  ...Object.fromEntries(
    household.sideVentures.map((one, place) => [`share.${place}`, textOf('percent', one.setAsideShare)]),
  ),
  reserveMonths: textOf('number', savings.reserveMonths),
})

function saveSplit(c: PageContext, form: PlanForm) {
  const { typed, current } = form
  const { plan } = current
  const opening = splitTexts(form.opened)
  const again = (errors: FormErrors) => showPage(c, current, { typed, errors })
  const errors: Record<string, string> = {}
  const months = parseQuantity(typed.value('reserveMonths'))
  if (!months.ok || months.value < 0) errors.reserveMonths = 'Enter months of costs, like 6'
  const sideVentures = plan.household.sideVentures.map((venture, place) => {
    const name = `share.${place}`
    if (isUntouched(typed, opening, name)) return venture
    const share = parsePercent(typed.value(name))
    if (share.ok && share.value >= 0 && share.value <= 1) return { ...venture, setAsideShare: share.value }
    errors[name] = 'Enter a share from 0 to 100 %'
    return venture
  })
  if (!months.ok || Object.keys(errors).length > 0) return again(errors)
  const isKept = isUntouched(typed, opening, 'reserveMonths')
  const changed: Plan = {
    ...plan,
    household: { ...plan.household, sideVentures },
    savings: { ...plan.savings, reserveMonths: isKept ? plan.savings.reserveMonths : months.value },
  }
  return savePlanForm(c, form, { changed, note: 'Split of side income changed' }, (issues) =>
    again(errorsAt(issues, (path) => (path === 'savings.reserveMonths' ? 'reserveMonths' : null))),
  )
}

const slowerTables = (
  figures: SlowerFigures,
  answers: SlowerAnswers | null,
): Record<string, () => CsvTable> => ({
  years: () => centTableOf(figures.years, columnsOf(figures.years[0])),
  phases: () =>
    centTableOf(figures.phases, {
      from: (one) => one.from,
      phase: (one) => one.name,
      year: (one) => one.year,
      'year before': (one) => one.yearBefore,
      net: (one) => one.net,
      'net before': (one) => one.netBefore,
      hours: (one) => one.hours,
      'hours before': (one) => one.hoursBefore,
      'lease a year': (one) => one.leaseAYear,
    }),
  limits: () =>
    centTableOf(figures.split.limits, {
      who: (one) => one.name,
      age: (one) => one.age,
      ira: (one) => one.ira,
      sep: (one) => one.sep,
      'solo 401(k)': (one) => one.soloPlan,
      'hsa self-only': (one) => one.hsaSelfOnly,
      'hsa family': (one) => one.hsaFamily,
    }),
  ...answersTables(answers),
})

const answersTables = (answers: SlowerAnswers | null): Record<string, () => CsvTable> => ({
  mixes: () =>
    centTableOf(
      (answers?.mixes ?? []).flatMap((mix) =>
        mix.answer.kind === 'found' ? mix.answer.lines.map((line) => ({ mix, line })) : [],
      ),
      {
        from: ({ mix }) => mix.from,
        phase: ({ mix }) => mix.phase,
        line: ({ line }) => line.name,
        before: ({ line }) => line.today,
        mix: ({ line }) => line.scale,
      },
    ),
  path: () =>
    centTableOf(
      (answers?.path ?? []).flatMap((year) => year.lines.map((line) => ({ year, line }))),
      {
        year: ({ year }) => year.year,
        line: ({ line }) => line.name,
        scale: ({ line }) => line.scale,
        net: ({ year }) => year.net,
        hours: ({ year }) => year.hours,
      },
    ),
  claims: () =>
    centTableOf(
      (answers?.claims ?? []).flatMap((person) => person.choices.map((choice) => ({ person, choice }))),
      {
        who: ({ person }) => person.name,
        'claims at': ({ choice }) => ageInWords(choice.age),
        'household benefits a month from 71': ({ choice }) => choice.monthlyAfter70,
        'savings at the end': ({ choice }) => choice.savingsAtEnd,
        'months short': ({ choice }) => choice.monthsShort,
      },
    ),
  alone: () =>
    centTableOf(answers?.alone ?? [], {
      who: (one) => one.name,
      from: (one) => one.from,
      'below the floor': (one) => one.floorMonth,
      'below it as planned too': ({ floorMonth, floorAsPlanned }) =>
        floorMonth === null ? '' : floorAsPlanned ? 'yes' : 'no',
      'lowest spendable': (one) => one.lowestSpendable,
      in: (one) => one.lowestMonth,
      'months short': (one) => one.monthsShort,
      'unmet costs': (one) => one.unmetNeed,
      'savings at the end': (one) => one.savingsAtEnd,
    }),
})
