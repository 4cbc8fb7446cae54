// The books that a server has open and the pages over them; both are opened anew when a copy is put in their place.
import { existsSync } from 'node:fs'
import { ownCopies } from '#db/backup/backup.ts'
import { fileProblem } from '#db/file-problem.ts'
import { type Books, openBooks } from '#db/open.ts'
import { createApp } from '#src/server.ts'
import { accessOf } from '#web/server/access.ts'
import type { Log, Upkeep } from '#web/server/context.ts'
import { type House, twoHouses } from '#web/server/open-house.ts'
import { CommandError, type CommandIo } from '../command.ts'
import { ownPlace } from '../own-place.ts'
import { hostNamesOf } from './serve-address.ts'
import { isLoopbackHost, type ServeOptions } from './serve-options.ts'

export interface Home extends House {
  books(): Books
  upkeep: Upkeep
  close(): void
}

interface Opened {
  own: Books
  sample: Books | null
  house: House
  mayBeReached: boolean
}

export async function openHome(options: ServeOptions, io: CommandIo, log: Log): Promise<Home> {
  const upkeep: Upkeep = { backupProblem: null, restoreSaid: null }
  const openOwn = async () => (options.sample ? openSample(options, io) : openOwnBooks(options, io))
  let now = open(await openOwn())
  if (!now.mayBeReached) {
    now.own.close()
    throw new CommandError(needsPassphrase(options))
  }

  function open(own: Books): Opened {
    const isLoopback = isLoopbackHost(options.host)
    const access = accessOf(own, { now: io.now })
    const shared = {
      clock: { now: io.now },
      access,
      log,
      isLoopback,
      simulates: true,
      hostNames: hostNamesOf(options.host),
      brokenParts: 'told' as const,
    }
    const mayBeReached = isLoopback || access.isSet()
    if (options.sample)
      return { own, sample: null, house: createApp({ ...shared, books: own, isSample: true }), mayBeReached }
    const house = twoHouses(createApp({ ...shared, books: own, upkeep, exchange }), async () => {
      opened.sample = await openSample(options, io)
      return createApp({ ...shared, books: opened.sample, isSample: true })
    })
    const opened: Opened = { own, sample: null, house: mayBeReached ? house : shut(options), mayBeReached }
    return opened
  }

  const close = () => {
    now.sample?.close()
    now.own.close()
  }

  /** Lets go of the file for as long as it takes to put another in its place. Whatever comes of it, the file is opened again. */
  function exchange<Result>(work: () => Result): Result {
    close()
    try {
      return work()
    } finally {
      now = open(openOwnBooks(options, io))
    }
  }

  return {
    books: () => now.own,
    upkeep,
    fetch: (request, env) => now.house.fetch(request, env),
    close,
  }
}

/** Looked through before the first page: onto damaged pages nothing is written. */
function openOwnBooks(options: ServeOptions, io: CommandIo): Books {
  const place = ownPlace(options.data, io)
  if (!existsSync(place.file) && ownCopies(place.file, place.backups).length > 0)
    io.out(
      `There is no books file at ${place.file}, so new books are begun. Copies of earlier ones are in ${place.backups}: to go back to one, open Settings, Backups.`,
    )
  const result = openBooks(place.file, { now: io.now(), backupFolder: place.backups })
  if (!result.ok) throw new CommandError(result.problem.message)
  const damage = result.books.standing.checkPages('quick_check')
  if (damage) io.err(`dooryard serve: ${damage.message}`)
  return result.books
}

/** In its own file beside the user's, made when first asked for. */
async function openSample(options: ServeOptions, io: CommandIo): Promise<Books> {
  const { openSampleBooks } = await import('#sample/open-sample.ts')
  const { folder } = ownPlace(options.data, io)
  try {
    return await openSampleBooks(folder, io.now())
  } catch (error) {
    const problem = fileProblem(error, folder)
    if (!problem) throw error
    throw new CommandError(problem.message)
  }
}

/** What was restored has no passphrase, and others can reach it. */
const shut = (options: ServeOptions): House => ({
  fetch: () => new Response(needsPassphrase(options), { status: 503 }),
})

const needsPassphrase = (options: ServeOptions): string =>
  options.sample
    ? 'The sample farm has no passphrase, so it opens on this computer only: leave --host out.'
    : `Other computers can reach ${options.host}, so a passphrase is needed: start without --host, set one in Settings under Passphrase, then start again.`
