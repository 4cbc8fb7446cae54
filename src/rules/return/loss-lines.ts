// Losses between years: what other years' losses take off this one's income, and what this one leaves. Whole cents.
import type { Carryforwards } from '../carryforwards.ts'
import { noCarryforwards } from '../carryforwards.ts'
import type { HouseholdYear } from '../household-year.ts'
import type { LawYear } from '../law-year.ts'
import { atRate, wholeCents } from '../rounding.ts'
import { workCover } from './cover-lines.ts'
import { seniorDeduction } from './deductions.ts'
import { pensionsOf } from './income-lines.ts'
import type { LinesBefore } from './tax-lines.ts'
import { taxableBenefits } from './taxable-benefits.ts'
import { workTaxableIncome } from './taxable-lines.ts'

/** Whole cents, under the names of what is carried. */
export type LossLines = Carryforwards

/**
 * Takes losses of other years off income, up to the law's share of taxable income without them (26 USC 172(a)(2)). The loss
 * changes credit and health deduction, and they the limit: worked again until it stands, which it does from below.
 */
export const takeLosses = (law: LawYear, household: HouseholdYear, before: LinesBefore): void => {
  const { business, income, cover, taxable } = before
  const brought = wholeCents(household.carried.netOperatingLoss) + wholeCents(household.carried.farmLoss)
  if (brought === 0) return
  for (let pass = 0; pass < passLimit; pass += 1) {
    const most = atRate(taxableWithoutLosses(law, household, before), law.netOperatingLossShare)
    const loss = Math.min(brought, most)
    if (loss <= income.netOperatingLoss) return
    income.netOperatingLoss = loss
    workCover(law, household, business, income, cover)
    workTaxableIncome(law, household, business, income, cover, taxable)
  }
}

const passLimit = 24

/** Taxable income before the qualified business deduction, as if no loss came from other years. */
const taxableWithoutLosses = (
  law: LawYear,
  { status }: HouseholdYear,
  { income, cover, taxable }: LinesBefore,
): number => {
  const other = income.beforeBenefits - income.adjustments - cover.healthDeduction
  const adjusted = other + taxableBenefits(law, status, income.benefits, other + income.taxExemptInterest)
  const senior = seniorDeduction(law, status, taxable.aged, adjusted)
  return Math.max(0, adjusted - Math.max(taxable.standard, taxable.itemized) - senior)
}

/** What the year leaves to others. */
export const workCarryforwards = (household: HouseholdYear, before: LinesBefore, lines: LossLines): void => {
  const { business, income, taxable } = before
  const { carried } = household
  const loss = netOperatingLoss(household, before)
  // Older losses are used first: those that came forward before those that came back.
  const fromBefore = Math.min(income.netOperatingLoss, wholeCents(carried.netOperatingLoss))
  const fromBack = income.netOperatingLoss - fromBefore
  lines.netOperatingLoss = wholeCents(carried.netOperatingLoss) - fromBefore + loss + business.excessLoss
  lines.farmLoss = wholeCents(carried.farmLoss) - fromBack + Math.min(loss, farmingLoss(household, before))
  lines.qualifiedBusiness = taxable.qualifiedLoss
  lines.section179 = wholeCents(carried.section179) - business.section179
  workCapitalLosses(before, lines)
}

/**
 * What the year's loss would be of the farm alone (26 USC 172(b)(1)(B)(ii)): what it made on breeding stock, equipment and land is income
 * of farming as its sales are. What other businesses sold stands on the same form and is left out. Losses on such sales count as none of
 * the farm's, so that rather less goes back.
 */
const farmingLoss = (household: HouseholdYear, { business }: LinesBefore): number => {
  const others = household.soldByVentures
  const section1231 = wholeCents(household.section1231) - wholeCents(others?.section1231 ?? 0)
  const ordinary = wholeCents(household.businessGains) - wholeCents(others?.ordinary ?? 0)
  return Math.max(0, -(business.farmProfit + Math.max(0, section1231) + Math.max(0, ordinary)))
}

/**
 * The year's own net operating loss (26 USC 172(c), (d); Pub. 536): business deductions over all income, where deductions that
 * are none of a business count up to income that is none, and capital losses, losses of other years and the qualified business
 * deduction not at all. A gain on property of a business is income of it, of which no other capital loss takes anything (26 USC
 * 172(d)(2)(A), (4)(A)); gains of no business count as its other income does, as far as they are above such losses, and contributions
 * to a plan of one's own as deductions of none (172(d)(4)(D)). Other income, like unemployment pay, is taken as that of a business (Pub. 536).
 */
const netOperatingLoss = (
  household: HouseholdYear,
  { business, income, cover, taxable }: LinesBefore,
): number => {
  const soldOfBusiness = Math.max(0, wholeCents(household.section1231))
  const nonbusiness =
    income.investmentIncome -
    income.gains +
    Math.max(0, income.longTerm + income.shortTerm - soldOfBusiness) +
    wholeCents(household.iraDistributions) +
    wholeCents(household.healthSavingsTaxed) +
    pensionsOf(household) +
    taxable.taxableBenefits
  const deductions = income.adjustments - business.half + taxable.deduction
  const ofBusiness =
    business.wages +
    business.business +
    soldOfBusiness +
    wholeCents(household.businessGains) +
    wholeCents(household.otherIncome) -
    business.half -
    cover.healthDeduction
  return Math.max(0, -(ofBusiness + Math.max(0, nonbusiness - deductions)))
}

/** The Capital Loss Carryover Worksheet of Schedule D: what income was left to use the yearly limit up (26 USC 1212(b)(2)). */
const workCapitalLosses = ({ income, taxable }: LinesBefore, lines: LossLines): void => {
  const allowed = Math.max(0, -income.gains)
  const taxableIncome = taxable.adjustedGrossIncome - taxable.deduction - taxable.qbiDeduction
  const used = Math.min(allowed, Math.max(0, taxableIncome + allowed))
  const shortLoss = Math.max(0, -income.shortTerm)
  const longLoss = Math.max(0, -income.longTerm)
  lines.shortTermLoss = Math.max(0, shortLoss - used - Math.max(0, income.longTerm))
  lines.longTermLoss = Math.max(0, longLoss - Math.max(0, used - shortLoss) - Math.max(0, income.shortTerm))
}

export const noLossLines = (): LossLines => noCarryforwards()
