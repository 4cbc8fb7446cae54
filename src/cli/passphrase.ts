// Reads a passphrase for an encrypted backup: from a file or from standard input, never from the command line, which others can see.
import { readFileSync } from 'node:fs'
import { fileProblem } from '#db/file-problem.ts'
import { CommandError, type CommandIo } from './command.ts'

/** The first line of the file, or of standard input for `-`. Undefined when no file is named. */
export const readPassphrase = async (
  file: string | undefined,
  io: CommandIo,
): Promise<string | undefined> => {
  if (file === undefined) return undefined
  const passphrase = (file === '-' ? await io.readInput() : readText(file)).split(/\r?\n/)[0]!.trim()
  if (passphrase.length < 8)
    throw new CommandError('The passphrase is shorter than 8 letters. Put a longer one in the file.', 2)
  return passphrase
}

const readText = (file: string): string => {
  try {
    return readFileSync(file, 'utf8')
  } catch (error) {
    const problem = fileProblem(error, file)
    if (!problem) throw error
    throw new CommandError(problem.message, 2)
  }
}
