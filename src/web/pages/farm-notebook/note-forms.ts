// The forms of the notebook: each name begins with its section, so that all can stand on one page. What is typed becomes a note.
import { z } from 'zod'
import type { NewMarketDay, Taking } from '#db/notebook/field-notes.ts'
import { minutesTyped } from '#farm/notebook/hours-typed.ts'
import { goodsKinds, headClasses, headKinds, meansOfPay, tripKinds } from '#farm/notebook/kinds.ts'
import { parseSubject, type Subject } from '#farm/notebook/subject.ts'
import { addCents, type Cents, cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { askSure } from '#views/parts/sure-box.tsx'
import {
  bookedDay,
  choice,
  formIdField,
  moneyOrNull,
  moneyZeroOrMore,
  moneyZeroOrMoreOrNull,
  optionalText,
  quantity,
  quantityOrNull,
  requiredText,
  wholeNumber,
} from '#web/forms/fields.ts'

/** As `minutesTyped` understands it. Empty gives null. */
const hoursOrNull = () =>
  z
    .string()
    .optional()
    .transform((text, context): number | null => {
      const typed = (text ?? '').trim()
      if (typed === '') return null
      const minutes = minutesTyped(typed)
      if (minutes !== null && minutes >= 1 && minutes <= 1440) return minutes
      context.issues.push({
        code: 'custom',
        message: 'Enter hours up to 24, like 1.5, 1:30 or 1h 30',
        input: text,
      })
      return z.NEVER
    })

const subject = () =>
  z
    .string()
    .optional()
    .transform((text, context): Subject => {
      const read = parseSubject(text ?? '')
      if (read) return read
      context.issues.push({ code: 'custom', message: 'Choose what the work was for', input: text })
      return z.NEVER
    })

/** Lengths that are one press; `other` asks for the field beside them. */
export const usualMinutes = [30, 60, 120, 240] as const

export const hoursForm = z.object({
  formId: formIdField(),
  hours: z
    .object({
      day: bookedDay(),
      person: requiredText('Say who worked', 80),
      hiredName: optionalText(80),
      pay: moneyOrNull(),
      subject: subject(),
      length: optionalText(10),
      time: hoursOrNull(),
      note: optionalText(200),
    })
    .transform(({ length, time, ...rest }, context) => {
      const usual = usualMinutes.find((minutes) => String(minutes) === length) ?? null
      const isHired = rest.person === 'hired'
      if (isHired && rest.hiredName === '')
        context.issues.push({ code: 'custom', path: ['hiredName'], message: 'Give the name', input: '' })
      return { ...rest, isHired, minutes: time ?? usual }
    }),
})

export const headsForm = z.object({
  formId: formIdField(),
  heads: z
    .object({
      day: bookedDay(),
      herd: requiredText('Choose the herd or flock', 80),
      kind: choice([...headKinds, ...goodsKinds], 'Choose what happened'),
      headClass: choice(headClasses, 'Choose which of them'),
      count: wholeNumber(0, 100_000),
      tradedFor: optionalText(200),
      note: optionalText(200),
    })
    .check(({ value, issues }) => {
      if (value.count === 0 && value.kind !== 'counted')
        issues.push({ code: 'custom', path: ['count'], message: 'Enter how many, from 1 on', input: '0' })
      if (value.kind === 'bartered' && value.tradedFor === '')
        issues.push({ code: 'custom', path: ['tradedFor'], message: tradedForWhat, input: '' })
    }),
})

const tradedForWhat = 'Say with whom and for what, like “Ada, hay”'

export const goodsForm = z.object({
  formId: formIdField(),
  goods: z
    .object({
      day: bookedDay(),
      kind: choice(goodsKinds, 'Choose where it went'),
      of: optionalText(120),
      what: requiredText('Say what it was, like “eggs”', 120),
      quantity: quantity().refine((value) => value > 0 && value < 1_000_000, {
        error: 'Enter how much, like 12 or 1.5',
      }),
      unit: optionalText(40),
      price: moneyOrNull(),
      tradedFor: optionalText(200),
    })
    .check(({ value, issues }) => {
      if (value.kind === 'bartered' && value.tradedFor === '')
        issues.push({ code: 'custom', path: ['tradedFor'], message: tradedForWhat, input: '' })
      if (value.price !== null && value.price <= 0)
        issues.push({ code: 'custom', path: ['price'], message: 'Enter a price above zero', input: '' })
    }),
})

export const tripForm = z.object({
  formId: formIdField(),
  trip: z
    .object({
      day: bookedDay(),
      kind: choice(tripKinds, 'Choose a trip or a reading'),
      vehicle: requiredText('Say which vehicle', 80),
      amount: quantity().refine((value) => value >= 0 && value < 10_000_000, {
        error: 'Enter miles, like 44',
      }),
      purpose: optionalText(200),
    })
    .check(({ value, issues }) => {
      if (value.kind === 'farm' && value.amount === 0)
        issues.push({ code: 'custom', path: ['amount'], message: 'Enter the miles, like 44', input: '0' })
      if (value.kind === 'farm' && value.purpose === '')
        issues.push({ code: 'custom', path: ['purpose'], message: 'Say where to and why', input: '' })
    }),
})

const product = z.object({
  enterprise: requiredText('Choose a product', 80),
  cash: moneyZeroOrMore(),
  card: moneyZeroOrMore(),
})

export const marketForm = z
  .object({
    formId: formIdField(),
    market: z.object({
      day: bookedDay(),
      market: requiredText('Choose the market', 80),
      cash: moneyZeroOrMoreOrNull(),
      card: moneyZeroOrMoreOrNull(),
      check: moneyZeroOrMore(),
      products: z.array(product).max(60).default([]),
      people: z.array(z.string().max(80)).max(10).default([]),
      hours: hoursOrNull(),
      miles: quantityOrNull(),
      fee: moneyZeroOrMoreOrNull(),
      note: optionalText(200),
    }),
    /** Questions that were said yes to. */
    sure: z.array(z.string().max(300)).max(10).default([]),
  })
  .check(({ value: { market, sure }, issues }) => {
    for (const means of ['cash', 'card'] as const) {
      const message = notAddingUp(market[means], sumOfProducts(market.products, means))
      if (message !== null && !sure.includes(message))
        issues.push({ code: 'custom', path: ['market', means], message, input: '' })
    }
  })

/** What a total and the sum of its products say against each other; null where they add up, or only one of them is told. */
const notAddingUp = (total: Cents | null, told: Cents): string | null => {
  if (total === null || told === 0 || total === told) return null
  return total < told
    ? `The products come to ${formatCents(told)}, ${formatCents(cents(told - total))} more than this. Correct one of them, or leave this empty`
    : askSure(
        `The products come to ${formatCents(told)}, and this is ${formatCents(total)}: ${formatCents(cents(total - told))} would be of no product.`,
      )
}

const sumOfProducts = (products: readonly { cash: Cents; card: Cents }[], means: 'cash' | 'card'): Cents =>
  addCents(...products.map((one) => one[means]))

/** Takings by product where they were told apart, the rest of a total without one. */
export const marketDayOf = ({
  products,
  market,
  hours,
  fee,
  cash,
  card,
  check,
  ...rest
}: z.output<typeof marketForm>['market']): NewMarketDay => {
  const told: Taking[] = products.flatMap(({ enterprise, ...amounts }) =>
    (['cash', 'card'] as const).map((means) => ({
      enterpriseId: enterprise,
      means,
      amountCents: amounts[means],
    })),
  )
  const rests = { cash, card, check, other: null }
  const others: Taking[] = meansOfPay.map((means) => {
    const total = rests[means]
    const known = means === 'cash' || means === 'card' ? sumOfProducts(products, means) : cents(0)
    return { enterpriseId: '', means, amountCents: cents(total === null ? 0 : total - known) }
  })
  return {
    ...rest,
    marketId: market,
    minutes: hours,
    feeCents: fee,
    takings: [...told, ...others].filter(({ amountCents }) => amountCents > 0),
  }
}
