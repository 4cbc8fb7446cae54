// What the newest file of an account says of its balance, if it is later than what was reconciled.
import type { Books } from '#db/open.ts'
import { lastFinished } from '#db/reconcile/reconcile-reader.ts'
import { latestFileBalance } from '#db/statements/file-balances.ts'
import type { Account } from '#ledger/account.ts'
import { cents } from '#money/cents.ts'
import type { ReconcileAccount } from './figures.ts'

/** Banks write a card's balance with and without a minus: either way it is what is owed. */
export const fileSays = (books: Books, account: Account): ReconcileAccount['fileSays'] => {
  const file = latestFileBalance(books, account.id)
  const through = lastFinished(books, account.id)?.statementDay
  if (!file || (through !== undefined && file.day <= through)) return null
  const isOwed = account.kind === 'liability'
  return { day: file.day, balanceCents: isOwed ? cents(Math.abs(file.balance)) : file.balance }
}
