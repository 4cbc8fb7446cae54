// The sorting desk with 750 and 5,000 transactions waiting: each row with its proposal, worked out whole for every page.
import { createApp } from '#src/server.ts'
import { type BenchRow, medianMilliseconds } from './bench.ts'
import { deskBooks } from './desk-books.ts'

export const name = 'desk: the sorting desk with 750 and 5,000 transactions waiting'

const limits = { 750: 60, 5000: 250 } as const

export async function run(): Promise<BenchRow[]> {
  const rows: BenchRow[] = []
  for (const [waiting, limit] of Object.entries(limits)) {
    const books = deskBooks(Number(waiting))
    const app = createApp({ books, clock: { now: () => new Date('2026-12-31T12:00:00') } })
    const milliseconds = await medianMilliseconds(async () => {
      const reply = await app.request('http://localhost/books/sorting')
      if (reply.status !== 200) throw new Error(`The desk answered ${reply.status}`)
      await reply.text()
    })
    books.close()
    rows.push({
      what: `The desk, ${waiting} waiting`,
      milliseconds,
      limit: `under ${limit} ms`,
      held: milliseconds < limit,
    })
  }
  return rows
}
