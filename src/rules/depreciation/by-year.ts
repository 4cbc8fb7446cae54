// What is deducted of a cost year by year, in whole cents.
import { cents, centsToDollars, dollarsToCents, sumCents } from '#money/cents.ts'
import type { CarLimits } from './vehicle-limits.ts'

/** Of dollars to the cent by such shares; the last year takes up what rounding left, so that all add to the whole. */
export const byShares = (shares: Float64Array, basis: number): number[] => {
  let left: number = dollarsToCents(basis)
  return Array.from(shares, (share, i) => {
    const amount = i === shares.length - 1 ? left : Math.min(left, dollarsToCents(basis * share))
    left -= amount
    return centsToDollars(cents(amount))
  })
}

/** Each year at most its limit; the rest of the cost follows year by year (26 USC 280F(a)(1)(B)). */
export const underLimits = (amounts: readonly number[], limits: CarLimits, cost: number): number[] => {
  const allowed = amounts.map((amount, i) => Math.min(amount, limits[Math.min(i, 3)]!))
  let left = toCent(cost - sumToCent(allowed))
  while (left > 0) {
    const amount = Math.min(left, limits[3])
    allowed.push(amount)
    left = toCent(left - amount)
  }
  return allowed
}

/** Of the cost, after each year of service; after the last it stays as it is, however far the schedule goes. */
export const leftByYear = (cost: number, whole: readonly number[]): number[] => {
  let left: number = dollarsToCents(cost)
  return whole.map((amount) => {
    left -= dollarsToCents(amount)
    return centsToDollars(cents(left))
  })
}

export const toCent = (amount: number): number => centsToDollars(dollarsToCents(amount))
export const sumToCent = (amounts: readonly number[]): number =>
  centsToDollars(sumCents(amounts.map(dollarsToCents)))
