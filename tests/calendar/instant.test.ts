import { expect, test } from 'vitest'
import { timeNameIn } from '#calendar/instant.ts'

test('an instant is told in the time of its place, daylight saving too', () => {
  const here = timeNameIn('America/New_York')
  // In 2026 daylight saving time ends on November 1 at 6:00 of universal time (15 U.S.C. 260a: the first Sunday of November, 2:00 a.m.).
  expect(here('2026-11-01T05:59:00Z')).toBe('Nov 1, 2026, 1:59 AM EDT')
  expect(here('2026-11-01T06:00:00Z')).toBe('Nov 1, 2026, 1:00 AM EST')
  // The evening of one day is the night of the next in universal time.
  expect(here('2027-01-01T01:30:00.000Z')).toBe('Dec 31, 2026, 8:30 PM EST')
  expect(timeNameIn('America/Denver')('2026-07-04T18:00:00Z')).toBe('Jul 4, 2026, 12:00 PM MDT')
  expect(timeNameIn('UTC')('2026-03-15T00:05:00Z')).toBe('Mar 15, 2026, 12:05 AM UTC')
})
