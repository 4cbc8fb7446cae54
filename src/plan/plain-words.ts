// What is wrong with a value, in plain words, where a schema has none of its own: the error map that every check of JSON passes along.
import type { z } from 'zod'
import { anyOf } from '#money/lists.ts'

/** For `safeParse(value, { error: plainWords })`; what a schema says itself goes before it. */
export const plainWords = (issue: z.core.$ZodRawIssue): string => {
  switch (issue.code) {
    case 'invalid_type':
      return issue.input === undefined
        ? `This is missing. Give ${kindOf(issue.expected)}`
        : `Give ${kindOf(issue.expected)}, not ${whatIs(issue.input)}`
    case 'invalid_value':
      return `Choose ${anyOf(issue.values.map((value) => JSON.stringify(value)))}`
    case 'too_small':
      return bound(issue.origin, `${issue.minimum} or more`, `at least ${issue.minimum}`)
    case 'too_big':
      return bound(issue.origin, `${issue.maximum} or less`, `at most ${issue.maximum}`)
    case 'unrecognized_keys':
      return `There is no such key here: ${issue.keys.join(', ')}`
    case 'not_multiple_of':
      return `Give a multiple of ${issue.divisor}`
    case 'invalid_union':
      return 'options' in issue && Array.isArray(issue.options)
        ? `Choose ${anyOf(issue.options.map((option) => JSON.stringify(option)))}`
        : 'This fits none of the ways in which it can be written'
    default:
      return 'This does not belong here'
  }
}

const kinds: Record<string, string> = {
  number: 'a number',
  int: 'a whole number',
  string: 'a text in quotation marks',
  boolean: 'true or false',
  array: 'a list in [ ]',
  object: 'an object in { }',
  record: 'an object in { }',
}

const kindOf = (expected: string): string => kinds[expected] ?? expected

const whatIs = (input: unknown): string => {
  if (input === null) return 'null'
  if (Array.isArray(input)) return 'a list'
  if (typeof input === 'number') return Number.isFinite(input) ? 'a number' : String(input)
  return typeof input === 'string' ? 'a text' : typeof input === 'object' ? 'an object' : String(input)
}

const bound = (origin: string, number: string, count: string): string => {
  if (origin === 'array' || origin === 'set') return `Give ${count} in this list`
  if (origin === 'string') return `Write ${count} letters`
  return `Enter ${number}`
}
