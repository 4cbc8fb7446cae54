// Random households over the whole range the return knows, the same for the same seed.
import type { HouseholdYear } from '#rules/household-year.ts'
import { emptyHouseholdYear } from '#rules/household-year.ts'

/** A small multiplicative generator: enough to spread cases, the same on every machine. */
export const seeded = (seed: number): (() => number) => {
  let state = seed >>> 0
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0
    return state / 2 ** 32
  }
}

/** Whole cents. `chance`: how often the amount is there at all. */
const amount = (random: () => number, most: number, chance = 1): number =>
  random() < chance ? Math.floor(random() ** 2 * most * 100) / 100 : 0

const pick = (random: () => number, count: number): number => Math.floor(random() * count)

export const randomHousehold = (random: () => number): HouseholdYear => {
  const household = emptyHouseholdYear()
  household.status = random() < 0.5 ? 1 : pick(random, 4)
  household.people = household.status === 1 ? 2 : 1
  household.childrenUnder17 = random() < 0.5 ? 0 : pick(random, 5)
  household.earnedCreditChildren = Math.min(4, household.childrenUnder17 + pick(random, 2))
  household.otherDependents = Math.max(0, household.earnedCreditChildren - household.childrenUnder17)
  household.careChildren = pick(random, Math.min(3, household.childrenUnder17 + 1))
  household.region = random() < 0.8 ? 0 : pick(random, 3)
  const scale = random() < 0.1 ? 12 : 1
  for (let place = 0; place < household.people; place += 1) {
    household.age[place] = 18 + pick(random, 70)
    household.blind[place] = random() < 0.02 ? 1 : 0
    household.wages[place] = amount(random, 90_000 * scale, 0.4)
    household.farmProfit[place] = amount(random, 120_000 * scale, 0.6) - amount(random, 30_000, 0.2)
    household.otherSelfEmployment[place] = amount(random, 60_000 * scale, 0.2) - amount(random, 5_000, 0.1)
    household.farmOptional[place] = random() < 0.1 ? 1 : 0
    household.farmGross[place] = amount(random, 30_000, 0.5)
    household.nonfarmOptional[place] = random() < 0.05 ? 1 : 0
    household.nonfarmGross[place] = amount(random, 20_000, 0.5)
  }
  addUnearned(household, random, scale)
  addCover(household, random)
  addCarried(household, random)
  return household
}

const addUnearned = (household: HouseholdYear, random: () => number, scale: number): void => {
  household.interest = amount(random, 5_000 * scale, 0.5)
  household.taxExemptInterest = amount(random, 2_000, 0.1)
  household.ordinaryDividends = amount(random, 10_000 * scale, 0.4)
  household.qualifiedDividends = Math.floor(household.ordinaryDividends * random() * 100) / 100
  household.longTermGains = amount(random, 60_000 * scale, 0.3) - amount(random, 20_000, 0.1)
  household.shortTermGains = amount(random, 10_000 * scale, 0.1) - amount(random, 10_000, 0.1)
  household.iraDistributions = amount(random, 50_000, 0.2)
  household.socialSecurity = amount(random, 60_000, 0.25)
  household.otherIncome = amount(random, 5_000, 0.1)
  household.pensions = [amount(random, 30_000, 0.1), household.people === 2 ? amount(random, 30_000, 0.1) : 0]
  household.propertyTax = amount(random, 9_000, 0.3)
  household.rent = amount(random, 20_000, 0.2)
  household.dependentsIncome = amount(random, 9_000, 0.05)
  household.businessWages = amount(random, 60_000, 0.1)
  household.businessProperty = amount(random, 300_000, 0.1)
  household.itemized = amount(random, 60_000, 0.2)
  household.traditionalIra = amount(random, 7_000, 0.2)
  household.rothIra = amount(random, 7_000, 0.1)
  household.sep = amount(random, 20_000, 0.1)
  household.hsa = amount(random, 8_000, 0.2)
  household.earlyWithdrawalAmount = random() < 0.1 ? household.iraDistributions : 0
  household.careCosts = amount(random, 12_000, 0.3)
  household.withheld = amount(random, 9_000, 0.4)
  household.estimated = amount(random, 9_000, 0.2)
}

const addCarried = (household: HouseholdYear, random: () => number): void => {
  household.section1231 = amount(random, 20_000, 0.15) - amount(random, 20_000, 0.1)
  const { carried } = household
  carried.netOperatingLoss = amount(random, 80_000, 0.1)
  carried.farmLoss = amount(random, 80_000, 0.05)
  carried.qualifiedBusiness = amount(random, 40_000, 0.1)
  carried.shortTermLoss = amount(random, 10_000, 0.1)
  carried.longTermLoss = amount(random, 30_000, 0.1)
  carried.section179 = amount(random, 30_000, 0.1)
}

const addCover = (household: HouseholdYear, random: () => number): void => {
  if (random() < 0.2) return
  household.coverMonths = random() < 0.7 ? 12 : pick(random, 13)
  household.deductibleMonths = random() < 0.8 ? household.coverMonths : pick(random, 13)
  household.premiumMonthly = amount(random, 3_500)
  household.benchmarkMonthly = random() < 0.3 ? household.premiumMonthly : amount(random, 3_500)
  household.advanceMonthly = random() < 0.5 ? Math.floor(household.premiumMonthly * random() * 100) / 100 : 0
  household.otherHealthPremiums = amount(random, 4_000, 0.1)
  household.medicaidExpansion = random() < 0.3 ? 1 : 0
}
