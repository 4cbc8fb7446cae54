// `dooryard import`: reads bank statements into their accounts' waiting lines. Sorting them is for the page.
import { createHash, randomUUID } from 'node:crypto'
import { basename } from 'node:path'
import { parseArgs } from 'node:util'
import { dataPlace } from '#db/data-place.ts'
import { atomically } from '#db/once.ts'
import { type Books, openBooks } from '#db/open.ts'
import { type ImportQuestion, importQuestions } from '#db/statements/import-questions.ts'
import { previewImport, readIn } from '#db/statements/statement-store.ts'
import { openBankFile } from '#ledger/statements/reading/read-file.ts'
import { describeBroken } from '#ledger/statements/statement.ts'
import { localDay } from '#web/server/clock.ts'
import { type Command, CommandError, type CommandIo, refuseWords } from './command.ts'
import { type Chosen, chooseParts, type Wishes } from './import-parts.ts'
import { readBytes } from './read-text.ts'

export const importCommand: Command = {
  name: 'import',
  summary: 'Reads bank statements (OFX or CSV) into their accounts.',
  help: `
npm run dooryard -- import FILE [FILE …] [OPTIONS]

Reads new transactions into the account, where they wait to be sorted in the browser (Books, Sort transactions).
The same file, or one that overlaps, adds nothing twice. A broken file is refused whole.
Several files are read all or none; each is compared with the books and with the files named before it.

  --account NAME     the account, like “Farm checking”, or SIDE/NAME where two have the name;
                     may be left out for a file whose bank account is known already; with one file only, as the next two
  --statement ID     which of several bank accounts in the file to read; left out, with the account,
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
  const wishes = { account: values.account, statement: values.statement, mapping: values.mapping }
  if (positionals.length === 0) throw new CommandError('Name the file to read.', 2)
  if (positionals.length > 1)
    refuseWords('Each of several files is read by what is known of it', wishes, [
      'account',
      'statement',
      'mapping',
    ])
  const chosen = positionals.map(openFile)
  const place = dataPlace({ data: values.data, env: io.env })
  const result = openBooks(place.file, { now: io.now(), backupFolder: place.backups, mustExist: true })
  if (!result.ok) throw new CommandError(result.problem.message)
  const { books } = result
  try {
    const files = chosen.map((file) => ({ ...file, ...partsOf(books, file, wishes) }))
    const openOf = (part: PartOfFile) =>
      questionsOf(books, part).filter(({ key }) => !values.sure.includes(key))
    const parts = files.flatMap(({ path, parts }) =>
      parts.map((part) => ({ path, part, open: openOf(part) })),
    )
    if (values.yes) readAll(books, parts, io)
    else look(books, parts, io)
    for (const { path, others } of files)
      if (others.length > 0)
        io.out(
          `${files.length > 1 ? path : 'The file'} also holds ${others.join(', ')}: read each in with --statement and --account.`,
        )
    if (!values.yes) io.out('Nothing was stored. Add --yes to read it in.')
    return 0
  } finally {
    books.close()
  }
}

const openFile = (path: string) => {
  const bytes = readBytes(path)
  const opened = openBankFile(bytes)
  if (!opened.ok) throw new CommandError(`${path}: ${describeBroken(opened)}`)
  return { path, opened, contentHash: digestOf(bytes) }
}

type OpenedHere = ReturnType<typeof openFile>
type PartOfFile = Chosen & { fileName: string; contentHash: string }

const partsOf = (
  books: Books,
  { path, opened, contentHash }: OpenedHere,
  wishes: Omit<Wishes, 'path' | 'contentHash'>,
): { parts: PartOfFile[]; others: readonly string[] } => {
  const { parts, others } = chooseParts(books, opened, { ...wishes, path, contentHash })
  return { parts: parts.map((part) => ({ ...part, fileName: basename(path), contentHash })), others }
}

interface PartToTell {
  path: string
  part: PartOfFile
  open: readonly ImportQuestion[]
}

/** Each as it would be read in after those before it: they are read in for the look, and taken back whole. */
const look = (books: Books, parts: readonly PartToTell[], io: CommandIo): void => {
  if (parts.length === 1) {
    show(books, parts[0]!, io)
    return
  }
  atomically(books, () => {
    for (const each of parts) {
      show(books, each, io)
      keep(books, each.part, io)
    }
    return { ok: false }
  })
}

/** All of them or none. */
const readAll = (books: Books, parts: readonly PartToTell[], io: CommandIo): void => {
  const asked = parts.flatMap(({ path, open }) => open.map((question) => `${path}: ${askedOf(question)}`))
  if (asked.length > 0) throw new CommandError(asked.join(' '))
  const said = atomically(books, () => ({
    ok: true as const,
    says: parts.map(({ part }) => keep(books, part, io)),
  }))
  for (const line of said.says) io.out(line)
}

const questionsOf = (books: Books, file: PartOfFile): ImportQuestion[] => [
  ...importQuestions(books, file.account, file),
  ...file.doubts,
]

const askedOf = ({ key, says }: ImportQuestion): string => `${says} If that is right, add --sure ${key}.`

const show = (books: Books, { part, open }: PartToTell, io: CommandIo): void => {
  const judged = previewImport(books, part.account.id, part.statement.lines, localDay(io.now()))
  const count = (verdict: string) => judged.filter((each) => each.verdict === verdict).length
  io.out(
    `${part.account.name}: ${count('new')} new, ${count('seen')} seen, ${count('doubtful')} doubtful, ${count('replaces')} in place of earlier ones.`,
  )
  for (const { line, why } of judged.filter(
    ({ verdict }) => verdict === 'doubtful' || verdict === 'replaces',
  ))
    io.out(`  line ${line.fileLine}: ${why}`)
  for (const remark of part.statement.remarks) io.out(`  line ${remark.fileLine}: ${remark.message}`)
  if (part.mapping) io.out(`Columns: --mapping '${JSON.stringify(part.mapping)}'`)
  for (const question of open) io.out(askedOf(question))
}

const keep = (books: Books, file: PartOfFile, io: CommandIo): string => {
  const act = { formId: randomUUID(), at: io.now().toISOString(), actor: 'command line' }
  const { format, fileName, contentHash, statement, header, mapping } = file
  const columns = mapping && { header, mapping }
  const toRead = { format, fileName, contentHash, statement, columns }
  const outcome = readIn(books, act, file.account.id, toRead, localDay(io.now()))
  if (!outcome.ok) throw new CommandError(outcome.problems.map((problem) => problem.message).join(' '))
  const { newLines, seenLines, doubtfulLines, replacedLines, remarks } = outcome.result
  return `${file.account.name}: ${newLines} new ${newLines === 1 ? 'transaction' : 'transactions'} not yet sorted, ${doubtfulLines} doubtful ones to be decided; ${replacedLines} took the place of earlier ones, ${seenLines} were seen before, ${remarks} left out.`
}

const digestOf = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex')
