// `dooryard import`: reads a bank statement into an account's waiting lines. Sorting them is for the page.
import { createHash, randomUUID } from 'node:crypto'
import { basename } from 'node:path'
import { parseArgs } from 'node:util'
import { dataPlace } from '#db/data-place.ts'
import { listAccounts, listSides } from '#db/ledger/account-store.ts'
import { atomically } from '#db/once.ts'
import { type Books, openBooks } from '#db/open.ts'
import { accountOfBank } from '#db/statements/bank-keys.ts'
import { type ImportQuestion, importQuestions } from '#db/statements/import-questions.ts'
import { accountOfHeader, recallMapping } from '#db/statements/mapping-store.ts'
import { previewImport, readIn } from '#db/statements/statement-store.ts'
import { type Account, isMoney } from '#ledger/account.ts'
import { type ColumnMapping, columnMappingSchema } from '#ledger/statements/reading/column-mapping.ts'
import { fitGuess, type OpenedFile, openBankFile, readMapped } from '#ledger/statements/reading/read-file.ts'
import { describeBroken, type Statement } from '#ledger/statements/statement.ts'
import { readJsonText } from '#plan/json-text.ts'
import { plainWords } from '#plan/plain-words.ts'
import { localDay } from '#web/server/clock.ts'
import { type Command, CommandError, type CommandIo, refuseWords } from './command.ts'
import { readBytes } from './read-text.ts'

export const importCommand: Command = {
  name: 'import',
  summary: 'Reads a bank statement (OFX or CSV) into an account.',
  help: `
npm run dooryard -- import FILE [OPTIONS]

Reads new transactions into the account, where they wait to be sorted in the browser (Books, Sort transactions).
The same file, or one that overlaps, adds nothing twice. A broken file is refused whole.

  --account NAME     the account, like “Farm checking”, or SIDE/NAME where two have the name;
                     may be left out for an OFX file whose bank account is known already
  --statement ID     which of several bank accounts in an OFX file to read; left out, with the account,
                     every one that is known is read in one go
  --mapping JSON     what the columns of a CSV mean, as the look without --yes prints it;
                     left out, it is as last time, else as guessed
  --sure WORD        says yes to a question that the look asks, by its word; once for each
  --yes              reads in; without it only shows what would be added
  --data PLACE       the folder, or the file, that holds the books
`,
  run: runImport,
}

async function runImport(args: readonly string[], io: CommandIo): Promise<number> {
  const { values, positionals } = parseArgs({
    args: [...args],
    options: {
      account: { type: 'string' },
      statement: { type: 'string' },
      mapping: { type: 'string' },
      sure: { type: 'string', multiple: true, default: [] },
      yes: { type: 'boolean', default: false },
      data: { type: 'string' },
    },
    allowPositionals: true,
  })
  const [path] = positionals
  if (path === undefined || positionals.length > 1) throw new CommandError('Name one file to read.', 2)
  const bytes = readBytes(path)
  const opened = openBankFile(bytes)
  if (!opened.ok) throw new CommandError(`${path}: ${describeBroken(opened)}`)
  const place = dataPlace({ data: values.data, env: io.env })
  const result = openBooks(place.file, { now: io.now(), backupFolder: place.backups, mustExist: true })
  if (!result.ok) throw new CommandError(result.problem.message)
  try {
    const { parts, others } = choose(result.books, opened, { ...values, path })
    const files = parts.map((part) => ({ ...part, fileName: basename(path), contentHash: digestOf(bytes) }))
    const openOf = (file: ChosenFile) =>
      questionsOf(result.books, file).filter(({ key }) => !values.sure.includes(key))
    const open = files.flatMap(openOf)
    if (values.yes && open.length > 0) throw new CommandError(`${path}: ${open.map(asked).join(' ')}`)
    if (values.yes) keepAll(result.books, files, io)
    else for (const file of files) show(result.books, file, openOf(file), io)
    if (others.length > 0)
      io.out(`The file also holds ${others.join(', ')}: read each in with --statement and --account.`)
    if (!values.yes) io.out('Nothing was stored. Add --yes to read it in.')
    return 0
  } finally {
    result.books.close()
  }
}

interface Chosen {
  account: Account
  statement: Statement
  format: 'ofx' | 'csv'
  header: readonly string[]
  mapping: ColumnMapping | null
  /** Where the columns are only guessed and another reading fits. */
  doubts: readonly ImportQuestion[]
}

interface ChosenParts {
  parts: readonly Chosen[]
  /** Other bank accounts in the file. */
  others: readonly string[]
}

type ChosenFile = Chosen & { fileName: string; contentHash: string }

interface Wishes {
  path: string
  account?: string | undefined
  statement?: string | undefined
  mapping?: string | undefined
}

