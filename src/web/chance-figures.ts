// What the chance part shows: the job asked for, or the last of this revision, or none yet.
import type { ChanceFigures, ChanceOutcomeFigures } from '#views/chance/figures.ts'
import type { PageContext } from './answer.tsx'
import { chanceJob, knownChance, type RevisedPlan, type RunChoices } from './chance-run.ts'
import { readyWorkersSoon } from './course-workers.ts'
import { type Job, jobShown } from './jobs.ts'

export interface NamedPlan extends RevisedPlan {
  name: string
}

const opening: RunChoices = { paths: 1_000, seed: 1, from: 'chance' }

/** The last job asked for of a plan's revision: what the pages show until another is asked for. */
const lastJob = new Map<string, string>()
const revisionKey = (current: NamedPlan): string => `${current.planId} ${current.revisionNo}`

export const rememberJob = (current: NamedPlan, id: string): void =>
  void lastJob.set(revisionKey(current), id)

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
  const last = chanceJob(lastJob.get(revisionKey(current)) ?? '')
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
