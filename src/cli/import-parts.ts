// Which accounts and parts of a file `dooryard import` reads: as it is told, else as earlier files told.
import { basename } from 'node:path'
import { listAccounts, listSides } from '#db/ledger/account-store.ts'
import type { Books } from '#db/open.ts'
import { accountOfBank } from '#db/statements/bank-keys.ts'
import type { ImportQuestion } from '#db/statements/import-questions.ts'
import { accountOfFile, accountOfRows, columnsAsBefore } from '#db/statements/mapping-store.ts'
import { type Account, isMoney } from '#ledger/account.ts'
import { type ColumnMapping, columnMappingSchema } from '#ledger/statements/reading/column-mapping.ts'
import { readCsv } from '#ledger/statements/reading/csv.ts'
import { fitGuess, mixedAccounts, type OpenedFile } from '#ledger/statements/reading/read-file.ts'
import { describeBroken, type Statement } from '#ledger/statements/statement.ts'
import { readJsonText } from '#plan/json-text.ts'
import { plainWords } from '#plan/plain-words.ts'
import { CommandError, refuseWords } from './command.ts'

export const chooseParts = (
  books: Books,
  opened: Extract<OpenedFile, { ok: true }>,
  wishes: Wishes,
): ChosenParts => {
  if (opened.format === 'ofx') {
    refuseWords('An OFX file says what its parts mean', wishes, ['mapping'])
    const known = knownParts(books, opened.statements)
    if (wishes.account === undefined && wishes.statement === undefined && known.length > 0)
      return { parts: known, others: othersThan(known.map(bankNameOf), opened.statements) }
    const statement = oneStatement(opened.statements, wishes.statement)
    const account = accountFor(books, wishes.account, accountOfBank(books, statement.bankAccount))
    const part = ofxPart(account, statement)
    return { parts: [part], others: othersThan([statement.bankAccount], opened.statements) }
  }
  return chooseRows(books, opened, wishes)
}

export interface Chosen {
  account: Account
  statement: Statement
  format: 'ofx' | 'csv'
  header: readonly string[]
  mapping: ColumnMapping | null
  /** The columns alone tell its account. */
  isByColumns: boolean
  /** Where the columns are only guessed and another reading fits. */
  doubts: readonly ImportQuestion[]
}

interface ChosenParts {
  parts: readonly Chosen[]
  /** Other bank accounts in the file. */
  others: readonly string[]
}

type OpenedCsv = Extract<OpenedFile, { format: 'csv' }>

export interface Wishes {
  path: string
  account?: string | undefined
  statement?: string | undefined
  mapping?: string | undefined
  contentHash: string
}

/** The accounts that the rows of a CSV name, each with columns of its own; or all rows as those of one account. */
const chooseRows = (books: Books, opened: OpenedCsv, wishes: Wishes): ChosenParts => {
  const { header, guess } = opened.sketch
  const told = wishes.mapping === undefined ? null : readMapping(wishes.mapping)
  const first = told ?? guess
  const part = (account: Account, name: string) => rowsPart(books, opened, { account, name, told }, wishes)
  const named = first.accountColumn === null ? [] : statementsIn(opened, first, wishes)
  const file = { header, contentHash: wishes.contentHash, fileName: basename(wishes.path) }
  const knownOf = ({ bankAccount }: Statement) => accountOfRows(books, file, first, bankAccount)
  if (named.length < 2) {
    refuseWords('A CSV file of one account has no parts', wishes, ['statement'])
    const known = named[0] ? knownOf(named[0]) : accountOfFile(books, file)
    return {
      parts: [part(accountFor(books, wishes.account, known), named[0]?.bankAccount ?? '')],
      others: [],
    }
  }
  const parts =
    wishes.account === undefined && wishes.statement === undefined
      ? named.flatMap((each) => {
          const account = moneyAccount(books, knownOf(each))
          return account ? [part(account, each.bankAccount)] : []
        })
      : []
  if (parts.length === 0) {
    const one = oneStatement(named, wishes.statement)
    parts.push(part(accountFor(books, wishes.account, knownOf(one)), one.bankAccount))
  }
  return {
    parts,
    others: othersThan(parts.map(bankNameOf), named),
  }
}

