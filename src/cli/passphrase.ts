// Reads a passphrase for an encrypted backup: from a file or from standard input, never from the command line, which others can see.
import { CommandError, type CommandIo } from './command.ts'
import { readFileOrInput } from './read-text.ts'

/** The first line of the file, or of standard input for `-`. Undefined when no file is named. */
export const readPassphrase = async (
  file: string | undefined,
  io: CommandIo,
): Promise<string | undefined> => {
  if (file === undefined) return undefined
  const passphrase = (await readFileOrInput(file, io)).split(/\r?\n/)[0]!.trim()
  if (passphrase.length < 8)
    throw new CommandError('The passphrase is shorter than 8 characters. Put a longer one in the file.', 2)
  return passphrase
}
