// Reads what a command is given to read: a file, or the input for `-`; what cannot be read is told in one line.
import { readFileSync } from 'node:fs'
import { decodeStatement } from '#ledger/statements/reading/encoding.ts'
import { CommandError, type CommandIo } from './command.ts'

/** Text in any encoding that names itself, without its byte-order mark. */
export const readFileOrInput = async (file: string, io: CommandIo): Promise<string> =>
  file === '-' ? io.readInput() : readTextFile(file)

const readTextFile = (file: string): string => decodeStatement(readBytes(file)).text

export const readBytes = (file: string): Uint8Array => {
  try {
    return readFileSync(file)
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException
    throw new CommandError((reasons[code ?? ''] ?? unknownReason)(file, code))
  }
}

type Reason = (file: string, code?: string) => string

const reasons: Record<string, Reason> = {
  ENOENT: (file) => `There is no file at ${file}. Check the name.`,
  ENOTDIR: (file) => `There is no file at ${file}. Check the name.`,
  EISDIR: (file) => `${file} is a folder. Name a file in it.`,
  EACCES: (file) => `${file} may not be read by this user. Change its permissions.`,
  EPERM: (file) => `${file} may not be read by this user. Change its permissions.`,
}

const unknownReason: Reason = (file, code) =>
  `${file} cannot be read (${code ?? 'no reason given'}). Name another file.`
