// Payees that went to several places, told apart as a person would: by the sum to the cent, about the sum, the day, a number in the text.
import { expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { type EarlierLine, habitOf } from '#ledger/statements/habits.ts'
import { suggester } from '#ledger/statements/proposals.ts'
import type { SortingRule, SortingTarget } from '#ledger/statements/sorting.ts'
import { cents } from '#money/cents.ts'

const place = (accountId: number): SortingTarget => ({ kind: 'account', accountId, enterpriseId: null })
const feed = place(50)
const pets = place(51)

const line = (
  on: string,
  dollars: number,
  went: EarlierLine['went'],
  text = 'VALLEY FARM STORE',
): EarlierLine => ({
  accountId: 1,
  day: day(on),
  amount: cents(Math.round(dollars * -100)),
  text,
  went,
})
const next = (on: string, dollars: number, text = 'VALLEY FARM STORE') => line(on, dollars, 'other', text)

test('an insurer of car and barn is told apart by the sum to the cent', () => {
  const habit = habitOf([
    line('2026-03-20', 212.4, feed),
    line('2026-03-05', 96.1, pets),
    line('2026-02-20', 212.4, feed),
    line('2026-02-05', 96.1, pets),
  ])
  expect(habit(next('2026-04-07', 96.1))).toMatchObject({
    target: pets,
    clue: 'same amount',
    times: 2,
    of: 2,
    isVaried: true,
  })
  expect(habit(next('2026-04-07', 212.4))).toMatchObject({ target: feed, places: [feed, pets] })
})

test('large sums and small ones of a store that sells everything go where the like went', () => {
  const habit = habitOf(
    [148, 22, 131, 19, 160, 25, 142, 21].map((dollars, at) =>
      line(`2026-0${8 - at}-1${at}`, dollars, dollars > 100 ? feed : pets),
    ),
  )
  expect(habit(next('2026-09-03', 120))).toMatchObject({ target: feed, clue: 'amount', times: 4, of: 4 })
  expect(habit(next('2026-09-03', 27))).toMatchObject({ target: pets, clue: 'amount' })
})

test('deposits of Mondays and of Thursdays are told apart by the day where their sums say nothing', () => {
  const days = ['02', '05', '09', '12', '16', '19', '23', '26']
  const earlier = days
    .map((date, at) => line(`2026-03-${date}`, 200 + ((at * 37) % 50), at % 2 === 0 ? feed : pets))
    .reverse()
  // March 2, 2026 is a Monday.
  expect(habitOf(earlier)(next('2026-03-30', 231))?.target).toEqual(feed)
  expect(habitOf(earlier)(next('2026-04-02', 231))?.target).toEqual(pets)
})

test('a contract’s number in the text tells, whatever the sum', () => {
  const habit = habitOf([
    line('2026-04-01', 71, feed, 'COUNTY TELEPHONE 5512'),
    line('2026-03-11', 88, pets, 'COUNTY TELEPHONE 8830'),
    line('2026-03-01', 90, feed, 'COUNTY TELEPHONE 5512'),
    line('2026-02-11', 70, pets, 'COUNTY TELEPHONE 8830'),
  ])
  expect(habit(next('2026-05-02', 89, 'COUNTY TELEPHONE 5512'))).toMatchObject({
    target: feed,
    clue: 'words',
  })
})

test('what was split or skipped is no place to propose, and nothing but that proposes nothing', () => {
  expect(habitOf([line('2026-01-01', 5, 'other')])(next('2026-02-01', 5))).toBeNull()
  const habit = habitOf([line('2026-02-01', 5, 'other'), line('2026-01-01', 5, feed)])
  expect(habit(next('2026-03-01', 5))).toMatchObject({ target: feed, isVaried: true, places: [feed] })
})

const rule = (fields: Partial<SortingRule>): SortingRule => ({
  id: 'r',
  matchKind: 'equals',
  matchText: 'valley farm store',
  onAccountId: 1,
  sign: 'out',
  minimum: null,
  maximum: null,
  target: feed,
  priority: 0,
  learned: true,
  lastUsedAt: null,
  ...fields,
})

test('one place is sure, unless the sum is far above all before; another account and money back are to be checked', () => {
  const suggest = suggester([rule({})], [line('2026-02-01', 40, feed), line('2026-01-01', 30, feed)])
  expect(suggest(next('2026-03-01', 55))).toMatchObject({ isSure: true, habit: { clue: 'always', times: 2 } })
  expect(suggest(next('2026-03-01', 400))).toMatchObject({ isSure: false, habit: { isMuch: true } })
  expect(suggest({ ...next('2026-03-01', 55), accountId: 2 })).toMatchObject({
    isSure: false,
    proposal: { how: 'elsewhere', target: feed },
  })
  expect(suggest(next('2026-03-01', -55))).toMatchObject({
    isSure: false,
    proposal: { how: 'back', target: feed },
  })
  expect(suggest({ ...next('2026-03-01', 55), accountId: 50 })).toBeNull()
})

test('a rule written by hand says all: habits do not speak beside it', () => {
  const suggest = suggester([rule({ learned: false, target: pets })], [line('2026-02-01', 40, feed)])
  expect(suggest(next('2026-03-01', 40))).toMatchObject({
    habit: null,
    isSure: true,
    proposal: { target: pets },
  })
})
