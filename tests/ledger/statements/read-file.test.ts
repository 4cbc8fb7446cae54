// Files that are no statement this house reads are told by name. All contents are invented.
import { gzipSync } from 'node:zlib'
import { expect, test } from 'vitest'
import { openBankFile } from '#ledger/statements/reading/read-file.ts'

const says = (content: string | Uint8Array) => {
  const opened = openBankFile(typeof content === 'string' ? Buffer.from(content) : content)
  return opened.ok ? opened.format : opened.message
}

test.for([
  ['a PDF', '%PDF-1.7 …'],
  ['a web page', '<!DOCTYPE html>\n<html><body>Please sign in, or call us</body></html>'],
  ['a web page', '\n<html><head></head></html>'],
  ['RTF', '{\\rtf1\\ansi Date, Amount\nx, 1}'],
  ['JSON', '{"transactions": [{"date": "2025-01-03", "amount": -5}]}'],
  ['JSON', '[\n{"date": "2025-01-03", "amount": -5}\n]'],
  ['MT940', ':20:START\n:25:1/2\n:60F:C250101USD100,\n:61:2501030103D5,00NMSC\n'],
  ['MT940', '{1:F01AAAA}{4:\n:20:START\n:60F:C250101USD100,\n:61:250103D5,00NMSC\n-}'],
  ['QIF', '!Type:Bank\nD1/3/25\nT-5.00\nPCoffee\n^\n'],
  [
    'CAMT',
    '<?xml version="1.0"?>\n<Document xmlns="urn:iso:std:iso:20022:tech:xsd:camt.053.001.02"><BkToCstmrStmt/></Document>',
  ],
  ['XML', '<?xml version="1.0"?><statement><line day="2025-01-03"/></statement>'],
] as const)('%s is told by name', ([name, content]) => {
  expect(says(content)).toContain(name)
  expect(says(content)).toContain('as OFX or CSV')
})

test('a compressed file is told by name', () => {
  expect(says(gzipSync('Date,Description,Amount\n01/13/2025,Coffee,-5.00\n'))).toContain('gzip')
})

test('CSV and OFX are still what they are, whatever they begin with', () => {
  expect(says('Date,Description,Amount\n01/13/2025,Coffee,-5.00\n')).toBe('csv')
  expect(says('"[note]",b,c\n01/13/2025,Coffee,-5.00\n')).toBe('csv')
  expect(says('<?xml version="1.0"?><?OFX OFXHEADER="200"?><OFX><STMTRS></STMTRS></OFX>')).toBe('ofx')
  expect(says('<OFX><STMTRS></STMTRS></OFX>')).toBe('ofx')
})

test('bytes that no one wrote are refused, and a stray control character is not minded', () => {
  // Every byte there is, in a fixed order far from its own.
  const bytes = Uint8Array.from({ length: 2048 }, (_, at) => (at * 167 + (at >> 8) * 13) % 256)
  expect(says(bytes)).toContain('no text file')
  expect(says(bytes.slice(0, 300))).toContain('no text file')
  const lines = '01/13/2025,Coffee,-5.00\n'.repeat(5)
  expect(says(`Date,Description,Amount\n${lines}\u001a`)).toBe('csv')
})
