// In what a course of action is worse than the plan, by figures of twenty simulations written by hand: what decides comes first.
import { expect, test } from 'vitest'
import { type Ran, worseBy } from '#solve/standing.ts'

const courses = 20
/** The first so many of the courses have the one figure, all others the other. */
const first = (count: number, one: number, other: number) =>
  Float64Array.from({ length: courses }, (_, path) => (path < count ? one : other))
const never = Number.POSITIVE_INFINITY

/** Nothing unpaid in half of them, above the floor in half; what runs short does in month 30, and is below the floor from month 20. */
const ran = (change: Partial<Ran> = {}): Ran =>
  ({
    heldBy: first(10, 1, 0),
    aboveBy: first(10, 1, 0),
    leftBy: first(10, never, 20),
    shortBy: first(10, never, 30),
    ...change,
  }) as Ran

test('a course of action is worse first by bills unpaid, and one that pays more of them is not for what comes after', () => {
  expect(worseBy(ran(), ran())).toBe(null)
  // Ten of twenty turned: half more or less, with an error of √(10 − 100 ÷ 20) ÷ 20 = 0.11, is more than chance.
  expect(worseBy(ran({ heldBy: first(0, 1, 0) }), ran())).toBe('held')
  const below = { aboveBy: first(0, 1, 0), leftBy: first(0, never, 5) }
  expect(worseBy(ran({ ...below, heldBy: first(20, 1, 0) }), ran())).toBe(null)
  expect(worseBy(ran(below), ran())).toBe('floor')
  expect(worseBy(ran({ leftBy: first(10, never, 5) }), ran())).toBe('sooner')
  // One of twenty is chance.
  expect(worseBy(ran({ heldBy: first(9, 1, 0) }), ran())).toBe(null)
})

test('where most run short, money that lasts longer outweighs the floor, and money that runs short sooner is worse', () => {
  const poor = { heldBy: first(4, 1, 0), shortBy: first(4, never, 30) }
  const sooner = { ...poor, shortBy: first(4, never, 10) }
  expect(worseBy(ran(sooner), ran(poor))).toBe('short')
  const below = { aboveBy: first(0, 1, 0), leftBy: first(0, never, 5) }
  expect(worseBy(ran({ ...poor, ...below }), ran(sooner))).toBe(null)
  expect(worseBy(ran({ ...poor, ...below }), ran(poor))).toBe('floor')
  // Where half or more hold, the month in which the others run short decides nothing.
  expect(worseBy(ran({ shortBy: first(10, never, 10) }), ran())).toBe(null)
})
