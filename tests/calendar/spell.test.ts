// Spells of months and ranges of figures in words.
import { expect, test } from 'vitest'
import { ageInWords, fromTo, nth, spell } from '#calendar/spell.ts'
import { formatDollars, formatRange } from '#money/format.ts'

test('a spell of months is said in years and what is left over, each one or many', () => {
  expect([0, 1, 11, 12, 13, 14, 24, 25, 36].map((months) => spell(months))).toEqual([
    '0 months',
    '1 month',
    '11 months',
    '1 year',
    '1 year and 1 month',
    '1 year and 2 months',
    '2 years',
    '2 years and 1 month',
    '3 years',
  ])
  expect([spell(35, 36), spell(37, 36), spell(5, 0)]).toEqual([
    '35 months',
    '3 years and 1 month',
    '5 months',
  ])
  expect([ageInWords({ years: 62, months: 1 }), ageInWords({ years: 67, months: 0 })]).toEqual([
    '62 and 1 month',
    '67',
  ])
})

test('a span of time whose ends are told alike is the one of them', () => {
  expect([fromTo('May 2026', 'July 2027'), fromTo('May 2026', 'May 2026')]).toEqual([
    'May 2026 to July 2027',
    'May 2026',
  ])
})

test('a range whose ends are told alike is one figure', () => {
  expect([formatRange(78.4, 78.4), formatRange(20, 45.5), formatRange(9.6, 10.4, formatDollars)]).toEqual([
    '78.4',
    '20 to 45.5',
    '$10',
  ])
})

test('a place in a row has the ending it is spoken with', () => {
  expect([1, 2, 3, 4, 11, 12, 13, 21, 22, 23, 111, 112, 101].map(nth)).toEqual([
    ...[
      '1st',
      '2nd',
      '3rd',
      '4th',
      '11th',
      '12th',
      '13th',
      '21st',
      '22nd',
      '23rd',
      '111th',
      '112th',
      '101st',
    ],
  ])
})
