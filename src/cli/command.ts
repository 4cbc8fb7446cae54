// What a command of the command line is, and the one way its failures are told: a line that says what to do, and an exit code.
export interface Command {
  name: string
  /** One line for the list of commands. */
  summary: string
  /** The text of `dooryard NAME --help`. */
  help: string
  /** Runs with the arguments after the name. Returns the exit code; throws `CommandError` for what the user can mend. */
  run(args: readonly string[], io: CommandIo): Promise<number>
}

export interface CommandIo {
  out(text: string): void
  err(text: string): void
  readInput(): Promise<string>
  env: Readonly<Record<string, string | undefined>>
  /** Today's date as ISO text and the present instant: the only clock a command sees. */
  now(): Date
}

/** Exit codes: 0 done, 1 it could not be done, 2 the words or the input were not understood. */
export class CommandError extends Error {
  readonly exitCode: 1 | 2
  constructor(message: string, exitCode: 1 | 2 = 1) {
    super(message)
    this.name = 'CommandError'
    this.exitCode = exitCode
  }
}