const choose = (books: Books, opened: Extract<OpenedFile, { ok: true }>, wishes: Wishes): ChosenParts => {
  if (opened.format === 'ofx') {
    refuseWords('An OFX file says what its parts mean', wishes, ['mapping'])
    const known = knownParts(books, opened.statements)
    if (wishes.account === undefined && wishes.statement === undefined && known.length > 0)
      return { parts: known, others: othersThan(known, opened.statements) }
    const statement = oneStatement(opened.statements, wishes.statement)
    const account = accountFor(books, wishes.account, accountOfBank(books, statement.bankAccount))
    const part = ofxPart(account, statement)
    return { parts: [part], others: othersThan([part], opened.statements) }
  }
  refuseWords('A CSV file holds one account', wishes, ['statement'])
  const { header, guess, doubts } = opened.sketch
  const account = accountFor(books, wishes.account, accountOfHeader(books, header))
  const told = wishes.mapping === undefined ? null : readMapping(wishes.mapping)
  const remembered = told ?? recallMapping(books, header, account.id)?.mapping ?? null
  const mapping = remembered ?? fitGuess(opened.text, guess, account)
  const read = readMapped(opened.text, mapping)
  if (!read.ok) throw new CommandError(`${wishes.path}: ${describeBroken(read)}`)
  const part: Chosen = {
    account,
    statement: read.statement,
    format: 'csv',
    header,
    mapping,
    doubts: remembered ? [] : doubts.map(({ about, says }) => ({ key: about, says })),
  }
  return { parts: [part], others: [] }
}

const ofxPart = (account: Account, statement: Statement): Chosen => ({
  account,
  statement,
  format: 'ofx',
  header: [],
  mapping: null,
  doubts: [],
})

/** Every part whose account an earlier file has told. */
const knownParts = (books: Books, statements: readonly Statement[]): Chosen[] => {
  const accounts = listAccounts(books).filter(isMoney)
  return statements.flatMap((statement) => {
    const id = accountOfBank(books, statement.bankAccount)
    const account = accounts.find((each) => each.id === id)
    return account ? [ofxPart(account, statement)] : []
  })
}

const othersThan = (parts: readonly Chosen[], statements: readonly Statement[]): string[] =>
  statements.filter((each) => parts.every(({ statement }) => statement !== each)).map(nameOf)

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

const questionsOf = (books: Books, file: ChosenFile): ImportQuestion[] => [
  ...importQuestions(books, file.account, file),
  ...file.doubts,
]

const asked = ({ key, says }: ImportQuestion): string => `${says} If that is right, add --sure ${key}.`

const show = (books: Books, file: ChosenFile, questions: readonly ImportQuestion[], io: CommandIo): void => {
  const judged = previewImport(books, file.account.id, file.statement.lines, localDay(io.now()))
  const count = (verdict: string) => judged.filter((each) => each.verdict === verdict).length
  io.out(
    `${file.account.name}: ${count('new')} new, ${count('seen')} seen, ${count('doubtful')} doubtful, ${count('replaces')} in place of earlier ones.`,
  )
  for (const { line, why } of judged.filter(
    ({ verdict }) => verdict === 'doubtful' || verdict === 'replaces',
  ))
    io.out(`  line ${line.fileLine}: ${why}`)
  for (const remark of file.statement.remarks) io.out(`  line ${remark.fileLine}: ${remark.message}`)
  if (file.mapping) io.out(`Columns: --mapping '${JSON.stringify(file.mapping)}'`)
  for (const question of questions) io.out(asked(question))
}

/** All of them or none. */
const keepAll = (books: Books, files: readonly ChosenFile[], io: CommandIo): void => {
  const said = atomically(books, () => ({
    ok: true as const,
    says: files.map((file) => keep(books, file, io)),
  }))
  for (const line of said.says) io.out(line)
}

const keep = (books: Books, file: ChosenFile, io: CommandIo): string => {
  const act = { formId: randomUUID(), at: io.now().toISOString(), actor: 'command line' }
  const { format, fileName, contentHash, statement, header, mapping } = file
  const columns = mapping && { header, mapping }
  const toRead = { format, fileName, contentHash, statement, columns }
  const outcome = readIn(books, act, file.account.id, toRead, localDay(io.now()))
  if (!outcome.ok) throw new CommandError(outcome.problems.map((problem) => problem.message).join(' '))
  const { newLines, seenLines, doubtfulLines, replacedLines, remarks } = outcome.result
  return `${file.account.name}: ${newLines} new transactions wait to be sorted, ${doubtfulLines} doubtful ones to be decided; ${replacedLines} took the place of earlier ones, ${seenLines} were seen before, ${remarks} left out.`
}

const digestOf = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex')
