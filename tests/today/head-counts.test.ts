// A flock of our own invention that goes on from its heads as they were counted in the notebook.
import { afterEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { month } from '#calendar/month.ts'
import { logChange } from '#db/change-log.ts'
import { headTallies } from '#db/notebook/schema-notes.ts'
import { atomically } from '#db/once.ts'
import { farmCourse } from '#farm/course.ts'
import { herdSchema } from '#farm/herd/herd-document.ts'
import { readPlan } from '#plan/upgrade.ts'
import { continuedPlan } from '#today/projection/continued-plan.ts'
import { countedHerds } from '#today/projection/head-counts.ts'
import { type TestApp, testApp } from '../web/test-app.ts'

let app: TestApp | undefined
afterEach(() => {
  app?.close()
  app = undefined
})

const ewes = {
  id: 'ewes',
  name: 'Ewes',
  kind: 'sheep' as const,
  start: '2026-01',
  breedingFemales: 10,
  carryingLimit: 10,
  ownedAlready: true,
}
const herd = herdSchema.parse(ewes)
const counted = (headClass: 'females' | 'young' | 'males', count: number, on: string, of = 'ewes') => ({
  herdId: of,
  kind: 'counted' as const,
  headClass,
  count,
  day: day(on),
})

test('the last count stands as the nearer month begins, with what was counted of the other heads by then', () => {
  const counts = (...tallies: ReturnType<typeof counted>[]) => countedHerds([herd], tallies)[0]!.counts
  expect(counts()).toEqual([])
  expect(counts(counted('females', 7, '2026-11-15'))).toEqual([{ month: '2026-11', breedingFemales: 7 }])
  expect(counts(counted('females', 7, '2026-11-16'))).toEqual([{ month: '2026-12', breedingFemales: 7 }])
  expect(
    counts(
      counted('females', 9, '2026-05-02'),
      counted('young', 14, '2026-05-02'),
      counted('females', 8, '2026-11-20'),
      counted('males', 1, '2026-12-03'),
      counted('females', 40, '2026-12-04', 'hens'),
    ),
  ).toEqual([{ month: '2026-12', breedingFemales: 8, males: 1 }])
  // Young alone say nothing of the flock that bears them.
  expect(counts(counted('young', 14, '2026-05-02'))).toEqual([])
})

test('a count of the plan stays, unless it is of the same month', () => {
  const told = herdSchema.parse({
    ...ewes,
    counts: [
      { month: '2026-06', breedingFemales: 9 },
      { month: '2026-12', breedingFemales: 6 },
    ],
  })
  expect(countedHerds([told], [counted('females', 8, '2026-11-20')])[0]!.counts).toEqual([
    { month: '2026-06', breedingFemales: 9 },
    { month: '2026-12', breedingFemales: 8 },
  ])
})

test('the plan of the day goes on from what the notebook counted', () => {
  app = testApp({ today: '2026-12-10' })
  app.openSides()
  const read = readPlan({
    planVersion: 4,
    startMonth: '2026-01',
    household: { living: [{ id: 'living', name: 'Living', perMonth: 1000 }] },
    farm: { cash: 1000, herds: [ewes] },
    tax: { method: 'none' },
  })
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  app.savePlan(read.plan)
  const { books } = app
  const ongoing = () => continuedPlan(books, read.plan, day('2026-12-10')).plan
  expect(ongoing().farm.herds[0]!.counts).toEqual([])
  atomically(books, () => {
    books.db
      .insert(headTallies)
      .values({
        id: 'tally',
        day: day('2026-12-01'),
        herdId: 'ewes',
        kind: 'counted',
        headClass: 'females',
        count: 6,
        recordedAt: '2026-12-01T08:00:00Z',
      })
      .run()
    logChange(
      books,
      { at: '2026-12-01T08:00:00Z', actor: 'test' },
      { kind: 'heads.noted', subject: 'tally', summary: 'Heads were counted' },
    )
    return { ok: true }
  })
  const { farm } = ongoing()
  expect(farm.herds[0]!.counts).toEqual([{ month: '2026-12', breedingFemales: 6 }])
  expect(farmCourse(farm, month(2026, 12), 1).herds[0]!.breedingFemales[0]).toBeLessThan(7)
})
