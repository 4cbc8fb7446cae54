import { expect, test } from 'vitest'
import { monthText } from '#calendar/month.ts'
import { birthMonthByLaw, medicareStart } from '#rules/age-by-law.ts'

test('an age is reached on the day before the birthday: born on the first is a month ahead', () => {
  expect(monthText(birthMonthByLaw('1961-06-02'))).toBe('1961-06')
  expect(monthText(birthMonthByLaw('1961-06-01'))).toBe('1961-05')
  expect(monthText(birthMonthByLaw('1961-01-01'))).toBe('1960-12')
})

test('Medicare begins with the month in which 65 is reached', () => {
  expect(monthText(medicareStart('1961-06-30'))).toBe('2026-06')
  expect(monthText(medicareStart('1961-06-01'))).toBe('2026-05')
})
