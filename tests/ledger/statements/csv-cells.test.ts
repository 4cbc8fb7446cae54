import { parse } from 'csv-parse/sync'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { readCsv } from '#ledger/statements/reading/csv.ts'
import { csvBoundsBroken } from '#ledger/statements/reading/csv-bounds.ts'
import { cutRows } from '#ledger/statements/reading/csv-cells.ts'
import { openBankFile } from '#ledger/statements/reading/read-file.ts'
import { assertFuzz, fuzzLimit, fuzzRuns } from '../../fuzz/batches.ts'

const rowsOf = (text: string, delimiter = ',') => {
  const cut = cutRows(text, delimiter)
  return cut.ok ? cut.rows : cut.why
}

// RFC 4180, section 2, rules 1 to 7, with lines that end in LF.
test('rows are cut as RFC 4180 says', () => {
  expect(rowsOf('aaa,bbb,ccc\nzzz,yyy,xxx\n')).toEqual([
    ['aaa', 'bbb', 'ccc'],
    ['zzz', 'yyy', 'xxx'],
  ])
  expect(rowsOf('aaa,bbb,ccc\nzzz,yyy,xxx')).toEqual(rowsOf('aaa,bbb,ccc\nzzz,yyy,xxx\n'))
  expect(rowsOf('"aaa","b\nbb","ccc"\nzzz,yyy,xxx')).toEqual([
    ['aaa', 'b\nbb', 'ccc'],
    ['zzz', 'yyy', 'xxx'],
  ])
  expect(rowsOf('"aaa","b""bb","ccc"')).toEqual([['aaa', 'b"bb', 'ccc']])
})

test('what banks make of it is cut, too: stray quotation marks, uneven rows, blank lines', () => {
  expect(rowsOf('a "b" c,"d"e"f,\n\n,\nx')).toEqual([['a "b" c', '"d"e"f', ''], [''], ['', ''], ['x']])
  expect(rowsOf('a;"b;c";d', ';')).toEqual([['a', 'b;c', 'd']])
  expect(rowsOf('a,"b\nc,d\n')).toBe('open-quote')
  expect(rowsOf(`a,${'x'.repeat(100_001)}\n`)).toBe('long-row')
  expect(rowsOf('')).toEqual([])
})

// csv-parse 7.0.3 with relaxed quotes and column counts, an implementation by others.
test('any text of marks is cut as an implementation by others cuts it', {
  timeout: fuzzLimit(60_000),
}, async () => {
  const text = fc.array(fc.constantFrom('"', '""', ',', '\n', 'a', ' ', 'bc', '",', ',"', '"\n'), {
    maxLength: 24,
  })
  let cuts = 0
  await assertFuzz(
    fc.property(text, (parts) => {
      const whole = parts.join('')
      let theirs: string[][] | 'open-quote'
      try {
        theirs = parse(whole, { relax_quotes: true, relax_column_count: true, record_delimiter: '\n' })
        cuts += 1
      } catch {
        theirs = 'open-quote'
      }
      expect(rowsOf(whole)).toEqual(theirs)
    }),
    0.5,
  )
  expect(cuts).toBeGreaterThan(fuzzRuns(0.5) / 3)
})

const head = `Date,Amount,Name\n${'2026-01-05,-12.50,Feed store\n'.repeat(50)}`
const shapes: readonly [string, (bytes: number) => string][] = [
  ['newlines', (bytes) => '\n'.repeat(bytes)],
  ['newlines under movements', (bytes) => head + '\n'.repeat(bytes)],
  ['commas', (bytes) => ','.repeat(bytes)],
  ['rows of commas', (bytes) => head + `${','.repeat(400)}\n`.repeat(bytes / 401)],
  ['quotation marks', (bytes) => '"'.repeat(bytes)],
  ['rows of quotation marks', (bytes) => head + '""""""""\n'.repeat(bytes / 9)],
  ['a quotation mark that never closes', (bytes) => `${head}"${'a\n'.repeat(bytes / 2)}`],
  ['uneven rows', (bytes) => head + 'a,b\n'.repeat(bytes / 4)],
  ['one long row', (bytes) => head + 'a'.repeat(bytes)],
  ['one cell', (bytes) => ' '.repeat(bytes)],
  ['movements', (bytes) => head.repeat(bytes / head.length)],
]

/** What as many bytes of movements take, measured once. */
let plainTime: number | undefined

test.for(shapes)('a file of %s takes the time of its length', ([, make]) => {
  const encoder = new TextEncoder()
  const read = (bytes: Uint8Array) => {
    const begun = performance.now()
    const opened = openBankFile(bytes)
    if (opened.ok && opened.format === 'csv') readCsv(opened.text, opened.sketch.guess)
    return performance.now() - begun
  }
  const of = (shape: (bytes: number) => string) => encoder.encode(shape(600_000))
  plainTime ??= Math.min(...[1, 2, 3].map(() => read(of(shapes.at(-1)![1]))))
  const odd = of(make)
  // As many bytes of movements are a seventh as many rows as the shortest here; what grows with the square takes hundreds of times as long.
  expect(Math.min(read(odd), read(odd))).toBeLessThan(60 * plainTime)
})

test('rows, columns and the length of a row are bounded, in words with the line', () => {
  expect(csvBoundsBroken(head)).toBeNull()
  expect(csvBoundsBroken('a\n'.repeat(200_000))).toBeNull()
  expect(csvBoundsBroken('a\n'.repeat(200_001))?.message).toMatch(/more than 200,000 rows/)
  expect(csvBoundsBroken(`a\n${','.repeat(500)}`)).toMatchObject({
    fileLine: 2,
    message: expect.stringMatching(/more than 500 columns/),
  })
  expect(csvBoundsBroken(`a\nb\n${'x'.repeat(100_001)}`)).toMatchObject({ fileLine: 3 })
})
