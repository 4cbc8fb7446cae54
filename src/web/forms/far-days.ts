// Days and months that nobody books by intent: decades back or years ahead. A form asks at them once, and takes them when they are meant.
import { z } from 'zod'
import type { Day } from '#calendar/day.ts'
import { yearIn } from '#calendar/month.ts'
import { farDayQuestion, sureDays } from '#views/parts/far-day.tsx'
import { bookedDays } from './fields.ts'
import type { TypedForm } from './typed-form.ts'

const earliestYear = 1980
/** What is booked has happened, or is dated a little ahead: years ahead it is a slip of the hand. A standing transfer's months may be. */
const yearsAheadOfDays = 1
const yearsAheadOfMonths = 10
const lengthOfMonth = 'YYYY-MM'.length

/** The question at each such field of a form that was sent, unless its box was ticked for this very day. */
export function farDays(schema: z.ZodType, { nested, today, values }: TypedForm): Record<string, string> {
  if (today === undefined) return {}
  const sure = values(sureDays)
  return Object.fromEntries(
    bookedIn(schema, nested, [])
      .filter(({ text }) => isFar(text, today) && !sure.includes(text))
      .map(({ path, text }) => [path.join('.'), farDayQuestion(text)]),
  )
}

const isFar = (text: string, today: Day): boolean => {
  const ahead = text.length === lengthOfMonth ? yearsAheadOfMonths : yearsAheadOfDays
  const latest = `${yearIn(today) + ahead}${today.slice(4)}`
  return yearIn(text) < earliestYear || text > latest
}

interface Booked {
  path: readonly string[]
  text: string
}

/** What was typed into fields for booked days, wherever the form has them. */
function bookedIn(schema: z.core.$ZodType, typed: unknown, path: readonly string[]): Booked[] {
  if (bookedDays.has(schema as z.ZodType)) {
    const text = typeof typed === 'string' ? typed.trim() : ''
    return text === '' ? [] : [{ path, text }]
  }
  if (schema instanceof z.ZodOptional || schema instanceof z.ZodNullable || schema instanceof z.ZodDefault)
    return bookedIn(schema.unwrap(), typed, path)
  if (schema instanceof z.ZodPipe) return bookedIn(schema.in, typed, path)
  if (typeof typed !== 'object' || typed === null) return []
  if (schema instanceof z.ZodArray)
    return (typed as unknown[]).flatMap((one, index) =>
      bookedIn(schema.element, one, [...path, String(index)]),
    )
  if (schema instanceof z.ZodUnion) return schema.options.flatMap((one) => bookedIn(one, typed, path))
  if (!(schema instanceof z.ZodObject)) return []
  return Object.entries(schema.shape).flatMap(([name, inner]) =>
    bookedIn(inner as z.core.$ZodType, (typed as Record<string, unknown>)[name], [...path, name]),
  )
}
