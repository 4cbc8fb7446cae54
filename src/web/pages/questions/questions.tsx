// Questions: the list, a page for each with its form, progress and answer, and the income room of every planned year.
import { Hono } from 'hono'
import { z } from 'zod'
import { keptWith } from '#kept/keeper.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import type { Plan } from '#plan/plan.ts'
import { roomBefore } from '#rules/marketplace/income-room.ts'
import type { Dollars } from '#runway/dollars/dollars.ts'
import { type ChanceQuestion, isChanceQuestion, questionWords, type Told } from '#solve/questions.ts'
import { slowDownLacks } from '#solve/slow-down.ts'
import { takesOf } from '#solve/take.ts'
import { laterRateOf } from '#solve/ways.ts'
import { type IncomeRooms, lineNames, solveIncomeRoom } from '#today/cover/income-room.ts'
import type { PlanInUse } from '#today/current-plan.ts'
import { projectionOf, rulesOf } from '#today/projection/courses.ts'
import type { QuestionFigures, QuestionKnown, QuestionLine } from '#views/questions/figures.ts'
import { IncomeRoomPage } from '#views/questions/income-room.tsx'
import { Question, QuestionPage, QuestionsPage } from '#views/questions/questions.tsx'
import { type Answered, answer, moveOn, notFound, type PageContext } from '#web/forms/answer.tsx'
import { sayAsked, saySince } from '#web/forms/asked/asked-state.ts'
import { readyWorkersSoon } from '#web/forms/course-workers.ts'
import { type CsvTable, tableOf } from '#web/forms/csv.ts'
import { percentOrNull, quantityOrNull, wholeNumber } from '#web/forms/fields.ts'
import { checkForm, type FormErrors, newFormId, readForm, statusOf, type TypedForm } from '#web/forms/form.ts'
import { type Job, jobShown } from '#web/forms/jobs.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { type PlanForm, postPlan, savePlanForm } from '#web/forms/plan-saving.tsx'
import { dollarsOf } from '#web/forms/shown-dollars.ts'
import { type ProjectedPlan, projected, withPlan } from '#web/forms/with-plan.tsx'
import type { PageEnv } from '#web/server/context.ts'
import {
  type AskedBefore,
  choicesOf,
  type FoundJob,
  foundJob,
  foundTake,
  isForgotten,
  startQuestion,
  stopQuestion,
} from './question-run.ts'

export const questionPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/runway/questions', (c) => withPlan(c, (current) => showList(c, projected(current))))
      .get('/runway/questions/income-room', (c) =>
        withPlan(c, (current) => showIncomeRoom(c, projected(current))),
      )
      .get('/runway/questions/:question', (c) =>
        withQuestion(c, (current, question) => showQuestion(c, current, question)),
      )
      .post('/runway/questions/:question', async (c) => {
        const typed = await readForm(c)
        return withQuestion(c, (current, question) => ask(c, current, question, typed))
      })
      .post('/runway/questions/:question/take', (c) =>
        postPlan(c, `/runway/questions/${encodeURIComponent(c.req.param('question'))}`, (form) =>
          take(c, form),
        ),
      )
      .post('/runway/questions/:question/stop', async (c) => {
        const job = (await readForm(c)).value('job')
        stopQuestion(job)
        return moveOn(c, `/runway/questions/${c.req.param('question')}?job=${encodeURIComponent(job)}`)
      }),
}

const withQuestion = (
  c: PageContext,
  show: (current: ProjectedPlan, question: ChanceQuestion) => Answered,
) => {
  const name = c.req.param('question') ?? ''
  if (!isChanceQuestion(name)) return notFound(c, 'There is no such question.')
  return withPlan(c, (current) => show(projected(current), name))
}

const lineOf = (question: ChanceQuestion): QuestionLine => ({ question, ...questionWords[question] })

function showList(c: PageContext, current: ProjectedPlan) {
  const dollars = dollarsOf(c)
  const lines = (Object.keys(questionWords) as ChanceQuestion[]).map((question) => ({
    ...lineOf(question),
    known: knownOf(c, current, question, dollars),
  }))
  return answer(c, {
    title: 'Questions',
    figures: { planName: current.name, questions: lines },
    page: () => <QuestionsPage lines={lines} planName={current.name} />,
  })
}

/** What is known of a question: under way or answered, of the plan as it is or as it was. */
function knownOf(
  c: PageContext,
  current: ProjectedPlan,
  question: ChanceQuestion,
  dollars: Dollars,
): QuestionKnown | null {
  const found = foundJob(current, question, dollars)
  if (!found) return null
  const { job, before } = found
  if (job.state.status === 'running')
    return { state: 'running', ofRevision: before === null ? null : before.revisionNo }
  if (job.state.status !== 'done') return null
  const { sentence } = job.state.result.answer
  const { askedOn, revisionNo } = job
  return before === null
    ? { state: 'now', askedOn, revisionNo, sentence }
    : { state: 'before', askedOn, revisionNo, since: sinceOf(c, job, before, current), sentence }
}

const sinceOf = (c: PageContext, job: Job<Told>, before: AskedBefore, current: ProjectedPlan): string =>
  saySince(c.var.web, job, current, before.isInDollars ? [] : ['other dollars are shown'])

/** The answer is taken into the plan as it is now: who changed it meanwhile is shown both. */
function take(c: PageContext, form: PlanForm) {
  const { current, typed, next } = form
  const found = foundTake(current.plan, typed.value('job'), typed.value('which'))
  if (!found.ok) return moveOn(c, next, `Nothing was changed. ${found.says}`)
  if (found.question !== c.req.param('question')) return notFound(c, 'That answer is of another question.')
  return savePlanForm(c, form, { changed: found.changed, note: found.take.note }, (issues) =>
    moveOn(c, next, `Nothing was changed. ${issues[0]?.message ?? ''}`),
  )
}

