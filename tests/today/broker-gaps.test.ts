// Money from invested savings: an open point of the pack while it stands, whatever was gained. Amounts by hand.
import { expect, test } from 'vitest'
import { postEntry, voidEntry } from '#db/ledger/ledger-store.ts'
import { cents } from '#money/cents.ts'
import { brokerGaps } from '#today/year-pack/broker-gaps.ts'
import { act, done, freshBooks, on } from '../db/fresh-books.ts'

test('what came from the broker to cash is an open point of its year; a change in value and what was taken back is none', () => {
  const books = freshBooks()
  const id = (name: string) => books.account('household', name).id
  const move = (from: string, to: string, amount: number, day = '2026-05-04') =>
    done(
      postEntry(books, act(), {
        sideId: 'household',
        day: on(day),
        payee: 'BROKERAGE SALE TRANSFER IN',
        memo: '',
        source: 'form',
        lines: [
          { accountId: id(from), amountCents: cents(-amount) },
          { accountId: id(to), amountCents: cents(amount) },
        ],
      }),
    )
  move('Taxable investments', 'Household checking', 500_000)
  const slip = move('Taxable investments', 'Savings', 70_000)
  done(voidEntry(books, act(), slip.entryId, on('2026-05-04')))
  move('Taxable investments', 'Change in value of investments', 12_000)
  move('Household checking', 'Taxable investments', 30_000)
  const gaps = brokerGaps(books, 2026)
  expect(gaps).toHaveLength(1)
  expect(gaps[0]!.says).toContain('$5,000.00 came from “Taxable investments” in the year')
  expect(brokerGaps(books, 2025)).toEqual([])
})
