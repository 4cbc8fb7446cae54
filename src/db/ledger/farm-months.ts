// The farm's months from the rollups: what crossed between house and farm, and what it brought in and paid besides.
import { firstDayOf, lastDayOf } from '#calendar/day.ts'
import { addMonths, type Month } from '#calendar/month.ts'
import type { Books } from '#db/open.ts'
import { type Account, farmSide, householdSide, isMoney, type SideId } from '#ledger/account.ts'
import type { CrossedInMonth } from '#ledger/leak.ts'
import { lineRole } from '#ledger/schedule-lines.ts'
import { type Cents, cents, zeroCents } from '#money/cents.ts'
import { listAccounts } from './account-store.ts'
import { monthSumsOfSide } from './balances.ts'
import { openingSums } from './household-postings.ts'

/** Every month of the span, oldest first, as the household's books have it. Taken-back crossings count against. */
export const farmCrossingMonths = (books: Books, from: Month, to: Month): CrossedInMonth[] => {
  const rows = books.sqlite
    .prepare(
      `SELECT month, crossing_role AS role, sum(sum_cents) AS sumCents
       FROM accounts JOIN account_months ON account_id = accounts.id
       WHERE side_id = ? AND crossing_side_id = ? AND month BETWEEN ? AND ?
         AND crossing_role IN ('draws', 'contributions', 'reimbursements')
       GROUP BY month, crossing_role`,
    )
    .all(householdSide, farmSide, from, to) as { month: Month; role: string; sumCents: Cents }[]
  const sums = new Map(rows.map((row) => [`${row.month} ${row.role}`, row.sumCents]))
  // In the household's books what reached it is a credit, what left it a debit.
  const of = (month: Month, role: string) => sums.get(`${month} ${role}`) ?? zeroCents
  const months: CrossedInMonth[] = []
  for (let month = from; month <= to; month = addMonths(month, 1)) {
    months.push({
      month,
      contributionCents: of(month, 'contributions'),
      drawCents: cents(-of(month, 'draws')),
      reimbursementCents: cents(-of(month, 'reimbursements')),
    })
  }
  return months
}

/** Cash before what crossed to other sides and what was bought to last; loans taken count as in, payments as out. Months without postings are left out. */
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

/** The first month of which the farm's books hold anything. */
export const farmBegan = (books: Books): Month | null =>
  books.sqlite
    .prepare(
      'SELECT min(months.month) FROM account_months AS months JOIN accounts ON accounts.id = months.account_id WHERE accounts.side_id = ?',
    )
    .pluck()
    .get(farmSide) as Month | null

/** What a side sold and what it cost in a month, without goods used at home and depreciation, which move no cash. */
export const tradeMonth = (
  books: Books,
  sideId: SideId,
  month: Month,
): { inCents: Cents; costCents: Cents } => {
  const accounts = listAccounts(books, { sideId, withArchived: true }).filter(
    (account) => isTrade(account) && lineRole(account) !== 'depreciation',
  )
  const kinds = new Map(accounts.map(({ id, kind }) => [id, kind]))
  const sums = monthSumsOfSide(books, sideId, month, month)
  const of = (kind: Account['kind']) =>
    cents(sums.reduce((sum, one) => (kinds.get(one.accountId) === kind ? sum + one.sumCents : sum), 0))
  return { inCents: cents(-of('income')), costCents: of('expense') }
}

/** Goods used at home are valued and bring no cash. */
const isTrade = (account: Account): boolean =>
  account.crossingRole === null &&
  account.systemRole !== 'goods_value' &&
  account.systemRole !== 'goods_cost' &&
  (account.kind === 'income' ||
    account.kind === 'expense' ||
    (account.kind === 'liability' && !isMoney(account)))
