// Where one word tells several ways apart, a word that is none of them is told which there are.
import { expect, test } from 'vitest'
import { readPlan } from '#plan/upgrade.ts'

test('draws of no such kind are told the kinds there are', () => {
  const read = readPlan({ startMonth: '2027-01', draw: { policy: 'fixed', perMonth: 800 } })
  expect(read.ok ? [] : read.faults).toEqual([
    { path: 'draw.policy', message: 'Choose "steps", "ramp", "share", or "sweep"' },
  ])
})
