// Zod doorways for what people type: text becomes cents, days, months, rates and numbers, or a message that says what would be right.
import { z } from 'zod'
import { type Day, parseDay } from '#calendar/day.ts'
import { type Month, parseMonth } from '#calendar/month.ts'
import { type Cents, cents } from '#money/cents.ts'
import { type Parsed, parseMoney, parsePercent, parseQuantity } from '#money/parse.ts'

/** Trimmed text that may be empty; a missing input counts as empty. */
export const optionalText = (most = 200) =>
  z
    .string()
    .optional()
    .transform((text) => (text ?? '').trim())
    .pipe(z.string().max(most, { error: `Use at most ${most} characters` }))

export const requiredText = (error: string, most = 200) =>
  z
    .string({ error })
    .trim()
    .min(1, { error })
    .max(most, { error: `Use at most ${most} characters` })

const typed = <Value>(read: (text: string) => Parsed<Value>) =>
  z
    .string()
    .optional()
    .transform((text, context): Value => {
      const parsed = read(text ?? '')
      if (parsed.ok) return parsed.value
      context.issues.push({ code: 'custom', message: parsed.message, input: text })
      return z.NEVER
    })

/** Empty gives `null`, anything typed must be right. */
const typedOrNull = <Value>(read: (text: string) => Parsed<Value>) =>
  typed((text): Parsed<Value | null> => (text.trim() === '' ? { ok: true, value: null } : read(text)))

export const money = () => typed<Cents>((text) => parseMoney(text))
export const moneyOrNull = () => typedOrNull<Cents>((text) => parseMoney(text))
export const moneyOrZero = () =>
  typed<Cents>((text) => (text.trim() === '' ? { ok: true, value: cents(0) } : parseMoney(text)))

const readZeroOrMore = (text: string): Parsed<Cents> => {
  const parsed = parseMoney(text)
  return parsed.ok && parsed.value < 0
    ? { ok: false, message: 'An amount below zero is not allowed here. Enter zero or more' }
    : parsed
}

/** Empty counts as zero; below zero is a mistake. */
export const moneyZeroOrMore = () =>
  typed<Cents>((text) => (text.trim() === '' ? { ok: true, value: cents(0) } : readZeroOrMore(text)))
export const moneyZeroOrMoreOrNull = () => typedOrNull<Cents>(readZeroOrMore)

/** An amount above zero. */
export const moneyAboveZero = () =>
  typed<Cents>((text) => {
    const parsed = parseMoney(text)
    return parsed.ok && parsed.value <= 0
      ? { ok: false, message: 'Enter an amount above zero, like 12.34' }
      : parsed
  })

/** A typed percentage as a fraction. */
export const percent = () => typed<number>(parsePercent)
export const percentOrNull = () => typedOrNull<number>(parsePercent)
/** What money earns a year: 0 to 20 percent; empty is null. */
export const earnsOrNull = () =>
  percentOrNull().refine((rate) => rate === null || (rate >= 0 && rate <= 0.2), {
    error: 'Enter a rate from 0 to 20 percent a year, like 3.5',
  })
export const quantity = () => typed<number>(parseQuantity)
export const quantityOrNull = () => typedOrNull<number>(parseQuantity)

/** A whole number between two bounds. */
export const wholeNumber = (least: number, most: number) => typed<number>(readWhole(least, most))
export const wholeNumberOrNull = (least: number, most: number) => typedOrNull<number>(readWhole(least, most))

const readWhole =
  (least: number, most: number) =>
  (text: string): Parsed<number> => {
    const parsed = parseQuantity(text)
    return parsed.ok && Number.isInteger(parsed.value) && parsed.value >= least && parsed.value <= most
      ? parsed
      : { ok: false, message: `Enter a whole number from ${least} to ${most}` }
  }

const readDay = (text: string): Parsed<Day> => {
  const value = parseDay(text)
  return value ? { ok: true, value } : { ok: false, message: 'Enter a date: month, day and year' }
}
const readMonth = (text: string): Parsed<Month> => {
  const value = parseMonth(text)
  return value === null ? { ok: false, message: 'Enter a month, like 2026-03' } : { ok: true, value }
}

/** Fields for the day or month of something booked: `checkForm` asks at one that lies far from today. */
export const bookedDays = z.registry()
export const bookedDay = () => typed<Day>(readDay).register(bookedDays, {})
export const bookedDayOrNull = () => typedOrNull<Day>(readDay).register(bookedDays, {})
export const bookedMonth = () => typed<Month>(readMonth).register(bookedDays, {})
export const bookedMonthOrNull = () => typedOrNull<Month>(readMonth).register(bookedDays, {})

export const dayField = () => typed<Day>(readDay)
export const dayOrNull = () => typedOrNull<Day>(readDay)
export const monthField = () => typed<Month>(readMonth)
export const monthOrNull = () => typedOrNull<Month>(readMonth)

/** One of the words offered. */
export const choice = <const Words extends readonly [string, ...string[]]>(words: Words, error: string) =>
  z.enum(words, { error })

/** A row id from a select. */
export const rowId = (error: string) =>
  typed<number>((text) =>
    /^\d{1,15}$/.test(text) ? { ok: true, value: Number.parseInt(text, 10) } : { ok: false, message: error },
  )

/** An unchecked box is not sent at all. */
export const checkbox = () =>
  z
    .string()
    .optional()
    .transform((text) => text === 'yes')

/** The form's own id, made when the form was shown. */
export const formIdField = () => z.uuid({ error: 'This form has lost its number. Open it again' })
