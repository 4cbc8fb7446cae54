// The simulations behind the headline of Now: they run by themselves when books or plan have changed, and no page waits for them.
import type { ChanceNow } from '#views/now/figures.ts'
import type { PageContext } from '#web/forms/answer.tsx'
import { type PlanToday, type ProjectedPlan, projected } from '#web/forms/with-plan.tsx'
import { knownChance, lastChanceOfPlan, type RunChoices, startChance } from '../chance/chance-run.ts'

const choices: RunChoices = { paths: 1_000, seed: 1, from: 'chance' }

export function chanceNow(c: PageContext, current: PlanToday): ChanceNow {
  const { simulates } = c.var.web
  const plan = projected(current)
  const known = knownChance(plan, choices)
  const job = known ?? (simulates ? startChance(plan, choices, c.var.web) : undefined)
  const isRunning = job?.state.status === 'running'
  const shown = job?.state.status === 'done' ? job : isRunning ? lastChanceOfPlan(plan.planId) : undefined
  if (shown?.state.status !== 'done') return { isRunning, isOfBefore: false, outcome: null }
  const { outcome } = shown.state.result
  return {
    isRunning,
    isOfBefore: shown !== job,
    outcome: {
      runs: outcome.paths,
      oneInTen: wholeOrNull(outcome.monthsLeft.p10),
      middle: wholeOrNull(outcome.monthsLeft.p50),
      neverReach: Math.round(outcome.aboveFloor.share * outcome.paths),
    },
  }
}

/** What the simulations of a plan say one time in ten, null for savings that last; undefined where they were not run. */
export const oneInTenOf = (plan: ProjectedPlan): number | null | undefined => {
  const job = knownChance(plan, choices)
  return job?.state.status === 'done' ? wholeOrNull(job.state.result.outcome.monthsLeft.p10) : undefined
}

const wholeOrNull = (months: number): number | null => (Number.isFinite(months) ? Math.round(months) : null)
