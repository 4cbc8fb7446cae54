// Where the server listens: the names it answers to, https, and the addresses to print, all of which work.
import { once } from 'node:events'
import type { Server } from 'node:http'
import { createServer as createSecureServer } from 'node:https'
import { hostname, networkInterfaces } from 'node:os'
import { createSecureContext } from 'node:tls'
import { CommandError } from '../command.ts'
import { readBytes } from '../read-text.ts'
import { defaultPort, type ServeOptions } from './serve-options.ts'

/** Names the address answers to; listening everywhere means every name this computer has. */
export const hostNamesOf = (host: string): string[] => {
  if (!isEverywhere(host)) return [host.includes(':') ? `[${host}]` : host]
  // An address of one link only (fe80…) cannot be typed into a browser.
  const addresses = Object.values(networkInterfaces())
    .flatMap((list) => list ?? [])
    .filter(({ address }) => host === '::' || !address.includes(':'))
    .filter(({ address }) => !address.toLowerCase().startsWith('fe80'))
  return [
    hostname(),
    ...addresses.map(({ address, family }) => (family === 'IPv6' ? `[${address}]` : address)),
  ]
}

const isEverywhere = (host: string): boolean => host === '0.0.0.0' || host === '::'

/** Certificate and key for https, read before anything listens. */
export function secureOptions({ certificate, key }: ServeOptions) {
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

/** Starts listening. The addresses at which it answers, this computer's own first. */
export async function listen(server: Server, { port, host, certificate }: ServeOptions): Promise<string[]> {
  server.listen(port, host)
  try {
    await once(server, 'listening')
  } catch (error) {
    throw listenProblem(error as NodeJS.ErrnoException, port, host)
  }
  const bound = server.address()
  const scheme = certificate === undefined ? 'http' : 'https'
  const names = isEverywhere(host) ? ['127.0.0.1', ...hostNamesOf(host)] : hostNamesOf(host)
  return [...new Set(names)].map(
    (name) => `${scheme}://${name}:${typeof bound === 'object' ? bound?.port : port}`,
  )
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
