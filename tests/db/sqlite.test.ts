import { expect, test } from 'vitest'
import { openSqlite } from '#db/sqlite.ts'

const withRows = () => {
  const sqlite = openSqlite(':memory:')
  sqlite.exec(
    "CREATE TABLE crops (id INTEGER PRIMARY KEY, name TEXT); INSERT INTO crops (name) VALUES ('kale'), ('leek')",
  )
  return sqlite
}

test('statements of one text keep their own shape of answer', () => {
  const sqlite = withRows()
  const text = 'SELECT id, name FROM crops ORDER BY id'
  const objects = sqlite.prepare(text)
  const arrays = sqlite.prepare(text).raw()
  const ids = sqlite.prepare(text).pluck()
  expect(objects.all()).toEqual([
    { id: 1, name: 'kale' },
    { id: 2, name: 'leek' },
  ])
  expect(arrays.all()).toEqual([
    [1, 'kale'],
    [2, 'leek'],
  ])
  expect(ids.all()).toEqual([1, 2])
  expect(objects.get()).toEqual({ id: 1, name: 'kale' })
  expect(ids.raw(false).get()).toEqual({ id: 1, name: 'kale' })
})

test('a text may be run within a run of itself, and a run left early frees its statement', () => {
  const sqlite = withRows()
  const names = sqlite.prepare('SELECT name FROM crops ORDER BY id').pluck()
  const pairs: unknown[] = []
  for (const one of names.iterate()) for (const other of names.iterate()) pairs.push(`${one} ${other}`)
  expect(pairs).toEqual(['kale kale', 'kale leek', 'leek kale', 'leek leek'])
  for (const _ of names.iterate()) break
  sqlite.exec('DROP TABLE crops')
})

test('a text SQLite does not take is refused when it is prepared, and an error in a run leaves the statement fit', () => {
  const sqlite = withRows()
  expect(() => sqlite.prepare('SELECT name FROM nowhere')).toThrow('no such table')
  const add = sqlite.prepare('INSERT INTO crops (id, name) VALUES (?, ?)')
  expect(() => add.run(1, 'beet')).toThrow('UNIQUE')
  expect(add.run(3, 'beet').changes).toBe(1)
})

test('pragmas are set and read', () => {
  const sqlite = openSqlite(':memory:')
  sqlite.pragma('foreign_keys = OFF')
  expect(sqlite.pragma('foreign_keys', { simple: true })).toBe(0)
  expect(sqlite.pragma('foreign_keys')).toEqual([{ foreign_keys: 0 }])
})
