// The three ways a plan writes twelve months in one field: a year's amount, a level held each month, or twelve figures.
import { z } from 'zod'
import { type Month, monthOfYear, parseMonth } from '#calendar/month.ts'

/** More than any farm has of anything; products of a few of them stay numbers. */
export const largestAmount = 1_000_000_000
export const tooLarge = 'That is more than a plan can hold. Check the number'

const amount = z.number({ error: 'Enter a number, like 12 or 1.5' }).max(largestAmount, { error: tooLarge })
const twelve = z.array(amount).length(12, { error: 'Give twelve figures, January to December' })
const oneOrTwelve = `Enter one figure, or twelve from January to December, none above ${largestAmount}`
const notNegative = (value: number | number[]) => [value].flat().every((one) => one >= 0)

/** A year's amount spread evenly over its months, or twelve figures from January to December. */
export const seasonalSchema = z
  .union([amount, twelve], { error: oneOrTwelve })
  .refine(notNegative, { error: 'Enter amounts of zero or more' })
  .meta({ months: 'year’s total' })
/** The same for what can be a loss. */
export const signedSeasonalSchema = z
  .union([amount.min(-largestAmount, { error: tooLarge }), z.array(amount.min(-largestAmount)).length(12)], {
    error: oneOrTwelve,
  })
  .meta({ months: 'year’s total' })
/** One figure that holds in each month, or twelve figures from January to December. */
export const levelSchema = z
  .union([amount, twelve], { error: oneOrTwelve })
  .refine(notNegative, { error: 'Enter amounts of zero or more' })
  .meta({ months: 'each month' })

export type Seasonal = z.infer<typeof seasonalSchema>
export type Level = z.infer<typeof levelSchema>

export const monthTextSchema = z
  .string()
  .regex(/^\d{4}-(0[1-9]|1[0-2])$/, { error: 'Enter a month, like 2027-03' })
  .meta({ format: 'month' })

/** Twelve amounts from a seasonal field: `1200` → 100 a month. */
export const spreadOverYear = (value: Seasonal): number[] =>
  typeof value === 'number' ? new Array(12).fill(value / 12) : value

/** Twelve amounts from a level field: `40` → 40 each month. */
export const heldEachMonth = (value: Level): number[] =>
  typeof value === 'number' ? new Array(12).fill(value) : value

export const yearTotal = (value: Seasonal): number =>
  typeof value === 'number' ? value : value.reduce((a, b) => a + b, 0)

/** 0 for January to 11 for December. */
export const seasonIndex = (value: Month): number => monthOfYear(value) - 1

/** Reads a month a schema has let through. Throws on text it would have refused. */
export const monthFromText = (text: string): Month => {
  const parsed = parseMonth(text)
  if (parsed === null) throw new Error(`Not a month in a checked plan: ${text}`)
  return parsed
}

/** The value in force in a month: the base, or the latest step that has begun. Steps need no order. */
export const stepInForce = <Value>(
  base: Value,
  steps: readonly { from: string; value: Value }[],
  at: Month,
): Value => {
  let found = base
  let since = Number.NEGATIVE_INFINITY
  for (const step of steps) {
    const from = monthFromText(step.from)
    if (from <= at && from >= since) {
      found = step.value
      since = from
    }
  }
  return found
}
