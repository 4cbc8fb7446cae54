// The folder to hand over: one .zip with every sheet, the receipts of the year and an index; read back by another reader of the format.
import { execFileSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { unzipSync } from 'fflate'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { placeBeside } from '#db/data-place.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { addAttachment } from '#db/ledger/attachment-store.ts'
import { postEntry, voidEntry } from '#db/ledger/ledger-store.ts'
import { cents } from '#money/cents.ts'
import { act, done } from '../db/fresh-books.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
const photo = (letter: string) =>
  Buffer.concat([Buffer.from([0xff, 0xd8, 0xff, 0xe0]), Buffer.from(letter.repeat(5000))])

const bought = (on: string, payee: string) => {
  const idOf = (name: string) =>
    listAccounts(app.books).find((one) => one.sideId === 'farm' && one.name === name)!.id
  return done(
    postEntry(app.books, act(), {
      sideId: 'farm',
      day: day(on),
      payee,
      memo: '',
      source: 'form',
      lines: [
        { accountId: idOf('Feed'), amountCents: cents(12_345) },
        { accountId: idOf('Farm checking'), amountCents: cents(-12_345) },
      ],
    }),
  ).entryId
}

beforeEach(() => {
  app = testApp({ today: '2026-02-10', onDisk: true })
  app.openSides()
})
afterEach(() => app.close())

const folderOf = async () => {
  const response = await app.get('/year-pack/folder?year=2025')
  expect([response.status, response.headers.get('content-type')]).toEqual([200, 'application/zip'])
  expect(response.headers.get('content-disposition')).toContain('year-pack-2025.zip')
  return Buffer.from(await response.arrayBuffer())
}

test('holds an index, all sheets in both bases, one JSON, and the receipts of the year with their list', async () => {
  const attach = (entryId: string, letter: string) =>
    done(
      addAttachment(app.books, act(), placeBeside(app.books.path).attachments, {
        entryId,
        fileName: 'Röhre/bill.jpg',
        bytes: photo(letter),
      }),
    )
  attach(bought('2025-05-03', 'Feed & seed: Ridge'), 'a')
  attach(bought('2024-12-30', 'The year before'), 'b')
  const gone = bought('2025-06-03', 'Reversed')
  attach(gone, 'c')
  done(voidEntry(app.books, act(), gone, day('2025-06-04')))
  const files = unzipSync(await folderOf())
  const names = Object.keys(files)
  expect(names[0]).toBe('year-pack-2025/INDEX.txt')
  const text = (name: string) => Buffer.from(files[`year-pack-2025/${name}`]!).toString('utf8')
  for (const name of ['cash/schedule-f.csv', 'accrual/farm-balance.csv', 'cash/farm-cash.csv', 'pack.json'])
    expect(names).toContain(`year-pack-2025/${name}`)
  // The household's books hold nothing yet.
  expect(names).not.toContain('year-pack-2025/cash/household-cash.csv')
  expect(text('cash/farm-income.csv')).toContain('Operating costs,Feed,123.45')
  expect(JSON.parse(text('pack.json'))).toMatchObject({ year: 2025, format: 'dooryard-year-pack' })
  const receipts = names.filter((name) => name.endsWith('.jpg'))
  expect(receipts).toHaveLength(1)
  expect(receipts[0]).toMatch(
    /receipts\/2025-05-03 Feed seed Ridge entry 1 \S{1,6} Ro hre bill\.jpg$|receipts\/2025-05-03 Feed seed Ridge entry 1 .*bill\.jpg$/,
  )
  expect(Buffer.from(files[receipts[0]!]!).equals(photo('a'))).toBe(true)
  expect(text('receipts/receipts.csv')).toContain('2025-05-03,Wrenfold,Feed & seed: Ridge,,123.45,1,')
  expect(text('INDEX.txt')).toMatch(/OPEN POINTS\r\n1\. .*\r\n/)
  expect(text('INDEX.txt')).toContain('1 of the year, listed in receipts.csv')
})

test('another program reads it too', async ({ skip }) => {
  bought('2025-05-03', 'Ridge')
  const place = mkdtempSync(join(tmpdir(), 'dooryard-zip-'))
  try {
    writeFileSync(join(place, 'pack.zip'), await folderOf())
    try {
      execFileSync('python3', ['--version'])
    } catch {
      skip('no python3 here')
    }
    execFileSync('python3', ['-m', 'zipfile', '-t', 'pack.zip'], { cwd: place })
    execFileSync('python3', ['-m', 'zipfile', '-e', 'pack.zip', 'out'], { cwd: place })
    expect(readFileSync(join(place, 'out/year-pack-2025/INDEX.txt'), 'utf8')).toContain('Year pack 2025')
  } finally {
    rmSync(place, { recursive: true, force: true })
  }
})
