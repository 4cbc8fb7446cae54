// The household's months from the rollups: what the months left are reckoned from.
import { lastDayOf } from '#calendar/day.ts'
import { addMonths, type Month } from '#calendar/month.ts'
import type { Books } from '#db/open.ts'
import { type Account, householdSide } from '#ledger/account.ts'
import { type HouseholdMonth, householdMonth, type PostedInMonth, totalOf } from '#ledger/household-month.ts'
import { addCents, type Cents } from '#money/cents.ts'
import { listAccounts } from './account-store.ts'
import { balanceOfAll, balancesOn, monthSumsOfSide } from './balances.ts'

/** Every month of the span, also those without entries, oldest first. Reads the rollups only. */
export const householdMonths = (books: Books, from: Month, to: Month): HouseholdMonth[] => {
  const accounts = listAccounts(books, { sideId: householdSide, withArchived: true })
  const byId = new Map(accounts.map((account) => [account.id, account]))
  const byMonth = new Map<Month, PostedInMonth[]>()
  for (const { accountId, month, sumCents } of monthSumsOfSide(books, householdSide, from, to)) {
    const posted = { account: byId.get(accountId)!, cents: sumCents }
    const sums = byMonth.get(month)
    if (sums) sums.push(posted)
    else byMonth.set(month, [posted])
  }
  let spendable = spendableOf(balancesOn(books, lastDayOf(addMonths(from, -1))), accounts)
  const months: HouseholdMonth[] = []
  for (let month = from; month <= to; month = addMonths(month, 1)) {
    const sums = byMonth.get(month) ?? []
    spendable = addCents(
      spendable,
      totalOf(sums, (account) => account.cashRole === 'spendable'),
    )
    months.push(householdMonth(month, sums, spendable))
  }
  return months
}

/** Spendable savings at the end of a day. */
export const spendableOn = (books: Books, day: Parameters<typeof balancesOn>[1]): Cents =>
  spendableOf(balancesOn(books, day), listAccounts(books, { sideId: householdSide, withArchived: true }))

const spendableOf = (balances: Map<number, Cents>, accounts: readonly Account[]): Cents =>
  balanceOfAll(
    balances,
    accounts.filter((account) => account.cashRole === 'spendable'),
  )
