// The year's tax worksheet from the books and the plan's people: what the return takes in, the return itself, and when tax is due.
import { parseMonth, yearOf } from '#calendar/month.ts'
import { monthsWords } from '#calendar/spell.ts'
import type { BookYear } from '#ledger/reports/book-year.ts'
import type { YearIncome } from '#ledger/reports/income-of-year.ts'
import { type CoverMonth, coveredMonths } from '#ledger/tax/cover-papers.ts'
import { ownPremiumsOf } from '#ledger/tax/pay-before-tax.ts'
import { cents, centsToDollars, sumCents } from '#money/cents.ts'
import type { Plan } from '#plan/plan.ts'
import { type Carryforwards, noCarryforwards } from '#rules/carryforwards.ts'
import { steadyIndexing } from '#rules/dated.ts'
import { type EstimatedTaxPlan, estimatedTaxPlan } from '#rules/estimated-tax.ts'
import type { HouseholdYear } from '#rules/household-year.ts'
import { firstLawYear, lawFor } from '#rules/law.ts'
import { fileReturn, type HouseholdReturn } from '#rules/return/household-return.ts'
import type { StateEstimatedTax } from '#rules/states/state-dates.ts'
import { peopleOfYear } from '#today/cover/cover-household.ts'
import { coverAsPaid, coverAsSaid } from './cover-as-paid.ts'
import { fillTaken } from './early-taken.ts'
import { earnedBy } from './earners.ts'
import { estimatedInput, type LastYear, stateEstimatedOf } from './paid-ahead.ts'
import { type AheadKind, onLine26, type PaidFor, withPaidEarlier } from './paid-for.ts'
import { nothingSaved, putSavings, type SavedFor } from './saved-for.ts'
import { inputsOf, type TaxInput } from './tax-inputs.ts'
import { type YearForms, yearForms } from './year-forms.ts'

export interface YearTax extends YearForms {
  year: number
  basis: 'enacted' | 'projected'
  household: HouseholdYear
  inputs: TaxInput[]
  return: HouseholdReturn
  estimated: EstimatedTaxPlan
  /** Null where no state's tax counts. */
  stateEstimated: StateEstimatedTax | null
  /** What was assumed because the books and the plan do not say it. */
  assumed: string[]
  /** Put into savings beyond what the year lets in; among what was assumed too. */
  tooMuchSaved: string[]
}

export type YearTaxResult = { status: 'worked'; tax: YearTax } | { status: 'cannot'; says: string }

/**
 * Works the federal return of the year as far as the books go. A year in progress counts what is booked so far; `paid` is what was
 * paid for it, to the federal treasury and to the state; `saved` what went into retirement and health savings for it.
 */
export const yearTax = (
  sides: readonly BookYear[],
  income: YearIncome,
  { federal: paid, state: paidToState }: Record<AheadKind, PaidFor>,
  lastYear: LastYear | null,
  plan: Plan | null,
  saved: SavedFor = nothingSaved,
): YearTaxResult => {
  const { year } = income
  if (!plan || plan.household.people.length === 0) {
    return {
      status: 'cannot',
      says: 'Add the people of the household to the plan, so that the return knows who signs it.',
    }
  }
  if (year < firstLawYear) return { status: 'cannot', says: `The tax tables here start in ${firstLawYear}.` }
  if (year > firstLawYear + foreseenYears)
    return {
      status: 'cannot',
      says: `Nobody knows the tax law of ${year}. Look whether an entry’s day is right.`,
    }
  const household = householdWithIncome(plan, income, paid, carriedInto(plan, year, lastYear))
  const assumed = assumedOf(plan, household, income)
  fillCover(household, sides, plan, income, assumed)
  fillTaken(household, plan, sides, income.earlier)
  const indexing = steadyIndexing(plan.assumptions.inflation, plan.assumptions.wageGrowth)
  const law = lawFor(year, indexing)
  const savings = putSavings(law, household, saved, plan, indexing)
  const worked = fileReturn(law, household)
  return {
    status: 'worked',
    tax: {
      year,
      basis: law.basis,
      household,
      inputs: inputsOf(
        household,
        income,
        plan.household.people.map(({ name }) => name),
      ),
      return: worked,
      ...yearForms(law, plan, household, income, worked.lines),
      estimated: estimatedTaxPlan(
        estimatedInput(plan, income, lastYear, 'tax', taxToPay(household, worked), {
          withheld: household.withheld,
          estimates: household.estimated,
        }),
      ),
      stateEstimated: stateEstimatedOf(plan, income, lastYear, household, worked, paidToState),
      assumed: [...assumed, ...savings.assumed],
      tooMuchSaved: savings.tooMuch,
    },
  }
}

