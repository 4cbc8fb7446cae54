// Earned income that limits the self-employed health deduction (26 USC 162(l)(2)(A); Form 7206 lines 4 to 13). Whole cents.

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
  const allProfits = people.reduce((sum, person) => sum + profitsOf(person), 0)
  let most = 0
  for (const person of people) {
    const own = profitsOf(person)
    for (const profit of [person.farmProfit, person.otherProfit]) {
      if (profit <= 0) continue
      const half = Math.floor((person.half * profit) / own + 0.5)
      const contributions = Math.floor((planContributions * profit) / allProfits + 0.5)
      most = Math.max(most, profit - half - contributions)
    }
    most = Math.max(most, person.farmOptional, person.nonfarmOptional)
  }
  return most
}

const profitsOf = (person: Businesses): number =>
  Math.max(0, person.farmProfit) + Math.max(0, person.otherProfit)
