// An answer belongs to its plan and its seed: asked again, with other workers or none, it is the same to the last digit.
import { afterAll, expect, test, vi } from 'vitest'
import { CoursePool } from '#chance/pool.ts'
import { askQuestion } from '#solve/questions.ts'
import { farmPlan } from '../chance/plans.ts'
import { asking, courses } from './asking.ts'

// Workers are slow on a busy machine.
vi.setConfig({ testTimeout: 180_000 })

const pool = new CoursePool(2)
afterAll(() => pool.close())

test('equal seeds give equal answers, whoever works them out, and another seed does not', async () => {
  const ask = (by: typeof courses, seed: number) =>
    askQuestion('start-with', asking(farmPlan({}, 55), 12, { courses: by, seed }))
  const first = await ask(courses, 11)
  expect(await ask(courses, 11)).toEqual(first)
  expect(await ask(pool, 11)).toEqual(first)
  expect(await ask(courses, 12)).not.toEqual(first)
})
