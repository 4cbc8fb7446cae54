// The single subjects `dooryard estimate --kind` works out: each a schema, a pure run and its help. Each is loaded only when called.
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

export const estimateKinds: Record<string, () => Promise<EstimateKind>> = {
  'social-security': async () => (await import('./estimate-social-security.ts')).socialSecurityKind,
  medicare: async () => (await import('./estimate-medicare.ts')).medicareKind,
  rmd: async () => (await import('./estimate-required-distribution.ts')).requiredDistributionKind,
  depreciation: async () => (await import('./estimate-depreciation.ts')).depreciationKind,
  premium: async () => (await import('./estimate-premium.ts')).premiumKind,
}
