// `dooryard verify`: recomputes everything a books file promises and says what does not hold.
import { parseArgs } from 'node:util'
import { endInWords, parseEnd } from '#db/chain/chain.ts'
import { endsInCopies } from '#db/chain/kept-ends.ts'
import { dataPlace, placeBeside } from '#db/data-place.ts'
import { openForReading } from '#db/open-reading.ts'
import { type VerifyReport, verifyBooks } from '#db/verify/verify.ts'
import { receiptsOfFile } from '#db/verify/verify-attachments.ts'
import { type Command, CommandError, type CommandIo, refuseWords } from './command.ts'

export const verify: Command = {
  name: 'verify',
  summary: 'Checks a books file: balances, crossings, sums, closed months, chain of changes.',
  help: `
npm run dooryard -- verify [FILE] [OPTIONS]

Without FILE it verifies your own books, also against the copies kept of them: what
was cut off the books is not cut off the copies. FILE may be a backup (not an encrypted one).
Receipts are looked at where they are kept: in the backup, or in the folder beside the file.
The file is only read. Exit code 1: something does not hold, or it cannot be read.

  --data PLACE   the folder, or the file, that holds the books
  --end WORDS    the end of the chain of changes as it was printed before, like
                 "41: 3fa9 0c2b 77de 1a40": are those changes still all there?
  --all          also lists what was checked`,
  run: runVerify,
}

async function runVerify(args: readonly string[], io: CommandIo): Promise<number> {
  const { values, positionals } = parseArgs({
    args: [...args],
    options: { data: { type: 'string' }, end: { type: 'string' }, all: { type: 'boolean', default: false } },
    allowPositionals: true,
  })
  if (positionals.length > 1) throw new CommandError('Name one file only.', 2)
  if (positionals.length === 1) refuseWords('FILE says which books', values, ['data'])
  const end = values.end === undefined ? null : parseEnd(values.end)
  if (values.end !== undefined && end === null)
    throw new CommandError('Give --end as it was printed, like "41: 3fa9 0c2b 77de 1a40".', 2)
  const place = dataPlace({ data: values.data, env: io.env })
  const file = positionals[0] ?? place.file
  const opened = openForReading(file, io.now())
  if (!opened.ok) throw new CommandError(opened.problem.message)
  try {
    const { sqlite, chainBegun } = opened.reading
    const known = [
      ...(end ? [{ ...end, from: '--end' }] : []),
      ...(positionals[0] === undefined ? endsInCopies(file, place.backups) : []),
    ]
    const report = verifyBooks(sqlite, receiptsOfFile(sqlite, placeBeside(file).attachments), known)
    if (chainBegun)
      io.out('This file is from before the chain of changes; opening it in Dooryard begins one.')
    return tell(chainBegun ? { ...report, end: null, begun: [] } : report, file, values.all, io)
  } finally {
    opened.reading.close()
  }
}

function tell(report: VerifyReport, file: string, all: boolean, io: CommandIo): number {
  if (all) for (const { check, count } of report.checked) io.out(`${check}: looked at ${count}`)
  for (const finding of report.findings) io.err(`${finding.check}: ${finding.at}: ${finding.message}`)
  const count = (name: string) => report.checked.find((row) => row.check === name)?.count ?? 0
  if (report.findings.length === 0) {
    io.out(
      `${file}: everything holds (${count('entry-balances')} entries, ${count('crossing-halves-equal')} crossings, ${count('posting-on-its-side-and-day')} postings).`,
    )
    if (report.end) io.out(`The chain of changes ends at ${endInWords(report.end)}.`)
    for (const at of report.begun)
      io.out(`What was in the books at ${at} was taken as it was found; every change since is proved.`)
    return 0
  }
  const isMany = report.findings.length > 1
  io.err(
    `${file}: ${report.findings.length} ${isMany ? 'things do' : 'thing does'} not hold. Keep this file and restore the latest backup that verifies.`,
  )
  return 1
}
