// What accounts hold by their postings alone, told apart from all that makes the year's papers.
import type { Account } from '#ledger/account.ts'
import type { TestBooks } from '../db/fresh-books.ts'

/** What moved on an account in a year and stood on it at its end, from the postings themselves. */
export const postedIn = (books: TestBooks, year: number) => {
  const rows = books.sqlite
    .prepare(
      `SELECT account_id AS id, sum(CASE WHEN substr(day, 1, 4) = ? THEN amount_cents ELSE 0 END) AS moved, sum(amount_cents) AS balance
       FROM postings WHERE day <= ? GROUP BY 1`,
    )
    .all(String(year), `${year}-12-31`) as { id: number; moved: number; balance: number }[]
  return new Map(rows.map((row) => [row.id, row]))
}

export const asIncome = (amount: number): number => -amount + 0

type Other = Record<'kind' | 'role' | 'contra' | 'current' | 'crossing' | 'line', string | null> & {
  amount: number
}

const otherLines = `
  SELECT p.amount_cents AS amount, a.kind, a.cash_role AS role, a.contra_kind AS contra, a.current_kind AS current,
    a.crossing_role AS crossing, a.schedule_line AS line
  FROM postings AS p JOIN postings AS o ON o.entry_no = p.entry_no AND o.id <> p.id JOIN accounts AS a ON a.id = o.account_id
  WHERE p.account_id = ? AND substr(p.day, 1, 4) = ?`

/**
 * What an account of income took in, from the postings alone. Sales of what lasts stand in entries of two lines here: a debit against
 * such a thing is its cost, and a credit against what gathers depreciation is what was written off of it; neither is a price.
 */
export const takenAsPosted = (books: TestBooks, { id, scheduleLine }: Account, year: number): number => {
  if (scheduleLine !== '4797') return asIncome(postedIn(books, year).get(id)?.moved ?? 0)
  const isThing = ({ kind, role, current, crossing }: Other) =>
    kind === 'asset' && role !== 'cash' && role !== 'spendable' && current === null && crossing === null
  const isWrittenOff = ({ kind, line }: Other) => kind === 'expense' && (line === '14' || line === '13')
  const isPrice = (row: Other) =>
    isThing(row) ? row.contra === null && row.amount < 0 : row.line !== '4797' && !isWrittenOff(row)
  const rows = books.sqlite.prepare(otherLines).all(id, String(year)) as Other[]
  return asIncome(rows.filter(isPrice).reduce((total, { amount }) => total + amount, 0))
}
