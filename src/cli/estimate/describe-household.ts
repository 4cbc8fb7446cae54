// The household year that the JSON of a yearly estimate describes, and what had to be assumed.
import type { Carryforwards } from '#rules/carryforwards.ts'
import { careChildBelow, earnedCreditChildBelow } from '#rules/data/credits.ts'
import { type Region, regionIndex, statusIndex } from '#rules/filing-status.ts'
import { emptyHouseholdYear, type HouseholdYear } from '#rules/household-year.ts'
import { inForce } from '#rules/in-force.ts'
import type { LawYear } from '#rules/law.ts'
import { unlikeMonths } from '#runway/coverage/cover-by-month.ts'
import type { EstimateInput } from './estimate-household.ts'
import { addWithdrawal } from './estimate-withdrawals.ts'

export interface DescribedHousehold {
  household: HouseholdYear
  /** What had to be assumed because the input does not say it. */
  assumed: string[]
}

/** The household year of an input. A joint return with one person listed takes the spouse to be of the same age and not blind. */
export const describeHousehold = (input: EstimateInput, law: LawYear): DescribedHousehold => {
  const household = emptyHouseholdYear()
  const assumed: string[] = []
  household.status = statusIndex(input.filingStatus)
  household.region = regionIndex(input.region ?? regionOf(input.state))
  addPeople(household, input, assumed)
  addDependents(household, input)
  if (input.filingStatus === 'head_of_household' && input.dependents.length === 0)
    assumed.push(
      'dependents: none is listed, and a head of household has a qualifying child or relative at home (26 USC 2(b)); without one the status is single',
    )
  addAmounts(household, input)
  addOptionalMethods(household, input, law, assumed)
  return { household, assumed }
}

/** Alaska and Hawaii have poverty lines of their own. */
const regionOf = (state: EstimateInput['state']): Region =>
  state === 'AK' ? 'alaska' : state === 'HI' ? 'hawaii' : 'contiguous'

const addPeople = (household: HouseholdYear, input: EstimateInput, assumed: string[]): void => {
  const joint = input.filingStatus === 'married_joint'
  household.people = joint ? 2 : 1
  if (joint && input.people.length === 1) {
    assumed.push(
      'people: only one is listed on a joint return; the spouse is taken to be of the same age and not blind',
    )
  }
  for (let place = 0; place < household.people; place += 1) {
    const person = input.people[place]
    household.age[place] = (person ?? input.people[0]!).age
    household.blind[place] = person?.blind ? 1 : 0
    household.wages[place] = input.income.wages[place] ?? 0
    household.farmProfit[place] = input.income.farmProfit[place] ?? 0
    household.farmGross[place] = input.income.farmGross?.[place] ?? 0
    household.otherSelfEmployment[place] = input.income.otherSelfEmployment[place] ?? 0
    household.pensions[place] = input.income.pensions[place] ?? 0
    household.nonfarmGross[place] = input.income.otherSelfEmploymentGross?.[place] ?? 0
  }
}

const addDependents = (household: HouseholdYear, input: EstimateInput): void => {
  // In the order of the counts: those under 17 first.
  household.dependentAges = input.dependents.map((one) => one.age).sort((a, b) => a - b)
  const below = inForce(earnedCreditChildBelow, input.taxYear)
  for (const { age: years, student } of input.dependents) {
    if (years < 17) household.childrenUnder17 += 1
    else household.otherDependents += 1
    if (years < inForce(careChildBelow, input.taxYear)) household.careChildren += 1
    if (years < below.child || (student && years < below.student)) household.earnedCreditChildren += 1
  }
}

const addAmounts = (household: HouseholdYear, input: EstimateInput): void => {
  const {
    wages,
    farmProfit,
    farmGross,
    otherSelfEmployment,
    otherSelfEmploymentGross,
    pensions,
    ...amounts
  } = input.income
  const { coveredAtWork, sep, simple, solo401k, ...deductions } = input.deductions
  Object.assign(household, amounts, deductions, input.payments)
  for (const one of input.withdrawals) addWithdrawal(household, one, input.taxYear)
  household.sep = sep + simple + solo401k
  household.propertyTax = input.propertyTax
  household.rent = input.rent
  household.careCosts = input.dependentCare?.costs ?? 0
  household.carried = carriedInto(input)
  addCover(household, input.cover)
  household.otherHealthPremiums = input.cover.otherHealthPremiums
  household.medicaidExpansion = input.cover.medicaidExpansion ? 1 : 0
}

