// All that holds for every plan, on the same random plans: `npm run fuzz -- plans` for 300 of a seed that changes each time and is printed.
import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Plan } from '#plan/plan.ts'
import { randomPlan } from './random-plan.ts'
import * as holds from './what-holds.ts'

const { RANDOM_PLANS, RANDOM_PLANS_SEED } = process.env
/** In the test command a few of the day's; more of the day's stand in the tests of each property. */
const count = Number(RANDOM_PLANS ?? 3)
const seed = Number(RANDOM_PLANS_SEED ?? new Date().toISOString().slice(0, 10).replaceAll('-', ''))

const properties: Record<string, (plan: Plan, place: number) => void> = {
  'every month balances': holds.everyMonthBalances,
  'draws are of spare cash': holds.drawsAreOfSpareCash,
  'no draw is put back within the year': holds.noDrawIsPutBack,
  'no shocks are the expected course': holds.noShocksAreTheExpectedCourse,
  'buffers forget the last run': holds.buffersForgetTheLastRun,
  'more savings never shorten': (plan, place) => holds.moreSavingsNeverShorten(plan, 1 + 613 * place),
  'a higher floor never lengthens': (plan, place) =>
    holds.aHigherFloorNeverLengthens(plan, 101 * place, 60_000 - 97 * place),
  'doubled doubles': holds.doubledDoubles,
  'the second writing agrees to the cent': (plan) => expect(holds.firstDifference(plan)).toBe(null),
}

test(`${count} random plans of seed ${seed}: all that holds for every plan`, {
  timeout: 60_000 + count * 60_000,
}, () => {
  const broken: string[] = []
  for (const [place, plan] of fc.sample(randomPlan(), { numRuns: count, seed }).entries())
    for (const [name, holdsFor] of Object.entries(properties))
      try {
        holdsFor(plan, place)
      } catch (error) {
        broken.push(`plan ${place} of seed ${seed}, ${name}: ${(error as Error).message.slice(0, 300)}`)
      }
  expect(broken).toEqual([])
})
