// `dooryard serve`: opens the books, listens on this computer only, and stops cleanly when told to.
import { once } from 'node:events'
import type { Server } from 'node:http'
import { parseArgs } from 'node:util'
import { createAdaptorServer } from '@hono/node-server'
import pino from 'pino'
import { dataPlace } from '#db/data-place.ts'
import { type Books, openBooks } from '#db/open.ts'
import { createApp } from '#src/server.ts'
import { type House, twoHouses } from '#web/open-house.ts'
import { type Command, CommandError, type CommandIo } from './command.ts'

const defaultPort = 4610

export const serveCommand: Command = {
  name: 'serve',
  summary: 'Opens the books in the browser (this is what npm start does).',
  help: `
npm start -- [OPTIONS]
npm run dooryard -- serve [OPTIONS]

  --port NUMBER   listens there instead of ${defaultPort}
  --host NAME     listens on this address instead of 127.0.0.1
  --data PLACE    the folder, or the .sqlite file, that holds the books;
                  the DOORYARD_DATA variable does the same
  --sample        opens the sample farm instead of your own books

Stops on Ctrl+C. Set DOORYARD_LOG=info to see each request; the log never holds amounts or names.`,
  run: serve,
}

interface ServeOptions {
  port: number
  host: string
  data: string | undefined
  sample: boolean
}

async function serve(args: readonly string[], io: CommandIo): Promise<number> {
  const options = readOptions(args)
  const opened: Books[] = []
  const own = options.sample ? await openSampleBooks(options, io) : openOwnBooks(options, io)
  opened.push(own)
  const house = houseOf(own, options, io, async () => {
    const sample = await openSampleBooks(options, io)
    opened.push(sample)
    return sample
  })
  const server = createAdaptorServer({ fetch: (request) => house.fetch(request) }) as Server
  const address = await listen(server, options)
  io.out(`Dooryard is open at ${address}`)
  io.out(`${options.sample ? 'The sample farm is' : 'Your books are'} in ${own.path}`)
  if (own.backupBeforeMigrating) io.out(`Before updating it, a copy was put in ${own.backupBeforeMigrating}`)
  io.out('Stop with Ctrl+C.')
  await stopSignal()
  await close(server)
  for (const books of opened) books.close()
  return 0
}

function readOptions(args: readonly string[]): ServeOptions {
  const { values } = parseArgs({
    args: [...args],
    options: {
      port: { type: 'string', default: String(defaultPort) },
      host: { type: 'string', default: '127.0.0.1' },
      data: { type: 'string' },
      sample: { type: 'boolean', default: false },
    },
  })
  const port = /^\d{1,5}$/.test(values.port) ? Number.parseInt(values.port, 10) : Number.NaN
  if (!(port >= 0 && port <= 65_535)) throw new CommandError('--port takes a number from 0 to 65535.', 2)
  return { port, host: values.host, data: values.data, sample: values.sample }
}

function openOwnBooks(options: ServeOptions, io: CommandIo): Books {
  const place = dataPlace({ data: options.data, env: io.env })
  const result = openBooks(place.file, { now: io.now(), backupFolder: place.backups })
  if (!result.ok) throw new CommandError(result.problem.message)
  return result.books
}

/** In its own file beside the user's, made when first asked for. */
async function openSampleBooks(options: ServeOptions, io: CommandIo): Promise<Books> {
  const { openSampleBooks: open } = await import('#sample/open-sample.ts')
  return open(dataPlace({ data: options.data, env: io.env }).folder, io.now())
}

function houseOf(own: Books, options: ServeOptions, io: CommandIo, openSample: () => Promise<Books>): House {
  const log = pino({ level: io.env.DOORYARD_LOG ?? 'warn', base: null }, pino.destination(2))
  const shared = { clock: { now: io.now }, log, hostNames: [options.host] }
  const app = createApp({ ...shared, books: own, isSample: options.sample })
  if (options.sample) return app
  return twoHouses(app, async () => createApp({ ...shared, books: await openSample(), isSample: true }))
}

async function listen(server: Server, { port, host }: ServeOptions): Promise<string> {
  server.listen(port, host)
  try {
    await once(server, 'listening')
  } catch (error) {
    throw listenProblem(error as NodeJS.ErrnoException, port, host)
  }
  const bound = server.address()
  return `http://${host.includes(':') ? `[${host}]` : host}:${typeof bound === 'object' ? bound?.port : port}`
}

const listenProblem = (error: NodeJS.ErrnoException, port: number, host: string): Error => {
  switch (error.code) {
    case 'EADDRINUSE':
      return new CommandError(
        `Port ${port} is taken, perhaps by a Dooryard that is open already: look at http://${host}:${port}, or start with --port ${port + 1}.`,
      )
    case 'EACCES':
      return new CommandError(`Port ${port} may not be used by this user. Start with --port ${defaultPort}.`)
    case 'EADDRNOTAVAIL':
    case 'ENOTFOUND':
      return new CommandError(`This computer has no address ${host}. Leave --host out to use 127.0.0.1.`)
    default:
      return error
  }
}

/** The first SIGINT or SIGTERM; a second one ends the process the hard way, as usual. */
const stopSignal = (): Promise<void> =>
  new Promise((resolve) => {
    const stop = () => {
      process.off('SIGINT', stop)
      process.off('SIGTERM', stop)
      resolve()
    }
    process.on('SIGINT', stop)
    process.on('SIGTERM', stop)
  })

/** Lets answers that are under way finish, two seconds at most. */
async function close(server: Server): Promise<void> {
  const closed = once(server, 'close')
  server.close()
  server.closeIdleConnections()
  const last = setTimeout(() => server.closeAllConnections(), 2000)
  await closed
  clearTimeout(last)
}
