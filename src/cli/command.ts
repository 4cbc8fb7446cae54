// What a command of the command line is, and the one way its failures are told: a line that says what to do, and an exit code.
import { allOf } from '#money/lists.ts'
export interface Command {
  name: string
  /** One line for the list of commands. */
  summary: string
  /** The text of `dooryard NAME --help`. */
  help: string
  /** Help for a part of the command that the arguments name; null when they name none. */
  helpFor?(args: readonly string[]): Promise<string | null>
  /** Runs with the arguments after the name. Returns the exit code; throws `CommandError` for what the user can mend. */
  run(args: readonly string[], io: CommandIo): Promise<number>
}

export interface CommandIo {
  out(text: string): void
  err(text: string): void
  readInput(): Promise<string>
  /** Whether a person at a terminal reads what is printed; a test, a pipe or a service does not say so. */
  isTerminal?: boolean
  /** Writes a line over the one before, where a person at a terminal reads what is said beside the answer; an empty one takes it away. */
  overwrite?(text: string): void
  env: Readonly<Record<string, string | undefined>>
  /** Today's date as ISO text and the present instant: the only clock a command sees. */
  now(): Date
}

/** Every command ends with one of these; `--help` and the README list them. */
export const exitCodes = {
  0: 'done',
  1: 'it could not be done: a file is missing or damaged, something does not hold, an answer cannot be reached',
  2: 'the words or the input were not understood: an option, a key, a value',
} as const

export type ExitCode = keyof typeof exitCodes

/** What the person can mend: a line for each thing, which says what to do. */
export class CommandError extends Error {
  readonly lines: readonly string[]
  readonly exitCode: Exclude<ExitCode, 0>
  constructor(message: string | readonly string[], exitCode: Exclude<ExitCode, 0> = 1) {
    const lines = [message].flat()
    super(lines.join('\n'))
    this.name = 'CommandError'
    this.lines = lines
    this.exitCode = exitCode
  }
}

/** An option that would do nothing is refused: who gives it believes that it does. */
export function refuseWords<Word extends string>(
  why: string,
  words: Partial<Record<Word, unknown>>,
  unused: readonly Word[],
): void {
  const given = unused.filter((word) => words[word] !== undefined)
  if (given.length > 0)
    throw new CommandError(`${why}: leave out ${allOf(given.map((word) => `--${word}`))}`, 2)
}
