// `dooryard backup`: one file with everything in it, proved before it is kept: plain, encrypted, or as documented JSON.
import { parseArgs } from 'node:util'
import { backUpToFile } from '#db/backup/backup-file.ts'
import { keepCopyOfDay } from '#db/backup/daily-copy.ts'
import { isElsewhere, noteCopyElsewhere } from '#db/backup/elsewhere.ts'
import { exportBooks } from '#db/backup/export.ts'
import type { DataPlace } from '#db/data-place.ts'
import { type Books, openBooks } from '#db/open.ts'
import { localDay } from '#web/server/clock.ts'
import { type Command, CommandError, type CommandIo, refuseWords } from './command.ts'
import { ownPlace } from './own-place.ts'
import { readPassphrase } from './passphrase.ts'

export const backup: Command = {
  name: 'backup',
  summary: 'Writes everything into one file to keep somewhere else.',
  help: `
npm run dooryard -- backup TARGET [OPTIONS]
npm run dooryard -- backup --daily [--data PLACE]

TARGET is a new file; nothing is overwritten. Attachments are put into it.
The copy is opened and verified before it is kept. A running Dooryard may stay open.
A TARGET ending in .json becomes a documented export that other programs can read.
With --daily it keeps the copy of the day among the books' own copies, receipts beside it,
as a running Dooryard does by itself.

  --data PLACE             the folder, or the file, that holds the books
  --passphrase-file FILE   encrypts the backup (scrypt and AES-256-GCM) with the first
                           line of FILE; - reads it from standard input.
                           Without the passphrase nobody can open it again, you included.`,
  run: runBackup,
}

async function runBackup(args: readonly string[], io: CommandIo): Promise<number> {
  const { values, positionals } = parseArgs({
    args: [...args],
    options: {
      data: { type: 'string' },
      'passphrase-file': { type: 'string' },
      daily: { type: 'boolean', default: false },
    },
    allowPositionals: true,
  })
  if (values.daily) {
    refuseWords('--daily keeps its own plain copy', values, ['passphrase-file'])
    if (positionals.length > 0)
      throw new CommandError('--daily knows where its copy goes: leave the name out.', 2)
    return keepDaily(values.data, io)
  }
  const [target, ...more] = positionals
  if (target === undefined || more.length > 0)
    throw new CommandError('Name the file to write, like backup books-copy.sqlite.', 2)
  const isJson = target.endsWith('.json')
  if (isJson && values['passphrase-file'] !== undefined)
    throw new CommandError(
      'A .json export is plain text. Leave the passphrase out, or choose another ending.',
      2,
    )
  const passphrase = await readPassphrase(values['passphrase-file'], io)
  const place = ownPlace(values.data, io)
  const books = openOwn(place, io)
  try {
    const result = isJson
      ? exportBooks(books.sqlite, target, { now: io.now(), attachments: place.attachments })
      : backUpToFile(books, target, backupOptions(place, passphrase))
    if (!result.ok) throw new CommandError(result.problem.message)
    if (isElsewhere(place.file, target)) noteCopyElsewhere(place.file, localDay(io.now()))
    io.out(isJson ? `Exported to ${target}.` : `Backed up to ${target}; the copy was opened and verified.`)
    return 0
  } finally {
    books.close()
  }
}

function keepDaily(data: string | undefined, io: CommandIo): number {
  const place = ownPlace(data, io)
  const books = openOwn(place, io)
  try {
    const problem = keepCopyOfDay(books, place.backups, localDay(io.now()))
    if (problem) throw new CommandError(problem.message)
    io.out(`The copy of the day is in ${place.backups}.`)
    return 0
  } finally {
    books.close()
  }
}

function openOwn(place: DataPlace, io: CommandIo): Books {
  const opened = openBooks(place.file, { now: io.now(), mustExist: true, backupFolder: place.backups })
  if (!opened.ok) throw new CommandError(opened.problem.message)
  return opened.books
}

const backupOptions = ({ attachments }: DataPlace, passphrase: string | undefined) =>
  passphrase === undefined ? { attachments } : { attachments, passphrase }
