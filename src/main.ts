// The command line: `dooryard [COMMAND] [OPTIONS]`. Serves when no command is named.
import { text } from 'node:stream/consumers'
import { type Command, CommandError, type CommandIo } from '#src/cli/command.ts'
import { commands } from '#src/cli/commands.ts'

const io: CommandIo = {
  out: (line) => void process.stdout.write(`${line}\n`),
  err: (line) => void process.stderr.write(`${line}\n`),
  readInput: () => text(process.stdin),
  env: process.env,
  now: () => new Date(),
}

// Whatever is written, books, logs, copies, receipts, is for this user only.
process.umask(0o077)

process.exitCode = await runCommandLine(process.argv.slice(2), io)

async function runCommandLine(args: readonly string[], io: CommandIo): Promise<number> {
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
  if (args.includes('--help') || args.includes('-h')) {
    io.out(command.help.trim())
    return 0
  }
  try {
    return await command.run(args, io)
  } catch (error) {
    if (error instanceof CommandError) {
      io.err(`dooryard ${command.name}: ${error.message}`)
      return error.exitCode
    }
    if (isParseArgsError(error)) {
      io.err(`dooryard ${command.name}: ${error.message} Run “npm run dooryard -- ${command.name} --help”.`)
      return 2
    }
    throw error
  }
}

function isParseArgsError(error: unknown): error is Error {
  return (
    error instanceof TypeError &&
    String((error as NodeJS.ErrnoException).code ?? '').startsWith('ERR_PARSE_ARGS')
  )
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
  ].join('\n')
}
