// What the farm brought in and paid month by month in cash, before what crossed to other sides and what was bought to last.
import { firstDayOf, lastDayOf } from '#calendar/day.ts'
import type { Month } from '#calendar/month.ts'
import type { Books } from '#db/open.ts'
import { type Account, farmSide, isMoney } from '#ledger/account.ts'
import { type Cents, cents, zeroCents } from '#money/cents.ts'
import { listAccounts } from './account-store.ts'
import { monthSumsOfSide } from './balances.ts'
import { openingSums } from './household-postings.ts'

/** Loans taken count as in, payments as out. Months without postings are left out. */
export const farmNetMonths = (books: Books, from: Month, to: Month): Map<Month, Cents> => {
  const accounts = listAccounts(books, { sideId: farmSide, withArchived: true })
  const counted = new Set(accounts.filter(isTrade).map(({ id }) => id))
  const days = { from: firstDayOf(from), to: lastDayOf(to) }
  const net = new Map<Month, Cents>()
  const add = (rows: readonly { accountId: number; month: Month; sumCents: Cents }[], sign: 1 | -1) => {
    for (const { accountId, month, sumCents } of rows)
      if (counted.has(accountId)) net.set(month, cents((net.get(month) ?? zeroCents) + sign * sumCents))
  }
  add(monthSumsOfSide(books, farmSide, from, to), -1)
  add(openingSums(books, farmSide, days), 1)
  return net
}

/** Goods used at home are valued and bring no cash. */
const isTrade = (account: Account): boolean =>
  account.crossingRole === null &&
  account.systemRole !== 'goods_value' &&
  account.systemRole !== 'goods_cost' &&
  (account.kind === 'income' ||
    account.kind === 'expense' ||
    (account.kind === 'liability' && !isMoney(account)))
