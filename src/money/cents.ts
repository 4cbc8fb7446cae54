// Integer cents: the ledger's only kind of money. Refuses anything that is not a safe whole number.
import { Decimal } from './decimal.ts'

declare const centsBrand: unique symbol
export type Cents = number & { readonly [centsBrand]: 'Cents' }

/** Largest amount the books accept, in cents: ten thousand million dollars, far under 2^53 so that sums stay exact. */
export const CENTS_MAX = 1_000_000_000_000

/** Brands a whole number of cents. Throws when it is not one: a bug, never a user's mistake. */
export const cents = (value: number): Cents => {
  if (!Number.isSafeInteger(value)) throw new Error(`Not a whole number of cents: ${value}`)
  return (value === 0 ? 0 : value) as Cents
}

export const zeroCents: Cents = cents(0)

export const addCents = (...amounts: readonly Cents[]): Cents => sumCents(amounts)

export const sumCents = (amounts: Iterable<Cents>): Cents => {
  let total = 0
  for (const amount of amounts) total += amount
  return cents(total)
}

export const negateCents = (amount: Cents): Cents => cents(-amount)

/** Dollars as a number (projection) to cents, rounded half away from zero: 1.005 → 101 through its shortest decimal form. */
export const dollarsToCents = (dollars: number): Cents => {
  if (!Number.isFinite(dollars)) throw new Error(`Not an amount in dollars: ${dollars}`)
  const nearest = Math.round(dollars * 100)
  // To the cent already, as most are: nothing is left to round.
  if (nearest / 100 === dollars && Math.abs(nearest) <= CENTS_MAX) return cents(nearest)
  return cents(new Decimal(String(dollars)).times(100).toDecimalPlaces(0).toNumber())
}

export const centsToDollars = (amount: Cents): number => amount / 100
