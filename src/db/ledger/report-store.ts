// What the year's reports are made from: each side's accounts with their opening balance and twelve monthly sums, from the rollups.
import { type Day, firstDayOf, lastDayOfYear } from '#calendar/day.ts'
import { month, monthOfYear } from '#calendar/month.ts'
import type { Books } from '#db/open.ts'
import { keptPostings } from '#db/tax/kept-postings.ts'
import { payBeforeTax } from '#db/tax/pay-before-tax.ts'
import { payrollPostings } from '#db/tax/payroll-postings.ts'
import { savingsTaken } from '#db/tax/savings-taken.ts'
import { type Account, isLasting, isLoan, isTermLoan } from '#ledger/account.ts'
import type { AccountYear, BookYear } from '#ledger/reports/book-year.ts'
import { isOfAssets, isOfTrade } from '#ledger/reports/cash-flow.ts'
import { lineRole, sellsAssets } from '#ledger/schedule-lines.ts'
import { unpaidEmployerTax } from '#ledger/tax/employer-tax.ts'
import { soldInKind } from '#ledger/tax/sold-in-kind.ts'
import { addCents, type Cents, cents, sumCents, zeroCents } from '#money/cents.ts'
import { listAccounts, listSides } from './account-store.ts'
import { balancesOn, monthSums } from './balances.ts'
import { interestWithPrincipal, keptAmong, openingSums, principalPaid } from './household-postings.ts'
import { openingDay } from './opening-day.ts'

/**
 * Every side that has postings up to the year's end, archived ones too, in the order of the books. In the year in which the books
 * begin, their opening balances are what it began with: nothing of them was bought, lent or earned in it.
 */
export const bookYears = (books: Books, year: number): BookYear[] => {
  const openings = new Map(balancesOn(books, lastDayOfYear(year - 1)))
  const months = new Map<number, Cents[]>()
  for (const sum of monthSums(books, month(year, 1), month(year, 12))) {
    const sums = months.get(sum.accountId) ?? Array.from({ length: 12 }, () => zeroCents)
    sums[monthOfYear(sum.month) - 1] = sum.sumCents
    months.set(sum.accountId, sums)
  }
  beginWithOpenings(books, year, openings, months)
  const accounts = listAccounts(books, { withArchived: true })
  const days = { from: firstDayOf(month(year, 1)), to: lastDayOfYear(year) }
  const paidDown = principalPaid(books, accounts.filter(isLoan), days)
  const termInterest = interestWithPrincipal(
    books,
    accounts.filter(isTermLoan),
    accounts.filter((account) => lineRole(account) === 'interest'),
    days,
  )
  const taken = savingsTaken(books, year)
  const beforeTax = payBeforeTax(books, accounts, year)
  const unpaid = unpaidAt(books, year)
  const withoutMoney = keptAmong(books, accounts.filter(isOfAssets), days)
  const inTrade = inTradeOf(books, accounts.filter(isOfTrade), days)
  const inKind = soldInKindOf(books, accounts, openings, months, days)
  const blank = Array.from({ length: 12 }, () => zeroCents)
  return listSides(books, { withArchived: true })
    .map((side): BookYear => {
      const rows = accounts
        .filter((account) => account.sideId === side.id)
        .map(
          (account): AccountYear => ({
            account,
            openingCents: openings.get(account.id) ?? zeroCents,
            monthsCents: months.get(account.id) ?? blank,
            paidDownCents: paidDown.get(account.id) ?? zeroCents,
            termInterestCents: termInterest.get(account.id) ?? zeroCents,
            ...taken.get(account.id),
            ...beforeTax.get(account.id),
            ...unpaid(account.id),
            withoutMoneyCents: withoutMoney.get(account.id) ?? zeroCents,
            ...(inTrade.has(account.id) ? { inTradeCents: inTrade.get(account.id)! } : {}),
            ...(inKind.has(account.id) ? { inKindCents: inKind.get(account.id)! } : {}),
          }),
        )
      return { sideId: side.id, kind: side.kind, name: side.name, year, accounts: rows }
    })
    .filter((side) => side.kind !== 'venture' || side.accounts.some(hasPostings))
}

/** Of the employer's payroll taxes, by account. */
const unpaidAt = (books: Books, year: number): ((id: number) => Pick<AccountYear, 'unpaidCents'>) => {
  const [begins, ends] = [year - 1, year].map((of) =>
    unpaidEmployerTax(payrollPostings(books, lastDayOfYear(of))),
  )
  return (id) => {
    const [begin, end] = [begins!.get(id) ?? zeroCents, ends!.get(id) ?? zeroCents]
    return begin === 0 && end === 0 ? {} : { unpaidCents: { begin, end } }
  }
}

/** By account, what stands in entries of such accounts alone; what only moves between incomes, or between costs, is a cost put elsewhere and was paid. */
const inTradeOf = (books: Books, accounts: readonly Account[], days: { from: Day; to: Day }) => {
  const sums = keptAmong(books, accounts, days)
  for (const kind of ['income', 'expense'] as const) {
    const alike = accounts.filter((account) => account.kind === kind)
    for (const [id, moved] of keptAmong(books, alike, days)) sums.set(id, cents(sums.get(id)! - moved))
  }
  return sums
}

/** What gathers depreciation is nothing got; in earlier books it is known by a balance below zero. */
const soldInKindOf = (
  books: Books,
  accounts: readonly Account[],
  openings: ReadonlyMap<number, Cents>,
  months: ReadonlyMap<number, readonly Cents[]>,
  days: { from: string; to: string },
): Map<number, Cents> => {
  const sales = accounts.filter(sellsAssets)
  const got = accounts.filter(
    (account) =>
      isLasting(account) &&
      addCents(openings.get(account.id) ?? zeroCents, sumCents(months.get(account.id) ?? [])) >= 0,
  )
  const postings = keptPostings(books, accounts.filter(isOfAssets), sales, days)
  const idsOf = (some: readonly Account[]) => new Set(some.map(({ id }) => id))
  return soldInKind(postings, { sales: idsOf(sales), got: idsOf(got) })
}

const beginWithOpenings = (
  books: Books,
  year: number,
  openings: Map<number, Cents>,
  months: Map<number, Cents[]>,
): void => {
  if (openingDay(books)?.slice(0, 4) !== String(year)) return
  const days = { from: firstDayOf(month(year, 1)), to: lastDayOfYear(year) }
  for (const { accountId, month: at, sumCents } of openingSums(books, null, days)) {
    openings.set(accountId, addCents(openings.get(accountId) ?? zeroCents, sumCents))
    const sums = months.get(accountId)!
    sums[monthOfYear(at) - 1] = cents(sums[monthOfYear(at) - 1]! - sumCents)
  }
}

const hasPostings = (row: AccountYear): boolean =>
  row.openingCents !== 0 || row.monthsCents.some((sum) => sum !== 0)

/** Calendar years with postings, newest first: a day mistyped by a thousand years must not lay out all those between. */
export const yearsOfBooks = (books: Books): number[] =>
  books.sqlite.prepare('SELECT DISTINCT year FROM account_years ORDER BY year DESC').pluck().all() as number[]
