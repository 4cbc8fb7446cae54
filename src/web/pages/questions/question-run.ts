// A question asked of the current plan as a job: once for its choices, watched, stopped, its answer kept.
import type { Day } from '#calendar/day.ts'
import { compileForChance } from '#chance/prepare.ts'
import { type Dollars, pricesIn } from '#runway/dollars/dollars.ts'
import { project } from '#runway/project.ts'
import { askQuestion, type ChanceQuestion, type Told } from '#solve/questions.ts'
import { projectionOf, rulesOf } from '#today/projection/courses.ts'
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
}

const board = new JobBoard<Told>()

export const questionJob = (id: string): Job<Told> | undefined => board.get(id)
export const stopQuestion = (id: string): boolean => board.stop(id)

/** Begins with plan, revision and question, ends with the choices: both are read back from it. */
const keyOf = (current: RevisedPlan, question: ChanceQuestion, choices: AskedChoices): string =>
  keyStart(current, question, choices.dollars) +
  [rulesOf(current.plan).lastPublishedYear, choices.confidence, choices.paths, choices.seed].join(' ')

/** An answer is told in the dollars it was asked in. */
const keyStart = (
  { planId, revisionNo, plan }: RevisedPlan,
  question: ChanceQuestion,
  dollars: Dollars,
): string =>
  `${planId} ${revisionNo} ${stateOf(plan)} ${question} ${dollars.of === 'year' ? 'year' : dollars.month} `

export const isAbout = (
  job: Job<Told>,
  current: RevisedPlan,
  question: ChanceQuestion,
  dollars: Dollars,
): boolean => job.key.startsWith(keyStart(current, question, dollars))

/** Choices of a job, as text: confidence in percent. */
export function choicesOf(job: Job<Told>): { confidence: string; paths: string; seed: string } {
  const [confidence, paths, seed] = job.key.split(' ').slice(-3) as [string, string, string]
  return { confidence: String(Math.round(Number.parseFloat(confidence) * 100)), paths, seed }
}

export const lastAsked = (
  current: RevisedPlan,
  question: ChanceQuestion,
  dollars: Dollars,
): Job<Told> | undefined => board.last(keyStart(current, question, dollars))

export interface AnsweredBefore {
  askedOn: Day
  revisionNo: number
  sentence: string
}

/** The newest answer to a question of this plan, whatever plan, books and dollars have become since. */
export function answeredBefore({ planId }: RevisedPlan, question: ChanceQuestion): AnsweredBefore | null {
  const job = board.lastDone((key) => {
    const [plan, , , asked] = key.split(' ')
    return plan === planId && asked === question
  })
  if (job?.state.status !== 'done') return null
  const revisionNo = Number(job.key.split(' ')[1])
  return { askedOn: job.askedOn, revisionNo, sentence: job.state.result.answer.sentence }
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
