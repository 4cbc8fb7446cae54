// What invested savings are worth more or less than the books have: no transaction tells it, only the balance that a file states.
import { listAccounts } from '#db/ledger/account-store.ts'
import type { Books } from '#db/open.ts'
import type { Account } from '#ledger/account.ts'

/** The account of income that the change in value of an account of investments goes to; null for money, and where a side has none. */
export const changeInValueOf = (books: Books, account: Account): Account | null =>
  account.kind !== 'asset' || account.savingsKind === null || account.savingsKind === 'cash'
    ? null
    : (listAccounts(books, { sideId: account.sideId }).find(
        ({ kind, taxKind }) => kind === 'income' && taxKind === 'unrealized',
      ) ?? null)
