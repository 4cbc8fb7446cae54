// The lines an account has already, as the law of seeing things twice needs them, and the days within which new ones come in unasked.
import type { Day } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'
import { eachInTurns, type InTurns } from '#kept/in-turns.ts'
import type { KeptLine } from '#ledger/statements/kept-line.ts'
import { type Bounds, numberKeysOf } from '#ledger/statements/seeing-twice.ts'
import { type StatementLine, textOfLine } from '#ledger/statements/statement.ts'
import type { Cents } from '#money/cents.ts'

/** Lines of the days the file covers, and those that bear one of its bank numbers on another day; in the order they were kept. */
export function* keptLines(
  books: Books,
  accountId: number,
  lines: readonly StatementLine[],
): InTurns<KeptLine[]> {
  const { sqlite } = books
  const span = spanOf(lines)
  const any = sqlite.prepare('SELECT 1 FROM statement_lines WHERE account_id = ? LIMIT 1').get(accountId)
  if (!span || !any) return []
  const rows = yield* rowsOfDays(books, accountId, span)
  const known = new Set(rows.map(([, key]) => key))
  const byKey = sqlite
    .prepare(`SELECT ${columns} FROM statement_lines WHERE account_id = ? AND line_key = ?`)
    .raw()
  yield* eachInTurns([...new Set(numberKeysOf(lines))], (key) => {
    const row = known.has(key) ? undefined : (byKey.get(accountId, key) as KeptRow | undefined)
    if (row) rows.push(row)
  })
  return rows.map(keptFrom)
}

const columns = 'id, line_key, bank_id, day, amount_cents, payee, memo, state'

/** So many rows at a time, along the index of days: while a statement runs nothing else could be written. */
const sliceSize = 5000

function* rowsOfDays(
  books: Books,
  accountId: number,
  { first, last }: { first: Day; last: Day },
): InTurns<KeptRow[]> {
  const slice = books.sqlite
    .prepare(
      `SELECT ${columns} FROM statement_lines INDEXED BY statement_lines_day
       WHERE account_id = @accountId AND day <= @last AND (day, amount_cents, id) > (@day, @amount, @id)
       ORDER BY day, amount_cents, id LIMIT ${sliceSize}`,
    )
    .raw()
  const rows: KeptRow[] = []
  let after = { day: first, amount: Number.MIN_SAFE_INTEGER, id: 0 }
  for (;;) {
    const found = slice.all({ accountId, last, ...after }) as KeptRow[]
    for (const row of found) rows.push(row)
    if (found.length < sliceSize) return rows.sort(([one], [other]) => one - other)
    const [id, , , day, amount] = found.at(-1)!
    after = { day, amount, id }
    yield
  }
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

type KeptRow = [id: number, string, string | null, Day, Cents, string, string, string]

const keptFrom = ([, lineKey, bankNumber, day, amount, payee, memo, state]: KeptRow): KeptLine => ({
  lineKey,
  bankNumber: bankNumber ?? '',
  day,
  amount,
  text: textOfLine({ payee, memo }),
  state: state === 'ignored' ? 'aside' : state === 'posted' || state === 'matched' ? 'booked' : 'waiting',
})
