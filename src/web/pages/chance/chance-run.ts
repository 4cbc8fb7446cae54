// A chance run of the current plan as a job, and its outcome as the page and its JSON show it.

import { setImmediate as nextRound } from 'node:timers/promises'
import { bandShares } from '#chance/bands.ts'
import { factorSentences } from '#chance/factor-words.ts'
import type { Outcome, Spread } from '#chance/outcome.ts'
import type { ChanceResult } from '#chance/pool.ts'
import { prepareChance } from '#chance/prepare.ts'
import type { Plan } from '#plan/plan.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import { monthsLeftTo } from '#runway/compile/plan-of-day.ts'
import { rulesOf } from '#today/projection/courses.ts'
import type { BandPoint } from '#views/chance/figures.ts'
import { askedState, stateOf } from '#web/forms/asked/asked-state.ts'
import { courseWorkers } from '#web/forms/course-workers.ts'
import { type Job, JobBoard } from '#web/forms/jobs.ts'
import type { ProjectedPlan } from '#web/forms/with-plan.tsx'
import type { WebContext } from '#web/server/context.ts'

export interface RunChoices {
  paths: number
  seed: number
  from: 'chance' | 'history'
}

/** What a run came to, whichever dollars it is shown in. */
export interface ChanceOutcome {
  /** What was run: its expected course stands beside the simulations, whatever the plan has become since. */
  plan: Plan
  outcome: Outcome
  firstMonth: number
  from: RunChoices['from']
  bands: readonly BandPoint[]
  bandsAtFirstPrices: readonly BandPoint[]
  /** What the worst tenth have in common, in sentences. */
  worst: readonly string[]
}

const board = new JobBoard<ChanceOutcome>({ whenFull: 'stop the oldest' })

export const stopChance = (id: string): boolean => board.stop(id)

/** What the plan says and the last published law year stand for everything else a result depends on; so do the choices. */
const keyOf = (current: ProjectedPlan, { paths, seed, from }: RunChoices): string =>
  `${keyStart(current)}${[rulesOf(current.plan).lastPublishedYear, from, paths, seed].join(' ')}`

const keyStart = ({ planId, plan }: ProjectedPlan): string => `${planId} ${stateOf(plan)} `

export const knownChance = (current: ProjectedPlan, choices: RunChoices) =>
  board.find(keyOf(current, choices))

/** The job of a plan that its page shows: of the plan as it is before one of the plan as it was. */
export const foundChance = (current: ProjectedPlan, id: string) =>
  board.shown({
    id,
    isOfIt: ({ key }) => key.startsWith(`${current.planId} `),
    isNow: ({ key }) => key.startsWith(keyStart(current)),
  })

/** The newest outcome of a plan in whatever state, while the one of its state now is under way. */
export const lastChanceOfPlan = (planId: string) =>
  board.last(({ key, state }) => state.status === 'done' && key.startsWith(`${planId} `))

/** Why this plan cannot be run so, or null. */
export function refusalOf(plan: Plan, choices: RunChoices): string | null {
  if (choices.from === 'chance') return null
  if (plan.chance.markets === 'stated')
    return 'The plan simulates from stated figures: choose a history for its simulated years to replay one'
  return prepareChance(plan, rulesOf(plan), choices).paths > 0
    ? null
    : 'History has not so many years in a row: shorten the plan, or choose the longer history'
}

export function startChance(
  current: ProjectedPlan,
  choices: RunChoices,
  { books, log, today }: Pick<WebContext, 'books' | 'log' | 'today'>,
): Job<ChanceOutcome> {
  const { plan } = current
  return board.start({
    key: keyOf(current, choices),
    askedOn: today(),
    revisionNo: current.revisionNo,
    asked: askedState(books, current),
    of: choices.paths,
    failed: 'The simulations could not be run. The log of the server says more.',
    onFailure: (error) =>
      log.error({ error: (error as Error).name, stack: (error as Error).stack }, 'a chance run broke'),
    run: async (watch) => {
      // The page that asks goes out first: making it ready takes a fifth of the time that the first page after a start has.
      await nextRound(undefined, watch)
      const run = prepareChance(plan, rulesOf(plan), choices)
      const result = await courseWorkers().run(run, watch)
      return outcomeFigures(plan, run.plan, choices.from, result)
    },
  })
}

function outcomeFigures(
  plan: Plan,
  { firstMonth, leftFrom }: CompiledPlan,
  from: RunChoices['from'],
  result: ChanceResult,
): ChanceOutcome {
  const bandsOf = (cells: Float64Array): BandPoint[] => {
    const bands: BandPoint[] = []
    for (const [place, running] of result.running.entries()) {
      if (running === 0) break
      const [p10, p50, p90] = cells.subarray(place * bandShares.length, (place + 1) * bandShares.length)
      bands.push({ month: firstMonth + place, p10: p10!, p50: p50!, p90: p90!, running })
    }
    return bands
  }
  return {
    plan,
    outcome: { ...result.outcome, monthsLeft: countedFrom(result.outcome.monthsLeft, leftFrom) },
    firstMonth,
    from,
    bands: bandsOf(result.bands),
    bandsAtFirstPrices: bandsOf(result.bandsAtFirstPrices),
    worst: factorSentences(result.outcome.badTenth),
  }
}

/** A simulation counts from its first month, a page from today's. */
const countedFrom = (left: Spread, from: number): Spread => {
  const counted = (month: number) => monthsLeftTo(month, from)
  return {
    p10: counted(left.p10),
    p50: counted(left.p50),
    p90: counted(left.p90),
    medianLow: counted(left.medianLow),
    medianHigh: counted(left.medianHigh),
  }
}
