// The household's month: what it must pay is worked out first, then pay, draws and benefits meet it, and savings take the rest.
import { ofChildren } from '#rules/social-security/household-benefits.ts'
import { accountCode, taxCode } from '#runway/compile/codes.ts'
import { type CompiledPlan, type Growing, lineGrowths } from '#runway/compile/compiled-plan.ts'
import { takePension } from './benefits/pensions.ts'
import type { CourseBuffers } from './course-buffers.ts'
import { callOnFarm } from './farm/farm-month.ts'
import { empty } from './figures/emptied.ts'
import { ownerNow } from './savings/early.ts'
import { payEvenly } from './savings/even-payments.ts'
import { takeInherited } from './savings/inherited.ts'
import { deposit, meetShortfall, putAway, setAside, withdraw } from './savings/savings-month.ts'
import { spendableNow, taxOwedNow } from './savings/spendable.ts'
import type { CourseShocks } from './shocks.ts'
import { stateTaxesOfMonth } from './state-tax/state-taxes.ts'
import { keepInVentures } from './venture-month.ts'

/** Living, loan payments, premiums, care and taxes of the month into the buffers; the farm's month needs their sum. */
export const countCosts = (
  plan: CompiledPlan,
  shocks: CourseShocks,
  buffers: CourseBuffers,
  m: number,
  y: number,
  season: number,
): void => {
  const { month, state } = buffers
  const { household } = plan
  const kept = buffers.state.lasting.livingKept * household.livingFactor[m]!
  countLiving(plan, buffers, m, kept)
  if (household.hasCareCosts) state.year.careCosts += careCostsAt(plan, buffers, m)
  countPremiums(plan, buffers, m, y, season)
  month.care = careOfMonth(plan, buffers, m) * state.careLevel * shocks.careFactor[y]!
  state.health.careUnpaid += month.care
  month.stateTaxes = stateTaxesOfMonth(plan, buffers, season)
  month.taxes = taxesOfMonth(buffers, season) + month.stateTaxes
  month.loanPayments = household.loanPayments[m]!
  month.loanDrawn = household.loanDrawn[m]!
  month.loanBalance = household.loanBalance[m]!
  month.householdCosts = month.living + month.loanPayments + month.premiums + month.care + month.taxes
  state.monthlyCosts =
    atPrices(buffers, household.smooth, m) * kept + household.smoothLoans[m]! + month.premiums + month.care
  month.floor = household.floorDollars * state.level + household.floorMonths * state.monthlyCosts
}

/** At the prices of how it grows; what the farm replaces is never cash. */
const countLiving = (plan: CompiledPlan, buffers: CourseBuffers, m: number, kept: number) => {
  const { household } = plan
  const { month, parts, state } = buffers
  month.living = atPrices(buffers, household.livingOfAll, m) * kept
  month.farmGoods = atPrices(buffers, household.farmGoods, m) * kept
  if (parts === null) return
  for (let place = 0; place < household.livingLines; place += 1) {
    const cell = place * plan.months + m
    const growth = lineGrowths[household.livingGrowth[place]!]
    const prices = growth === 'inflation' ? state.level : growth === 'care' ? state.careLevel : 1
    parts.living[cell] = household.living[cell]! * prices * kept
  }
}

/** A row of costs in month `m` of the plan, in the course’s dollars of that month. */
export const atPrices = ({ state }: CourseBuffers, { inflation, care, fixed }: Growing, m: number): number =>
  inflation[m]! * state.level + care[m]! * state.careLevel + fixed[m]!

/** What the care of children costs in a month, at the prices of now. */
export const careCostsAt = (plan: CompiledPlan, buffers: CourseBuffers, m: number): number => {
  const { household } = plan
  return (
    atPrices(buffers, household.careCosts, m) * buffers.state.lasting.livingKept * household.livingFactor[m]!
  )
}

