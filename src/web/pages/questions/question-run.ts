// A question asked of the current plan as a job: once for its choices, watched, stopped, its answer kept.
import { setImmediate as nextRound } from 'node:timers/promises'
import type { Day } from '#calendar/day.ts'
import { compileForChance } from '#chance/prepare.ts'
import type { Plan } from '#plan/plan.ts'
import { type Dollars, pricesIn } from '#runway/dollars/dollars.ts'
import { project } from '#runway/project.ts'
import { askQuestion, type ChanceQuestion, type Told } from '#solve/questions.ts'
import { type Take, takesOf } from '#solve/take.ts'
import { projectionOf, rulesOf } from '#today/projection/courses.ts'
import type { QuestionChoices } from '#views/questions/figures.ts'
import { askedState, stateOf } from '#web/forms/asked/asked-state.ts'
import { courseWorkers } from '#web/forms/course-workers.ts'
import { type Job, JobBoard } from '#web/forms/jobs.ts'
import type { ProjectedPlan } from '#web/forms/with-plan.tsx'
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

const board = new JobBoard<Told>({ whenFull: 'wait' })

export type FoundTake =
  | { ok: true; question: ChanceQuestion; take: Take; changed: Plan }
  /** Why nothing can be taken, in a sentence. */
  | { ok: false; says: string }

/** What a kept answer offers under a short name, and the plan with it. */
export function foundTake(plan: Plan, id: string, which: string): FoundTake {
  const job = board.get(id)
  if (job?.state.status !== 'done') return { ok: false, says: 'This answer is no longer kept: ask again.' }
  const { answer } = job.state.result
  const take = takesOf(answer).find((one) => one.id === which)
  if (!take) return { ok: false, says: `This answer has nothing called “${which}” to take.` }
  const changed = take.change(plan)
  return changed === null
    ? { ok: false, says: `“${take.label}” is no longer possible in the plan as it is now: ask again.` }
    : { ok: true, question: answer.question, take, changed }
}

/** Whether a question was asked under this number that is not known: the program began anew since, or many others were asked. */
export const isForgotten = (id: string): boolean => id !== '' && board.get(id) === undefined

export const stopQuestion = (id: string): boolean => board.stop(id)

/** Begins with plan and question, ends with the choices: they are read back from it. */
const keyOf = (current: ProjectedPlan, question: ChanceQuestion, choices: AskedChoices): string =>
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
const keyStart = ({ planId, plan }: ProjectedPlan, question: ChanceQuestion, dollars: Dollars): string =>
  `${planId} ${stateOf(plan)} ${question} ${dollarsKey(dollars)} `

/** Of what plan and in which dollars a job was asked, where that is not how they are now. */
export interface AskedBefore {
  askedOn: Day
  revisionNo: number
  /** Told in the dollars that are shown now: its amounts may stand beside others. */
  isInDollars: boolean
}

export interface FoundJob {
  job: Job<Told>
  /** Null for a question of the plan as it is now, in the dollars shown now. */
  before: AskedBefore | null
}

/** The job that a question's page shows: one that was started is found whatever plan, books and dollars have become since. */
export function foundJob(
  current: ProjectedPlan,
  question: ChanceQuestion,
  dollars: Dollars,
  id = '',
): FoundJob | undefined {
  const start = keyStart(current, question, dollars)
  const found = board.shown({
    id,
    isOfIt: ({ key }) => {
      const [plan, , asked] = key.split(' ')
      return plan === current.planId && asked === question
    },
    isNow: ({ key }) => key.startsWith(start),
    mayBeNamed: (job) => askedIn(job, dollars),
  })
  if (!found) return undefined
  const { job, before } = found
  return { job, before: before && { ...before, isInDollars: askedIn(job, dollars) } }
}

const askedIn = ({ key }: Job<Told>, dollars: Dollars): boolean => key.split(' ')[3] === dollarsKey(dollars)

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

export function startQuestion(
  current: ProjectedPlan,
  question: ChanceQuestion,
  choices: AskedChoices,
  { books, log, today }: Pick<WebContext, 'books' | 'log' | 'today'>,
): Job<Told> {
  const { plan } = current
  const rules = rulesOf(plan)
  return board.start({
    key: keyOf(current, question, choices),
    askedOn: today(),
    revisionNo: current.revisionNo,
    asked: askedState(books, current),
    of: 1,
    failed: 'The question could not be answered. The log of the server says more.',
    onFailure: (error) =>
      log.error({ error: (error as Error).name, stack: (error as Error).stack }, 'a question broke'),
    run: async ({ onSoFar, ...watch }) => {
      // The page that asks goes out first.
      await nextRound(undefined, watch)
      return askQuestion(
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
      )
    },
  })
}
