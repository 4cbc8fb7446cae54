// What must hold of the books themselves, as questions that answer with the rows that break it.
import type { Check } from './verify-check.ts'

const monthOf = (day: string) =>
  `(CAST(substr(${day}, 1, 4) AS INTEGER) * 12 + CAST(substr(${day}, 6, 2) AS INTEGER) - 1)`

export const ledgerChecks: readonly Check[] = [
  {
    name: 'entry-balances',
    counted: 'SELECT count(*) FROM entries',
    wrong: `SELECT 'entry ' || entries.id AS at, 'Its ' || count(postings.id) || ' lines add up to ' || coalesce(sum(postings.amount_cents), 0) || ' cents' AS message
      FROM entries LEFT JOIN postings ON postings.entry_no = entries.no
      GROUP BY entries.no HAVING count(postings.id) < 2 OR sum(postings.amount_cents) <> 0`,
  },
  {
    name: 'entry-sealed',
    counted: 'SELECT count(*) FROM sealed_entries',
    wrong: `SELECT 'entry ' || id AS at, 'It was never sealed' AS message FROM entries
      WHERE no NOT IN (SELECT entry_no FROM sealed_entries)`,
  },
  {
    name: 'side-adds-up-to-zero',
    counted: 'SELECT count(*) FROM sides',
    wrong: `SELECT 'side ' || accounts.side_id AS at, 'Its books add up to ' || sum(postings.amount_cents) || ' cents' AS message
      FROM postings JOIN accounts ON accounts.id = postings.account_id
      GROUP BY accounts.side_id HAVING sum(postings.amount_cents) <> 0`,
  },
  {
    name: 'posting-on-its-side-and-day',
    counted: 'SELECT count(*) FROM postings',
    wrong: `SELECT 'posting ' || postings.id AS at, 'Its account or day is not its entry’s' AS message
      FROM postings JOIN entries ON entries.no = postings.entry_no JOIN accounts ON accounts.id = postings.account_id
      WHERE accounts.side_id <> entries.side_id OR postings.day <> entries.day`,
  },
  {
    name: 'crossing-halves-equal',
    counted: 'SELECT count(*) FROM crossings',
    wrong: `SELECT 'crossing ' || crossings.id AS at, 'Its halves are not equal to its amount' AS message
      FROM crossings LEFT JOIN (
        SELECT postings.crossing_id AS id, accounts.side_id AS side, sum(postings.amount_cents) AS cents
        FROM postings JOIN accounts ON accounts.id = postings.account_id
        WHERE postings.crossing_id IS NOT NULL GROUP BY 1, 2) AS half ON half.id = crossings.id
      GROUP BY crossings.id
      HAVING count(half.side) <> 2
        OR sum(CASE half.side WHEN crossings.from_side_id THEN half.cents END) IS NOT crossings.amount_cents
        OR sum(CASE half.side WHEN crossings.to_side_id THEN half.cents END) IS NOT -crossings.amount_cents`,
  },
  {
    name: 'crossing-sealed',
    counted: 'SELECT count(*) FROM sealed_crossings',
    wrong: `SELECT 'crossing ' || id AS at, 'It was never sealed' AS message FROM crossings
      WHERE id NOT IN (SELECT crossing_id FROM sealed_crossings)`,
  },
  {
    name: 'only-crossings-on-crossing-accounts',
    counted: 'SELECT count(*) FROM accounts WHERE crossing_role IS NOT NULL',
    wrong: `SELECT 'posting ' || postings.id AS at, 'It is on an account that stands for another side, without its crossing, or the other way round' AS message
      FROM postings JOIN accounts ON accounts.id = postings.account_id
      LEFT JOIN crossings ON crossings.id = postings.crossing_id
      WHERE (accounts.crossing_role IS NULL) <> (postings.crossing_id IS NULL)
        OR (postings.crossing_id IS NOT NULL AND (postings.day IS NOT crossings.day
          OR accounts.crossing_side_id NOT IN (crossings.from_side_id, crossings.to_side_id)))`,
  },
  {
    name: 'sides-agree-about-each-other',
    counted: 'SELECT count(*) FROM accounts WHERE crossing_role IS NOT NULL',
    wrong: `WITH pairs AS (
        SELECT min(accounts.side_id, accounts.crossing_side_id) || ' and ' || max(accounts.side_id, accounts.crossing_side_id) AS pair,
          CASE WHEN accounts.crossing_role IN ('lent', 'borrowed') THEN 'loans' ELSE accounts.crossing_role END AS role,
          postings.amount_cents AS cents
        FROM postings JOIN accounts ON accounts.id = postings.account_id WHERE accounts.crossing_role IS NOT NULL)
      SELECT pair || ', ' || role AS at, 'The two sides differ by ' || sum(cents) || ' cents' AS message
      FROM pairs GROUP BY pair, role HAVING sum(cents) <> 0`,
  },
  {
    name: 'reversal-takes-back-exactly',
    counted: 'SELECT count(*) FROM entries WHERE reverses_no IS NOT NULL',
    wrong: `SELECT DISTINCT 'entry ' || back.id AS at, 'It does not reverse exactly what the first one recorded' AS message
      FROM entries AS back JOIN postings ON postings.entry_no IN (back.no, back.reverses_no)
      WHERE back.reverses_no IS NOT NULL
      GROUP BY back.no, postings.account_id, postings.enterprise_id HAVING sum(postings.amount_cents) <> 0`,
  },
  {
    name: 'stand-ins-are-for-what-was-taken-back',
    counted: 'SELECT count(*) FROM entries WHERE corrects_no IS NOT NULL',
    wrong: `SELECT 'entry ' || entries.id AS at, 'It replaces an entry that is not reversed, or one of other books' AS message
      FROM entries JOIN entries AS first ON first.no = entries.corrects_no
      WHERE entries.side_id <> first.side_id OR NOT EXISTS (SELECT 1 FROM entries AS back WHERE back.reverses_no = first.no)`,
  },
  {
    name: 'month-sums-recomputed',
    counted: 'SELECT count(*) FROM account_months',
    wrong: rollupDifference('account_months', 'month', monthOf('day')),
  },
  {
    name: 'year-sums-recomputed',
    counted: 'SELECT count(*) FROM account_years',
    wrong: rollupDifference('account_years', 'year', 'CAST(substr(day, 1, 4) AS INTEGER)'),
  },
  {
    name: 'nothing-posted-into-closed-months',
    counted: 'SELECT count(*) FROM month_closings',
    wrong: `SELECT 'entry ' || entries.id AS at, 'It was recorded after its month had been closed' AS message
      FROM month_closings JOIN entries ON entries.side_id = month_closings.side_id
        AND ${monthOf('entries.day')} <= month_closings.month AND entries.posted_at > month_closings.closed_at
        AND (month_closings.reopened_at IS NULL OR entries.posted_at < month_closings.reopened_at)`,
  },
  {
    name: 'search-knows-every-entry',
    counted: 'SELECT count(*) FROM entry_search',
    wrong: `SELECT 'entry ' || id AS at, 'The search does not know it' AS message FROM entries
      WHERE no NOT IN (SELECT rowid FROM entry_search)`,
  },
]

/** Both ways: a sum that is wrong or missing, and a sum for which there is nothing. */
function rollupDifference(table: string, column: string, expression: string): string {
  return `WITH again AS (
      SELECT account_id, ${expression} AS period, sum(amount_cents) AS cents, count(*) AS n FROM postings GROUP BY 1, 2)
    SELECT at, message FROM (
      SELECT 'account ' || again.account_id || ', ${column} ' || again.period AS at,
        'The kept sum is ' || coalesce(kept.sum_cents, 'missing') || ', the postings say ' || again.cents AS message
      FROM again LEFT JOIN ${table} AS kept ON kept.account_id = again.account_id AND kept.${column} = again.period
      WHERE kept.sum_cents IS NOT again.cents OR kept.count IS NOT again.n
      UNION ALL
      SELECT 'account ' || kept.account_id || ', ${column} ' || kept.${column}, 'A sum is kept for which there are no postings'
      FROM ${table} AS kept LEFT JOIN again ON again.account_id = kept.account_id AND again.period = kept.${column}
      WHERE again.n IS NULL)`
}
