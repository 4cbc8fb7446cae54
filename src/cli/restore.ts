// `dooryard restore`: says what a backup would change, and changes it only when told to.
import { parseArgs } from 'node:util'
import { restoreWords } from '#db/backup/comparison-words.ts'
import { prepareRestore } from '#db/backup/restore.ts'
import { timeNameOf } from '#web/server/clock.ts'
import { type Command, CommandError, type CommandIo } from './command.ts'
import { ownPlace } from './own-place.ts'
import { readPassphrase } from './passphrase.ts'

export const restore: Command = {
  name: 'restore',
  summary: 'Shows what a backup would change, and with --yes puts it in place.',
  help: `
npm run dooryard -- restore BACKUP [OPTIONS]

BACKUP is a copy made by backup, a daily copy from the backups folder, an encrypted
backup, or a .json export. It is opened, brought up to date and verified beside your books first.
Without --yes nothing is changed. Your previous books are kept in the backups folder.
Stop a running Dooryard first.

  --data PLACE             the folder, or the file, that holds the books
  --passphrase-file FILE   opens an encrypted backup with the first line of FILE; - reads
                           it from standard input
  --yes                    does it`,
  run: runRestore,
}

async function runRestore(args: readonly string[], io: CommandIo): Promise<number> {
  const { values, positionals } = parseArgs({
    args: [...args],
    options: {
      data: { type: 'string' },
      'passphrase-file': { type: 'string' },
      yes: { type: 'boolean', default: false },
    },
    allowPositionals: true,
  })
  const [file, ...more] = positionals
  if (file === undefined || more.length > 0) throw new CommandError('Name the backup to restore.', 2)
  const passphrase = await readPassphrase(values['passphrase-file'], io)
  const place = ownPlace(values.data, io)
  const result = prepareRestore(file, {
    file: place.file,
    backups: place.backups,
    attachments: place.attachments,
    now: io.now(),
    ...(passphrase === undefined ? {} : { passphrase }),
  })
  if (!result.ok) throw new CommandError(result.problem.message)
  const { prepared } = result
  try {
    for (const line of restoreWords(prepared, place.file, timeNameOf())) io.out(line)
    if (!values.yes) {
      io.out('Nothing was changed. Add --yes to restore it.')
      return 0
    }
    const done = prepared.carryOut()
    if (!done.ok) throw new CommandError(done.problem.message)
    io.out(`Restored to ${place.file}.`)
    if (done.keptBefore) io.out(`Your previous books are kept in ${done.keptBefore}.`)
    return 0
  } finally {
    prepared.forget()
  }
}
