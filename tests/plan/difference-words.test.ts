import { expect, test } from 'vitest'
import { differences } from '#plan/difference.ts'
import { inWords } from '#plan/difference-words.ts'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import { fullPlans } from './full-plan.ts'

const plan = (parts: Partial<PlanInput>) => planSchema.parse({ startMonth: '2026-06', ...parts })
const between = (a: Partial<PlanInput>, b: Partial<PlanInput>) => differences(plan(a), plan(b)).map(inWords)

test('a difference says where by its titles and what by its unit', () => {
  const food = (perMonth: number, farmShare: number) => ({
    household: { living: [{ id: 'food', name: 'Food', perMonth, farmShare }] },
  })
  expect(between(food(900, 0), food(1950.5, 24 / 13 / 100))).toEqual([
    { where: 'Household, Living costs, food, A month', first: '$900', second: '$1,950.50' },
    { where: 'Household, Living costs, food, Share the farm replaces', first: '0%', second: '1.8462%' },
  ])
  expect(
    between({ draw: { policy: 'sweep', from: '2027-01' } }, { draw: { policy: 'sweep', from: '2028-03' } }),
  ).toEqual([{ where: 'Draws, From', first: 'January 2027', second: 'March 2028' }])
})

test('a part that comes is told by what it holds, without braces', () => {
  const storm = { id: 'dry', name: 'Dry well', from: '2028-01', salesShare: 0.4 }
  expect(between({}, { storms: [storm] })).toEqual([
    {
      where: 'Bad years, dry',
      first: 'nothing',
      second: 'Dry well; Begins: January 2028; Sales, of the expected: 40%',
    },
  ])
})

test('no difference of any two plans is told in JSON', () => {
  const [first, second] = [plan({}), ...fullPlans()]
  for (const other of [second!, ...fullPlans()])
    for (const row of differences(first!, other).map(inWords))
      for (const text of [row.first, row.second])
        expect([row.where, text]).not.toEqual([row.where, expect.stringMatching(/[{}[\]]|undefined|NaN/)])
})
