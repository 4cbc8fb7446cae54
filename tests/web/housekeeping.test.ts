import { existsSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { afterEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { month } from '#calendar/month.ts'
import { keepCopyOfDay } from '#db/backup/daily-copy.ts'
import { addSide, listAccounts } from '#db/ledger/account-store.ts'
import { listCrossings } from '#db/ledger/crossing-store.ts'
import { openBooksOrThrow } from '#db/open.ts'
import { startStanding } from '#db/transfers/standing-store.ts'
import { cents } from '#money/cents.ts'
import { keepBackup, keepLastCopy, postDue } from '#src/cli/serving/housekeeping.ts'
import type { Upkeep } from '#web/server/context.ts'
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
const upkeep: Upkeep = { backupProblem: null, restoreSaid: null }
const round = (today: string) => ({
  books: app.books,
  copy: async () =>
    keepCopyOfDay(app.books, join(dirname(app.books.path), 'backups'), day(today))?.message ?? null,
  now: new Date(`${today}T08:00:00`),
  today: day(today),
  log,
  upkeep,
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

test('what was entered after the copy of the day is in the one that is made as the house closes', async () => {
  app = testApp({ onDisk: true })
  await keepBackup(round('2026-03-15'))
  app.openSides()
  const entered = listAccounts(app.books).length
  await keepLastCopy(round('2026-03-15'))
  const copy = openBooksOrThrow(join(dirname(app.books.path), 'backups', 'books-2026-03-15.sqlite'), {
    now: new Date('2026-03-15T18:00:00'),
  })
  expect(listAccounts(copy)).toHaveLength(entered)
  copy.close()
  // What breaks then is logged, and the house closes all the same.
  await keepLastCopy({
    ...round('2026-03-15'),
    copy: async () => {
      throw new Error('no disk')
    },
  })
  expect(said.pop()).toBe('housekeeping broke')
})

test('a copy that cannot be made, and the age of the last one elsewhere, stand on Now', async () => {
  app = testApp({ onDisk: true, today: '2026-03-15', upkeep })
  app.openSides()
  const now = async () => (await app.get('/now')).text()
  expect(await now()).toContain('No copy has left this computer yet.')
  expect(await now()).not.toContain('All of it would go')
  app.setToday('2026-04-20')
  expect(await now()).toContain('All of it would go with this computer.')
  // A file stands where the folder of copies should be.
  const folder = join(dirname(app.books.path), 'backups')
  writeFileSync(folder, '')
  await keepBackup(round('2026-04-20'))
  expect(await now()).toMatch(/Today’s copy could not be made\. .*backups/)
  const figures = await (await app.get('/now.json')).json()
  expect(figures).toMatchObject({ copies: { isDue: true, problem: expect.stringContaining('backups') } })
  rmSync(folder)
  await keepBackup(round('2026-04-20'))
  expect(await now()).not.toContain('could not be made')
  const sent = await app.post('/settings/backups/file', { formId: 'a', kind: 'plain' })
  await sent.arrayBuffer()
  await expect.poll(now).toContain('A copy last left this computer today')
  app.setToday('2026-05-22')
  expect(await now()).toContain('32 days ago, on Apr 20, 2026. What was entered since would go')
})

test('damaged pages end the writing, and the copy of the day is not made of them', async () => {
  app = testApp({ onDisk: true, today: '2026-03-15', upkeep })
  app.openSides()
  app.books.standing.checkPages = () => ({ kind: 'damaged', message: 'books.sqlite is damaged.' })
  await keepBackup(round('2026-03-16'))
  expect(upkeep.backupProblem).toBe('books.sqlite is damaged.')
  expect(existsSync(join(dirname(app.books.path), 'backups', 'books-2026-03-16.sqlite'))).toBe(false)
})
