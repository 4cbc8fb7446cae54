// What the chance part shows: the job asked for, or the last of this revision, or none yet.
import type { Spread } from '#chance/outcome.ts'
import { seatsByChance } from '#farm/selling/seats.ts'
import { ownYearsWords } from '#plan/place/premium-years.ts'
import { type Dollars, pricesIn } from '#runway/dollars/dollars.ts'
import { projectionIn, projectionOf } from '#today/projection/courses.ts'
import type { ChanceFigures, ChanceOutcomeFigures } from '#views/chance/figures.ts'
import type { PageContext } from '#web/forms/answer.tsx'
import { sayAsked, saySince } from '#web/forms/asked/asked-state.ts'
import { readyWorkersSoon } from '#web/forms/course-workers.ts'
import { type JobFound, jobShown } from '#web/forms/jobs.ts'
import { dollarsOf } from '#web/forms/shown-dollars.ts'
import type { ProjectedPlan } from '#web/forms/with-plan.tsx'
import { type ChanceOutcome, foundChance, type RunChoices } from './chance-run.ts'

const opening: RunChoices = { paths: 1_000, seed: 1, from: 'chance' }

export const fromTyped = (text: string): RunChoices['from'] => (text === 'history' ? 'history' : 'chance')

/**
 * The chance part of a page: the job asked for, or the last of the plan as it is, or of the plan as it was. Where it stands `beside` what
 * the plan says now, only of the plan as it is.
 */
export function chanceFigures(
  c: PageContext,
  current: ProjectedPlan,
  { beside = false }: { beside?: boolean } = {},
): ChanceFigures {
  readyWorkersSoon()
  const found = foundChance(current, c.req.query('job') ?? '')
  const shown = beside && found?.before ? undefined : found
  const choices = { paths: String(opening.paths), seed: String(opening.seed), from: opening.from }
  return figuresOf(c, current, shown ? choicesOfKey(shown.job.key) : choices, shown)
}

/** A key ends in from, paths and seed. */
function choicesOfKey(key: string): ChanceFigures['choices'] {
  const [from, paths, seed] = key.split(' ').slice(-3)
  return { from: fromTyped(from!), paths: paths!, seed: seed! }
}

export function figuresOf(
  c: PageContext,
  current: ProjectedPlan,
  choices: ChanceFigures['choices'],
  found: JobFound<ChanceOutcome> | undefined,
): ChanceFigures {
  return {
    planName: current.name,
    revisionNo: current.revisionNo,
    choices,
    premiums: ownYearsWords(current.plan),
    seatsByChance: seatsByChance(current.plan.farm).map(
      ({ market }) => current.plan.farm.markets.find(({ id }) => id === market)!.name,
    ),
    run: jobShown(found?.job, (outcome) => shownIn(dollarsOf(c), outcome)),
    before: found?.before ? { ...found.before, since: saySince(c.var.web, found.job, current) } : null,
    asked: found && found.before === null ? sayAsked(found.job, current) : null,
  }
}

/** Today's dollars are each course's own: one in which prices rise fast is worth less in the end. */
const shownIn = (dollars: Dollars, result: ChanceOutcome): ChanceOutcomeFigures => {
  const { plan, outcome, bandsAtFirstPrices, ...rest } = result
  const { atFirstPrices, ...ofTheYear } = outcome
  const expected = projectionIn(plan, dollars).months.map((month) => month.spendable)
  if (dollars.of === 'year') return { ...rest, outcome: ofTheYear, expected }
  const level = pricesIn(projectionOf(plan), dollars).ofFirst(dollars.month)
  return {
    ...rest,
    outcome: {
      ...ofTheYear,
      lowestSavings: spreadTimes(atFirstPrices.lowestSavings, level),
      unmetNeed: spreadTimes(atFirstPrices.unmetNeed, level),
      atSlowerYear: atFirstPrices.atSlowerYear && spreadTimes(atFirstPrices.atSlowerYear, level),
      atEnd: spreadTimes(atFirstPrices.atEnd, level),
    },
    bands: bandsAtFirstPrices.map((band) => ({
      ...band,
      p10: band.p10 * level,
      p50: band.p50 * level,
      p90: band.p90 * level,
    })),
    expected,
  }
}

const spreadTimes = (spread: Spread, factor: number): Spread => ({
  p10: spread.p10 * factor,
  p50: spread.p50 * factor,
  p90: spread.p90 * factor,
  medianLow: spread.medianLow * factor,
  medianHigh: spread.medianHigh * factor,
})