/** A year further ahead than a household plans is a mistyped day. */
const foreseenYears = 150

/** Tax of the year after all credits but what was withheld and paid ahead, as estimated tax counts it (26 USC 6654(f)); never below 0. */
export const taxToPay = ({ withheld, estimated }: HouseholdYear, { figures }: HouseholdReturn): number =>
  Math.max(0, figures.balanceDue + withheld + estimated)

/** Who signs the return by the plan, with the income of the books and what was paid for the year; no cover. */
export const householdWithIncome = (
  plan: Plan,
  income: YearIncome,
  paid: PaidFor,
  carried: Carryforwards,
): HouseholdYear => {
  const { propertyTax = 0, rent = 0 } = plan.household.place
  const household = {
    ...peopleOfYear(plan, income.year),
    itemized: plan.tax.itemized,
    propertyTax,
    rent,
    carried: { ...carried, section179: carried.section179 + (income.section179Left ?? 0) },
  }
  Object.assign(household, earnedBy(plan, household.people, income))
  if (plan.tax.optionalSelfEmployment)
    household.farmOptional = household.farmGross.map((gross) => (gross !== 0 ? 1 : 0))
  household.interest = income.interest
  household.section1231 = income.sold.section1231
  household.longTermGains = income.sold.personal.longTerm
  household.shortTermGains = income.sold.personal.shortTerm
  household.businessGains = income.sold.ordinary
  household.soldByVentures = income.sold.ofVentures
  household.otherIncome = income.lines.other
  household.ordinaryDividends = income.lines.ordinaryDividends
  household.qualifiedDividends = income.lines.qualifiedDividends
  household.taxExemptInterest = income.lines.taxExemptInterest
  household.iraDistributions = income.lines.iraDistributions
  household.pensions = [income.lines.pensions, 0]
  household.socialSecurity = income.lines.socialSecurity
  const all = withPaidEarlier(paid, income.earlier, 'federal')
  household.withheld = all.withheld
  household.estimated = onLine26(all)
  household.fuelTaxCredit = income.fuelTaxCredit ?? 0
  return household
}

/** What earlier returns left to the year: as the plan that starts in it says, else as the year before came out by the books. */
export const carriedInto = (plan: Plan, year: number, lastYear: LastYear | null): Carryforwards => {
  const said = { ...plan.tax.carried, farmLoss: 0 }
  const saysSo = Object.values(said).some((amount) => amount > 0)
  if (saysSo && year === yearOf(parseMonth(plan.startMonth)!)) return said
  return lastYear?.filed ? { ...lastYear.filed.carried, farmLoss: 0 } : noCarryforwards()
}

const assumedOf = (plan: Plan, household: HouseholdYear, income: YearIncome): string[] => [
  ...(income.pay > 0
    ? ['Pay is taken as booked. Book gross pay, with the tax withheld as a cost, to make this exact.']
    : []),
  ...beforeTaxAssumed(income.beforeTax),
  ...(income.interest > 0
    ? ['Dividends without a line of their own are taken as interest: give their account line 3a or 3b.']
    : []),
  ...(income.lines.iraDistributions > 0
    ? [
        'What was taken from retirement savings is taxed in full: Form 8606 takes off what was never deducted. The tax added before age 59½ (26 USC 72(t)) is on what the plan’s account of that name, by its owner’s birthday, makes early; where no account bears the name, on what anybody’s would. Form 5329 has who else is free of it.',
      ]
    : []),
  ...(income.sold.isRecorded || income.sold.section1231 === 0
    ? []
    : [
        'Breeding stock and equipment sold are taken as held long enough and without basis. Record the sales on the inventory to separate them.',
      ]),
  ...(household.careChildren > 0 && plan.household.living.some((line) => line.careOfChildren)
    ? ['Care of children is not read from the books: the credit for it would lower this tax.']
    : []),
  'Gains outside the farm are not read from the books.',
]

