// Earned income that limits the self-employed health deduction (26 USC 162(l)(2)(A); Form 7206 lines 4 to 13). Whole cents.
import { shareOf } from '../rounding.ts'

/** One person's businesses: profits, half of the self-employment tax, and amounts reported by an optional method. */
export interface Businesses {
  farmProfit: number
  otherProfit: number
  half: number
  farmOptional: number
  nonfarmOptional: number
}

/**
 * The plan stands under one business: the one with the most earned income is taken. Half the tax and the plan contributions
 * are shared over businesses with a profit. Under an optional method the amount reported is the earned income (from memory
 * of the Form 7206 instructions).
 */
export const earnedIncomeLimit = (people: readonly Businesses[], planContributions: number): number => {
  let allProfits = 0
  for (const person of people) allProfits += profitsOf(person)
  let most = 0
  for (const person of people) {
    most = Math.max(
      most,
      leftOf(person.farmProfit, person, planContributions, allProfits),
      leftOf(person.otherProfit, person, planContributions, allProfits),
      person.farmOptional,
      person.nonfarmOptional,
    )
  }
  return most
}

/** The business whose earned income is that limit, cents; `owner`: profits of its owner, and what of the shared sums falls on it. */
export interface BusinessOfPlan {
  /** Of the owner on the return. */
  place: number
  isFarm: boolean
  isOptional: boolean
  /** Profit, or the amount that an optional method reports. */
  profit: number
  owner: { profits: number; half: number; plan: number }
}

/** The same business told with its parts; null where none earned anything. */
export const businessOfPlan = (
  people: readonly Businesses[],
  planContributions: number,
): BusinessOfPlan | null => {
  const most = earnedIncomeLimit(people, planContributions)
  if (most <= 0) return null
  const allProfits = people.reduce((sum, person) => sum + profitsOf(person), 0)
  for (const [place, person] of people.entries()) {
    for (const isFarm of [true, false]) {
      const profit = isFarm ? person.farmProfit : person.otherProfit
      const optional = isFarm ? person.farmOptional : person.nonfarmOptional
      const isMost = leftOf(profit, person, planContributions, allProfits) === most
      if (!isMost && optional !== most) continue
      const profits = profitsOf(person)
      const owner = isMost
        ? {
            profits,
            half: shareOf(person.half, profit, profits),
            plan: shareOf(planContributions, profit, allProfits),
          }
        : { profits, half: 0, plan: 0 }
      return { place, isFarm, isOptional: !isMost, profit: isMost ? profit : optional, owner }
    }
  }
  return null
}

/** A business's profit after its share of half the tax and of the plan contributions. */
const leftOf = (profit: number, owner: Businesses, planContributions: number, allProfits: number): number =>
  profit <= 0
    ? 0
    : profit - shareOf(owner.half, profit, profitsOf(owner)) - shareOf(planContributions, profit, allProfits)

const profitsOf = (person: Businesses): number =>
  Math.max(0, person.farmProfit) + Math.max(0, person.otherProfit)
