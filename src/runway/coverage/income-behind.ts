// What a year under way has had that its months ahead have not: programs ask for the income of a month (42 CFR 435.603(h)(1), for the
// children's program 457.315(a)), so that pay that has ended counts no more, nor premiums that are paid.
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers, CourseState } from '#runway/course-buffers.ts'
import { assessAgain } from '#runway/household-return.ts'

/**
 * First month of a plan that begins within a year: notes by how much the year's household income is above that of the months ahead. Pay,
 * pensions, benefits, interest and what is taken from savings month by month go by the months ahead; what is taken once counts once; a
 * business that earned in the months behind goes by its year, as its profit comes by seasons (435.603(h)(3)).
 */
export const noteIncomeBehind = (plan: CompiledPlan, buffers: CourseBuffers, y: number): void => {
  const { state } = buffers
  const { firstYearScale, tellsBefore } = plan.coverage
  if (y !== 0) return
  const { onceTaken, onceGains } = state.cover
  state.cover.behind = 0
  const paidBefore = plan.law.soFar.healthPremiums
  if (firstYearScale === 1 || (!tellsBefore && paidBefore === 0 && onceTaken === 0 && onceGains === 0)) return
  // Without anybody's cover: premiums of the months ahead lower the month's income by what they are in it.
  state.householdYear.coverMonths = 0
  state.householdYear.coverByMonth = null
  const whole = assessAgain(plan, buffers, y).householdIncome
  const kept = keptOf(state)
  goByMonthsAhead(plan, state, firstYearScale)
  const ofMonths = assessAgain(plan, buffers, y).householdIncome
  Object.assign(state.householdYear, kept)
  state.cover.behind = whole - ofMonths / firstYearScale
}

/**
 * Dollars of the return last assessed that marketplace premiums of months before the plan took off it. Of those premiums what the
 * credit leaves is deducted, and other premiums beside it (26 CFR 1.162(l)-1); what the earnings let in of both is shared by their size.
 */
export const deductedBehind = ({ cover, householdTax, householdYear }: CourseState): number => {
  const premiums = householdYear.premiumMonthly * householdYear.coverMonths
  const own = Math.max(0, premiums - householdTax.premiumTaxCredit)
  if (cover.premiumsBehind === 0 || own === 0) return 0
  const ofMarketplace = own / (own + householdYear.otherHealthPremiums)
  return householdTax.selfEmployedHealthDeduction * ofMarketplace * (cover.premiumsBehind / premiums)
}

const keptOf = ({ householdYear }: CourseState) => {
  const { wages, pensions, otherSelfEmployment, farmProfit, iraDistributions } = householdYear
  const { interest, ordinaryDividends, qualifiedDividends, longTermGains } = householdYear
  const { section1231, businessGains, socialSecurity, otherHealthPremiums } = householdYear
  return {
    wages: [...wages],
    pensions: [...pensions],
    otherSelfEmployment: [...otherSelfEmployment],
    farmProfit: [...farmProfit],
    iraDistributions,
    interest,
    ordinaryDividends,
    qualifiedDividends,
    longTermGains,
    section1231,
    businessGains,
    socialSecurity,
    otherHealthPremiums,
  }
}

const goByMonthsAhead = ({ law }: CompiledPlan, state: CourseState, scale: number): void => {
  const { householdYear: input, year, slotPerson, cover } = state
  const ranFarm = law.soFar.farmProfit !== 0 || law.soFar.farmGross !== 0
  // What ventures brought before the plan is told in one sum, of whomever.
  const ranVenture = law.soFar.otherSelfEmployment !== 0
  for (let slot = 0; slot < 2; slot += 1) {
    const p = slotPerson[slot]!
    input.wages[slot] = (input.wages[slot]! - (p < 0 ? 0 : year.wages[p]!)) * scale
    input.pensions[slot] = (input.pensions[slot]! - (p < 0 ? 0 : year.pensions[p]!)) * scale
    if (!ranVenture) input.otherSelfEmployment[slot] = input.otherSelfEmployment[slot]! * scale
    if (!ranFarm) input.farmProfit[slot] = input.farmProfit[slot]! * scale
  }
  input.interest = (input.interest - year.interest) * scale
  input.ordinaryDividends *= scale
  input.qualifiedDividends *= scale
  input.longTermGains = (input.longTermGains - cover.onceGains) * scale + cover.onceGains
  input.socialSecurity *= scale
  input.otherHealthPremiums = (input.otherHealthPremiums - law.soFar.healthPremiums) * scale
  input.section1231 = 0
  input.businessGains = 0
  input.iraDistributions = (input.iraDistributions - cover.onceTaken) * scale + cover.onceTaken
}
