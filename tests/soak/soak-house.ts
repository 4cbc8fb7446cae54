// The sample farm's house and what visitors do in it during a soak: mostly reading, some recording.
import { randomUUID } from 'node:crypto'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { listAccounts } from '#db/ledger/account-store.ts'
import { openSampleBooks } from '#sample/open-sample.ts'
import { createApp } from '#src/server.ts'
import { copySample } from '../sample/built-sample.ts'
import type { SoakRequest } from './soak.ts'

export async function soakHouse() {
  const folder = mkdtempSync(join(tmpdir(), 'dooryard-soak-'))
  const now = new Date('2026-11-25T12:00:00')
  await copySample(folder)
  const books = await openSampleBooks(folder, now)
  const broken: unknown[] = []
  const log = { info: () => {}, warn: () => {}, error: (fields: unknown) => void broken.push(fields) }
  const app = createApp({ books, clock: { now: () => now }, log, isSample: true })
  const id = (name: string) => String(listAccounts(books).find((one) => one.name === name)?.id)
  const pages = [
    '/now',
    '/now.json',
    '/books',
    '/books/entries?side=farm',
    `/books/accounts/${id('Farm checking')}`,
    `/books/accounts/${id('Farm checking')}?text=market`,
    `/books/accounts/${id('Household checking')}.csv`,
    '/crossings',
    '/crossings.csv?table=leak',
    '/runway',
    '/farm',
    '/settings',
    '/settings/accounts',
    '/books/entry?side=farm&kind=out',
    '/books/receipt',
  ]
  const record = (): SoakRequest => ({
    path: '/books/entry',
    form: {
      formId: randomUUID(),
      side: 'farm',
      kind: 'out',
      day: '2026-11-20',
      payee: 'Feed store',
      memo: '',
      moneyAccount: id('Farm checking'),
      'lines.0.account': id('Feed'),
      'lines.0.amount': '12.34',
      'lines.0.memo': '',
      // The same again and again, and meant.
      'sureAnother[]': '2026-11-20 Feed store ',
    },
  })
  return {
    app,
    broken,
    pick: (dice: () => number): SoakRequest =>
      dice() < 0.1 ? record() : { path: pages[Math.floor(dice() * pages.length)]! },
    close() {
      books.close()
      rmSync(folder, { recursive: true, force: true })
    },
  }
}
