// Fees of settled market days that no books hold: left to a bank's line that never came, or settled when fees were not yet asked about.
import type { Day } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'
import { daysBetweenHalves } from '#ledger/statements/matching.ts'
import type { Cents } from '#money/cents.ts'

/** Of the days from `from` to `to`. A payment of just that amount a few days before or after, from any account, is taken for it. */
export const feesNowhere = (books: Books, from: Day, to: Day): { days: number; sumCents: Cents } =>
  books.sqlite
    .prepare(
      `SELECT count(*) AS days, coalesce(sum(m.fee_cents), 0) AS sumCents FROM market_days AS m
       WHERE m.day BETWEEN @from AND @to AND m.settled_at IS NOT NULL AND m.fee_cents > 0
         AND NOT EXISTS (SELECT 1 FROM postings AS cost JOIN accounts AS a ON a.id = cost.account_id
           WHERE cost.entry_no = m.entry_no AND a.kind = 'expense')
         AND NOT EXISTS (SELECT 1 FROM accounts AS a JOIN postings AS p INDEXED BY postings_register ON p.account_id = a.id
           JOIN entries AS e ON e.no = p.entry_no
           WHERE a.kind IN ('asset', 'liability') AND p.amount_cents = -m.fee_cents
             AND p.day BETWEEN date(m.day, @before) AND date(m.day, @after)
             AND e.reverses_no IS NULL AND NOT EXISTS (SELECT 1 FROM entries AS back WHERE back.reverses_no = e.no))`,
    )
    .get({
      from,
      to,
      before: `-${daysBetweenHalves} days`,
      after: `+${daysBetweenHalves} days`,
    }) as { days: number; sumCents: Cents }
