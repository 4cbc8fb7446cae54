// What one kind of estimate is: a schema, a pure run over what it reads, and its help.
import type { z } from 'zod'

export interface EstimateKind {
  /** Strict: unknown keys are refused by name. Messages say what to enter. */
  schema: z.ZodType
  /** Gets what the schema read and returns what is printed as JSON, with a `trace`. May throw `RuleYearError`. */
  run(input: never): unknown
  /** Input and output keys with units, and one example. */
  help: string
}

/** Pairs a schema with a run over what it reads, so that a kind's types are checked where it is written. */
export const estimateKind = <Schema extends z.ZodType>(kind: {
  schema: Schema
  run(input: z.output<Schema>): unknown
  help: string
}): EstimateKind => kind as EstimateKind
