// Books of a given size for the benches, written through the guards in one go: a farm and a household over thirty years.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { type Day, dayInMonth } from '#calendar/day.ts'
import { addMonths, month } from '#calendar/month.ts'
import { addSide, listAccounts } from '#db/ledger/account-store.ts'
import { writeCrossing } from '#db/ledger/crossing-store.ts'
import { groundOf, writeParts } from '#db/ledger/ledger-writer.ts'
import { atomically } from '#db/once.ts'
import { type Books, openBooksOrThrow } from '#db/open.ts'
import { cents } from '#money/cents.ts'

export interface BigBooks extends Books {
  busiestAccountId: number
  lastDay: Day
  remove(): void
}

const months = 360
const firstMonth = month(1997, 1)
const payees = [
  'Seed house',
  'Feed store',
  'Grocer',
  'Fuel stop',
  'Market day',
  'Share payment',
  'Hardware',
  'Clinic',
]

/** About `postingCount` postings, spread evenly over the months; every fiftieth entry is a crossing. */
export const bigBooks = (postingCount: number): BigBooks => {
  const folder = mkdtempSync(join(tmpdir(), 'dooryard-bench-'))
  const books = openBooksOrThrow(join(folder, 'books.sqlite'), { now: new Date(0) })
  // Only for laying out: what is measured runs with the everyday settings.
  books.sqlite.pragma('synchronous = OFF')
  for (const kind of ['farm', 'household'] as const)
    addSide(books, { formId: kind, at: '1997-01-01T00:00:00Z', actor: 'bench' }, { kind, name: kind })
  const accounts = listAccounts(books)
  const id = (side: string, name: string) =>
    accounts.find((one) => one.sideId === side && one.name === name)!.id
  const others = {
    farm: accounts.filter((one) => one.sideId === 'farm' && ['income', 'expense'].includes(one.kind)),
    household: accounts.filter(
      (one) => one.sideId === 'household' && ['income', 'expense'].includes(one.kind),
    ),
  }
  const cash = { farm: id('farm', 'Farm checking'), household: id('household', 'Household checking') }
  const entryCount = postingCount / 2
  const perMonth = Math.ceil(entryCount / months)
  let made = 0
  for (let index = 0; index < months && made < entryCount; index += 1) {
    atomically(books, () => {
      const ground = groundOf(books)
      for (let count = 0; count < perMonth && made < entryCount; count += 1, made += 1) {
        const day = dayInMonth(addMonths(firstMonth, index), 1 + Math.floor((count * 28) / perMonth))
        const at = `${day}T12:00:00Z`
        if (made % 50 === 49) {
          writeCrossing(books, at, {
            id: `c${made}`,
            kind: 'draw',
            day,
            amountCents: cents(10_000 + made),
            fromAccountId: cash.farm,
            toAccountId: cash.household,
            memo: '',
          })
          continue
        }
        const side = made % 2 ? 'farm' : 'household'
        const amountCents = cents(1 + ((made * 7919) % 90_000))
        writeParts(
          books,
          at,
          {
            crossings: [],
            entries: [
              {
                id: `e${made}`,
                sideId: side,
                day,
                payee: payees[made % payees.length]!,
                memo: `No ${made % 1000}`,
                source: 'form',
                lines: [
                  { accountId: others[side][made % others[side].length]!.id, amountCents },
                  { accountId: cash[side], amountCents: cents(-amountCents) },
                ],
              },
            ],
          },
          ground,
        )
      }
      return { ok: true }
    })
  }
  books.sqlite.pragma('wal_checkpoint(TRUNCATE)')
  books.sqlite.pragma('synchronous = FULL')
  return {
    ...books,
    busiestAccountId: cash.farm,
    lastDay: books.sqlite.prepare('SELECT max(day) FROM entries').pluck().get() as Day,
    remove() {
      books.close()
      rmSync(folder, { recursive: true, force: true })
    },
  }
}
