// Reads JSON against a schema and tells every fault by its key: which one, and what to enter instead.
import { readFileSync } from 'node:fs'
import type { z } from 'zod'
import { CommandError, type CommandIo } from './command.ts'

/** Text of a file, or of the input for `-`. */
export const readFileOrInput = async (file: string, io: CommandIo): Promise<string> => {
  if (file === '-') return io.readInput()
  try {
    return readFileSync(file, 'utf8')
  } catch (error) {
    const reason = (error as NodeJS.ErrnoException).code ?? 'unknown reason'
    throw new CommandError(`Cannot read ${file}: ${reason}. Name a JSON file, or - for the input`, 2)
  }
}

/** Parsed and checked, or a `CommandError` with exit code 2 that has one line per fault. */
export const readJson = <Schema extends z.ZodType>(schema: Schema, text: string): z.output<Schema> => {
  const read = schema.safeParse(parse(text))
  if (read.success) return read.data
  throw new CommandError(read.error.issues.flatMap(linesOf).join('\n'), 2)
}

const parse = (text: string): unknown => {
  try {
    return JSON.parse(text)
  } catch (error) {
    throw new CommandError(`The input is not JSON: ${(error as Error).message}`, 2)
  }
}

const linesOf = (issue: z.core.$ZodIssue): string[] => {
  const place = issue.path.join('.')
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) => `${place === '' ? key : `${place}.${key}`}: there is no such key here`)
  }
  return [`${place === '' ? 'input' : place}: ${issue.message}`]
}
