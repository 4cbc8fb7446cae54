// The newest lines of all accounts with where each went: what rules are tried on, and what habits are told from.
import type { Day } from '#calendar/day.ts'
import { rollbacksOf } from '#db/chain/rollbacks.ts'
import type { Books } from '#db/open.ts'
import type { HistoryLine } from '#ledger/statements/dry-run.ts'
import type { EarlierLine } from '#ledger/statements/habits.ts'
import type { SortingTarget } from '#ledger/statements/sorting.ts'
import { textOfLine } from '#ledger/statements/statement.ts'
import type { Cents } from '#money/cents.ts'

export interface ShownHistoryLine extends HistoryLine {
  day: Day
  payee: string
}

/** The newest lines of all accounts with where each went, for dry runs. */
export const sortingHistory = (books: Books, limit = 5000): ShownHistoryLine[] =>
  (books.sqlite.prepare(historyQuery).all({ limit }) as HistoryRow[]).map((row) => ({
    id: row.id,
    accountId: row.accountId,
    amount: row.amount,
    day: row.day,
    payee: row.payee,
    text: textOfLine(row),
    went: wentTo(row),
  }))

/**
 * Those of them that were sorted, for habits. What is booked never changes, so a line that stands as it stood when it was read before
 * is the same object again: only the others are followed into the books, and what is told from the same lines need not be told anew.
 */
export const earlierLines = (books: Books, limit = 5000): EarlierLine[] => {
  const rollbacks = rollbacksOf(books)
  const last = readBefore.get(books)
  const before = last?.rollbacks === rollbacks ? last.lines : new Map<number, SortedLine>()
  const sorted = books.sqlite.prepare(sortedQuery).all({ limit }) as SortedRow[]
  const known = new Map<number, SortedLine>()
  for (const row of sorted) {
    const line = before.get(row.id)
    if (line && isSameRow(line.row, row)) known.set(row.id, line)
  }
  const others = sorted.filter(({ id }) => !known.has(id))
  if (others.length > 0) {
    const ids = JSON.stringify(others.map(({ id }) => id))
    const went = new Map(
      (books.sqlite.prepare(historyOfQuery).all({ ids }) as HistoryRow[]).map((row) => [row.id, wentTo(row)]),
    )
    for (const row of others) known.set(row.id, { row, line: earlierLine(row, went.get(row.id) ?? 'other') })
  }
  readBefore.set(books, { rollbacks, lines: known })
  return sorted.map(({ id }) => known.get(id)!.line)
}

const earlierLine = (row: SortedRow, went: EarlierLine['went']): EarlierLine => ({
  accountId: row.accountId,
  amount: row.amount,
  day: row.day,
  text: textOfLine(row),
  went,
})

interface SortedLine {
  row: SortedRow
  line: EarlierLine
}

type SortedRow = Pick<HistoryRow, 'id' | 'accountId' | 'amount' | 'day' | 'payee' | 'memo' | 'state'> & {
  postingId: number | null
}

const isSameRow = (one: SortedRow, other: SortedRow): boolean =>
  one.state === other.state &&
  one.postingId === other.postingId &&
  one.amount === other.amount &&
  one.accountId === other.accountId &&
  one.day === other.day &&
  one.payee === other.payee &&
  one.memo === other.memo

/** What was rolled back may have been read, and its numbers come again. */
const readBefore = new WeakMap<Books, { rollbacks: number; lines: ReadonlyMap<number, SortedLine> }>()

/** Of the newest lines those that were sorted, without following them into the books. */
const sortedQuery = `
  SELECT id, account_id AS accountId, amount_cents AS amount, day, payee, memo, state, posting_id AS postingId
  FROM (SELECT * FROM statement_lines ORDER BY day DESC, id DESC LIMIT @limit)
  WHERE state NOT IN ('unsorted', 'doubtful')
  ORDER BY day DESC, id DESC`

interface HistoryRow {
  id: number
  accountId: number
  amount: Cents
  day: Day
  payee: string
  memo: string
  state: 'unsorted' | 'doubtful' | 'posted' | 'matched' | 'ignored'
  others: number
  otherAccountId: number | null
  enterpriseId: string | null
  crossingKind: Extract<SortingTarget, { kind: 'crossing' }>['crossingKind'] | null
  farOthers: number
  farAccountId: number | null
  farIsMoney: number | null
}

/**
 * Beside the line's own posting, an entry sorted whole has one other line; when that is a crossing's, the far entry's other
 * line is where the value went.
 */
const historyColumns = `
  SELECT line.id, line.account_id AS accountId, line.amount_cents AS amount, line.day, line.payee, line.memo, line.state,
    (SELECT count(*) FROM postings AS o WHERE o.entry_no = own.entry_no AND o.id <> own.id) AS others,
    other.account_id AS otherAccountId, other.enterprise_id AS enterpriseId, crossings.kind AS crossingKind,
    (SELECT count(*) FROM postings AS o WHERE o.entry_no = half.entry_no AND o.id <> half.id) AS farOthers,
    far.account_id AS farAccountId, far_account.kind IN ('asset', 'liability') AS farIsMoney
  FROM statement_lines AS line
  LEFT JOIN postings AS own ON own.id = line.posting_id
  LEFT JOIN postings AS other ON other.entry_no = own.entry_no
    AND other.id = (SELECT min(id) FROM postings WHERE entry_no = own.entry_no AND id <> own.id)
  LEFT JOIN crossings ON crossings.id = other.crossing_id
  LEFT JOIN postings AS half ON half.crossing_id = other.crossing_id AND half.entry_no <> other.entry_no
  LEFT JOIN postings AS far ON far.entry_no = half.entry_no
    AND far.id = (SELECT min(id) FROM postings WHERE entry_no = half.entry_no AND id <> half.id)
  LEFT JOIN accounts AS far_account ON far_account.id = far.account_id`

const historyQuery = `${historyColumns}
  ORDER BY line.day DESC, line.id DESC LIMIT @limit`

const historyOfQuery = `${historyColumns}
  WHERE line.id IN (SELECT value FROM json_each(@ids))`

const wentTo = (row: HistoryRow): SortingTarget | 'other' | null => {
  if (row.state === 'unsorted' || row.state === 'doubtful') return null
  if (row.state === 'ignored' || row.others !== 1 || row.otherAccountId === null) return 'other'
  if (row.crossingKind === null)
    return { kind: 'account', accountId: row.otherAccountId, enterpriseId: row.enterpriseId }
  if (row.farOthers !== 1 || row.farAccountId === null) return 'other'
  return row.farIsMoney === 1
    ? { kind: 'crossing', crossingKind: row.crossingKind, otherAccountId: row.farAccountId }
    : { kind: 'account', accountId: row.farAccountId, enterpriseId: null }
}
