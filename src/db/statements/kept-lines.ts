// The lines an account has already, as the law of seeing things twice needs them, and the days within which new ones come in unasked.
import type { Day } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'
import type { KeptLine } from '#ledger/statements/kept-line.ts'
import { type Bounds, numberKeysOf } from '#ledger/statements/seeing-twice.ts'
import { type StatementLine, textOfLine } from '#ledger/statements/statement.ts'
import type { Cents } from '#money/cents.ts'

/** Lines of the days the file covers, and those that bear one of its bank numbers on another day. */
export const keptLines = (books: Books, accountId: number, lines: readonly StatementLine[]): KeptLine[] => {
  const { sqlite } = books
  const span = spanOf(lines)
  const any = sqlite.prepare('SELECT 1 FROM statement_lines WHERE account_id = ? LIMIT 1').get(accountId)
  if (!span || !any) return []
  const columns = 'line_key, bank_id, day, amount_cents, payee, memo, state'
  const kept = (
    sqlite
      .prepare(
        `SELECT ${columns} FROM statement_lines WHERE account_id = ? AND day BETWEEN ? AND ? ORDER BY id`,
      )
      .raw()
      .all(accountId, span.first, span.last) as KeptRow[]
  ).map(keptFrom)
  const known = new Set(kept.map((line) => line.lineKey))
  const byKey = sqlite
    .prepare(`SELECT ${columns} FROM statement_lines WHERE account_id = ? AND line_key = ?`)
    .raw()
  for (const key of new Set(numberKeysOf(lines))) {
    if (known.has(key)) continue
    const row = byKey.get(accountId, key) as KeptRow | undefined
    if (row) kept.push(keptFrom(row))
  }
  return kept
}

/**
 * From the opening balances of the account, or from the first ones of its side where the account has none of its own, to today.
 * What came before is in the balances already.
 */
export const boundsOf = (books: Books, accountId: number, today: Day): Bounds => {
  const opening = (which: 'min' | 'max', of: string) =>
    books.sqlite
      .prepare(
        `SELECT ${which}(e.day) FROM entries AS e WHERE e.source = 'opening'
           AND NOT EXISTS (SELECT 1 FROM entries AS r WHERE r.reverses_no = e.no) AND ${of}`,
      )
      .pluck()
      .get(accountId) as Day | null
  return {
    from:
      opening('max', 'EXISTS (SELECT 1 FROM postings AS p WHERE p.entry_no = e.no AND p.account_id = ?)') ??
      opening('min', 'e.side_id = (SELECT side_id FROM accounts WHERE id = ?)'),
    through: today,
  }
}

export const spanOf = (lines: readonly StatementLine[]): { first: Day; last: Day } | null => {
  if (lines.length === 0) return null
  let [first, last] = [lines[0]!.day, lines[0]!.day]
  for (const { day } of lines) {
    if (day < first) first = day
    if (day > last) last = day
  }
  return { first, last }
}

type KeptRow = [string, string | null, Day, Cents, string, string, string]

const keptFrom = ([lineKey, bankNumber, day, amount, payee, memo, state]: KeptRow): KeptLine => ({
  lineKey,
  bankNumber: bankNumber ?? '',
  day,
  amount,
  text: textOfLine({ payee, memo }),
  state: state === 'ignored' ? 'aside' : state === 'posted' || state === 'matched' ? 'booked' : 'waiting',
})
