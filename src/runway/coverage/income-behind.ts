// What a year under way has had that its months ahead have not: programs ask for the income of a month (42 CFR 435.603(h)(1), for the
// children's program 457.315(a)), so that pay that has ended counts no more.
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers, CourseState } from '#runway/course-buffers.ts'
import { assessAgain } from '#runway/household-return.ts'

/**
 * First month of a plan that tells what the year had before it: notes by how much the year's household income is above that of the
 * months ahead. Pay, pensions, benefits, interest and what is taken from savings go by the months ahead; a business that earned in the
 * months behind goes by its year, as its profit comes by seasons (435.603(h)(3)).
 */
export const noteIncomeBehind = (plan: CompiledPlan, buffers: CourseBuffers, y: number): void => {
  const { state } = buffers
  const { firstYearScale, tellsBefore } = plan.coverage
  if (y !== 0 || !tellsBefore || firstYearScale === 1) return
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

const keptOf = ({ householdYear }: CourseState) => {
  const { wages, pensions, otherSelfEmployment, farmProfit, iraDistributions } = householdYear
  const { interest, ordinaryDividends, qualifiedDividends, longTermGains } = householdYear
  const { section1231, businessGains, socialSecurity } = householdYear
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
  }
}

const goByMonthsAhead = ({ law }: CompiledPlan, state: CourseState, scale: number): void => {
  const { householdYear: input, year, slotPerson, required } = state
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
  input.longTermGains *= scale
  input.socialSecurity *= scale
  input.section1231 = 0
  input.businessGains = 0
  const ofYear =
    required.own[0]! + required.own[1]! + required.inheritedIncome[0]! + required.inheritedIncome[1]!
  input.iraDistributions = (input.iraDistributions - ofYear) * scale + ofYear
}
