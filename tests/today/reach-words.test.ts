// What Now says of how far the books reach, for a household of five accounts that read a file in and sorted nothing of it.
import { expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { month } from '#calendar/month.ts'
import { cents } from '#money/cents.ts'
import { reachWords } from '#today/now/reach-words.ts'

type Told = Parameters<typeof reachWords>[0]

const told = (accounts: readonly string[], waiting: number): Told =>
  ({
    reach: {
      day: day('2026-10-31'),
      isByHand: false,
      laterByHand: null,
      accounts,
      missingMonths: 1,
      gaps: [],
    },
    month: month(2026, 12),
    plan: { status: 'none' },
    spendable: { waiting: { lines: waiting, cents: cents(0) } },
    behind: [],
    farmGaps: [],
    loansUntold: [],
  }) as unknown as Told

const five = ['Checking', 'Savings', 'Card', 'Envelope', 'Second card']

test('of many accounts two are named and the others counted, in a sentence that reads', () => {
  expect(reachWords(told(five, 0))).toContain(
    'Of “Checking”, “Savings” and 3 more accounts nothing is read, reconciled or closed in it. Where nothing happened, close it.',
  )
  expect(reachWords(told(five.slice(0, 3), 0)).join(' ')).toContain(
    'Of “Checking”, “Savings”, and “Card” nothing is read',
  )
})

test('what was read in and waits is not called unread', () => {
  const says = reachWords(told(five, 153)).join(' ')
  expect(says).toContain('nothing is sorted, reconciled or closed in it.')
  expect(says).toContain('153 transactions of the household are read in and wait to be sorted')
  expect(says).not.toContain('nothing is read')
})
