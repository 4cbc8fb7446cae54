// Money moved between two accounts of one side, for houses worked by hand.
import { day } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import type { Books } from '#db/open.ts'
import { cents, dollarsToCents } from '#money/cents.ts'
import { act, done } from '../db/fresh-books.ts'

export const accountIn = (books: Books, side: string, name: string): number =>
  listAccounts(books).find((one) => one.sideId === side && one.name === name)!.id

/** Dollars from the first account to the second, both on one side. */
export const moveIn = (
  books: Books,
  side: 'household' | 'farm',
  on: string,
  from: string,
  to: string,
  dollars: number,
) => {
  const amountCents = dollarsToCents(dollars)
  const lines = [
    { accountId: accountIn(books, side, to), amountCents },
    { accountId: accountIn(books, side, from), amountCents: cents(-amountCents) },
  ]
  const head = { sideId: side, payee: '', memo: '', source: 'form' } as const
  done(postEntry(books, act(), { ...head, day: day(on), lines }))
}
