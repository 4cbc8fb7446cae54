// The ways in which people write a length of work, and what is no length.
import { expect, test } from 'vitest'
import { minutesTyped } from '#farm/notebook/hours-typed.ts'

test('one hour and forty minutes is understood however it is written', () => {
  for (const typed of [
    '1h 40',
    '1 h 40 min',
    '1h40',
    '1h40m',
    '1 hour 40 minutes',
    '1 hr, 40 mins',
    '1:40',
    ' 1H 40 ',
    '100 min',
    '100 minutes',
    '100m',
  ])
    expect([typed, minutesTyped(typed)]).toEqual([typed, 100])
})

test('hours alone, with a part of an hour or without', () => {
  for (const [typed, minutes] of [
    ['1.5', 90],
    ['.75', 45],
    ['2', 120],
    ['2 h', 120],
    ['1.5 hrs', 90],
    ['0:20', 20],
    ['3 hours', 180],
    ['1:40 h', 100],
  ] as const)
    expect([typed, minutesTyped(typed)]).toEqual([typed, minutes])
})

test('what could be two things, or none, is no length', () => {
  for (const typed of [
    '',
    '1,5',
    '1h 75',
    '1:75',
    'h',
    'min',
    'all day',
    '1 40',
    '1h 40s',
    '-2',
    '1,5 h',
    '100 min 2 h',
  ])
    expect([typed, (minutesTyped(typed) ?? 0) > 0]).toEqual([typed, false])
})
