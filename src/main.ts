// The command line: `dooryard [COMMAND] [OPTIONS]`. Serves when no command is named.
// Before any shape is made.
import '#src/shapes-as-read.ts'
import { text } from 'node:stream/consumers'
import type { CommandIo } from '#src/cli/command.ts'
import { runCommandLine } from '#src/cli/run-command-line.ts'

/** Back to the beginning of the line, and what stood there taken away. */
const over = (line: string) => `\r\u001b[K${line}`

const io: CommandIo = {
  out: (line) => void process.stdout.write(`${line}\n`),
  err: (line) => void process.stderr.write(`${line}\n`),
  readInput: () => text(process.stdin),
  isTerminal: process.stdout.isTTY === true,
  ...(process.stderr.isTTY ? { overwrite: (line: string) => void process.stderr.write(over(line)) } : {}),
  env: process.env,
  now: () => new Date(),
}

// Whatever is written, books, logs, copies, receipts, is for this user only.
process.umask(0o077)

// Who reads along, like `head`, may have enough before the end: that is no failure.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error
  process.exit(0)
})

// Not awaited here: the bundle is of the module kind that cannot.
void runCommandLine(process.argv.slice(2), io).then((code) => {
  process.exitCode = code
})
