// Entries of a test, their lines told by the names of accounts of the side.
import { day } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import type { Books } from '#db/open.ts'
import { cents } from '#money/cents.ts'
import { act, done } from '../db/fresh-books.ts'

/** `amounts` in dollars, debits positive, by the account's name. */
export const postByName = (
  books: Books,
  side: string,
  on: string,
  amounts: Record<string, number>,
  said: { payee?: string; memo?: string; source?: 'form' | 'opening' } = {},
) => {
  const accounts = listAccounts(books)
  const lines = Object.entries(amounts).map(([name, dollars]) => ({
    accountId: accounts.find((one) => one.sideId === side && one.name === name)!.id,
    amountCents: cents(Math.round(dollars * 100)),
  }))
  const entry = { sideId: side, day: day(on), payee: '', memo: '', source: 'form', ...said, lines } as const
  return done(postEntry(books, act(), entry))
}
