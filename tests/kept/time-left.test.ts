// How much longer work takes, in words.
import { expect, test } from 'vitest'
import { sayTimeLeft } from '#kept/time-left.ts'

test.each([
  [0.2, 'About 1 second left.'],
  [1.4, 'About 1 second left.'],
  [1.6, 'About 2 seconds left.'],
  [89, 'About 89 seconds left.'],
  [90, 'About 2 minutes left.'],
])('%s seconds', (seconds, says) => {
  expect(sayTimeLeft(seconds)).toBe(says)
})
