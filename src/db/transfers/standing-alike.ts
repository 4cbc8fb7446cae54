// Crossings of the books that a due month of a standing transfer may be: from the bank's file or by hand, with its terms, near its day.
import { addDays, type Day } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'
import type { Occurrence, StandingTransfer } from '#ledger/standing.ts'

/** A bank moves money so many days before or after the day that was agreed. */
const daysApart = 7

/**
 * For each due month the day of a crossing of the same kind, amount and accounts that no standing transfer posted, or null. Each
 * crossing stands for one month: the nearest free one is taken, month after month.
 */
export const alikeInBooks = (
  books: Books,
  transfer: StandingTransfer,
  due: readonly Occurrence[],
): (Day | null)[] => {
  const found = new Set<string>()
  return due.map(({ day }) => {
    const rows = books.sqlite.prepare(alikeQuery).all({
      kind: transfer.kind,
      amount: transfer.amountCents,
      from: transfer.fromAccountId,
      to: transfer.toAccountId,
      day,
      first: addDays(day, -daysApart),
      last: addDays(day, daysApart),
    }) as { id: string; day: Day }[]
    const free = rows.find(({ id }) => !found.has(id))
    if (free) found.add(free.id)
    return free?.day ?? null
  })
}

const alikeQuery = `
  SELECT crossing.id, crossing.day FROM crossings AS crossing
  WHERE crossing.day BETWEEN @first AND @last AND crossing.kind = @kind AND crossing.amount_cents = @amount
    AND crossing.reverses_id IS NULL
    AND NOT EXISTS (SELECT 1 FROM crossings AS back WHERE back.reverses_id = crossing.id)
    AND EXISTS (SELECT 1 FROM postings AS gave JOIN postings AS line ON line.entry_no = gave.entry_no
      WHERE gave.crossing_id = crossing.id AND line.account_id = @from)
    AND EXISTS (SELECT 1 FROM postings AS got JOIN postings AS line ON line.entry_no = got.entry_no
      WHERE got.crossing_id = crossing.id AND line.account_id = @to)
    AND NOT EXISTS (SELECT 1 FROM postings AS half JOIN entries ON entries.no = half.entry_no
      WHERE half.crossing_id = crossing.id AND entries.source = 'standing')
  ORDER BY abs(julianday(crossing.day) - julianday(@day)), crossing.id`