const beforeTaxAssumed = ({ premiums, deferred }: YearIncome['beforeTax']): string[] => [
  ...(premiums === 0 && deferred === 0
    ? []
    : [
        'What is booked in one entry with pay to premiums or to traditional savings is taken as taken off before tax, and is in no wages. What the pay slip takes after tax is booked as an entry of its own. Boxes 1 and 12 of Form W-2 decide; some states tax what is put into a plan at work.',
      ]),
  ...(premiums === 0
    ? []
    : [
        'Premiums taken off pay are in neither the self-employed deduction nor the premium credit. Whoever could join that plan has no deduction for other premiums in those months (26 USC 162(l)(2)(B)), and no credit where it is affordable (36B(c)(2)(C)): take them off Form 7206 and Form 8962.',
      ]),
]

/** Premiums as paid; those of the marketplace by Form 1095-A, else by the plan for the months in which it lists somebody there. */
export const fillCover = (
  household: HouseholdYear,
  sides: readonly BookYear[],
  plan: Plan,
  { year, earlier, coverMonths = [] }: YearIncome,
  assumed: string[] = [],
): void => {
  const home = sides.find((side) => side.kind === 'household')
  const paid = home ? centsToDollars(sumCents(ownPremiumsOf(home))) : 0
  const fromPapers = coveredMonths(coverMonths).length
  const saidMonths = coverAsSaid(plan, fromPapers > 0 ? undefined : earlier)
  const said = coveredMonths(saidMonths)
  const asPaid = fromPapers > 0 ? coverMonths : coverAsPaid(plan, sides, year)
  const months = asPaid.map((one, m) => (one.premiumCents > 0 ? one : saidMonths[m]!))
  if (coveredMonths(months).length === 0) household.otherHealthPremiums = Math.max(0, paid)
  else {
    const paidBefore = sumCents(said.map((one) => cents(one.premiumCents - one.advanceCents)))
    const areAlike = fillMonths(household, months, paid + Math.max(0, centsToDollars(paidBefore)))
    assumed.push(
      fromPapers > 0
        ? `Marketplace premium, benchmark and advance credit are those of Form 1095-A, as entered for ${monthsWords(fromPapers)}.${areAlike ? '' : ' They change within the year: each month counts by itself, as on Form 8962, lines 12 to 23.'}`
        : `${coverWords(said.length, coveredMonths(asPaid).length, plan.health.marketplace.advanceCredit)} Form 1095-A has the true figures.`,
    )
  }
  household.otherHealthPremiums += earlier?.healthPremiums ?? 0
}

/** Which months count, and where their figures come from. */
const coverWords = (said: number, paid: number, takesAdvance: boolean): string =>
  [
    said > 0
      ? `Marketplace premium, benchmark and advance credit of ${monthsWords(said)} are as entered for the time before the books.`
      : '',
    paid > 0
      ? `Marketplace premium and benchmark are the plan’s, typed or published for its county, by age, for ${monthsWords(paid)} in which the books hold premiums; ${takesAdvance ? 'the advance credit is the premium less what was paid.' : 'the plan takes no credit in advance, so where less was paid, that is the premium.'}`
      : '',
  ]
    .filter((part) => part !== '')
    .join(' ')

/**
 * Each month of cover by itself unless all twelve are alike, as Form 8962 works them. What was paid beyond the premiums less their
 * credit in advance was for other cover. Gives back whether the months are alike.
 */
const fillMonths = (household: HouseholdYear, months: readonly CoverMonth[], paid: number): boolean => {
  const covered = coveredMonths(months)
  const count = covered.length
  const column = (name: keyof CoverMonth) =>
    Float64Array.from(months, (month) => (month.premiumCents > 0 ? centsToDollars(month[name]) : 0))
  const meanOf = (column: keyof CoverMonth): number =>
    centsToDollars(sumCents(covered.map((month) => month[column]))) / count
  household.coverMonths = count
  household.deductibleMonths = count
  household.premiumMonthly = meanOf('premiumCents')
  household.benchmarkMonthly = meanOf('benchmarkCents')
  household.advanceMonthly = meanOf('advanceCents')
  const net = Math.max(0, household.premiumMonthly - household.advanceMonthly) * count
  household.otherHealthPremiums = Math.max(0, paid - net)
  const areAlike = (Object.keys(covered[0]!) as (keyof CoverMonth)[]).every((column) =>
    covered.every((month) => month[column] === covered[0]![column]),
  )
  // Line 11 of Form 8962 is for twelve months alike; any others go line by line.
  household.coverByMonth =
    count === 12 && areAlike
      ? null
      : {
          premium: column('premiumCents'),
          benchmark: column('benchmarkCents'),
          advance: column('advanceCents'),
        }
  return areAlike
}
