// From a bank file's bytes to statements: tells OFX from CSV, asks for a column mapping where one is needed.
import type { Account } from '#ledger/account.ts'
import { signDoubt } from '../line-signs.ts'
import { type BrokenFile, brokenFile, type Statement } from '../statement.ts'
import type { ColumnMapping } from './column-mapping.ts'
import { readCsv } from './csv.ts'
import { csvBoundsBroken } from './csv-bounds.ts'
import { decodeStatement } from './encoding.ts'
import { foreignKind, isText } from './foreign-files.ts'
import { looksLikeOfx, readOfx } from './ofx.ts'
import { type CsvSketch, sketchCsv } from './sketch.ts'

export type OpenedFile =
  | { ok: true; format: 'ofx'; statements: Statement[] }
  /** The text waits for a mapping; the sketch holds a guess. */
  | { ok: true; format: 'csv'; text: string; sketch: CsvSketch }
  | BrokenFile

/** Never throws for what a file may hold. */
export const openBankFile = (bytes: Uint8Array): OpenedFile => {
  if (bytes.byteLength === 0) return brokenFile(0, 'The file is empty')
  const { text } = decodeStatement(bytes)
  const foreign = foreignKind(bytes, text)
  if (foreign !== null)
    return brokenFile(
      0,
      `This is ${foreign}, which is not read here. Ask the bank for the transactions as OFX or CSV`,
    )
  if (!isText(text))
    return brokenFile(0, 'This is no text file, so it is neither OFX nor CSV. Ask the bank for one of them')
  if (looksLikeOfx(text)) {
    const read = readOfx(text)
    return read.ok ? { ok: true, format: 'ofx', statements: read.statements } : read
  }
  const beyond = csvBoundsBroken(text)
  if (beyond) return beyond
  const sketch = sketchCsv(text)
  return sketch.ok ? { ok: true, format: 'csv', text, sketch } : sketch
}

/** The statement in a CSV text by its mapping. */
export const readMapped = (
  text: string,
  mapping: ColumnMapping,
): { ok: true; statement: Statement } | BrokenFile => {
  const read = readCsv(text, mapping)
  return read.ok ? { ok: true, statement: read.statements[0]! } : read
}

/** The guess fitted to its account: signs that balance, words or the kind of the account speak against are turned. */
export const fitGuess = (
  text: string,
  guess: ColumnMapping,
  account: Pick<Account, 'kind' | 'name'>,
): ColumnMapping => {
  if (guess.amount.kind !== 'signed') return guess
  // The first thousands of lines tell as much as all of them.
  const head = text.length > 200_000 ? text.slice(0, text.lastIndexOf('\n', 200_000) + 1) : text
  const doubtOf = (mapping: ColumnMapping): string | null => {
    const read = readMapped(head, mapping)
    return read.ok ? signDoubt(read.statement.lines, account) : null
  }
  if (doubtOf(guess) === null) return guess
  const moneyOutIs = guess.amount.moneyOutIs === 'negative' ? 'positive' : 'negative'
  const turned: ColumnMapping = { ...guess, amount: { ...guess.amount, moneyOutIs } }
  return doubtOf(turned) === null ? turned : guess
}
