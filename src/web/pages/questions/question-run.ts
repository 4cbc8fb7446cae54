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

export const stopQuestion = (id: string): boolean => board.stop(id)

/** Begins with plan, revision and question, ends with the choices: they are read back from it. */
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

/**
 * The same but for the revision: what goes in is the plan's content, and a plan that was changed and changed back has an answer of its own
 * again. A revision holds no blank.
 */
const withoutRevision = (key: string): string => key.replace(/^(\S+) \S+ /, '$1 ')

/** An answer is told in the dollars it was asked in. */
const keyStart = (
  { planId, revisionNo, plan }: RevisedPlan,
  question: ChanceQuestion,
  dollars: Dollars,
): string => `${planId} ${revisionNo} ${stateOf(plan)} ${question} ${dollarsKey(dollars)} `

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

/**
 * The job that a question's page shows: the one named, else the last one of the plan as it is, else one of the plan as it was, under
 * way before answered. One that was started is found whatever plan, books and dollars have become since; one that was stopped or
 * failed by its name only.
 */
export function foundJob(
  current: RevisedPlan,
  question: ChanceQuestion,
  dollars: Dollars,
  id = '',
): FoundJob | undefined {
  const start = withoutRevision(keyStart(current, question, dollars))
  const isOfPlan = ({ key }: Job<Told>) => {
    const [plan, , , asked] = key.split(' ')
    return plan === current.planId && asked === question
  }
  const isNow = ({ key }: Job<Told>) => withoutRevision(key).startsWith(start)
  const last = (status: 'running' | 'done', isMeant: (job: Job<Told>) => boolean) =>
    board.last((job) => job.state.status === status && isMeant(job))
  const lastNow = board.last((job) => isNow(job) && ['running', 'done'].includes(job.state.status))
  const named = board.get(id)
  const isNamed =
    named !== undefined &&
    isOfPlan(named) &&
    (lastNow === undefined || named.state.status !== 'done' || askedIn(named, dollars))
  const job = isNamed ? named : (lastNow ?? last('running', isOfPlan) ?? last('done', isOfPlan))
  return job && { job, before: isNow(job) ? null : beforeOf(job, dollars) }
}

const askedIn = ({ key }: Job<Told>, dollars: Dollars): boolean => key.split(' ')[4] === dollarsKey(dollars)

const beforeOf = (job: Job<Told>, dollars: Dollars): AskedBefore => ({
  askedOn: job.askedOn,
  revisionNo: Number(job.key.split(' ')[1]),
  isInDollars: askedIn(job, dollars),
})

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
  current: RevisedPlan,
  question: ChanceQuestion,
  choices: AskedChoices,
  { log, today }: Pick<WebContext, 'log' | 'today'>,
): Job<Told> {
  const { plan } = current
  const rules = rulesOf(plan)
  const key = keyOf(current, question, choices)
  const same = board.last((job) => withoutRevision(job.key) === withoutRevision(key))
  return board.start({
    key: same?.key ?? key,
    askedOn: today(),
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
