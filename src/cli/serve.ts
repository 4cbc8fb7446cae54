// `dooryard serve`: opens the books, listens on this computer only, and stops cleanly when told to.
import { once } from 'node:events'
import type { Server } from 'node:http'
import { createServer as createSecureServer } from 'node:https'
import { hostname, networkInterfaces } from 'node:os'
import { createSecureContext } from 'node:tls'
import { parseArgs } from 'node:util'
import { createAdaptorServer } from '@hono/node-server'
import { dataPlace } from '#db/data-place.ts'
import { type Books, openBooks } from '#db/open.ts'
import { createApp } from '#src/server.ts'
import { type Access, accessOf } from '#web/server/access.ts'
import { localDay } from '#web/server/clock.ts'
import type { Log } from '#web/server/context.ts'
import { type House, twoHouses } from '#web/server/open-house.ts'
import { type Command, CommandError, type CommandIo } from './command.ts'
import { keepHouseHourly } from './housekeeping.ts'
import { ownPlace } from './own-place.ts'
import { readBytes } from './read-text.ts'
import { serveLog } from './serve-log.ts'

const defaultPort = 4610

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
  certificate: string | undefined
  key: string | undefined
}

async function serve(args: readonly string[], io: CommandIo): Promise<number> {
  const options = readOptions(args)
  const log = serveLog(io)
  const opened: Books[] = []
  const own = options.sample ? await openSampleBooks(options, io) : openOwnBooks(options, io)
  opened.push(own)
  const access = accessOf(own, { now: io.now })
  if (!isLoopbackHost(options.host) && !access.isSet()) {
    own.close()
    throw new CommandError(needsPassphrase(options))
  }
  const house = houseOf(own, { access, log }, options, io, async () => {
    const sample = await openSampleBooks(options, io)
    opened.push(sample)
    return sample
  })
  const server = createAdaptorServer({
    fetch: (request) => house.fetch(request),
    ...secureOptions(options),
  }) as Server
  const address = await listen(server, options)
  io.out(`Dooryard is open at ${address}`)
  io.out(`${options.sample ? 'The sample farm is' : 'Your books are'} in ${own.path}`)
  if (own.backupBeforeMigrating) io.out(`Before updating it, a copy was put in ${own.backupBeforeMigrating}`)
  if (own.chainBegun)
    io.out('From here on every change is proved. What was in the books before was taken as it was found.')
  io.out('Stop with Ctrl+C.')
  const { backups } = dataPlace({ data: options.data, env: io.env })
  const round = () => ({ books: own, backupFolder: backups, now: io.now(), today: localDay(io.now()), log })
  const stopKeeping = options.sample ? () => {} : keepHouseHourly(round)
  await stopSignal()
  stopKeeping()
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
      certificate: { type: 'string' },
      key: { type: 'string' },
    },
  })
  const port = /^\d{1,5}$/.test(values.port) ? Number.parseInt(values.port, 10) : Number.NaN
  if (!(port >= 0 && port <= 65_535)) throw new CommandError('--port takes a number from 0 to 65535.', 2)
  const { host, data, sample, certificate, key } = values
  if ((certificate === undefined) !== (key === undefined))
    throw new CommandError('--certificate and --key go together: give both files.', 2)
  if (!isLoopbackHost(host) && certificate === undefined)
    throw new CommandError(
      `Other computers can reach ${host}, so it needs https: give --certificate and --key, or leave --host out.`,
      2,
    )
  return { port, host, data, sample, certificate, key }
}

const isLoopbackHost = (host: string): boolean =>
  host === 'localhost' || host === '::1' || /^127\.\d+\.\d+\.\d+$/.test(host)

function openOwnBooks(options: ServeOptions, io: CommandIo): Books {
  const place = ownPlace(options.data, io)
  const result = openBooks(place.file, { now: io.now(), backupFolder: place.backups })
  if (!result.ok) throw new CommandError(result.problem.message)
  return result.books
}

/** In its own file beside the user's, made when first asked for. */
async function openSampleBooks(options: ServeOptions, io: CommandIo): Promise<Books> {
  const { openSampleBooks: open } = await import('#sample/open-sample.ts')
  return open(dataPlace({ data: options.data, env: io.env }).folder, io.now())
}

function houseOf(
  own: Books,
  kept: { access: Access; log: Log },
  options: ServeOptions,
  io: CommandIo,
  openSample: () => Promise<Books>,
): House {
  const isLoopback = isLoopbackHost(options.host)
  const shared = { clock: { now: io.now }, ...kept, isLoopback, hostNames: hostNamesOf(options.host) }
  const house = createApp({ ...shared, books: own, isSample: options.sample })
  if (options.sample) return house
  return twoHouses(house, async () => createApp({ ...shared, books: await openSample(), isSample: true }))
}

/** Names the address answers to; listening everywhere means every name this computer has. */
const hostNamesOf = (host: string): string[] => {
  if (host !== '0.0.0.0' && host !== '::') return [host.includes(':') ? `[${host}]` : host]
  const addresses = Object.values(networkInterfaces()).flatMap((list) => list ?? [])
  return [
    hostname(),
    ...addresses.map(({ address, family }) => (family === 'IPv6' ? `[${address}]` : address)),
  ]
}

const needsPassphrase = (options: ServeOptions): string =>
  options.sample
    ? 'The sample farm has no passphrase, so it opens on this computer only: leave --host out.'
    : `Other computers can reach ${options.host}, so a passphrase is needed: start without --host, set one in Settings under Passphrase, then start again.`

/** Certificate and key for https, read before anything listens. */
function secureOptions({ certificate, key }: ServeOptions) {
  if (certificate === undefined || key === undefined) return {}
  const pair = { cert: Buffer.from(readBytes(certificate)), key: Buffer.from(readBytes(key)) }
  try {
    createSecureContext(pair)
  } catch (error) {
    throw new CommandError(
      `${certificate} and ${key} are not a certificate and its key in PEM (${(error as Error).message}). Give the two files as they were made.`,
    )
  }
  return { createServer: createSecureServer, serverOptions: pair }
}

async function listen(server: Server, { port, host, certificate }: ServeOptions): Promise<string> {
  server.listen(port, host)
  try {
    await once(server, 'listening')
  } catch (error) {
    throw listenProblem(error as NodeJS.ErrnoException, port, host)
  }
  const bound = server.address()
  const scheme = certificate === undefined ? 'http' : 'https'
  return `${scheme}://${host.includes(':') ? `[${host}]` : host}:${typeof bound === 'object' ? bound?.port : port}`
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
