// Restoring from the page, in a server's own home: looked at first, put in place on a second word, everything opened anew.
import { randomUUID } from 'node:crypto'
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { backUpToFile } from '#db/backup/backup-file.ts'
import { backUpDaily } from '#db/backup/daily-copy.ts'
import { placeBeside } from '#db/data-place.ts'
import { addSide, listAccounts } from '#db/ledger/account-store.ts'
import { addAttachment } from '#db/ledger/attachment-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { openBooksOrThrow } from '#db/open.ts'
import { sortingDesk } from '#db/statements/sorting-desk.ts'
import { sortLines } from '#db/statements/sorting-store.ts'
import { importStatement } from '#db/statements/statement-store.ts'
import { listActs, undoChange } from '#db/undo.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { moneyOut } from '#ledger/simple-entry.ts'
import { cents } from '#money/cents.ts'
import { type Home, openHome } from '#src/cli/serving/home.ts'
import { readServeOptions } from '#src/cli/serving/serve-options.ts'
import { timeNameOf } from '#web/server/clock.ts'
import { on, sealCost } from '../db/fresh-books.ts'
import { statementFile } from '../db/statement-file.ts'

let folder: string
let home: Home
let cookie = ''
const now = new Date('2026-03-15T12:00:00Z')
const io = { out: () => {}, err: () => {}, readInput: async () => '', env: {}, now: () => now }
const log = { info: () => {}, warn: () => {}, error: () => {} }
const origin = 'http://127.0.0.1'

beforeEach(async () => {
  cookie = ''
  folder = mkdtempSync(join(tmpdir(), 'dooryard-restore-'))
  home = await openHome(readServeOptions(['--data', folder]), io, log)
  for (const kind of ['farm', 'household'] as const) addSide(home.books(), act(), { kind, name: kind })
  buy('Country store')
})
afterEach(() => {
  home.close()
  rmSync(folder, { recursive: true, force: true })
})

const act = () => ({ formId: randomUUID(), at: now.toISOString(), actor: 'test' })
const buy = (payee: string) => {
  const books = home.books()
  const id = (name: string) =>
    listAccounts(books).find((one) => one.sideId === 'farm' && one.name === name)!.id
  const head = { id: '', sideId: 'farm', day: on('2026-01-05'), payee, memo: '' }
  const lines = [{ accountId: id('Supplies'), amountCents: cents(3200) }]
  const posted = postEntry(books, act(), moneyOut(head, id('Farm checking'), lines))
  if (!posted.ok) throw new Error(JSON.stringify(posted))
  return posted.result.entryId
}
const payees = () => home.books().sqlite.prepare('SELECT payee FROM entries ORDER BY no').pluck().all()
const get = async (path: string) => (await home.fetch(new Request(origin + path))).text()
const post = async (path: string, fields: Record<string, string | File>) => {
  const body = new FormData()
  for (const [name, value] of Object.entries({ formId: randomUUID(), ...fields })) body.set(name, value)
  return home.fetch(new Request(origin + path, { method: 'POST', body, headers: { origin, cookie } }))
}
const look = async (fields: Record<string, string | File>) => {
  const reply = await post('/settings/backups/look', fields)
  const text = await reply.text()
  return { status: reply.status, text, key: /name="key" value="([^"]+)"/.exec(text)?.[1] ?? '' }
}
const daily = () => {
  expect(backUpDaily(home.books(), placeBeside(home.books().path).backups, on('2026-03-14'))).toMatchObject({
    ok: true,
  })
  return 'books-2026-03-14.sqlite'
}

test('a kept copy is looked at, changes nothing, and is put in place on a second word', async () => {
  const kept = daily()
  buy('Mill')
  const before = home.books()
  const seen = await look({ kept })
  expect(seen.status).toBe(200)
  const at = timeNameOf()(now.toISOString())
  expect(seen.text).toContain('entries of the farm: 1 would be gone<')
  expect(seen.text).toContain(`Last change in your books: ${at}; in the backup: ${at}.`)
  expect(seen.text).not.toMatch(/\d{4}-\d\d-\d\dT\d/)
  expect(seen.text).toMatch(/changes in the log: [1-9]\d* would be gone</)
  expect(payees()).toEqual(['Country store', 'Mill'])
  const done = await post('/settings/backups/restore', { key: seen.key })
  expect(done.headers.get('location')).toBe('/settings/backups')
  expect(home.books()).not.toBe(before)
  expect(payees()).toEqual(['Country store'])
  expect(verifyBooks(home.books().sqlite).findings).toEqual([])
  const page = await get('/settings/backups')
  const keptBefore = /kept as (books-before-restore-[\w-]+\.sqlite)/.exec(page)?.[1] ?? ''
  expect(page).toContain(`Restored from ${kept}.`)
  // The browser opens the page at its top: there it is said.
  expect(page.indexOf('Restored from')).toBeLessThan(page.indexOf('Download a backup'))
  expect(await get('/settings/backups')).not.toContain('Restored from')
  // Writing goes on in the restored books, and what was before can be had back.
  buy('Feed')
  expect(
    (await post('/settings/backups/restore', { key: (await look({ kept: keptBefore })).key })).status,
  ).toBe(303)
  expect(payees()).toEqual(['Country store', 'Mill'])
  expect(readdirSync(folder).filter((name) => name.endsWith('.half'))).toEqual([])
})

