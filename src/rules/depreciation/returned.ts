// Depreciation that goes on from what tax returns have deducted, whatever a table would have.
import { Decimal } from '#money/decimal.ts'

/** Dollars deducted in all by the returns up to that of `through`, section 179 and bonus with them. */
export interface Returned {
  amount: number
  through: number
}

/**
 * Whether a method, by years of service, comes to what was returned after `served` years. Returns are filed in whole dollars, and
 * tables are printed to a hundredth of a percent: a dollar and half of that hundredth are allowed a year.
 */
export const fits = (
  byMethod: readonly number[],
  served: number,
  { amount, cost }: { amount: number; cost: number },
): boolean => {
  const sum = byMethod.slice(0, served).reduce((all, one) => all + one, 0)
  return Math.abs(sum - amount) <= served * (1 + cost * 0.000_05)
}

/**
 * A basis is lowered by what was allowed (26 USC 1016(a)(2)), so the years up to `served` add to what was returned. Later ones are as
 * the method has them, and its last takes what rounding left. Where no method is told: of more than the table, what is left spreads
 * over the years that are left in the table's proportion, as after section 179; of less, the table's years go on, and what was
 * missed is not caught up by them (it takes a change of method, Rev. Proc. 2015-13; from memory). Dollars to the cent.
 */
export const goingOnFrom = (
  byMethod: readonly number[],
  served: number,
  amount: number,
  isTold: boolean,
): number[] => {
  const [past, later] = [byMethod.slice(0, served), byMethod.slice(served)]
  const [ofPast, ofLater] = [sum(past), sum(later)]
  const left = Decimal.max(0, ofPast.plus(ofLater).minus(String(amount)))
  const before = past.length < served ? [...past, ...Array<number>(served - past.length).fill(0)] : past
  const spreads = !isTold && ofLater.gt(0) && left.lt(ofLater)
  const goesOn = spreads ? inProportion(later, left) : upTo(later, left, isTold)
  return [...inProportion(before, new Decimal(String(amount))), ...goesOn]
}

/** So that they add to `total`; all of it in the last where there is nothing to go by. */
const inProportion = (amounts: readonly number[], total: Decimal): number[] => {
  const all = sum(amounts)
  let left = total
  return amounts.map((one, i) => {
    const isLast = i === amounts.length - 1
    const part = isLast
      ? left
      : all.isZero()
        ? new Decimal(0)
        : total.times(String(one)).div(all).toDecimalPlaces(2)
    left = left.minus(part)
    return part.toNumber()
  })
}

const upTo = (amounts: readonly number[], total: Decimal, lastTakesRest: boolean): number[] => {
  let left = total
  return amounts.map((one, i) => {
    const isLast = lastTakesRest && i === amounts.length - 1
    const part = isLast ? left : Decimal.min(left, String(one))
    left = left.minus(part)
    return part.toNumber()
  })
}

const sum = (amounts: readonly number[]): Decimal =>
  amounts.reduce((all, one) => all.plus(String(one)), new Decimal(0))
