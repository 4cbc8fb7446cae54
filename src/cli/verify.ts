// `dooryard verify`: recomputes everything a books file promises and says what does not hold.
import { parseArgs } from 'node:util'
import { dataPlace } from '#db/data-place.ts'
import { readHash } from '#db/ledger/attachment-files.ts'
import { openForReading } from '#db/open-reading.ts'
import { type VerifyReport, verifyBooks } from '#db/verify/verify.ts'
import { type Command, CommandError, type CommandIo, refuseWords } from './command.ts'

export const verify: Command = {
  name: 'verify',
  summary: 'Proves a books file: balances, crossings, sums, closed months, log.',
  help: `
npm run dooryard -- verify [FILE] [OPTIONS]

Without FILE it verifies your own books. FILE may be a backup (not an encrypted one).
The file is only read. Exit code 1: something does not hold, or it cannot be read.

  --data PLACE   the folder, or the .sqlite file, that holds the books
  --all          also lists what was checked`,
  run: runVerify,
}

async function runVerify(args: readonly string[], io: CommandIo): Promise<number> {
  const { values, positionals } = parseArgs({
    args: [...args],
    options: { data: { type: 'string' }, all: { type: 'boolean', default: false } },
    allowPositionals: true,
  })
  if (positionals.length > 1) throw new CommandError('Name one file only.', 2)
  if (positionals.length === 1) refuseWords('FILE says which books', values, ['data'])
  const place = dataPlace({ data: values.data, env: io.env })
  const file = positionals[0] ?? place.file
  const opened = openForReading(file, io.now())
  if (!opened.ok) throw new CommandError(opened.problem.message)
  try {
    // A file elsewhere is a backup: its attachments are not beside it.
    const isOwn = positionals[0] === undefined
    const report = verifyBooks(opened.reading.sqlite, isOwn ? readHash(place.attachments) : undefined)
    return tell(report, file, values.all, io)
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
    return 0
  }
  const isMany = report.findings.length > 1
  io.err(
    `${file}: ${report.findings.length} ${isMany ? 'things do' : 'thing does'} not hold. Keep this file and restore the latest backup that verifies.`,
  )
  return 1
}