const askForm = z.object({
  confidence: wholeNumber(50, 99),
  paths: wholeNumber(50, 5_000),
  seed: wholeNumber(0, 999_999_999),
  laterRate: percentOrNull().refine((rate) => rate === null || (rate >= 0 && rate <= 0.6), {
    error: 'Enter a percent from 0 to 60',
  }),
  weeklyHours: quantityOrNull().refine((hours) => hours === null || (hours >= 0 && hours <= 100), {
    error: 'Enter hours from 0 to 100, or leave it empty',
  }),
})

function ask(c: PageContext, current: ProjectedPlan, question: ChanceQuestion, typed: TypedForm) {
  const checked = checkForm(askForm, typed)
  const choices = {
    confidence: typed.value('confidence'),
    paths: typed.value('paths'),
    seed: typed.value('seed'),
    laterRate: typed.value('laterRate'),
    weeklyHours: typed.value('weeklyHours'),
  }
  if (!checked.ok) return show(c, figuresOf(c, current, question, choices, undefined), checked.errors)
  const { confidence, paths, seed, laterRate, weeklyHours } = checked.value
  const { alsoAsks } = questionWords[question]
  const chosen = {
    confidence: confidence / 100,
    paths,
    seed,
    dollars: dollarsOf(c),
    laterRate: alsoAsks === 'laterRate' ? (laterRate ?? laterRateOf(current.plan)) : undefined,
    weeklyHours: alsoAsks === 'weeklyHours' ? (weeklyHours ?? undefined) : undefined,
  }
  const job = startQuestion(current, question, chosen, c.var.web)
  if (c.req.header('HX-Request') === 'true')
    return show(c, figuresOf(c, current, question, choices, { job, before: null }), {})
  return moveOn(c, `/runway/questions/${question}?job=${job.id}`)
}

function showQuestion(c: PageContext, current: ProjectedPlan, question: ChanceQuestion) {
  readyWorkersSoon()
  const dollars = dollarsOf(c)
  const found = foundJob(current, question, dollars, c.req.query('job'))
  const opening = {
    confidence: String(Math.round(current.plan.chance.confidence * 100)),
    paths: String(questionWords[question].paths),
    seed: '1',
    laterRate: String(laterRateOf(current.plan) * 100),
    weeklyHours: '',
  }
  // Asked again, an answer of the plan as it was is asked with the same choices.
  return show(c, figuresOf(c, current, question, found ? choicesOf(found.job) : opening, found), {})
}

const figuresOf = (
  c: PageContext,
  current: ProjectedPlan,
  question: ChanceQuestion,
  choices: QuestionFigures['choices'],
  found: FoundJob | undefined,
): QuestionFigures => ({
  ...lineOf(question),
  planName: current.name,
  firstMonth: firstMonthOf(current.plan),
  choices,
  lacks: lacksOf(question, current.plan),
  run: jobShown(found?.job, ({ answer, moves }) => ({ answer, moves })),
  take: found?.before === null ? takeOf(current, found.job) : null,
  isForgotten: isForgotten(found?.job.id ?? c.req.query('job') ?? ''),
  before: found?.before ? { ...found.before, since: sinceOf(c, found.job, found.before, current) } : null,
  asked: found && found.before === null ? sayAsked(found.job, current) : null,
})

const lacksOf = (question: ChanceQuestion, plan: Plan): QuestionFigures['lacks'] => {
  const says = question === 'slow-down' ? slowDownLacks(plan) : null
  if (says === null) return null
  return {
    says: says.replace(/^./, (letter) => letter.toUpperCase()),
    link: 'Enter the hours of each enterprise',
    href: '/farm/enterprises',
  }
}

const takeOf = ({ planId, revisionNo }: PlanInUse, job: Job<Told>): QuestionFigures['take'] =>
  job.state.status === 'done'
    ? {
        job: job.id,
        choices: takesOf(job.state.result.answer).map(({ id, label }) => ({ id, label })),
        ids: { formId: newFormId(), planId, basedOn: revisionNo },
      }
    : null

function show(c: PageContext, figures: QuestionFigures, errors: FormErrors) {
  return answer(c, {
    title: figures.title,
    dollars: dollarsOf(c),
    status: statusOf(errors),
    figures,
    page: () => <QuestionPage figures={figures} errors={errors} />,
    parts: { question: () => <Question figures={figures} errors={errors} /> },
  })
}

function showIncomeRoom(c: PageContext, { plan, name }: PlanInUse) {
  const found = keptWith(plan, 'income room', () => solveIncomeRoom(plan, rulesOf(plan), projectionOf(plan)))
  return answer(c, {
    title: 'Income room',
    figures: { planName: name, ...found },
    page: () => <IncomeRoomPage found={found} names={lineNames} planName={name} />,
    tables: { years: () => roomsCsv(found) },
  })
}

const roomsCsv = ({ years }: IncomeRooms): CsvTable =>
  tableOf(
    years.flatMap((year) => year.rooms.map((room) => ({ year, room }))),
    {
      year: ({ year }) => year.year,
      'household income': ({ year }) => year.now.householdIncome.toFixed(2),
      'percent of FPL': ({ year }) => year.now.povertyPercent.toFixed(1),
      line: ({ room }) => lineNames[room.line],
      'more of': ({ year }) => year.extraIs,
      room: ({ room }) => roomBefore(room).toFixed(2),
      'cost of crossing': ({ room }) => room.costOfCrossing.toFixed(2),
      'months the plan covers': ({ year }) => year.part?.months ?? 12,
    },
  )