const countPremiums = (plan: CompiledPlan, buffers: CourseBuffers, m: number, y: number, season: number) => {
  const { month, state } = buffers
  const { health } = plan
  const { year } = state
  const prices = state.premiumLevel * health.premiumFactor[m]!
  let deductible = health.premiumsDeductible[m]! * prices
  const other = health.premiumsOther[m]! * prices
  for (let p = 0; p < plan.people.length; p += 1) {
    if (state.alive[p] === 0) continue
    if (!health.medicareFrom65 || m < plan.people[p]!.month65) continue
    const byLaw = state.lasting.priceRatio * health.premiumFactor[m]! * state.lasting.medicareMonthly
    year.medicareUnpaid += byLaw
    deductible += byLaw + health.supplement * state.medicareLevel * health.premiumFactor[m]!
  }
  let marketplace = 0
  let advance = 0
  const factor = state.cover.factors[season]!
  if (factor > 0) {
    marketplace = plan.coverage.planAt21[y]! * factor * prices
    const benchmark = plan.coverage.benchmarkAt21[y]! * factor * prices
    advance = Math.min(state.cover.advance[season]!, marketplace)
    year.marketplacePremium += marketplace
    year.benchmark += benchmark
    year.premiumByMonth[season] = marketplace
    year.benchmarkByMonth[season] = benchmark
    year.advance += advance
    year.coverMonths += 1
  }
  year.premiumsDeductible += deductible
  month.premiums = deductible + other + marketplace - advance
  month.advanceCredit = advance
}

/** Care paid oneself by those at home and alive, dollars a month at the plan’s first prices. */
export const careOfMonth = (plan: CompiledPlan, buffers: CourseBuffers, m: number): number => {
  let care = plan.health.dependentCare[m]!
  for (let p = 0; p < plan.people.length; p += 1)
    if (buffers.state.alive[p] === 1)
      care += m < plan.people[p]!.month65 ? plan.health.careBefore65 : plan.health.careFrom65
  return care
}

/** May brings back tax of earlier years that a farming loss was carried to. January and April settle last year; a year that is not a farmer's pays ahead in April, June, September and January. */
const taxesOfMonth = (buffers: CourseBuffers, season: number): number => {
  const { state } = buffers
  let due = 0
  if (season === 0) {
    due += state.taxDueJanuary
    state.taxDueJanuary = 0
  } else if (season === 3) {
    due += state.taxDueApril
    state.taxDueApril = 0
  }
  if (season === 4) {
    due -= state.losses.refundDue
    state.losses.refundDue = 0
  }
  if (season === 3 || season === 5 || season === 8) {
    due += state.quarterly
    state.year.estimatedPaid += state.quarterly
  }
  return due
}

/** Income meets outgo; savings take what is missing or left over. The farm's month must have run. */
export const settleMonth = (
  plan: CompiledPlan,
  buffers: CourseBuffers,
  m: number,
  y: number,
  season: number,
): void => {
  const { month, state } = buffers
  const { household, savings } = plan
  month.withdrawnTaxable = 0
  month.withdrawnTraditional = 0
  month.withdrawnRoth = 0
  month.withdrawnHealth = 0
  month.converted = 0
  countEarnings(plan, buffers, m, y)
  month.saversMatch = season === 3 ? takeSaversMatch(plan, buffers) : 0
  if (season === 0) takeRequired(plan, buffers, m)
  if (season === 0) takeInherited(plan, buffers, m)
  payEvenly(plan, buffers, m, y)
  month.oneOffs = household.oneOffReal[m]! * state.level + household.oneOffFixed[m]!
  const income = month.draw + month.pay + month.side + month.socialSecurity + month.loanDrawn
  const own = income - month.householdCosts - month.oneOffs - month.contribution
  const belowFloor = plan.draw.holdsFloor
    ? month.floor - own - spendableNow(plan, buffers, m, taxOwedNow(buffers, season + 1))
    : 0
  const net = own + callOnFarm(plan, buffers, belowFloor)
  state.year.need -= net + month.oneOffs
  if (net < 0) {
    // Savings may count what the plan does not touch yet: what nothing else can pay, the farm does as far as it can spare it.
    const short = meetShortfall(plan, buffers, -net, m)
    month.unmetNeed = short - callOnFarm(plan, buffers, short)
  } else {
    month.unmetNeed = 0
    deposit(plan, buffers, savings.cashAccount, net)
  }
  let aside = contribute(plan, buffers, m, y)
  if (net > 0) {
    aside += putAway(plan, buffers, net - aside, savings.reserveMonths * state.monthlyCosts, y)
  }
  month.setAside = aside
  state.retirementTaken[y] = state.retirementTaken[y]! + month.withdrawnTraditional + month.withdrawnRoth
}

