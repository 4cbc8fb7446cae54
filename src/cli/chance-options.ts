// The options of chance on the command line: how many paths, which seed, how many workers; and the report of `project --paths`.
import { addMonths, type Month, monthName, monthText } from '#calendar/month.ts'
import { bandShares } from '#chance/bands.ts'
import type { CourseRun } from '#chance/course-run.ts'
import { factorSentences } from '#chance/factor-words.ts'
import type { Outcome, Spread } from '#chance/outcome.ts'
import { type ChanceResult, CoursePool, mostWorkers } from '#chance/pool.ts'
import { prepareChance } from '#chance/prepare.ts'
import { formatDollars, formatPercent } from '#money/format.ts'
import { ownYearsWords } from '#plan/place/premium-years.ts'
import type { Plan } from '#plan/plan.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { figuresSaid } from '#today/figures-said.ts'
import { CommandError, refuseWords } from './command.ts'

export const chanceOptionsHelp = `  --paths N      run N simulations of the plan (1 to 100000) and say in how many it holds
  --history      instead: one run for every starting year of published history
  --seed S       whole number that fixes chance; the same seed gives the same runs (1)
  --workers W    processors to use, no more than there are (all of them); the result does not depend on it`

/** For `parseArgs` of node:util. */
export const chanceOptionTypes = {
  paths: { type: 'string' },
  history: { type: 'boolean' },
  seed: { type: 'string' },
  workers: { type: 'string' },
} as const

export interface ChanceWords {
  paths?: string | undefined
  history?: boolean | undefined
  seed?: string | undefined
  workers?: string | undefined
}

export interface ChanceChoices {
  paths: number
  from: 'chance' | 'history'
  seed: number
  workers: number
}

/** Null when no chance run was asked for. Throws `CommandError` for what cannot be read. */
export function readChanceWords(words: ChanceWords): ChanceChoices | null {
  if (words.paths === undefined && !words.history) {
    refuseWords('Without --paths or --history nothing is simulated', words, ['seed', 'workers'])
    return null
  }
  if (words.history) refuseWords('--history makes one run a year', words, ['paths', 'seed'])
  return {
    paths: wholeOf(words.paths ?? '1000', '--paths', 1, 100_000),
    from: words.history ? 'history' : 'chance',
    seed: wholeOf(words.seed ?? '1', '--seed', 0, Number.MAX_SAFE_INTEGER),
    workers: workersOf(words.workers),
  }
}

/** As many as asked, so that one script serves machines with fewer processors; never more than there are. */
export const workersOf = (text: string | undefined): number =>
  text === undefined ? mostWorkers : Math.min(wholeOf(text, '--workers', 1, 1_024), mostWorkers)

export function wholeOf(text: string, option: string, least: number, most: number): number {
  const value = /^\d{1,16}$/.test(text) ? Number.parseInt(text, 10) : Number.NaN
  if (!(value >= least && value <= most))
    throw new CommandError(`${option} takes a whole number from ${least} to ${most}`, 2)
  return value
}

/** Runs the courses with its own workers, which it ends; gives JSON or lines for people. */
export async function chanceReport(plan: Plan, choices: ChanceChoices, json: boolean): Promise<string> {
  const run = prepare(plan, choices)
  const pool = new CoursePool(choices.workers)
  try {
    const result = await pool.run(run)
    const premiums = choices.from === 'chance' ? ownYearsWords(plan) : null
    return json
      ? JSON.stringify(figuresSaid({ ...chanceJson(result, run.plan.firstMonth), premiums }), null, 1)
      : [
          plan.name,
          '',
          ...chanceLines(result.outcome, run.plan.firstMonth),
          ...(premiums === null ? [] : ['', premiums]),
        ].join('\n')
  } finally {
    await pool.close()
  }
}

function prepare(plan: Plan, choices: ChanceChoices): CourseRun {
  if (choices.from === 'history' && plan.chance.markets === 'stated')
    throw new CommandError(
      'The plan simulates from stated figures. Choose a history for its simulated years to replay it',
    )
  const run = prepareChance(plan, publishedRules(plan), choices)
  if (run.paths > 0) return run
  throw new CommandError(
    `History has no ${run.plan.years} years in a row. Shorten the plan, or choose the longer history`,
  )
}

/** What `--json` prints of a chance run: the outcome with months as text, and the bands by month. */
function chanceJson(result: ChanceResult, firstMonth: number) {
  const month = (at: number) =>
    Number.isFinite(at) ? monthText(addMonths(firstMonth as Month, Math.round(at))) : null
  const bands = Array.from(result.running, (running, at) => {
    const [p10, p50, p90] = Array.from(
      result.bands.subarray(at * bandShares.length, (at + 1) * bandShares.length),
    )
    return { month: month(at), p10, p50, p90, running }
  })
  return { ...result.outcome, bands: bands.filter((band) => band.running > 0) }
}

/** The outcome in lines for people. */
function chanceLines(outcome: Outcome, firstMonth: number): string[] {
  const when = (at: number) =>
    Number.isFinite(at) ? monthName(addMonths(firstMonth as Month, Math.round(at))) : 'never'
  const months = (spread: Spread) => `${when(spread.p10)} · ${when(spread.p50)} · ${when(spread.p90)}`
  const dollars = (spread: Spread) =>
    `${formatDollars(spread.p10)} · ${formatDollars(spread.p50)} · ${formatDollars(spread.p90)}`
  const { held, aboveFloor } = outcome
  return [
    `${outcome.paths} simulations, seed ${outcome.seed}`,
    `The household never goes short in ${formatPercent(held.share, 1)} of them (standard error ${formatPercent(held.standardError, 2)}).`,
    `Savings never fall below the floor in ${formatPercent(aboveFloor.share, 1)} (standard error ${formatPercent(aboveFloor.standardError, 2)}).`,
    '',
    '10th, 50th and 90th percentile:',
    `  below the floor   ${months(outcome.monthsLeft)}`,
    `  first short       ${months(outcome.firstShortMonth)}`,
    `  carry month       ${months(outcome.carryMonth)}`,
    `  lowest savings    ${dollars(outcome.atFirstPrices.lowestSavings)} (first prices)`,
    `  left at the end   ${dollars(outcome.atFirstPrices.atEnd)} (first prices)`,
    '',
    ...factorSentences(outcome.badTenth),
  ]
}
