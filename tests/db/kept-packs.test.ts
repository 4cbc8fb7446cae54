// Packs kept at a year's close: copies in order, never changed, and told by their digest.
import { expect, test } from 'vitest'
import { verifyBooks } from '#db/verify/verify.ts'
import { keepPack, keptPacksOf, keptYears, sheetsDigest } from '#db/year/kept-packs.ts'
import { act, done, freshBooks } from './fresh-books.ts'
import { pastTheGuards } from './past-the-guards.ts'

const sheets = JSON.stringify({ year: 2025, tables: {} })

test('a first copy, then amended ones with their reason, each with the digest of its own text', () => {
  const books = freshBooks()
  const first = done(keepPack(books, act(), { year: 2025, sheets, note: '', over: 0 }))
  expect(first).toEqual({ copyNo: 1, digest: sheetsDigest(sheets) })
  const amended = JSON.stringify({ year: 2025, tables: { x: 1 } })
  expect(keepPack(books, act(), { year: 2025, sheets: amended, note: ' ', over: 1 })).toMatchObject({
    ok: false,
    problems: [{ path: 'note' }],
  })
  expect(keepPack(books, act(), { year: 2025, sheets: amended, note: 'A late bill', over: 0 }).ok).toBe(false)
  done(keepPack(books, act(), { year: 2025, sheets: amended, note: 'A late bill', over: 1 }))
  expect(keptPacksOf(books, 2025).map(({ copyNo, note }) => [copyNo, note])).toEqual([
    [2, 'A late bill'],
    [1, ''],
  ])
  expect(keptYears(books)).toEqual([2025])
  expect(verifyBooks(books.sqlite).findings).toEqual([])
})

test('the same press twice keeps one copy', () => {
  const books = freshBooks()
  const press = act()
  const pack = { year: 2025, sheets, note: '', over: 0 }
  expect([keepPack(books, press, pack).ok, keepPack(books, press, pack).ok]).toEqual([true, true])
  expect(keptPacksOf(books, 2025)).toHaveLength(1)
})

test('a kept pack is not changed, deleted or replaced; past the guards verify finds it', () => {
  const books = freshBooks()
  done(keepPack(books, act(), { year: 2025, sheets, note: '', over: 0 }))
  for (const sql of ["UPDATE kept_packs SET sheets = '{}'", 'DELETE FROM kept_packs'])
    expect(() => books.sqlite.prepare(sql).run()).toThrow(/kept pack is never/)
  pastTheGuards(books.sqlite, "UPDATE kept_packs SET sheets = '{}'")
  expect(verifyBooks(books.sqlite).findings.map(({ check }) => check)).toContain('kept-packs')
})
