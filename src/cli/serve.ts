// `dooryard serve`: opens the books, listens on this computer only, and stops cleanly when told to.
import { mkdirSync } from 'node:fs'
import type { Server } from 'node:http'
import { basename, join } from 'node:path'
import { createAdaptorServer } from '@hono/node-server'
import { backUpTo } from '#db/backup/backup.ts'
import { keepCopyOfDay } from '#db/backup/daily-copy.ts'
import { dataPlace } from '#db/data-place.ts'
import type { Books } from '#db/open.ts'
import { ways } from '#db/platform.ts'
import { localDay } from '#web/server/clock.ts'
import { inTurns } from '#web/server/turns.ts'
import type { Command, CommandIo } from './command.ts'
import { serveLog } from './serve-log.ts'
import { copyApart } from './serving/copy-apart.ts'
import { openHome } from './serving/home.ts'
import { keepHouseHourly, keepLastCopy } from './serving/housekeeping.ts'
import { hasScreen, openInBrowser } from './serving/open-browser.ts'
import { listen, secureOptions } from './serving/serve-address.ts'
import { defaultPort, readServeOptions, type ServeOptions } from './serving/serve-options.ts'
import { noteServing, servedAt } from './serving/serving-note.ts'
import { answersOf } from './serving/stop-serving.ts'

export const serveCommand: Command = {
  name: 'serve',
  summary: 'Opens the books in the browser (this is what npm start does).',
  help: `
npm start -- [OPTIONS]
npm run dooryard -- serve [OPTIONS]

  --port NUMBER   listens there instead of ${defaultPort}
  --host NAME     listens on this address instead of 127.0.0.1; other computers
                  can then reach it, so a passphrase must be set and a
                  certificate given
  --certificate FILE, --key FILE
                  answers over https with this certificate and its key (PEM)
  --data PLACE    the folder, or the file, that holds the books;
                  the DOORYARD_DATA variable does the same
  --sample        opens the sample farm instead of your own books
  --no-open       leaves the browser alone; else the first page opens in it
                  when you start this in a terminal on your own screen

Stops on Ctrl+C. Set DOORYARD_LOG=info to see each request; the log never holds amounts or names.`,
  run: serve,
}

/**
 * Node lets go of a connection five seconds after an answer. A page asked for at that very moment, while others keep the thread busy, would find
 * its connection cut; a person who reads a page for a minute should not be near that moment.
 */
const keptOpenMilliseconds = 75_000

async function serve(args: readonly string[], io: CommandIo): Promise<number> {
  const options = readServeOptions(args)
  const log = await serveLog(io)
  const home = await openHome(options, io, log)
  const { path, backupBeforeMigrating, chainBegun } = home.books()
  const answers = answersOf(home)
  const pages = inTurns(answers)
  const server = createAdaptorServer({
    fetch: (request, env) => pages.fetch(request, env),
    ...secureOptions(options),
  }) as Server
  server.keepAliveTimeout = keptOpenMilliseconds
  answers.noteThoseOf(server)
  const addresses = await listen(server, options)
  for (const address of addresses) io.out(`Dooryard is open at ${address}`)
  io.out(`${options.sample ? 'The sample farm is' : 'Your books are'} in ${path}`)
  if (backupBeforeMigrating) io.out(`Before updating it, a copy was put in ${backupBeforeMigrating}`)
  if (chainBegun)
    io.out('From here on every change is proved. What was in the books before was taken as it was found.')
  const other = servedAt(path)
  if (other)
    io.out(`Another Dooryard has the same file open at ${other}. Both write to it; stop one of them.`)
  io.out('Stop with Ctrl+C.')
  await showFirstPage(options, io, addresses[0]!)
  const unnote = noteServing(path, addresses[0]!)
  const { backups } = dataPlace({ data: options.data, env: io.env })
  const round = () => ({
    books: home.books(),
    copy: () => copyApart(home.books().path),
    now: io.now(),
    today: localDay(io.now()),
    log,
    upkeep: home.upkeep,
  })
  const stopKeeping = options.sample ? () => {} : keepHouseHourly(round)
  await stopSignal()
  stopKeeping()
  await answers.finish(server)
  // A process of its own would be ended by the same signal, or by a window that closes.
  const copyHere = async () => keepCopyOfDay(home.books(), backups, localDay(io.now()))?.message ?? null
  if (!options.sample) await keepLastCopy({ ...round(), copy: copyHere })
  saveIfAway(home.books(), backups, io)
  unnote()
  home.close()
  return 0
}

async function showFirstPage({ noOpen }: ServeOptions, io: CommandIo, address: string): Promise<void> {
  const { isTerminal = false, env } = io
  if (noOpen || !hasScreen({ isTerminal, platform: process.platform, env })) return
  if (!(await openInBrowser(address))) io.out(`No browser came up by itself: open ${address} in one.`)
}

/** Books whose file was taken away live in this process only: what nobody saved goes among the copies. */
function saveIfAway(books: Books, backups: string, io: CommandIo): void {
  const problem = books.standing.problem()
  if (problem?.kind !== 'away') return
  const stamp = io.now().toISOString().replace(/[:.]/g, '-')
  mkdirSync(backups, { recursive: true })
  const saved = backUpTo(
    books,
    join(backups, `${basename(books.path, '.sqlite')}-open-at-stop-${stamp}.sqlite`),
  )
  io.err(`dooryard serve: ${problem.message}`)
  io.err(`dooryard serve: ${saved.ok ? `What was open is saved in ${saved.path}` : saved.problem.message}`)
}

/** The first of the signals that ask for it; a second one ends the process the hard way, as usual. */
const stopSignal = (): Promise<void> =>
  new Promise((resolve) => {
    const stop = () => {
      for (const signal of ways.stopSignals) process.off(signal, stop)
      resolve()
    }
    for (const signal of ways.stopSignals) process.on(signal, stop)
  })
