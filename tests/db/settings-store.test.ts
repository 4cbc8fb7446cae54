// Settings that the program did not save are never guessed at: reading them says so.
import { expect, test } from 'vitest'
import { z } from 'zod'
import { NotAsSaved } from '#db/file-problem.ts'
import { readSettingAs, writeSetting } from '#db/settings-store.ts'
import { act, freshBooks } from './fresh-books.ts'

test('a setting is read in the shape it was saved in; one of another shape is told, not guessed', () => {
  const books = freshBooks()
  const shape = z.object({ years: z.record(z.string(), z.number()) })
  expect(readSettingAs(books, 'hens', shape)).toEqual({ value: undefined, revision: 0 })
  expect(writeSetting(books, act(), 'hens', { years: { 2026: 12 } }, 0).ok).toBe(true)
  expect(readSettingAs(books, 'hens', shape)).toEqual({ value: { years: { 2026: 12 } }, revision: 1 })
  for (const bent of ['"x"', '{}', 'null', '[]', '{"years":{"2026":"many"}}']) {
    books.sqlite.prepare("UPDATE settings SET value = ? WHERE key = 'hens'").run(bent)
    expect(() => readSettingAs(books, 'hens', shape)).toThrow(NotAsSaved)
  }
  expect(() => readSettingAs(books, 'hens', shape)).toThrow(
    /^The setting hens in the books file cannot be read\. Restore the latest backup/,
  )
})

test('a save over a newer one is refused', () => {
  const books = freshBooks()
  expect(writeSetting(books, act(), 'hens', 1, 0)).toEqual({ ok: true, revision: 1 })
  expect(writeSetting(books, act(), 'hens', 2, 0)).toMatchObject({ ok: false, kind: 'conflict' })
  expect(readSettingAs(books, 'hens', z.number())).toEqual({ value: 1, revision: 1 })
})
