// `dooryard import`: reads a bank statement into an account's waiting lines. Sorting them is for the page.
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
import { type Command, CommandError, type CommandIo } from './command.ts'
import { type Chosen, chooseParts } from './import-parts.ts'
import { readBytes } from './read-text.ts'

export const importCommand: Command = {
  name: 'import',
  summary: 'Reads a bank statement (OFX or CSV) into an account.',
  help: `
npm run dooryard -- import FILE [OPTIONS]

Reads new transactions into the account, where they wait to be sorted in the browser (Books, Sort transactions).
The same file, or one that overlaps, adds nothing twice. A broken file is refused whole.

  --account NAME     the account, like “Farm checking”, or SIDE/NAME where two have the name;
                     may be left out for a file whose bank account is known already
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
  const [path] = positionals
  if (path === undefined || positionals.length > 1) throw new CommandError('Name one file to read.', 2)
  const bytes = readBytes(path)
  const opened = openBankFile(bytes)
  if (!opened.ok) throw new CommandError(`${path}: ${describeBroken(opened)}`)
  const place = dataPlace({ data: values.data, env: io.env })
  const result = openBooks(place.file, { now: io.now(), backupFolder: place.backups, mustExist: true })
  if (!result.ok) throw new CommandError(result.problem.message)
  try {
    const { parts, others } = chooseParts(result.books, opened, { ...values, path })
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

type ChosenFile = Chosen & { fileName: string; contentHash: string }

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
  return `${file.account.name}: ${newLines} new transactions not yet sorted, ${doubtfulLines} doubtful ones to be decided; ${replacedLines} took the place of earlier ones, ${seenLines} were seen before, ${remarks} left out.`
}

const digestOf = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex')
