// Books in the making for random households: accounts by what they are, days no earlier than the books, entries.
import { type Day, day } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import type { Account } from '#ledger/account.ts'
import { cents } from '#money/cents.ts'
import { act, done, type TestBooks } from '../db/fresh-books.ts'
import type { Side, When } from './random-households.ts'

/** What an account of money stands for: bank, till, card. */
export const isBank = ({ name }: Account): boolean => / checking$/.test(name)

export class HouseholdGround {
  readonly books: TestBooks
  readonly first: string
  readonly accounts: readonly Account[]
  constructor(books: TestBooks, first: string) {
    this.books = books
    this.first = first
    this.accounts = listAccounts(books)
  }

  of = (side: Side, fits: (account: Account) => boolean): Account[] =>
    this.accounts.filter(
      (one) =>
        one.sideId === side &&
        one.crossingRole === null &&
        one.systemRole !== 'opening_balances' &&
        fits(one),
    )
  at = (among: readonly Account[], pick: number): Account => among[pick % among.length]!
  named = (side: Side, name: string): Account => this.of(side, (one) => one.name === name)[0]!

  on = ({ year, month, date }: When): Day => {
    const text = `${year}-${String(month).padStart(2, '0')}-${String(date).padStart(2, '0')}`
    return day(text < this.first ? this.first : text)
  }
  post = (sideId: Side, on: Day, lines: [Account, number][], payee = '') =>
    done(
      postEntry(this.books, act(), {
        sideId,
        day: on,
        payee,
        memo: '',
        source: 'form',
        lines: lines.map(([account, amount]) => ({ accountId: account.id, amountCents: cents(amount) })),
      }),
    )
}
