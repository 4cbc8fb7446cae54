// What the step of opening balances finds wrong beyond the form's own check: all of it at once, each at its field.
import { listAccounts } from '#db/ledger/account-store.ts'
import type { Books } from '#db/open.ts'
import { type Account, growsByDebit } from '#ledger/account.ts'
import { type Cents, zeroCents } from '#money/cents.ts'
import { parseMoney } from '#money/parse.ts'
import type { FormErrors, TypedForm } from '#web/forms/form.ts'

/** Books can begin long ago, where all their statements are at hand. */
const firstDayTaken = '2000-01-01'

/** The box beside a card's field: its bank owes the household. */
export const overpaidBox = (accountId: number): string => `overpaid_${accountId}`

/** A card can be overpaid; a loan that is owed below nothing is a slip of the hand. */
export const isCard = (account: Account): boolean =>
  account.cashRole !== 'none' && !growsByDebit(account.kind)

export const dayFault = ({ value, today }: TypedForm): FormErrors => {
  const day = value('day').trim()
  return day !== '' && (day < firstDayTaken || (today !== undefined && day > today))
    ? { day: 'Enter a day from January 1, 2000, to today' }
    : {}
}

/** Amounts with a minus where what is owed is asked for. */
export const owedFaults = (books: Books, { nested, value }: TypedForm): FormErrors => {
  const accounts = new Map(listAccounts(books).map((account) => [String(account.id), account]))
  const rows = Array.isArray(nested.balances) ? (nested.balances as Record<string, string>[]) : []
  return Object.fromEntries(
    rows.flatMap((row, index): [string, string][] => {
      const account = accounts.get(row?.account ?? '')
      if (!account || growsByDebit(account.kind) || !isMinus(row?.amount)) return []
      if (isCard(account) && value(overpaidBox(account.id)) === 'yes') return []
      const otherwise = isCard(account) ? ', or check that the card is overpaid' : ''
      return [
        [
          `balances.${index}.amount`,
          `${account.name}: enter what you owe without a minus, like 9,800${otherwise}`,
        ],
      ]
    }),
  )
}

const isMinus = (text: string | undefined): boolean => {
  const parsed = parseMoney(text ?? '')
  const typed: Cents = parsed.ok ? parsed.value : zeroCents
  return typed < 0
}
