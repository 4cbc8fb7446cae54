// Reads JSON against a schema and tells every fault by its key: which one, and what to enter instead.
import type { z } from 'zod'
import { readJsonText } from '#plan/json-text.ts'
import { plainWords } from '#plan/plain-words.ts'
import { CommandError } from './command.ts'

/** Parsed and checked, or a `CommandError` with exit code 2 that has one line per fault. */
export const readJson = <Schema extends z.ZodType>(schema: Schema, text: string): z.output<Schema> => {
  const read = schema.safeParse(parse(text), { error: plainWords })
  if (read.success) return read.data
  throw new CommandError(read.error.issues.flatMap(linesOf), 2)
}

const parse = (text: string): unknown => {
  const read = readJsonText(text)
  if (!read.ok) throw new CommandError(`input: ${read.message}`, 2)
  return read.value
}

const linesOf = (issue: z.core.$ZodIssue): string[] => {
  const place = issue.path.join('.')
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) => `${place === '' ? key : `${place}.${key}`}: there is no such key here`)
  }
  return [`${place === '' ? 'input' : place}: ${issue.message}`]
}
