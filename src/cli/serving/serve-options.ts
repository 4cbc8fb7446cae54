// What `dooryard serve` is told: port, host, certificate, place.
import { parseArgs } from 'node:util'
import { CommandError } from '../command.ts'

export const defaultPort = 4610

export interface ServeOptions {
  port: number
  host: string
  data: string | undefined
  sample: boolean
  certificate: string | undefined
  key: string | undefined
  /** Leaves the browser alone. */
  noOpen: boolean
}

export function readServeOptions(args: readonly string[]): ServeOptions {
  const { values } = parseArgs({
    args: [...args],
    options: {
      port: { type: 'string', default: String(defaultPort) },
      host: { type: 'string', default: '127.0.0.1' },
      data: { type: 'string' },
      sample: { type: 'boolean', default: false },
      certificate: { type: 'string' },
      key: { type: 'string' },
      'no-open': { type: 'boolean', default: false },
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
  return { port, host, data, sample, certificate, key, noOpen: values['no-open'] }
}

export const isLoopbackHost = (host: string): boolean =>
  host === 'localhost' || host === '::1' || /^127\.\d+\.\d+\.\d+$/.test(host)
