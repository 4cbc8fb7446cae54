// Money in against money out with what stood there before: worked by hand.
import { expect, test } from 'vitest'
import { addMonths, month } from '#calendar/month.ts'
import { payback } from '#farm/payback.ts'

const january = month(2027, 1)

test('what stands there already is put in as its own month begins, not before, and comes back first', () => {
  // Worth 100 from March on; 60 comes in that month and 60 the next.
  const back = payback(january, Float64Array.of(0, 0, 60, 60), 0, 0, 0, { at: 2, worth: 100 })
  expect([...back.running]).toEqual([0, 0, -40, 20])
  expect([back.moneyIn, back.deepest, back.deepestMonth]).toEqual([100, -100, addMonths(january, 2)])
  expect([back.paidBack, back.monthsToPayBack]).toEqual([addMonths(january, 3), 3])
  // 60 and 60 less the 100, at no interest.
  expect(back.presentWorth).toBeCloseTo(20, 9)
})

test('what stands there only after the months looked at is nobody’s', () => {
  const back = payback(january, Float64Array.of(-30, 20, 20), 0, 0, 0, { at: 3, worth: 0 })
  expect([...back.running]).toEqual([-30, -10, 10])
  expect([back.moneyIn, back.deepest, back.monthsToPayBack]).toEqual([30, -30, 2])
})
