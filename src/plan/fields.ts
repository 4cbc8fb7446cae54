// The kinds of field a plan is made of: each says in its own error what would be right, and says its words by `.meta` (see #farm/field-words.ts).
import { z } from 'zod'
import { parseMonth } from '#calendar/month.ts'

const largest = 1_000_000_000

/** Dollars as a number, 0 or more. */
export const dollars = () =>
  z
    .number({ error: 'Enter an amount, like 1200 or 1200.50' })
    .min(0, { error: 'Enter an amount of 0 or more' })
    .max(largest, { error: 'That is more than a plan can hold. Check the amount' })

/** Dollars as a number, either sign. */
export const signedDollars = () =>
  z
    .number({ error: 'Enter an amount, like 1200 or -300' })
    .min(-largest, { error: 'That is more than a plan can hold. Check the amount' })
    .max(largest, { error: 'That is more than a plan can hold. Check the amount' })

/** A part of a whole: 0 to 1 in the document, 0% to 100% on forms. */
export const share = () =>
  z
    .number({ error: 'Enter a share from 0 to 1 (0% to 100% on forms)' })
    .min(0, { error: 'A share is at least 0%' })
    .max(1, { error: 'A share is at most 100%' })

/** A yearly rate as a fraction: 0.03 is 3% a year. */
export const rate = (least = -0.5, most = 1) =>
  z
    .number({ error: 'Enter a yearly rate, like 3%' })
    .min(least, { error: `Enter a rate of at least ${Math.round(least * 100)} %` })
    .max(most, { error: `Enter a rate of at most ${Math.round(most * 100)} %` })

/** A factor, such as a farm at 0.6 of its present size. */
export const factor = (most = 10) =>
  z
    .number({ error: 'Enter a number, like 0.6' })
    .min(0, { error: 'Enter 0 or more' })
    .max(most, { error: `Enter ${most} or less` })

export const wholeNumber = (least: number, most: number) =>
  z
    .number({ error: `Enter a whole number from ${least} to ${most}` })
    .int({ error: 'Enter a whole number' })
    .min(least, { error: `Enter ${least} or more` })
    .max(most, { error: `Enter ${most} or less` })

export const hours = (most = 200) =>
  z
    .number({ error: 'Enter hours, like 38 or 7.5' })
    .min(0, { error: 'Enter 0 or more hours' })
    .max(most, { error: `Enter ${most} hours or fewer` })

/** A month as text, `2027-04`. */
export const monthField = () =>
  z
    .string({ error: 'Enter a month, like 2027-04' })
    .refine((text) => parseMonth(text) !== null, { error: 'Enter a month, like 2027-04' })
    .meta({ format: 'month' })

/** A day as text, `1981-06-14`, that the calendar has. */
export const dayField = () => z.iso.date({ error: 'Enter a date, like 1981-06-14' })

/** When someone of the plan was or will be born: within the years that benefit law and life tables cover. */
export const birthField = () =>
  dayField().refine((text) => text >= '1900-01-01' && text < '2150-01-01', {
    error: 'Enter a date of birth from 1900 on, like 1981-06-14',
  })

export const nameField = () =>
  z
    .string({ error: 'Enter a name' })
    .trim()
    .min(1, { error: 'Enter a name' })
    .max(80, { error: 'Use 80 letters or fewer' })

/** The short name by which other parts of the plan point at this one. */
export const idField = () =>
  z.string({ error: 'Enter a short name, like savings' }).regex(/^[a-z0-9][a-z0-9-]{0,39}$/, {
    error: 'Use small letters, digits and hyphens, like market-garden',
  })

export const lineLimit = 60
