// Bent backups: exports of small books as JSON, books files and sealed ones with their bytes changed, cut and moved.
import { createCipheriv, randomBytes, scryptSync } from 'node:crypto'
import { mkdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import fc from 'fast-check'
import { exportBooks } from '#db/backup/export.ts'
import { exportedTables } from '#db/backup/export-format.ts'
import type { ExportDocument } from '#db/backup/import-export.ts'
import { bentJson } from './bent-json.ts'
import { smallBooks } from './small-books.ts'

/** The export of books with rows in every table, without the accounts nothing is posted to and most of the log. */
export const smallExport = (folder: string): ExportDocument => {
  mkdirSync(folder, { recursive: true })
  const file = join(folder, 'small.json')
  const books = smallBooks(':memory:', folder)
  const written = exportBooks(books.sqlite, file, { now: new Date(0), attachments: folder })
  books.close()
  if (!written.ok) throw new Error(written.problem.message)
  const document = JSON.parse(readFileSync(file, 'utf8')) as ExportDocument
  const used = new Set(
    document.tables.flatMap(({ columns, rows }) =>
      columns.flatMap((column, at) => (column.endsWith('account_id') ? rows.map((row) => row[at]) : [])),
    ),
  )
  for (const table of document.tables) {
    if (table.name === 'accounts')
      table.rows = table.rows.filter((row) => used.has(row[table.columns.indexOf('id')]))
    if (table.name === 'submissions' || table.name === 'change_log') table.rows = table.rows.slice(0, 6)
  }
  return document
}

export const bentExports = (document: ExportDocument): fc.Arbitrary<string> =>
  bentJson({
    seeds: [document],
    mostlyIn: 'tables',
    keys: [
      'format',
      'version',
      'structure',
      'tables',
      'attachments',
      'name',
      'columns',
      'rows',
      'hash',
      'base64',
    ],
    values: [
      ...exportedTables.map((table) => table.name),
      ...document.tables.flatMap((table) => table.columns),
      ...[
        'farm',
        'household',
        'account_months',
        'sqlite_schema',
        '2026-01-02',
        '2023-01-31',
        'posted',
        'open',
      ],
      ...[0, 1, 2, 5, 1000, -1, 24276, document.structure, document.structure + 1],
      ...[null, [], {}, [null], document.tables[0], document.tables[4]!.rows[0]],
    ],
  })

/** Bytes changed one by one, filled over, moved or cut off. */
export const bentBytes = (bytes: Buffer): fc.Arbitrary<Buffer> => {
  const place = fc.double({ min: 0, max: 1, noNaN: true })
  const change = fc.record({
    how: fc.constantFrom('one', 'one', 'fill', 'move', 'cut', 'append'),
    at: fc.oneof(
      place,
      place.map((one) => one / 100),
    ),
    from: place,
    value: fc.nat(255),
    length: fc.constantFrom(1, 4, 16, 512, 4096),
  })
  return fc.array(change, { maxLength: 3 }).map((changes) => {
    let bent = Buffer.from(bytes)
    for (const { how, at, from, value, length } of changes) {
      const place = Math.floor(at * bent.length)
      if (how === 'one') bent.subarray(place, place + 1).fill(value)
      else if (how === 'fill') bent.subarray(place, place + length).fill(value)
      else if (how === 'move')
        bent.copy(bent, place, Math.floor(from * bent.length), Math.floor(from * bent.length) + length)
      else if (how === 'cut') bent = bent.subarray(0, place)
      else bent = Buffer.concat([bent, Buffer.alloc(length, value)])
    }
    return bent
  })
}

/** Sealed as a backup is, but with a key that is found at once: the layout is told in `sealed-backup.ts`. */
export const quicklySealed = (plain: Buffer, passphrase: string): Buffer => {
  const head = Buffer.concat([Buffer.from('DYSEAL01'), Buffer.from([4, 8, 1]), randomBytes(28)])
  const key = scryptSync(passphrase, head.subarray(11, 27), 32, { N: 16, r: 8, p: 1 })
  const cipher = createCipheriv('aes-256-gcm', key, head.subarray(27))
  cipher.setAAD(head)
  return Buffer.concat([head, cipher.update(plain), cipher.final(), cipher.getAuthTag()])
}
