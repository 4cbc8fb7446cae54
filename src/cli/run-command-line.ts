// Runs one command of the command line: finds it, prints its help, and tells every failure in lines that say what to do.
import { FileProblemError } from '#db/file-problem.ts'
import { type Command, CommandError, type CommandIo, type ExitCode, exitCodes } from './command.ts'
import { commands } from './commands.ts'

export async function runCommandLine(args: readonly string[], io: CommandIo): Promise<number> {
  const [first, ...rest] = args
  if (first === '--help' || first === '-h' || first === 'help') {
    io.out(await listOfCommands())
    return 0
  }
  const isName = first !== undefined && !first.startsWith('-')
  const name = isName ? first : 'serve'
  const load = Object.hasOwn(commands, name) ? commands[name] : undefined
  if (!load) {
    io.err(`dooryard: there is no command “${name}”. Run “npm run dooryard -- --help” to see the commands.`)
    return 2
  }
  return runCommand(await load(), isName ? rest : args, io)
}

async function runCommand(command: Command, args: readonly string[], io: CommandIo): Promise<number> {
  try {
    if (args.includes('--help') || args.includes('-h')) {
      io.out(((await command.helpFor?.(args)) ?? command.help).trim())
      return 0
    }
    return await command.run(args, io)
  } catch (error) {
    const failure = failureOf(error, command.name, io)
    for (const line of failure.lines) io.err(`dooryard ${command.name}: ${line}`)
    return failure.exitCode
  }
}

interface Failure {
  lines: readonly string[]
  exitCode: ExitCode
}

const failureOf = (error: unknown, name: string, io: CommandIo): Failure => {
  if (error instanceof CommandError) return error
  const misread = misreadWord(error)
  if (misread) return { lines: [`${misread} Run “npm run dooryard -- ${name} --help”.`], exitCode: 2 }
  const problem = error instanceof FileProblemError ? error.problem : null
  if (problem) return { lines: [problem.message], exitCode: 1 }
  if (io.env.DOORYARD_LOG === 'debug') io.err(String((error as Error).stack ?? error))
  const what = error instanceof Error ? error.message.split('\n')[0] : String(error)
  return {
    lines: [
      `This is a fault of the program, not yours: ${what}. Your books are as they were; DOORYARD_LOG=debug shows where it happened.`,
    ],
    exitCode: 1,
  }
}

/** What `parseArgs` of node:util did not understand, in our words; null for any other error. */
const misreadWord = (error: unknown): string | null => {
  if (!(error instanceof TypeError)) return null
  const code = String((error as NodeJS.ErrnoException).code ?? '')
  if (!code.startsWith('ERR_PARSE_ARGS')) return null
  const word = /'([^']*)'/.exec(error.message)?.[1] ?? ''
  if (code === 'ERR_PARSE_ARGS_UNKNOWN_OPTION') return `There is no option ${word}.`
  if (code === 'ERR_PARSE_ARGS_UNEXPECTED_POSITIONAL') return `“${word}” is a word too many.`
  return /does not take an argument/.test(error.message)
    ? `${word} takes no value.`
    : `${word.split(' ')[0]} needs a value after it.`
}

async function listOfCommands(): Promise<string> {
  const loaded = await Promise.all(Object.values(commands).map((load) => load()))
  const width = Math.max(8, ...loaded.map((command) => command.name.length))
  const rows = loaded.map((command) => `  ${command.name.padEnd(width)}  ${command.summary}`)
  return [
    'Dooryard keeps farm and household books apart and says how many months of savings are left.',
    '',
    'npm run dooryard -- COMMAND [OPTIONS]',
    '',
    ...rows,
    '',
    'Each command has --help.',
    '',
    'Exit codes:',
    ...Object.entries(exitCodes).map(([code, means]) => `  ${code}  ${means}`),
  ].join('\n')
}
