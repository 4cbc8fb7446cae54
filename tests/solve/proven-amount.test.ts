// A sum that is told has been run: below it and above it a course may be good where at it it is not, since a little more income takes it
// off a credit or off Medicaid. Courses of our own invention, each by the sums at which it is good.
import { expect, test } from 'vitest'
import type { ThresholdTask } from '#chance/by-path/thresholds.ts'
import type { CourseRun } from '#chance/course-run.ts'
import { closeIn, provenAmount } from '#solve/closing-in.ts'
import { courses } from './asking.ts'

type Good = (sum: number) => boolean

/** Thresholds as they are read off a course: the first good sum, a hundred at a time; asked of one sum alone, whether that is good. */
const told = (all: readonly Good[]) => ({
  ...courses,
  thresholds: async (_: CourseRun, { from, to }: ThresholdTask) =>
    Float64Array.from(all, (isGood) => {
      for (let sum = from; sum <= to; sum += 100) if (isGood(sum)) return sum
      return Number.POSITIVE_INFINITY
    }),
})

const task: ThresholdTask = {
  dial: { kind: 'savings' },
  criterion: { kind: 'held', fromMonth: 0 },
  from: 0,
  to: 10_000,
  start: 0,
  step: 100,
  within: 100,
  moreIsBetter: true,
}

const found = async (all: readonly Good[], counts?: (path: number) => boolean) => {
  const about = { courses: told(all), confidence: 0.9 }
  const run = { paths: all.length } as CourseRun
  const thresholds = await closeIn(about, run, task, {}, counts)
  return provenAmount(about, run, task, thresholds, {}, counts)
}

const from =
  (least: number): Good =>
  (sum) =>
    sum >= least
const never: Good = () => false
/** Good from 400 on, but for the sums with which Medicaid is lost and the credit not yet had. */
const offMedicaid: Good = (sum) => sum >= 400 && (sum < 900 || sum >= 1_800)

test('nine in ten are good at the sum told, where one is not good at what its threshold says', async () => {
  const courses = [...Array.from({ length: 8 }, () => from(1_000)), offMedicaid, never]
  const { value, low, high } = await found(courses)
  // Read off the thresholds: 1,000, at which eight are good.
  expect(courses.filter((isGood) => isGood(1_000))).toHaveLength(8)
  expect(courses.filter((isGood) => isGood(value))).toHaveLength(9)
  expect(value).toBeGreaterThanOrEqual(1_800)
  expect(value).toBeLessThanOrEqual(2_600)
  expect(low).toBeLessThanOrEqual(value)
  expect(high).toBeGreaterThanOrEqual(value)
})

test('of a hundred courses not three may be missing of the nine in ten', async () => {
  const courses = [
    ...Array.from({ length: 87 }, () => from(1_000)),
    ...Array.from({ length: 3 }, () => offMedicaid),
    ...Array.from({ length: 10 }, () => never),
  ]
  // Read off the thresholds: 1,000, at which 87 are good.
  expect(courses.filter((isGood) => isGood(1_000))).toHaveLength(87)
  const { value } = await found(courses)
  expect(courses.filter((isGood) => isGood(value))).toHaveLength(90)
})

test('what thresholds say stays where it holds, and courses that do not count are not asked', async () => {
  const courses = [...Array.from({ length: 9 }, () => from(1_000)), never]
  expect((await found(courses)).value).toBe(1_000)
  const counts = (path: number) => path < 9
  expect((await found([...Array.from({ length: 9 }, () => from(700)), never, never], counts)).value).toBe(700)
})

test('no sum is told where none of those above is good often enough', async () => {
  const once: Good = (sum) => sum === 800
  const courses = [...Array.from({ length: 8 }, () => from(1_000)), once, never]
  expect((await found(courses)).value).toBe(Number.POSITIVE_INFINITY)
})
