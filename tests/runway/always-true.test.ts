// What holds for every plan (the model's "always true" list), over random valid plans; `npm run fuzz` draws many more.
import fc from 'fast-check'
import { test } from 'vitest'
import { assertFuzz, fuzzLimit } from '../fuzz/batches.ts'
import { randomPlan } from './random-plan.ts'
import * as holds from './what-holds.ts'

/** A random plan under random shocks. */
const shocked = fc.tuple(randomPlan(), fc.integer({ min: 0, max: 1_000_000 }))
const upTo = (max: number, min = 0) => fc.integer({ min, max })

test('every month of household and farm balances to a millionth of a dollar, and nothing falls below zero', {
  timeout: fuzzLimit(120_000),
}, async () => {
  await assertFuzz(
    fc.property(shocked, ([plan, start]) => holds.everyMonthBalances(plan, start)),
    0.1,
    4000,
  )
})

test('planned draws are paid or unmet, more is drawn only to hold the floor, and no draw takes farm cash below its reserve', {
  timeout: fuzzLimit(),
}, async () => {
  await assertFuzz(
    fc.property(shocked, ([plan, start]) => holds.drawsAreOfSpareCash(plan, start)),
    0.03,
    2000,
  )
})

test('shocks that change nothing give the expected course', { timeout: fuzzLimit() }, async () => {
  await assertFuzz(
    fc.property(randomPlan(), (plan) => holds.noShocksAreTheExpectedCourse(plan)),
    0.01,
    500,
  )
})

test('running a plan twice in the same buffers gives the same course', { timeout: fuzzLimit() }, async () => {
  await assertFuzz(
    fc.property(randomPlan(), (plan) => holds.buffersForgetTheLastRun(plan)),
    0.015,
    500,
  )
})

test('more savings never shorten the runway (no tax, surplus kept spendable, savings that do not lose)', {
  timeout: fuzzLimit(),
}, async () => {
  await assertFuzz(
    fc.property(randomPlan({ method: 'none' }), upTo(200_000, 1), holds.moreSavingsNeverShorten),
    0.025,
    1000,
  )
})

test('a higher floor never lengthens the runway', { timeout: fuzzLimit() }, async () => {
  await assertFuzz(
    fc.property(randomPlan(), upTo(60_000), upTo(60_000), holds.aHigherFloorNeverLengthens),
    0.02,
    1000,
  )
})

test('a plan without law with every amount doubled doubles every dollar', {
  timeout: fuzzLimit(),
}, async () => {
  await assertFuzz(
    fc.property(randomPlan({ method: 'share' }), (plan) => holds.doubledDoubles(plan)),
    0.015,
    1000,
  )
})
