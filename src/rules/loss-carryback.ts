// A farming loss carried back to the two years before (26 USC 172(b)(1)(B)): what it takes off their returns, and what is left.
import { copyCarryforwards } from './carryforwards.ts'
import { emptyHouseholdTax, emptyHouseholdYear, type HouseholdYear } from './household-year.ts'
import type { LawYear } from './law-year.ts'
import { assessHousehold } from './return/assess-household.ts'

/** A return as filed; losses carried back to it stay in `household.carried.farmLoss`. Null law: not known, nothing goes there. */
export interface ReturnBefore {
  law: LawYear | null
  household: HouseholdYear
  /** Prices of the loss over the law's. */
  ratio: number
}

/**
 * Takes a loss, dollars, off the returns of the years before, the earliest first: it stands in the place `earliest` of a ring.
 * Returns the tax that comes back, in `carriedBack.used` the loss used up.
 */
export const carryBack = (returns: readonly ReturnBefore[], earliest: number, loss: number): number => {
  let refund = 0
  let left = loss
  for (let back = 0; back < returns.length && left > 0; back += 1) {
    const before = returns[(earliest + back) % returns.length]!
    refund += before.ratio * takeOff(before, left / before.ratio)
    left -= before.ratio * carriedBack.used
  }
  carriedBack.used = loss - left
  return refund
}

/** Of the last call. */
export const carriedBack = { used: 0 }

/** As much of the loss as the law lets one return take; it is written there. */
const takeOff = (before: ReturnBefore, loss: number): number => {
  carriedBack.used = 0
  if (before.law === null) return 0
  const { carried } = before.household
  assessHousehold(before.law, before.household, filed)
  const already = carried.farmLoss
  carried.farmLoss = already + loss
  assessHousehold(before.law, before.household, amended)
  carriedBack.used = amended.netOperatingLossDeduction - filed.netOperatingLossDeduction
  carried.farmLoss = already + carriedBack.used
  return Math.max(0, filed.balanceDue - amended.balanceDue)
}

const filed = emptyHouseholdTax()
const amended = emptyHouseholdTax()

/** Of a return known by two of its lines only: no credits, so that what comes back is the tax on the income the loss takes off. */
export const returnOfTwoLines = (
  status: number,
  adjustedGrossIncome: number,
  taxableIncome: number,
): HouseholdYear => ({
  ...emptyHouseholdYear(),
  status,
  people: status === 1 ? 2 : 1,
  age: [40, 40],
  otherIncome: Math.max(adjustedGrossIncome, taxableIncome),
  itemized: Math.max(adjustedGrossIncome, taxableIncome) - taxableIncome,
})

/** Field by field into what is there already: no list is shared. */
export const copyHousehold = (from: HouseholdYear, to: HouseholdYear): void => {
  const [source, target] = [from, to] as unknown as Record<string, number | number[]>[]
  for (const name in source) {
    const value = source[name]!
    if (typeof value === 'number') target![name] = value
    else if (Array.isArray(value)) {
      const list = target![name] as number[]
      for (let place = 0; place < value.length; place += 1) list[place] = value[place]!
    }
  }
  copyCarryforwards(from.carried, to.carried)
}
