// The saved plan drawn thin beside the one that goes on from it: run no further than is shown, it is the same line.
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { addMonths, month, monthText, parseMonth, yearOf } from '#calendar/month.ts'
import { dollarsOfTheYear } from '#runway/dollars/dollars.ts'
import { baselineBeside } from '#today/projection/courses.ts'
import { randomPlan } from '../runway/random-plan.ts'

test('through a year it is the whole line up to that December', () => {
  let shorter = 0
  fc.assert(
    fc.property(randomPlan(), (saved) => {
      const from = addMonths(parseMonth(saved.startMonth)!, 5)
      const ongoing = { ...saved, continuesFrom: monthText(from) }
      const through = yearOf(from) + 4
      // First, since a whole course that is known is taken for a part of it.
      const part = baselineBeside(saved, ongoing, dollarsOfTheYear, through)!
      const whole = baselineBeside(saved, ongoing, dollarsOfTheYear)!
      const last = monthText(month(through, 12))
      expect(part).toEqual(whole.filter((one) => one.month <= last))
      if (part.length < whole.length) shorter += 1
    }),
    { seed: 20261201, numRuns: 25 },
  )
  expect(shorter).toBeGreaterThan(10)
})
