// Field doorways the estimate kinds share: each says what to enter, in dollars, years or days.
import { z } from 'zod'
import { type Day, parseDay } from '#calendar/day.ts'
import type { Dated } from '#rules/dated.ts'
import type { TraceLine } from '#rules/return/trace.ts'

export const dollarsInput = () =>
  z
    .number({ error: 'Enter dollars as a number, like 520.5' })
    .min(0, 'Enter 0 or more')
    .max(1e9, 'Enter less')

export const yearInput = () =>
  z
    .number({ error: 'Enter a year, like 2026' })
    .int('Enter a whole year')
    .min(1900, 'Enter a year from 1900')
    .max(2200, 'Enter a year up to 2200')

export const growthPercentInput = (usual: number) =>
  z
    .number({ error: 'Enter a percentage, like 2.5' })
    .min(-5, 'Enter −5 or more')
    .max(20, 'Enter up to 20')
    .default(usual)

export const dayInput = () =>
  z.string({ error: 'Enter a day, like 2026-03-15' }).transform((text, context): Day => {
    const read = parseDay(text)
    if (read) return read
    context.issues.push({ code: 'custom', message: 'Enter a day, like 2026-03-15', input: text })
    return z.NEVER
  })

/** A trace line that rests on a dated fact. */
export const factLine = (
  figure: string,
  amount: number,
  fact: Pick<Dated, 'rule' | 'source'>,
  inputs: TraceLine['inputs'],
): TraceLine => ({ figure, amount, rule: fact.rule, source: fact.source, inputs })

export const claimAgeInput = () =>
  z.strictObject({
    years: z
      .number({ error: 'Enter years, like 67' })
      .int()
      .min(62, 'A retirement benefit starts at 62')
      .max(70, 'Waiting past 70 adds nothing'),
    months: z.number().int().min(0).max(11, 'Enter 0 to 11 months').default(0),
  })
