// The sorting desk with 750 and 5,000 transactions waiting: shown again, and after a booking, when each proposal is worked out anew.
import { randomUUID } from 'node:crypto'
import { sortingDesk } from '#db/statements/sorting-desk.ts'
import { sortLines } from '#db/statements/sorting-store.ts'
import { createApp } from '#src/server.ts'
import { type Benches, type BenchRow, medianProcessorMilliseconds } from './bench.ts'
import { deskBooks } from './desk-books.ts'

const limits = {
  750: { again: 30, changed: 60, bytes: 180_000 },
  5000: { again: 250, changed: 700, bytes: 300_000 },
} as const

export const benches: Benches = { desk: run }

async function run(): Promise<BenchRow[]> {
  const rows: BenchRow[] = []
  for (const [waiting, limit] of Object.entries(limits)) {
    const books = deskBooks(Number(waiting))
    const app = createApp({ books, clock: { now: () => new Date('2026-12-31T12:00:00') } })
    const desk = async () => {
      const reply = await app.request('http://localhost/books/sorting')
      if (reply.status !== 200) throw new Error(`The desk answered ${reply.status}`)
      return (await reply.text()).length
    }
    const timed = (what: string, milliseconds: number, most: number) =>
      rows.push({
        what: `The desk, ${waiting} waiting, ${what}`,
        milliseconds,
        limit: `under ${most} ms`,
        held: milliseconds < most,
      })
    timed('shown again', await medianProcessorMilliseconds(desk), limit.again)
    const act = () => ({ formId: randomUUID(), at: '2026-12-31T12:00:00Z', actor: 'bench' })
    const lines = sortingDesk(books).lines.map(({ line }) => line.id)
    const changed = await medianProcessorMilliseconds(() => {
      sortLines(books, act(), [{ lineId: lines.pop()!, kind: 'ignore', note: '' }])
      return desk()
    })
    timed('one skipped before', changed, limit.changed)
    const bytes = await desk()
    if (bytes > limit.bytes) throw new Error(`The page of the desk has ${bytes} bytes`)
    books.close()
  }
  return rows
}
