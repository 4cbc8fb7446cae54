// What must hold beside the books: standing transfers, statements, reconciliations, plans and the log of changes.
import type { Check } from './verify-check.ts'

export const recordChecks: readonly Check[] = [
  {
    name: 'kept-to-breed-is-young',
    counted:
      'SELECT (SELECT count(*) FROM goods_notes WHERE kept_to_breed <> 0) + (SELECT count(*) FROM head_tallies WHERE kept_to_breed <> 0)',
    wrong: `SELECT 'note ' || id AS at, 'It is marked as kept to breed, and only young animals are' AS message
      FROM (SELECT id, kept_to_breed, head_class FROM goods_notes UNION ALL SELECT id, kept_to_breed, head_class FROM head_tallies)
      WHERE kept_to_breed NOT IN (0, 1) OR (kept_to_breed = 1 AND head_class IS NOT 'young')`,
  },
  {
    name: 'standing-posted-as-agreed',
    counted: 'SELECT count(*) FROM standing_occurrences',
    wrong: `SELECT 'standing ' || standing.id || ', month ' || occurrence.month AS at, 'Its crossing is not the agreed one' AS message
      FROM standing_occurrences AS occurrence JOIN standing_transfers AS standing ON standing.id = occurrence.standing_id
      LEFT JOIN crossings ON crossings.id = occurrence.crossing_id
      WHERE occurrence.state = 'posted' AND (crossings.amount_cents IS NOT standing.amount_cents OR crossings.kind IS NOT standing.kind)`,
  },
  {
    name: 'statement-lines-are-postings',
    counted: "SELECT count(*) FROM statement_lines WHERE state IN ('posted', 'matched')",
    wrong: `SELECT 'transaction ' || line.id AS at, 'It does not agree with what it was booked as' AS message
      FROM statement_lines AS line LEFT JOIN postings ON postings.id = line.posting_id
      WHERE (line.state IN ('posted', 'matched')) <> (line.posting_id IS NOT NULL)
        OR (line.posting_id IS NOT NULL AND (postings.account_id IS NOT line.account_id OR postings.amount_cents IS NOT line.amount_cents))`,
  },
  {
    name: 'statement-lines-once',
    counted: 'SELECT count(*) FROM statement_lines',
    wrong: `SELECT 'account ' || account_id || ', line ' || line_key AS at, 'It is there ' || count(*) || ' times' AS message
      FROM statement_lines GROUP BY account_id, line_key HAVING count(*) > 1`,
  },
  {
    name: 'later-forms-count-once',
    counted: 'SELECT count(*) FROM statement_lines WHERE corrects_id IS NOT NULL',
    wrong: `SELECT 'transaction ' || line.id AS at, 'It and the line whose place it took both count' AS message
      FROM statement_lines AS line JOIN statement_lines AS earlier ON earlier.id = line.corrects_id
      WHERE earlier.account_id <> line.account_id OR earlier.id = line.id
        OR (line.state NOT IN ('doubtful', 'ignored') AND earlier.state <> 'ignored')`,
  },
  {
    name: 'reconciliations-agree',
    counted: 'SELECT count(*) FROM reconciliations',
    wrong: `SELECT 'reconciliation ' || reconciliations.id AS at, 'What is checked does not lead to the statement’s balance' AS message
      FROM reconciliations
      LEFT JOIN reconciliation_ticks AS tick ON tick.reconciliation_id = reconciliations.id
      LEFT JOIN postings ON postings.id = tick.posting_id
      WHERE reconciliations.state = 'finished' GROUP BY reconciliations.id
      HAVING reconciliations.previous_balance_cents + coalesce(sum(postings.amount_cents), 0) <> reconciliations.statement_balance_cents
        OR count(CASE WHEN postings.account_id <> reconciliations.account_id THEN 1 END) > 0`,
  },
  {
    name: 'reconciliations-follow-each-other',
    counted: "SELECT count(*) FROM reconciliations WHERE state = 'finished'",
    wrong: `SELECT 'reconciliation ' || id AS at, 'It does not start from the balance of the one before' AS message FROM (
        SELECT id, previous_balance_cents,
          coalesce(lag(statement_balance_cents) OVER (PARTITION BY account_id ORDER BY statement_day, finished_at), 0) AS before
        FROM reconciliations WHERE state = 'finished')
      WHERE previous_balance_cents <> before`,
  },
  {
    name: 'batches-let-go-what-was-taken-back',
    counted: 'SELECT count(*) FROM batch_ties',
    wrong: `SELECT 'posting ' || tie.posting_id AS at, 'It belongs to a batch, and what reverses it does not' AS message
      FROM batch_ties AS tie JOIN postings ON postings.id = tie.posting_id
      JOIN entries AS back ON back.reverses_no = postings.entry_no
      JOIN postings AS against ON against.entry_no = back.no AND against.line_no = postings.line_no
      LEFT JOIN batch_ties AS other ON other.posting_id = against.id
      WHERE other.batch_id IS NOT tie.batch_id`,
  },
  {
    name: 'goods-booked-once',
    counted: "SELECT count(*) FROM goods_notes WHERE state = 'booked'",
    wrong: `SELECT 'goods ' || goods.id AS at, 'Their crossing is another one, or was reversed' AS message
      FROM goods_notes AS goods LEFT JOIN crossings ON crossings.id = goods.crossing_id
      LEFT JOIN crossings AS back ON back.reverses_id = crossings.id
      WHERE goods.state = 'booked' AND (crossings.kind IS NOT 'goods_used_at_home' OR back.id IS NOT NULL)`,
  },
  {
    name: 'goods-bartered-once',
    counted: 'SELECT count(*) FROM goods_entries',
    wrong: `SELECT 'goods ' || goods.id AS at, 'Their entry was reversed, or they are not booked by it' AS message
      FROM goods_entries AS tie JOIN goods_notes AS goods ON goods.id = tie.goods_id
      LEFT JOIN entries AS back ON back.reverses_no = tie.entry_no
      WHERE goods.kind IS NOT 'bartered' OR goods.state IS NOT 'set_aside' OR back.no IS NOT NULL`,
  },
  {
    name: 'plan-revisions-in-a-row',
    counted: 'SELECT count(*) FROM plan_revisions',
    wrong: `SELECT 'plan ' || plan_id AS at, 'Of ' || max(revision_no) || ' revisions ' || count(*) || ' are there' AS message
      FROM plan_revisions GROUP BY plan_id HAVING count(*) <> max(revision_no) OR min(revision_no) <> 1`,
  },
  {
    name: 'change-log-in-a-row',
    counted: 'SELECT count(*) FROM change_log',
    wrong: `SELECT 'change ' || id AS at, 'A change before it is missing from the log' AS message
      FROM (SELECT id, id - lag(id, 1, 0) OVER (ORDER BY id) AS step FROM change_log) WHERE step <> 1`,
  },
  {
    name: 'change-log-whole',
    counted: 'SELECT count(*) FROM change_log',
    wrong: `SELECT 'change ' || sqlite_sequence.seq AS at, 'It was in the log; the end of the log was cut off' AS message
      FROM sqlite_sequence WHERE name = 'change_log' AND seq <> (SELECT coalesce(max(id), 0) FROM change_log)`,
  },
  {
    name: 'submissions-known',
    counted: 'SELECT count(*) FROM submissions',
    wrong: `SELECT 'form ' || id AS at, 'It says it posted an entry that is not there' AS message FROM submissions
      WHERE kind = 'entry.post' AND id NOT IN (SELECT id FROM entries)`,
  },
]