test('a copy of before a sort was undone is told as what would stand again, in the time of this computer', async () => {
  const books = home.books()
  const id = (name: string) =>
    listAccounts(books).find((one) => one.sideId === 'farm' && one.name === name)!.id
  const file = statementFile([
    { day: on('2026-02-02'), amount: cents(-4100), payee: 'FEED MILL' },
    { day: on('2026-02-09'), amount: cents(-900), payee: 'TWINE AND WIRE' },
    { day: on('2026-02-11'), amount: cents(-2500), payee: 'LIME' },
  ])
  importStatement(books, act(), id('Farm checking'), file, on('2026-03-15'))
  const target = { kind: 'account', accountId: id('Supplies'), enterpriseId: null } as const
  const lines = sortingDesk(books).lines.map(({ line }) => ({
    lineId: line.id,
    kind: 'target' as const,
    target,
  }))
  expect(sortLines(books, act(), lines).ok).toBe(true)
  const kept = daily()
  const [sorted] = listActs(books)
  expect(undoChange(books, act(), sorted!.id, on('2026-03-15')).ok).toBe(true)
  const { text } = await look({ kept })
  expect(text).toContain(
    '3 reversing entries of the farm would be gone: what they reversed would stand again',
  )
  expect(text).toContain('3 transactions not sorted now would be sorted as before')
  expect(text).not.toContain('entries of the farm: ')
  expect(text).not.toMatch(/[^-]\b0 would be/)
})

test('an encrypted file is opened with its passphrase, and brings its receipts only when put in place', async () => {
  const place = placeBeside(home.books().path)
  const bytes = Buffer.from('%PDF-1.4 row cover')
  addAttachment(home.books(), act(), place.attachments, {
    entryId: buy('Row cover'),
    fileName: 'r.pdf',
    bytes,
  })
  const target = join(folder, 'away.dooryard')
  backUpToFile(home.books(), target, { ...place, passphrase: 'six words of ours', sealCost })
  rmSync(place.attachments, { recursive: true })
  const file = new File([readFileSync(target)], 'away.dooryard')
  const wrong = await look({ file, openWith: 'seven words of ours' })
  expect(wrong.status).toBe(422)
  expect(wrong.text).toContain('The passphrase does not open away.dooryard')
  const seen = await look({ file, openWith: 'six words of ours' })
  expect(seen.text).toContain('The backup holds the same as your books.')
  expect(readdirSync(folder)).not.toContain('attachments')
  expect((await post('/settings/backups/restore', { key: seen.key })).status).toBe(303)
  expect(readdirSync(place.attachments)).toHaveLength(1)
})

test('what was entered after the look is not lost unseen', async () => {
  const kept = daily()
  const seen = await look({ kept })
  buy('Mill')
  const again = await post('/settings/backups/restore', { key: seen.key })
  expect(again.status).toBe(200)
  expect(await again.text()).toContain('The books changed since you looked')
  expect(payees()).toEqual(['Country store', 'Mill'])
  expect((await post('/settings/backups/restore', { key: seen.key })).status).toBe(303)
  expect(payees()).toEqual(['Country store'])
})

test('another program that has the file open is said, and the books stay open here', async () => {
  const seen = await look({ kept: daily() })
  const other = openBooksOrThrow(home.books().path, { now })
  expect((await post('/settings/backups/restore', { key: seen.key })).status).toBe(303)
  expect(await get('/settings/backups')).toContain('is open in a running Dooryard')
  other.close()
  buy('Mill')
  expect(payees()).toEqual(['Country store', 'Mill'])
})

test('nothing chosen, an empty file, a file of another kind and an old look are told in words', async () => {
  expect((await look({})).text).toContain('Choose a copy')
  expect((await look({ file: new File([''], 'empty.sqlite') })).text).toContain('Choose a copy')
  expect((await look({ file: new File(['Dear diary'], 'notes.txt') })).text).toContain(
    'notes.txt is not a books file',
  )
  expect((await look({ kept: '../books.sqlite' })).status).toBe(422)
  expect((await post('/settings/backups/restore', { key: 'old' })).status).toBe(404)
})

test('a copy without a passphrase is not shown to other computers', async () => {
  const kept = daily()
  const passphrase = 'four goats in the orchard'
  const fields = { passphrase, again: passphrase, idleMinutes: '30' }
  expect((await post('/settings/passphrase', fields)).status).toBe(303)
  home.close()
  home = await openHome({ ...readServeOptions(['--data', folder]), host: '0.0.0.0' }, io, log)
  cookie = (await post('/unlock', { passphrase })).headers
    .getSetCookie()
    .map((one) => one.split(';')[0])
    .join('; ')
  const { key } = await look({ kept })
  expect((await post('/settings/backups/restore', { key })).status).toBe(303)
  const reply = await home.fetch(new Request(`${origin}/now`))
  expect(reply.status).toBe(503)
  expect(await reply.text()).toContain('a passphrase is needed')
})
