// What a year's measures know of loans: principal paid, whatever was lent in the same year.
import { expect, test } from 'vitest'
import { postEntry, voidEntry } from '#db/ledger/ledger-store.ts'
import { bookYears } from '#db/ledger/report-store.ts'
import { balanceSheet } from '#ledger/reports/balance-sheet.ts'
import { closingOf } from '#ledger/reports/book-year.ts'
import { cents } from '#money/cents.ts'
import { noExtras } from '../ledger/no-extras.ts'
import { act, done, freshBooks, on, type TestBooks } from './fresh-books.ts'

const booked = (books: TestBooks, day: string, lines: readonly [string, number][]) =>
  done(
    postEntry(books, act(), {
      sideId: 'farm',
      day: on(day),
      payee: '',
      memo: '',
      source: 'form',
      lines: lines.map(([name, amount]) => ({
        accountId: books.account('farm', name).id,
        amountCents: cents(amount),
      })),
    }),
  )

test('3,000 of principal is paid in a year in which 20,000 more is lent, and a payment reversed is not among it', () => {
  const books = freshBooks()
  booked(books, '2026-01-01', [
    ['Farm checking', 2_000_000],
    ['Term loan', -1_850_000],
    ['Opening balances', -150_000],
  ])
  booked(books, '2026-05-04', [
    ['Farm checking', 2_000_000],
    ['Term loan', -2_000_000],
  ])
  for (const month of ['02', '03', '04'])
    booked(books, `2026-${month}-05`, [
      ['Term loan', 100_000],
      ['Other interest', 11_100],
      ['Farm checking', -111_100],
    ])
  const twice = booked(books, '2026-06-05', [
    ['Term loan', 70_000],
    ['Farm checking', -70_000],
  ])
  done(voidEntry(books, act(), twice.entryId, on('2026-06-05')))
  const farm = bookYears(books, 2026).find((side) => side.kind === 'farm')!
  const row = (name: string) => farm.accounts.find(({ account }) => account.name === name)!
  expect(row('Term loan').paidDownCents).toBe(300_000)
  expect(row('Farm checking').paidDownCents).toBe(0)
  expect(bookYears(books, 2025).every((side) => side.accounts.every((one) => one.paidDownCents === 0))).toBe(
    true,
  )
})

test('books that begin on July 1: the year began with what was there then, and nothing of it was bought or lent in it', () => {
  const books = freshBooks()
  booked(books, '2026-07-01', [
    ['Farm checking', 900_000],
    ['Machinery and equipment', 2_100_000],
    ['Term loan', -1_850_000],
    ['Opening balances', -1_150_000],
  ])
  booked(books, '2026-08-02', [
    ['Machinery and equipment', 300_000],
    ['Farm checking', -300_000],
  ])
  const farm = bookYears(books, 2026).find((side) => side.kind === 'farm')!
  const row = (name: string) => farm.accounts.find(({ account }) => account.name === name)!
  expect(row('Machinery and equipment').openingCents).toBe(2_100_000)
  expect(row('Machinery and equipment').monthsCents[7]).toBe(300_000)
  expect(row('Machinery and equipment').monthsCents[6]).toBe(0)
  const sheet = balanceSheet(farm, 'begin', noExtras)
  expect(sheet.equity.costCents).toBe(1_150_000)
  // The year after begins with what this one ended with.
  const next = bookYears(books, 2027).find((side) => side.kind === 'farm')!
  for (const { account, openingCents } of next.accounts)
    expect(openingCents).toBe(closingOf(row(account.name)))
})
