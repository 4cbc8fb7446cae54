// How money is written for people: thousands by commas, a true minus sign, cents only where they matter.
import { CENTS_MAX, type Cents, dollarsToCents } from './cents.ts'

const grouped = (digits: string) => digits.replace(/\B(?=(\d{3})+(?!\d))/g, ',')

/** `-123456` → `−$1,234.56`. */
export const formatCents = (amount: Cents): string =>
  `${amount < 0 ? '−' : ''}$${formatCentsPlain(Math.abs(amount) as Cents)}`

/** `123456` → `1,234.56`, no currency sign: for columns headed with their unit. Negative amounts carry a true minus. */
export const formatCentsPlain = (amount: Cents): string => {
  const digits = String(Math.abs(amount)).padStart(3, '0')
  return `${amount < 0 ? '−' : ''}${grouped(digits.slice(0, -2))}.${digits.slice(-2)}`
}

/** Whole dollars for estimates, where cents would claim too much: 1234.5 → `$1,235`. */
export const formatDollars = (dollars: number): string => {
  const whole = Math.round(Math.abs(figure(dollars)))
  return `${dollars < 0 && whole !== 0 ? '−' : ''}$${grouped(BigInt(whole).toString())}`
}

/** 1234.5 dollars → `$1,234.50`; past what the books could hold, cents would claim too much. */
export const formatDollarsAndCents = (dollars: number): string =>
  Math.abs(dollars) * 100 < CENTS_MAX ? formatCents(dollarsToCents(dollars)) : formatDollars(dollars)

/** Cents as a machine-readable decimal string for CSV and form values: `-123456` → `-1234.56`. */
export const centsToDecimalText = (amount: Cents): string => {
  const digits = String(Math.abs(amount)).padStart(3, '0')
  return `${amount < 0 ? '-' : ''}${digits.slice(0, -2)}.${digits.slice(-2)}`
}

/** Miles, animals, hours: 1657 → `1,657`. */
export const formatCount = (count: number): string => figure(count).toLocaleString('en-US')

/** 0.0525 → `5.25%`; trailing zeros dropped, at most two decimals. */
export const formatPercent = (fraction: number, decimals = 2): string =>
  `${(figure(fraction) * 100)
    .toFixed(decimals)
    .replace(/(\.\d*?)0+$/, '$1')
    .replace(/\.$/, '')
    .replace('-', '−')}%`

/** What is no figure is not written as one: where it stands says that it could not be worked out. */
const figure = (value: number): number => {
  if (!Number.isFinite(value)) throw new RangeError('a figure that is not a number was to be written')
  return value
}

/** `12 to 15`; one figure where both are told alike. */
export const formatRange = (
  low: number,
  high: number,
  format: (value: number) => string = String,
): string => {
  const [from, to] = [format(low), format(high)]
  return from === to ? from : `${from} to ${to}`
}
