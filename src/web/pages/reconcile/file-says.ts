// What the newest file of an account says of its balance, so that it need not be typed to reconcile against it.
import { listAccounts } from '#db/ledger/account-store.ts'
import type { Books } from '#db/open.ts'
import { lastFinished } from '#db/reconcile/reconcile-reader.ts'
import { latestFileBalance } from '#db/statements/file-balances.ts'
import type { Account } from '#ledger/account.ts'
import { cents } from '#money/cents.ts'
import { centsToDecimalText } from '#money/format.ts'
import type { ReconcileAccount } from '#today/reconcile/figures.ts'
import type { PageContext } from '#web/forms/answer.tsx'
import { newFormId } from '#web/forms/form.ts'

/** The account asked for, with the day and balance that its newest file states. */
export const openingStatement = (c: PageContext): Record<string, string> => {
  const asked = c.req.query('account') ?? ''
  const { books } = c.var.web
  const account = listAccounts(books).find(({ id }) => String(id) === asked)
  const said = account ? fileSays(books, account) : null
  return {
    formId: newFormId(),
    account: asked,
    ...(said ? { statementDay: said.day, balance: centsToDecimalText(said.balanceCents) } : {}),
  }
}

/** Banks write a card's balance with and without a minus: either way it is what is owed. */
export const fileSays = (books: Books, account: Account): ReconcileAccount['fileSays'] => {
  const file = latestFileBalance(books, account.id)
  const through = lastFinished(books, account.id)?.statementDay
  if (!file || (through !== undefined && file.day <= through)) return null
  const isOwed = account.kind === 'liability'
  return { day: file.day, balanceCents: isOwed ? cents(Math.abs(file.balance)) : file.balance }
}
