import { existsSync, readdirSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { afterEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { month } from '#calendar/month.ts'
import { addSide, listAccounts } from '#db/ledger/account-store.ts'
import { listCrossings } from '#db/ledger/crossing-store.ts'
import { startStanding } from '#db/ledger/standing-store.ts'
import { cents } from '#money/cents.ts'
import { keepBackup, postDue } from '#src/cli/housekeeping.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
afterEach(() => {
  app.close()
})
const said: string[] = []
const log = {
  info: () => {},
  warn: (_: unknown, text: string) => void said.push(text),
  error: (_: unknown, text: string) => void said.push(text),
}
const round = (today: string) => ({
  books: app.books,
  backupFolder: join(dirname(app.books.path), 'backups'),
  now: new Date(`${today}T08:00:00`),
  today: day(today),
  log,
})

test('automatic transfers post by themselves, missed months included, and never twice', () => {
  app = testApp({ onDisk: true })
  const act = (formId: string) => ({ formId, at: '2026-01-01T00:00:00Z', actor: 'test' })
  addSide(app.books, act('f'), { kind: 'farm', name: 'Farm' })
  addSide(app.books, act('h'), { kind: 'household', name: 'Household' })
  const id = (name: string) => listAccounts(app.books).find((one) => one.name === name)!.id
  startStanding(app.books, act('s'), {
    name: 'monthly draw',
    kind: 'draw',
    fromAccountId: id('Farm checking'),
    toAccountId: id('Household checking'),
    amountCents: cents(80_000),
    dayOfMonth: 31,
    firstMonth: month(2026, 1),
    lastMonth: null,
    posting: 'automatic',
    memo: '',
  })
  postDue(round('2026-03-15'))
  postDue(round('2026-03-15'))
  expect(listCrossings(app.books).map((one) => one.day)).toEqual(['2026-02-28', '2026-01-31'])
})

test('each day is backed up once, beside the books', async () => {
  app = testApp({ onDisk: true })
  await keepBackup(round('2026-03-15'))
  await keepBackup(round('2026-03-15'))
  const folder = join(dirname(app.books.path), 'backups')
  expect(existsSync(folder)).toBe(true)
  expect(readdirSync(folder)).toEqual(['books-2026-03-15.sqlite'])
  expect(said).toEqual([])
})