const rowsPart = (
  books: Books,
  opened: OpenedCsv,
  { account, name, told }: { account: Account; name: string; told: ColumnMapping | null },
  wishes: Wishes,
): Chosen => {
  const { header, guess, doubts } = opened.sketch
  const remembered = told ?? columnsAsBefore(books, opened.sketch, account.id)
  const mapping = remembered ?? fitGuess(opened.text, guess, account, name)
  const mixed = mixedAccounts(opened.accounts, mapping)
  const statements = statementsIn(opened, mapping, wishes)
  const statement = statements.find(({ bankAccount }) => bankAccount === name) ?? statements[0]!
  return {
    account,
    statement,
    format: 'csv',
    header,
    mapping,
    isByColumns: wishes.account === undefined,
    doubts: [
      ...(mixed === null ? [] : [{ key: 'accounts' as const, says: mixed }]),
      ...(remembered ? [] : doubts.map(({ about, says }) => ({ key: about, says }))),
    ],
  }
}

const statementsIn = (opened: OpenedCsv, mapping: ColumnMapping, { path }: Wishes): Statement[] => {
  const read = readCsv(opened.text, mapping)
  if (!read.ok) throw new CommandError(`${path}: ${describeBroken(read)}`)
  return read.statements
}

const ofxPart = (account: Account, statement: Statement): Chosen => ({
  account,
  statement,
  format: 'ofx',
  header: [],
  mapping: null,
  isByColumns: false,
  doubts: [],
})

/** Every part whose account an earlier file has told. */
const knownParts = (books: Books, statements: readonly Statement[]): Chosen[] => {
  return statements.flatMap((statement) => {
    const account = moneyAccount(books, accountOfBank(books, statement.bankAccount))
    return account ? [ofxPart(account, statement)] : []
  })
}

const moneyAccount = (books: Books, id: number | null): Account | undefined =>
  listAccounts(books)
    .filter(isMoney)
    .find((account) => account.id === id)

const othersThan = (read: readonly string[], statements: readonly Statement[]): string[] =>
  statements.filter(({ bankAccount }) => !read.includes(bankAccount)).map(nameOf)

const bankNameOf = ({ statement }: Chosen): string => statement.bankAccount

const nameOf = ({ bankAccount }: Statement): string => bankAccount || 'without a name'

const oneStatement = (statements: readonly Statement[], wanted: string | undefined): Statement => {
  const found = wanted === undefined ? statements : statements.filter((each) => each.bankAccount === wanted)
  if (found.length === 1) return found[0]!
  const names = statements.map(nameOf).join(', ')
  throw new CommandError(
    found.length === 0
      ? `The file holds no bank account ${wanted}. It holds: ${names}.`
      : `The file holds several bank accounts: ${names}. Choose one with --statement.`,
    2,
  )
}

const accountFor = (books: Books, wanted: string | undefined, known: number | null): Account => {
  const accounts = listAccounts(books).filter(isMoney)
  const sides = new Map(listSides(books).map((side) => [side.id, side.name]))
  const namesOf = (account: Account) => [
    account.name,
    `${account.sideId}/${account.name}`,
    `${sides.get(account.sideId)}/${account.name}`,
  ]
  const found =
    wanted === undefined
      ? accounts.filter((account) => account.id === known)
      : accounts.filter((account) =>
          namesOf(account).some((name) => name.toLowerCase() === wanted.trim().toLowerCase()),
        )
  if (found.length === 1) return found[0]!
  const list = accounts.map((account) => `${account.sideId}/${account.name}`).join(', ')
  if (wanted === undefined) throw new CommandError(`Say which account with --account: ${list}.`, 2)
  throw new CommandError(
    found.length === 0
      ? `There is no account “${wanted}”. There are: ${list}.`
      : `Several accounts are called “${wanted}”. Write it with its side, like ${found[0]!.sideId}/${found[0]!.name}.`,
    2,
  )
}

const readMapping = (text: string): ColumnMapping => {
  const read = readJsonText(text)
  if (!read.ok) throw new CommandError('--mapping takes JSON. Run without --yes to see one.', 2)
  const parsed = columnMappingSchema.safeParse(read.value, { error: plainWords })
  if (parsed.success) return parsed.data
  throw new CommandError(
    parsed.error.issues.map((issue) => `--mapping: ${issue.path.join('.')}: ${issue.message}`),
    2,
  )
}
