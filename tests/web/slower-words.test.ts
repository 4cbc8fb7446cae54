// Sentences of the slower years, said of households unlike the sample.
import { expect, test } from 'vitest'
import { hoursBeside } from '#views/slower-years/answers.tsx'
import { sideInWords } from '#views/slower-years/slower-years.tsx'

test('a mix that takes more hours than the farm before it says so', () => {
  expect(hoursBeside({ hours: 1774, hoursToday: 1472 })).toBe(
    'more hours than before it, 1,774 instead of 1,472',
  )
  expect(hoursBeside({ hours: 1471, hoursToday: 1472 })).toBe('about as many hours as before it')
  expect(hoursBeside({ hours: 880, hoursToday: 1472 })).toBe('fewer hours')
})

test('side income that is the same each year has no year in which it is highest', () => {
  const from2026 = (...sides: number[]) => sides.map((side, at) => ({ year: 2026 + at, side }))
  expect(sideInWords(from2026(450, 5427, 5427.2, 5427))).toBe('Side income is $5,427 a year.')
  expect(sideInWords(from2026(5427, 5427.2, 6000, 6000, 500))).toBe(
    'Side income is highest in 2028 at $6,000 and has faded to a tenth by 2030.',
  )
  expect(sideInWords(from2026(0, 0))).toBe('')
})
