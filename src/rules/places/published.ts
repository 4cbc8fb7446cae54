// The published tables of places, read once through their shapes: counties, premiums by rating area, limits of public coverage.
import { z } from 'zod'
import benchmark from './benchmark-premiums.json' with { type: 'json' }
import bronze from './bronze-premiums.json' with { type: 'json' }
import counties from './counties.json' with { type: 'json' }
import limits from './coverage-limits.json' with { type: 'json' }

const named = { what: z.string(), note: z.string() }

const premiumTable = z.object({
  ...named,
  source: z.string(),
  /** Plan years, in the order of each area’s premiums. */
  years: z.array(z.int()),
  /** By state and rating area. */
  premiums: z.record(z.string(), z.record(z.string(), z.array(z.number().nullable()))),
})

const countyTable = z.object({
  ...named,
  source: z.string(),
  areas: z.record(z.string(), z.record(z.string(), z.array(z.string()))),
})

const limitTable = z.object({
  ...named,
  /** States whose basic health program goes by the guidelines of the year before, as the premium credit does. */
  basicByCreditLine: z.object({
    source: z.string(),
    states: z.array(z.string()),
    /** States of which the year of their guidelines was not found. */
    unchecked: z.array(z.string()),
  }),
  limits: z.record(
    z.string(),
    z.object({
      source: z.string(),
      /** By state: limits in percent of the poverty level from a month on; null for no such coverage. */
      states: z.record(z.string(), z.array(z.tuple([z.string(), z.number().nullable()]))),
    }),
  ),
})

export type PremiumTable = z.infer<typeof premiumTable>

/** A table is checked when it is first asked for. */
const readOnce = <Shape extends z.ZodType>(shape: Shape, table: unknown): (() => z.infer<Shape>) => {
  let known: z.infer<Shape> | null = null
  return () => {
    known ??= shape.parse(table)
    return known
  }
}

export const benchmarkTable = readOnce(premiumTable, benchmark)
export const bronzeTable = readOnce(premiumTable, bronze)
export const countiesTable = readOnce(countyTable, counties)
export const limitsTable = readOnce(limitTable, limits)

export const basicByCreditLine = (state: string): boolean =>
  limitsTable().basicByCreditLine.states.includes(state)

/** Whether it was found by which year’s guidelines the state’s basic health program goes, and where. */
export const basicLevelKnown = (state: string): { checked: boolean; source: string } => {
  const { unchecked, source } = limitsTable().basicByCreditLine
  return { checked: !unchecked.includes(state), source }
}
