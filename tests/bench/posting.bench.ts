// An entry posted by a form, with its form id, log and link of the chain of changes, against the same rows written through the guards alone.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { day } from '#calendar/day.ts'
import { addSide, listAccounts } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { groundOf, writeParts } from '#db/ledger/ledger-writer.ts'
import { openBooksOrThrow } from '#db/open.ts'
import { moneyOut } from '#ledger/simple-entry.ts'
import { cents } from '#money/cents.ts'
import { type Benches, type BenchRow, medianMilliseconds } from './bench.ts'

export const benches: Benches = { posting: run }

async function run(): Promise<BenchRow[]> {
  const folder = mkdtempSync(join(tmpdir(), 'dooryard-bench-'))
  const books = openBooksOrThrow(join(folder, 'books.sqlite'), { now: new Date('2026-11-25T12:00:00Z') })
  let forms = 0
  const act = () => ({ formId: `bench-${++forms}`, at: '2026-11-25T12:00:00.000Z', actor: 'bench' })
  addSide(books, act(), { kind: 'farm', name: 'Wrenfold' })
  const id = (name: string) => listAccounts(books).find((one) => one.name === name)!.id
  const [cash, seeds] = [id('Farm checking'), id('Seeds and plants')]
  const draft = () =>
    moneyOut({ id: '', sideId: 'farm', day: day('2026-11-20'), payee: 'Seed house', memo: 'spring' }, cash, [
      { accountId: seeds, amountCents: cents(4500) },
    ])
  try {
    const alone = await medianMilliseconds(
      () =>
        books.sqlite
          .transaction(() => {
            const entry = { ...draft(), id: `alone-${++forms}` }
            writeParts(books, '2026-11-25T12:00:00Z', { crossings: [], entries: [entry] }, groundOf(books))
          })
          .immediate(),
      200,
    )
    const posted = await medianMilliseconds(() => postEntry(books, act(), draft()), 200)
    return [
      {
        what: 'an entry posted by a form',
        milliseconds: posted,
        floor: { what: 'the entry and its lines alone, on disk', milliseconds: alone },
      },
    ]
  } finally {
    books.close()
    rmSync(folder, { recursive: true, force: true })
  }
}
