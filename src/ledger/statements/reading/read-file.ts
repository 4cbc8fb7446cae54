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
  /** The text waits for a mapping; the sketch holds a guess. Two accounts or more where its rows name them, else none. */
  | { ok: true; format: 'csv'; text: string; sketch: CsvSketch; accounts: string[] }
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
  return sketch.ok ? { ok: true, format: 'csv', text, ...withAccounts(text, sketch) } : sketch
}

/** The whole file is asked which accounts it names: where it is one alone, no column has to tell it. */
const withAccounts = (text: string, sketch: CsvSketch): { sketch: CsvSketch; accounts: string[] } => {
  const { guess } = sketch
  if (guess.accountColumn === null) return { sketch, accounts: [] }
  const ofOne = { sketch: { ...sketch, guess: { ...guess, accountColumn: null } }, accounts: [] }
  const read = readCsv(text, guess)
  if (!read.ok) return readCsv(text, ofOne.sketch.guess).ok ? ofOne : { sketch, accounts: [] }
  return read.statements.length < 2
    ? ofOne
    : { sketch, accounts: read.statements.map(({ bankAccount }) => bankAccount) }
}

/** How many accounts a file holds. */
export const accountsIn = (opened: Extract<OpenedFile, { ok: true }>): number =>
  opened.format === 'ofx' ? opened.statements.length : Math.max(1, opened.accounts.length)

/** What to ask where the rows of several accounts would go into one. */
export const mixedAccounts = (accounts: readonly string[], mapping: ColumnMapping): string | null =>
  accounts.length < 2 || mapping.accountColumn !== null
    ? null
    : `The file names ${accounts.length} accounts: ${accounts.map((name) => name || 'one without a name').join(', ')}. As the columns are read, all of it goes into one account.`

/** The guess fitted to its account: signs that balance, words or the kind of the account speak against are turned. */
export const fitGuess = (
  text: string,
  guess: ColumnMapping,
  account: Pick<Account, 'kind' | 'name'>,
  /** Which of the accounts it is, in a file of several. */
  bankAccount = '',
): ColumnMapping => {
  if (guess.amount.kind !== 'signed') return guess
  // The first thousands of lines tell as much as all of them.
  const head = text.length > 200_000 ? text.slice(0, text.lastIndexOf('\n', 200_000) + 1) : text
  const doubtOf = (mapping: ColumnMapping): string | null => {
    const read = readCsv(head, mapping)
    const own = read.ok ? read.statements.find((each) => each.bankAccount === bankAccount) : undefined
    return own ? signDoubt(own.lines, account) : null
  }
  if (doubtOf(guess) === null) return guess
  const moneyOutIs = guess.amount.moneyOutIs === 'negative' ? 'positive' : 'negative'
  const turned: ColumnMapping = { ...guess, amount: { ...guess.amount, moneyOutIs } }
  return doubtOf(turned) === null ? turned : guess
}
