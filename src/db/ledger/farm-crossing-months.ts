// What crossed between house and farm month by month, from the rollups of the few accounts that stand for it: the leak needs no more.
import { addMonths, type Month } from '#calendar/month.ts'
import type { Books } from '#db/open.ts'
import { farmSide, householdSide } from '#ledger/account.ts'
import type { CrossedInMonth } from '#ledger/leak.ts'
import { type Cents, cents, zeroCents } from '#money/cents.ts'

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
