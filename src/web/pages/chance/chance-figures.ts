// What the chance part shows: the job asked for, or the last of this revision, or none yet.
import type { ChanceFigures, ChanceOutcomeFigures } from '#views/chance/figures.ts'
import type { PageContext } from '#web/forms/answer.tsx'
import { readyWorkersSoon } from '#web/forms/course-workers.ts'
import { type Job, jobShown } from '#web/forms/jobs.ts'
import { chanceJob, knownChance, lastChance, type RevisedPlan, type RunChoices } from './chance-run.ts'

export interface NamedPlan extends RevisedPlan {
  name: string
}

const opening: RunChoices = { paths: 1_000, seed: 1, from: 'chance' }

export const fromTyped = (text: string): RunChoices['from'] => (text === 'history' ? 'history' : 'chance')

/** The chance part for the Runway page and for this one: the job asked for, or the last of this revision. */
export function chanceFigures(c: PageContext, current: NamedPlan): ChanceFigures {
  readyWorkersSoon()
  const named = chanceJob(c.req.query('job') ?? '')
  const isOfThisPlan = named?.key.startsWith(`${current.planId} `) ?? false
  const job = isOfThisPlan ? named : keptOf(current)
  const choices = { paths: String(opening.paths), seed: String(opening.seed), from: opening.from }
  return figuresOf(current, job ? choicesOfKey(job.key) : choices, job)
}

/** The last job of this revision, or the opening one, unless it was stopped or failed. */
function keptOf(current: NamedPlan): Job<ChanceOutcomeFigures> | undefined {
  const isKept = (job: Job<ChanceOutcomeFigures> | undefined) =>
    job?.state.status === 'running' || job?.state.status === 'done'
  const last = lastChance(current)
  if (isKept(last)) return last
  const known = knownChance(current, opening)
  return isKept(known) ? known : undefined
}

/** A key ends in from, paths and seed. */
function choicesOfKey(key: string): ChanceFigures['choices'] {
  const [from, paths, seed] = key.split(' ').slice(-3)
  return { from: fromTyped(from!), paths: paths!, seed: seed! }
}

export function figuresOf(
  current: NamedPlan,
  choices: ChanceFigures['choices'],
  job: Job<ChanceOutcomeFigures> | undefined,
): ChanceFigures {
  return {
    planName: current.name,
    revisionNo: current.revisionNo,
    choices,
    run: jobShown(job, (outcome) => outcome),
  }
}