const addCover = (household: HouseholdYear, cover: EstimateInput['cover']): void => {
  household.coverMonths = cover.months
  household.premiumMonthly = cover.premiumMonthly
  household.benchmarkMonthly = cover.benchmarkMonthly
  if (cover.premiums && cover.benchmarks) {
    const { premiums, benchmarks } = cover
    const months = premiums.filter((premium) => premium > 0).length
    const mean = (amounts: number[]) =>
      months === 0 ? 0 : amounts.reduce((sum, one) => sum + one, 0) / months
    household.coverMonths = months
    household.premiumMonthly = mean(premiums)
    household.benchmarkMonthly = mean(benchmarks)
    household.coverByMonth = unlikeMonths({
      premium: Float64Array.from(premiums),
      benchmark: Float64Array.from(benchmarks),
    })
  }
  household.deductibleMonths = cover.deductibleMonths ?? household.coverMonths
  household.advanceMonthly = cover.advanceMonthly
}

const carriedInto = ({ carryforwards: given }: EstimateInput): Carryforwards => ({
  netOperatingLoss: given.netOperatingLoss,
  farmLoss: given.carriedBack,
  qualifiedBusiness: given.qualifiedBusiness,
  shortTermLoss: given.capitalLossShortTerm,
  longTermLoss: given.capitalLoss - given.capitalLossShortTerm,
  section179: given.section179,
})

/**
 * Under the names of the input, so that what one year prints can be given to the next. A year with a loss of its own uses nothing of one
 * that was carried back to it, so that what is beyond that is its own farming part.
 */
export const printedCarryforwards = (
  carried: Carryforwards,
  carriedBack: number,
): EstimateInput['carryforwards'] => ({
  netOperatingLoss: carried.netOperatingLoss,
  farmLoss: Math.round(Math.max(0, carried.farmLoss - carriedBack) * 100) / 100,
  carriedBack: Math.min(carried.farmLoss, carriedBack),
  qualifiedBusiness: carried.qualifiedBusiness,
  capitalLoss: Math.round((carried.shortTermLoss + carried.longTermLoss) * 100) / 100,
  capitalLossShortTerm: carried.shortTermLoss,
  section179: carried.section179,
})

/** Without the gross income, an optional method is worked with enough of it for the full amount, and says so. */
const addOptionalMethods = (
  household: HouseholdYear,
  input: EstimateInput,
  law: LawYear,
  assumed: string[],
): void => {
  for (let place = 0; place < household.people; place += 1) {
    if (input.options.farmOptionalMethod === 'yes') {
      const known = input.income.farmGross !== undefined
      household.farmOptional[place] = known || household.farmProfit[place] !== 0 ? 1 : 0
      if (!known && household.farmOptional[place] === 1)
        household.farmGross[place] = law.farmOptionalGrossLimit
    }
    if (input.options.nonfarmOptionalMethod === 'yes') {
      const known = input.income.otherSelfEmploymentGross !== undefined
      household.nonfarmOptional[place] = known || household.otherSelfEmployment[place] !== 0 ? 1 : 0
      if (!known && household.nonfarmOptional[place] === 1)
        household.nonfarmGross[place] = law.farmOptionalGrossLimit
    }
  }
  const gross = `gross income is not given; it is taken to be ${law.farmOptionalGrossLimit}, enough for the full amount`
  if (input.options.farmOptionalMethod === 'yes' && input.income.farmGross === undefined) {
    assumed.push(`options.farmOptionalMethod: ${gross}. Give income.farmGross`)
  }
  if (input.options.nonfarmOptionalMethod === 'yes' && input.income.otherSelfEmploymentGross === undefined) {
    assumed.push(`options.nonfarmOptionalMethod: ${gross}. Give income.otherSelfEmploymentGross`)
  }
}
