// The doorway for typed money and rates: a pattern first, then decimal.js, rounded once. Expected mistakes are values.
import { CENTS_MAX, type Cents, cents } from './cents.ts'
import { Decimal } from './decimal.ts'

export type Parsed<Value> = { ok: true; value: Value } | { ok: false; message: string }

const moneyPattern =
  /^\(?\s*([-+\u2212]?)\s*\$?\s*([-+\u2212]?)\s*(\d{1,3}(?:,\d{3})+|\d+)?(?:\.(\d{0,6}))?\s*\)?$/

/**
 * Typed dollars to cents: `1,234.56`, `$5`, `-3.10`, `(12.00)`. Rounds half away from zero only when told to;
 * otherwise more than two decimals is a mistake, because a person who types them means something we should ask about.
 */
export const parseMoney = (text: string, options: { roundFractions?: boolean } = {}): Parsed<Cents> => {
  const trimmed = text.trim()
  if (trimmed === '') return refuse('Enter an amount, like 12.34')
  const match = moneyPattern.exec(trimmed)
  const whole = match?.[3]?.replaceAll(',', '') ?? ''
  const fraction = match?.[4] ?? ''
  const bracketed = trimmed.startsWith('(')
  if (!match || whole + fraction === '' || bracketed !== trimmed.endsWith(')') || (match[1] && match[2])) {
    return refuse(`“${trimmed}” is not an amount. Enter dollars and cents, like 1,234.56`)
  }
  if (fraction.length > 2 && !options.roundFractions)
    return refuse('Enter no more than two digits after the point, like 12.34')
  const size = new Decimal(`${whole || '0'}.${fraction || '0'}`).times(100).toDecimalPlaces(0)
  if (size.gt(CENTS_MAX)) return refuse('That is more than these books can hold. Check the amount')
  const minus = bracketed !== /[-\u2212]/.test(`${match[1] ?? ''}${match[2] ?? ''}`)
  return { ok: true, value: cents(size.toNumber() * (minus ? -1 : 1)) }
}

/** A typed rate to a fraction: `3`, `3.5` and `3.5%` are percent, so `3.5` → 0.035. */
export const parsePercent = (text: string): Parsed<number> => {
  const trimmed = text.trim().replace(/\s*%$/, '').replace('−', '-')
  if (!/^[-+]?(\d+(\.\d*)?|\.\d+)$/.test(trimmed)) return refuse(`Enter a percentage, like 3.5`)
  return { ok: true, value: new Decimal(trimmed).dividedBy(100).toNumber() }
}

/** A typed plain number: hours, acres, head. A comma parts thousands: `1,5` would be 15 to one and 1.5 to another, and is neither. */
export const parseQuantity = (text: string): Parsed<number> => {
  const trimmed = text.trim().replace('−', '-')
  if (!/^[-+]?((\d{1,3}(,\d{3})+|\d+)(\.\d*)?|\.\d+)$/.test(trimmed))
    return refuse('Enter a number, like 12 or 1.5')
  return { ok: true, value: new Decimal(trimmed.replaceAll(',', '')).toNumber() }
}

const refuse = (message: string): { ok: false; message: string } => ({ ok: false, message })
