// A month of a standing transfer that was posted and taken back is due again, for a person: never posted by itself, posted or let pass by a press.
import { randomUUID } from 'node:crypto'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { month } from '#calendar/month.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { postCrossing } from '#db/ledger/crossing-store.ts'
import type { Books } from '#db/open.ts'
import { monthStates } from '#db/transfers/standing-settled.ts'
import {
  dueTransfers,
  postDueTransfers,
  postOccurrence,
  skipOccurrence,
  startStanding,
} from '#db/transfers/standing-store.ts'
import { listActs, undoChange } from '#db/undo.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { cents } from '#money/cents.ts'
import { freshBooks } from './fresh-books.ts'

let books: Books
let standingId: string
const today = day('2026-03-20')
const act = () => ({ formId: randomUUID(), at: '2026-03-20T12:00:00.000Z', actor: 'test' })
const id = (name: string) => listAccounts(books).find((one) => one.name === name)!.id
const houseHas = () => balancesOn(books).get(id('Household checking')) ?? 0
const due = () => dueTransfers(books, today).map((one) => [one.month, one.wasTakenBack])
const lastAct = () => listActs(books).find((one) => !one.isTakenBack)!
const takeBackLast = () => expect(undoChange(books, act(), lastAct().id, today).ok).toBe(true)
const [february, march] = [month(2026, 2), month(2026, 3)]

const start = (posting: 'automatic' | 'confirm') => {
  const made = startStanding(books, act(), {
    name: 'Draw of the month',
    kind: 'draw',
    fromAccountId: id('Farm checking'),
    toAccountId: id('Household checking'),
    amountCents: cents(70_000),
    dayOfMonth: 10,
    firstMonth: february,
    lastMonth: null,
    posting,
    memo: '',
  })
  if (!made.ok) throw new Error(JSON.stringify(made.problems))
  standingId = made.result.standingId
}

beforeEach(() => {
  books = freshBooks()
})
afterEach(() => {
  expect(verifyBooks(books.sqlite).findings).toEqual([])
  books.close()
})

test('posted by hand and reversed it is due again, and posted anew it stands once', () => {
  start('confirm')
  expect(due()).toEqual([
    [february, false],
    [march, false],
  ])
  expect(postOccurrence(books, act(), standingId, february).ok).toBe(true)
  expect([due(), houseHas()]).toEqual([[[march, false]], 70_000])
  takeBackLast()
  expect(houseHas()).toBe(0)
  expect(due()).toEqual([
    [february, true],
    [march, false],
  ])
  for (const repeated of [false, true])
    expect(postOccurrence(books, act(), standingId, february)).toMatchObject({ ok: true, repeated })
  expect([due(), houseHas()]).toEqual([[[march, false]], 70_000])
  // And once more: three postings, of which the last stands.
  takeBackLast()
  expect(due()[0]).toEqual([february, true])
  expect(postOccurrence(books, act(), standingId, february).ok).toBe(true)
  expect([due(), houseHas()]).toEqual([[[march, false]], 70_000])
})

test('let pass after it was reversed it is not due, until the skip is reversed too', () => {
  start('confirm')
  postOccurrence(books, act(), standingId, february)
  takeBackLast()
  for (const repeated of [false, true])
    expect(skipOccurrence(books, act(), standingId, february)).toMatchObject({ ok: true, repeated })
  expect(due()).toEqual([[march, false]])
  expect(postOccurrence(books, act(), standingId, february).ok).toBe(false)
  takeBackLast()
  expect(due()[0]).toEqual([february, true])
})

test('an automatic one that was reversed is never posted by itself again', () => {
  start('automatic')
  postDueTransfers(books, act(), today)
  expect(houseHas()).toBe(140_000)
  takeBackLast()
  expect(postDueTransfers(books, act(), today).posted).toEqual([])
  expect([due(), houseHas()]).toEqual([[[march, true]], 70_000])
  expect([...monthStates(books, standingId)]).toEqual([
    [february, 'posted'],
    [march, 'reversed'],
  ])
})

test('what came by the bank’s file or by hand with its terms is asked about, one month each, and never posted by itself', () => {
  start('automatic')
  const crossing = (on: string, amount = 70_000) => {
    const done = postCrossing(books, act(), {
      kind: 'draw',
      day: day(on),
      amountCents: cents(amount),
      fromAccountId: id('Farm checking'),
      toAccountId: id('Household checking'),
      memo: '',
    })
    if (!done.ok) throw new Error(JSON.stringify(done.problems))
  }
  // Two days after the tenth of February; another amount, and one eight days off, are other draws.
  crossing('2026-02-12')
  crossing('2026-03-09', 70_001)
  crossing('2026-03-18')
  const alike = () => dueTransfers(books, today).map((one) => [one.month, one.alikeOn])
  expect(alike()).toEqual([
    [february, '2026-02-12'],
    [march, null],
  ])
  postDueTransfers(books, act(), today)
  expect(alike()).toEqual([[february, '2026-02-12']])
  expect(houseHas()).toBe(70_000 + 70_001 + 70_000 + 70_000)
  // It is this one: nothing more is booked. What the transfer itself posted is like no other month.
  expect(skipOccurrence(books, act(), standingId, february).ok).toBe(true)
  expect(alike()).toEqual([])
  takeBackLast()
  takeBackLast()
  expect(alike()).toEqual([
    [february, '2026-02-12'],
    [march, null],
  ])
})
