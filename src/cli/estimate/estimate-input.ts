// Pieces of input and trace that the kinds of estimate share: years, days, dollars, growth, and a fact as a trace line.
import { z } from 'zod'
import { type Day, parseDay } from '#calendar/day.ts'
import type { TraceLine } from '#rules/return/trace.ts'

export const yearInput = () =>
  z.number({ error: 'Enter a year, like 2026' }).int('Enter a whole year, like 2026').min(1900).max(2150)

/** A calendar day as ISO text. */
export const dayInput = () =>
  z
    .string({ error: 'Enter a day, like 2026-04-01' })
    .refine((text) => parseDay(text) !== null, 'Enter a day of the calendar, like 2026-04-01')
    .transform((text) => text as Day)

export const dollarsInput = () =>
  z.number({ error: 'Enter dollars as a number, like 1234.56' }).min(0, 'Enter 0 or more').max(1e9)

/** Percent a year, with what stands when it is left out. */
export const growthPercentInput = (usual: number) =>
  z.number({ error: 'Enter percent a year, like 2.5' }).min(-20).max(50).default(usual)

/** One figure of a trace with the fact it rests on. Dollars unless the figure's name says otherwise. */
export const factLine = (
  figure: string,
  amount: number,
  fact: { readonly rule: string; readonly source: string },
  inputs: TraceLine['inputs'],
): TraceLine => ({ figure, amount, rule: fact.rule, source: fact.source, inputs })
