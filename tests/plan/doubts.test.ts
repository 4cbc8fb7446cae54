import { expect, test } from 'vitest'
import { doubtsOf, newDoubts } from '#plan/doubts.ts'
import { type PlanInput, planSchema } from '#plan/plan.ts'

const plan = (parts: Partial<PlanInput>) => planSchema.parse({ startMonth: '2026-06', ...parts })
const at = (parts: Partial<PlanInput>) =>
  doubtsOf(plan(parts), '2026-11-25').map(({ path, asks }) => `${path.join('.')}${asks ? '?' : ''}`)
const phases = (...months: string[]) => ({
  farm: { phases: months.map((from, place) => ({ from, name: `Phase ${place}` })) },
})

test('an adult is born by today; a child may be born later', () => {
  const [ida, ole] = [
    { id: 'ida', name: 'Ida', born: '1980-04-02' },
    { id: 'ole', name: 'Ole', born: '2026-11-26' },
  ]
  expect(at({ household: { people: [ida, ole] } })).toEqual(['household.people.1.born'])
  expect(at({ household: { people: [ida], dependants: [ole] } })).toEqual([])
})

test('two phases do not begin in one month, and a phase that another follows before the plan begins is over', () => {
  expect(at(phases('2030-01', '2035-01'))).toEqual([])
  expect(at(phases('2030-01', '2030-01'))).toEqual(['farm.phases.1.from'])
  expect(at(phases('2020-01', '2026-06'))).toEqual(['farm.phases.0.from'])
})

test('a phase in which the plan begins is asked about: it may be so', () => {
  expect(at(phases('2020-01', '2026-07'))).toEqual(['farm.phases.0.from?'])
})

test('a bad year that is over by this month is refused', () => {
  const storm = (from: string, months: number) => ({
    storms: [{ id: 'dry', name: 'Dry well', from, months }],
  })
  expect(at(storm('2020-01', 12))).toEqual(['storms.0.from'])
  expect(at(storm('2026-06', 5))).toEqual(['storms.0.from'])
  expect(at(storm('2026-06', 6))).toEqual([])
})

test('two bad years, phases or markets of one name are refused, whatever their letters', () => {
  const storms = ['Dry well', 'dry well '].map((name, place) => ({ id: `s${place}`, name, from: '2028-01' }))
  expect(at({ storms })).toEqual(['storms.1.name'])
  const markets = ['Stand', 'Fair', 'STAND'].map((name, place) => ({ id: `m${place}`, name }))
  expect(at({ farm: { markets } })).toEqual(['farm.markets.2.name'])
})

test('what was doubtful before is no new doubt', () => {
  const before = plan(phases('2020-01', '2030-01', '2030-01'))
  const after = plan(phases('2020-01', '2030-01', '2030-01', '2030-01'))
  expect(newDoubts(before, before, '2026-11-25')).toEqual([])
  expect(newDoubts(after, before, '2026-11-25').map(({ path }) => path.join('.'))).toEqual([
    'farm.phases.3.from',
  ])
})
