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

/** A business's profit after its share of half the tax and of the plan contributions. */
const leftOf = (profit: number, owner: Businesses, planContributions: number, allProfits: number): number =>
  profit <= 0
    ? 0
    : profit - shareOf(owner.half, profit, profitsOf(owner)) - shareOf(planContributions, profit, allProfits)

const profitsOf = (person: Businesses): number =>
  Math.max(0, person.farmProfit) + Math.max(0, person.otherProfit)
