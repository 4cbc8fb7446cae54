// The transactions that wait to be sorted, found by what the search of the books asks for: what was read in is found before it is booked.
import type { EntryQuery } from '#db/ledger/latest-entries.ts'
import type { Books } from '#db/open.ts'
import type { DeskRow } from '#views/books-sorting/line-facts.tsx'
import { saysAll } from '#web/pages/books-sorting/desk-groups.ts'
import { readDesk } from '#web/pages/books-sorting/desk-read.ts'

/** Newest first. None has a receipt, and none was taken back. */
export const waitingFound = (books: Books, query: EntryQuery): DeskRow[] => {
  if (query.withReceipt) return []
  const { desk, rows } = readDesk(books)
  const sideOf = new Map(desk.lines.map(({ line }) => [line.id, line.sideId]))
  return rows
    .filter((row) => sideOf.get(row.id) === (query.sideId ?? sideOf.get(row.id)) && fits(row, query))
    .toReversed()
}

const fits = (row: DeskRow, query: EntryQuery): boolean => {
  const size = Math.abs(row.amount)
  return (
    saysAll(`${row.payee} ${row.memo}`, query.text ?? '') &&
    saysAll(row.payee, query.payee ?? '') &&
    row.day >= (query.from ?? row.day) &&
    row.day <= (query.to ?? row.day) &&
    row.accountId === (query.accountId ?? row.accountId) &&
    size >= (query.minimumCents ?? size) &&
    size <= (query.maximumCents ?? size)
  )
}
