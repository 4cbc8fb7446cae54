// A month beside the same month of the year before, reckoned by hand on books of our own.
import { expect, test } from 'vitest'
import { month } from '#calendar/month.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { moneyIn, moneyOut } from '#ledger/simple-entry.ts'
import { cents } from '#money/cents.ts'
import { againstLastYear } from '#today/month/against-last-year.ts'
import { act, done, freshBooks, on } from '../db/fresh-books.ts'

const books = freshBooks()
const post = (day: string, side: 'farm' | 'household', name: string, amount: number, isIn = false) => {
  const head = { id: '', sideId: side, day: on(day), payee: name, memo: '' }
  const bank = books.account(side, side === 'farm' ? 'Farm checking' : 'Household checking').id
  const lines = [{ accountId: books.account(side, name).id, amountCents: cents(amount) }]
  done(postEntry(books, act(), isIn ? moneyIn(head, bank, lines) : moneyOut(head, bank, lines)))
}
post('2025-10-03', 'household', 'Groceries', 30_000)
post('2025-10-04', 'farm', 'Feed', 10_000)
post('2026-09-04', 'farm', 'Feed', 99_900)
post('2026-10-03', 'household', 'Groceries', 35_000)
post('2026-10-20', 'household', 'Groceries', 1_000)
post('2026-10-04', 'farm', 'Feed', 12_000)
post('2026-10-11', 'farm', 'Vegetables and fruit sold', 80_000, true)

test('house out, farm in and farm costs stand beside those of the year before; what neither month had is left out', () => {
  const against = againstLastYear(books, month(2026, 10))!
  expect(against.otherMonth).toBe(month(2025, 10))
  expect(against.rows.map((row) => [row.name, row.cents, row.beforeCents])).toEqual([
    ['House, out', 36_000, 30_000],
    ['Farm, in', 80_000, 0],
    ['Farm, costs', 12_000, 10_000],
  ])
})

test('books that do not reach back a year say so, and before the books there is nothing', () => {
  const first = againstLastYear(books, month(2025, 10))!
  expect(first.otherMonth).toBeNull()
  expect(first.rows.every((row) => row.beforeCents === null)).toBe(true)
  expect(againstLastYear(books, month(2025, 9))).toBeNull()
})
