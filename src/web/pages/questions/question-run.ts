// A question asked of the current plan as a job: once for its choices, watched, stopped, its answer kept.
import type { Day } from '#calendar/day.ts'
import { compileForChance } from '#chance/prepare.ts'
import { type Dollars, pricesIn } from '#runway/dollars/dollars.ts'
import { project } from '#runway/project.ts'
import { askQuestion, type ChanceQuestion, type Told } from '#solve/questions.ts'
import { type Take, takesOf } from '#solve/take.ts'
import { projectionOf, rulesOf } from '#today/projection/courses.ts'
import type { QuestionChoices } from '#views/questions/figures.ts'
import { courseWorkers } from '#web/forms/course-workers.ts'
import { type Job, JobBoard } from '#web/forms/jobs.ts'
import { type RevisedPlan, stateOf } from '#web/pages/chance/chance-run.ts'
import type { WebContext } from '#web/server/context.ts'

export interface AskedChoices {
  dollars: Dollars
  /** Fraction. */
  confidence: number
  paths: number
  seed: number
  /** What some questions ask besides; undefined where they do not, or nothing was typed. */
  laterRate?: number | undefined
  weeklyHours?: number | undefined
}

const board = new JobBoard<Told>()

export const questionJob = (id: string): Job<Told> | undefined => board.get(id)
/** What of a kept answer can be taken, by the short name of it; undefined where the answer is kept no longer. */
export const takeOfJob = (id: string, which: string): (Take & { question: ChanceQuestion }) | undefined => {
  const job = board.get(id)
  if (job?.state.status !== 'done') return undefined
  const { answer } = job.state.result
  const take = takesOf(answer).find((one) => one.id === which)
  return take && { ...take, question: answer.question }
}

export const stopQuestion = (id: string): boolean => board.stop(id)

/** Begins with plan, revision and question, ends with the choices: both are read back from it. */
const keyOf = (current: RevisedPlan, question: ChanceQuestion, choices: AskedChoices): string =>
  keyStart(current, question, choices.dollars) +
  [
    rulesOf(current.plan).lastPublishedYear,
    choices.confidence,
    choices.paths,
    choices.seed,
    choices.laterRate ?? '-',
    choices.weeklyHours ?? '-',
  ].join(' ')

const dollarsKey = (dollars: Dollars): string => (dollars.of === 'year' ? 'year' : dollars.month)

/** An answer is told in the dollars it was asked in. */
const keyStart = (
  { planId, revisionNo, plan }: RevisedPlan,
  question: ChanceQuestion,
  dollars: Dollars,
): string => `${planId} ${revisionNo} ${stateOf(plan)} ${question} ${dollarsKey(dollars)} `

export const isAbout = (
  job: Job<Told>,
  current: RevisedPlan,
  question: ChanceQuestion,
  dollars: Dollars,
): boolean => job.key.startsWith(keyStart(current, question, dollars))

/** Choices of a job, as text: shares in percent. */
export function choicesOf(job: Job<Told>): QuestionChoices {
  const [confidence, paths, seed, later, hours] = job.key.split(' ').slice(-5) as [
    string,
    string,
    string,
    string,
    string,
  ]
  const percentOf = (text: string) => String(Math.round(Number.parseFloat(text) * 1e4) / 100)
  return {
    confidence: percentOf(confidence),
    paths,
    seed,
    laterRate: later === '-' ? '' : percentOf(later),
    weeklyHours: hours === '-' ? '' : hours,
  }
}

export const lastAsked = (
  current: RevisedPlan,
  question: ChanceQuestion,
  dollars: Dollars,
): Job<Told> | undefined => board.last(keyStart(current, question, dollars))

export interface AnsweredBefore {
  /** Told in the dollars that are shown now: its amounts may stand beside others. */
  isInDollars: boolean
  askedOn: Day
  revisionNo: number
  told: Told
  choices: QuestionChoices
}

/** The newest answer to a question of this plan, whatever plan, books and dollars have become since. */
export function answeredBefore(
  { planId }: RevisedPlan,
  question: ChanceQuestion,
  dollars: Dollars,
): AnsweredBefore | null {
  const job = board.lastDone((key) => {
    const [plan, , , asked] = key.split(' ')
    return plan === planId && asked === question
  })
  if (job?.state.status !== 'done') return null
  const [, revision, , , told] = job.key.split(' ')
  const revisionNo = Number(revision)
  const isInDollars = told === dollarsKey(dollars)
  return { isInDollars, askedOn: job.askedOn, revisionNo, told: job.state.result, choices: choicesOf(job) }
}

export function startQuestion(
  current: RevisedPlan,
  question: ChanceQuestion,
  choices: AskedChoices,
  { log, today }: Pick<WebContext, 'log' | 'today'>,
): Job<Told> {
  const { plan } = current
  const rules = rulesOf(plan)
  return board.start({
    key: keyOf(current, question, choices),
    askedOn: today(),
    of: 1,
    failed: 'The question could not be answered. The log of the server says more.',
    onFailure: (error) =>
      log.error({ error: (error as Error).name, stack: (error as Error).stack }, 'a question broke'),
    run: ({ onSoFar, ...watch }) =>
      askQuestion(
        question,
        {
          plan,
          compile: (variant) => compileForChance(variant, rules),
          courses: courseWorkers(),
          project: (variant) => project(variant, rules),
          prices: pricesIn(projectionOf(plan), choices.dollars),
          ...choices,
          ...watch,
        },
        onSoFar,
      ),
  })
}