const countEarnings = (plan: CompiledPlan, buffers: CourseBuffers, m: number, y: number) => {
  const { month, state } = buffers
  const { household } = plan
  let pay = 0
  let side = household.sideNetReal[2 * plan.months + m]! * state.level
  state.year.side[2] = state.year.side[2]! + side
  let benefits = 0
  for (let p = 0; p < plan.people.length; p += 1) {
    if (state.alive[p] === 0) continue
    benefits += state.benefits.monthly[p]!
    if (p === 1) state.year.secondBenefits += state.benefits.monthly[p]!
    const cell = p * plan.months + m
    if (household.hasPensions) pay += takePension(plan, buffers, p, cell)
    if (state.working[p] === 0) continue
    const paid = household.payFactor[cell]! * state.level
    const gross = household.payReal[cell]! * paid
    if (gross > 0) {
      const earned = state.year.wages[p]!
      const withheld = household.payWithheldReal[cell]! * paid
      state.year.wages[p] = earned + gross
      state.year.withheld += withheld
      pay += takenHome(plan, buffers, y, gross, withheld, earned)
    }
    const own = household.sideNetReal[cell]! * state.level
    state.year.side[p] = state.year.side[p]! + own
    side += own
  }
  month.pay = pay
  month.side = side - keepInVentures(plan, buffers, m)
  month.othersBenefits = state.benefits.monthly[ofChildren]! + household.ownMoneyReal[m]! * state.level
  month.socialSecurity = benefits + month.othersBenefits
  state.year.benefits += benefits
}

/** What is left of a month's wages; Social Security counts them up to its base, of which the year has `earned` before. */
const takenHome = (
  { law }: CompiledPlan,
  { state }: CourseBuffers,
  y: number,
  gross: number,
  withheld: number,
  earned: number,
): number => {
  if (law.method !== taxCode.law) return gross - withheld
  const { wageBase, selfEmploymentSocialSecurityRate, selfEmploymentMedicareRate } = law.years[y]!
  const covered = Math.max(0, Math.min(gross, wageBase * state.lasting.priceRatio - earned))
  return (
    gross -
    withheld -
    covered * (selfEmploymentSocialSecurityRate / 2) -
    gross * (selfEmploymentMedicareRate / 2)
  )
}

const takeRequired = (plan: CompiledPlan, buffers: CourseBuffers, m: number) => {
  const { savings } = plan
  for (let p = 0; p < plan.people.length; p += 1) {
    let left = buffers.state.required.own[p]!
    for (let account = 0; account < savings.count && left > 0; account += 1) {
      if (savings.kind[account] !== accountCode.traditional || savings.owner[account]! < 0) continue
      if (savings.isInherited[account] === 1) continue
      if (ownerNow(plan, buffers, account) !== p) continue
      const taken = withdraw(plan, buffers, account, left, m)
      deposit(plan, buffers, savings.requiredAccount, taken)
      left -= taken
    }
  }
}

/** Comes when last year's return has been filed. Without a traditional account of the saver's own it is not counted. */
const takeSaversMatch = (plan: CompiledPlan, buffers: CourseBuffers): number => {
  const { state } = buffers
  let taken = 0
  for (let p = 0; p < plan.people.length; p += 1) {
    const account = plan.savings.matchAccount[p]!
    if (account < 0 || state.matchDue[p] === 0) continue
    deposit(plan, buffers, account, state.matchDue[p]!)
    taken += state.matchDue[p]!
  }
  empty(state.matchDue)
  return taken
}

/** Planned contributions and what side ventures set aside, as far as cash allows. */
const contribute = (plan: CompiledPlan, buffers: CourseBuffers, m: number, y: number): number => {
  const { savings, household } = plan
  const { state } = buffers
  let moved = 0
  for (let account = 0; account < savings.count && savings.contributes; account += 1) {
    const wanted = savings.contributions[account * plan.months + m]!
    if (wanted > 0) moved += setAside(plan, buffers, account, Math.max(0, savings.owner[account]!), wanted, y)
  }
  for (let p = 0; p < plan.people.length; p += 1) {
    const account = savings.retirementAccount[p]!
    const wanted = household.sideSetAsideReal[p * plan.months + m]! * state.level
    if (account >= 0 && wanted > 0 && state.alive[p] === 1 && state.working[p] === 1)
      moved += setAside(plan, buffers, account, p, wanted, y)
  }
  return moved
}
