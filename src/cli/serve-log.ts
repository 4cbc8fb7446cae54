// What the server says of itself while it runs: plain lines for people, or JSON lines where DOORYARD_LOG asks for them.
import type { Log } from '#web/server/context.ts'
import { CommandError, type CommandIo } from './command.ts'

const levels = ['debug', 'info', 'warn', 'error', 'silent']

export const serveLog = async (io: CommandIo): Promise<Log> => {
  const level = io.env.DOORYARD_LOG
  if (level === undefined || level === '') return plainLog(io)
  if (!levels.includes(level)) throw new CommandError(`DOORYARD_LOG takes one of: ${levels.join(', ')}.`, 2)
  const { default: pino } = await import('pino')
  const log: Log = pino({ level, base: null }, pino.destination(2))
  return log
}

/** Warnings and errors, a line each; what went well is not told. */
const plainLog = (io: CommandIo): Log => {
  const tell = (fields: object, text: string) => {
    const details = Object.entries(fields).map(([name, value]) => `${name} ${[value].flat().join(' < ')}`)
    io.err(`Dooryard: ${text}${details.length > 0 ? ` (${details.join(', ')})` : ''}`.replace(/\s+/g, ' '))
  }
  return { info: () => {}, warn: tell, error: tell }
}
