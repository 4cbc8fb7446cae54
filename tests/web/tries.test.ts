// Wrong passphrases: four are free, then each wait is twice the one before, up to five minutes; who is right or another begins anew.
import { expect, test } from 'vitest'
import { slowedTries } from '#web/server/tries.ts'

test('the wait doubles with each wrong try after the fourth, up to five minutes, and goes by with the clock', () => {
  let at = 0
  const tries = slowedTries(() => at)
  const waits = Array.from({ length: 14 }, () => {
    tries.begin('attic')
    return tries.wait('attic')
  })
  expect(waits).toEqual([0, 0, 0, 0, 2, 4, 8, 16, 32, 64, 128, 256, 300, 300])
  expect(tries.wait('barn')).toBe(0)
  at = 299_001
  expect(tries.wait('attic')).toBe(1)
  at = 300_000
  expect(tries.wait('attic')).toBe(0)
  tries.right('attic')
  tries.begin('attic')
  expect(tries.wait('attic')).toBe(0)
})

test('a clock set back makes nobody wait longer than the wait', () => {
  let at = 1_000_000
  const tries = slowedTries(() => at)
  for (let wrong = 0; wrong < 6; wrong += 1) tries.begin('attic')
  at = 0
  expect(tries.wait('attic')).toBe(4)
})
