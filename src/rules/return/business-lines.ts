// Businesses of everyone on the return: self-employment tax by person, profit that reaches income, and what it is measured by later.
import type { HouseholdYear } from '../household-year.ts'
import type { LawYear } from '../law-year.ts'
import { atRate, shareOf, wholeCents } from '../rounding.ts'
import { earnedIncomeLimit } from './earned-income-limit.ts'
import {
  noSelfEmploymentTax,
  type SelfEmployment,
  type SelfEmploymentTax,
  workSelfEmployment,
} from './self-employment-tax.ts'

/** Whole cents, summed over the people on the return. */
export interface BusinessLines {
  /** The filer and the spouse; zeros where only one signs. */
  people: [PersonLines, PersonLines]
  wages: number
  /** The same with what was put off into a plan at work. */
  socialSecurityWages: number
  farmProfit: number
  otherProfit: number
  /** Section 179 carried here and deducted, within the income of businesses and wages (26 USC 179(b)(3)). */
  section179: number
  /** Loss on business property, 0 or below: ordinary, without self-employment tax (26 USC 1231(a)(2)). */
  section1231Loss: number
  /** Profit or loss that reaches income, after the loss limit of 26 USC 461(l). */
  business: number
  /** Loss over that limit: a net operating loss of the next year. */
  excessLoss: number
  half: number
  tax: number
  netEarnings: number
  earned: number
  /** Earned income, after half of the self-employment tax, of the person who has least of it. */
  leastEarned: number
  /** Social Security and Medicare tax withheld from wages. */
  withheldFromWages: number
  earnedLimit: number
}

export interface PersonLines extends SelfEmployment, SelfEmploymentTax {
  /** Of the wages under Social Security, what was put off into a plan at work: no income. */
  deferred: number
}

/** Wages that are income. */
export const taxedWages = ({ wages, deferred }: PersonLines): number => wages - deferred

export const workBusiness = (law: LawYear, household: HouseholdYear, lines: BusinessLines): void => {
  clear(lines)
  // By place: as a list they would be walked through for each return.
  const first = lines.people[0]
  const second = lines.people[1]
  fillPerson(household, 0, first)
  fillPerson(household, 1, second)
  takeSection179(household, lines)
  for (let place = 0; place < household.people; place += 1) {
    const person = lines.people[place]!
    workSelfEmployment(law, person, person)
    addPerson(law, person, lines)
  }
  if (household.people < 2) workSelfEmployment(law, second, second)
  lines.section1231Loss = Math.min(0, wholeCents(household.section1231))
  const all = lines.farmProfit + lines.otherProfit + lines.section1231Loss
  const limit = law.businessLossLimit[household.status]! * 100
  lines.excessLoss = Math.max(0, -(all + gainsOfBusiness(household)) - limit)
  lines.business = all + lines.excessLoss
  lines.earnedLimit = earnedIncomeLimit(lines.people, wholeCents(household.sep))
}

/**
 * Gains on business property are income of the businesses for the limit on their losses (26 USC 461(l)(3)(A)(ii)); those of section 1231 as
 * far as all capital gains and losses of the year come to a gain (461(l)(3)(B)(ii), from memory of Form 461).
 */
const gainsOfBusiness = (household: HouseholdYear): number => {
  const section1231 = Math.max(0, wholeCents(household.section1231))
  const net = section1231 + wholeCents(household.longTermGains) + wholeCents(household.shortTermGains)
  return Math.min(section1231, Math.max(0, net)) + wholeCents(household.businessGains)
}

/** Carried section 179 comes off the farm profit of each by its part of it; where there is none, of the one who earns more, or sells more. */
const takeSection179 = (household: HouseholdYear, lines: BusinessLines): void => {
  lines.section179 = 0
  const carried = wholeCents(household.carried.section179)
  if (carried === 0) return
  const [first, second] = lines.people
  const one = earnedBy(first)
  const other = earnedBy(second)
  const income = one + other
  const sold = Math.max(0, wholeCents(household.section1231)) + wholeCents(household.businessGains)
  lines.section179 = Math.min(carried, Math.max(0, income + sold))
  const own = Math.max(0, first.farmProfit)
  const both = own + Math.max(0, second.farmProfit)
  const isFirsts = one > other || (one === other && first.farmGross >= second.farmGross)
  const ofFirst = both > 0 ? shareOf(lines.section179, own, both) : isFirsts ? lines.section179 : 0
  first.farmProfit -= ofFirst
  second.farmProfit -= lines.section179 - ofFirst
}

const earnedBy = (person: PersonLines): number => taxedWages(person) + person.farmProfit + person.otherProfit

const clear = (lines: BusinessLines): void => {
  lines.wages = 0
  lines.socialSecurityWages = 0
  lines.farmProfit = 0
  lines.otherProfit = 0
  lines.half = 0
  lines.tax = 0
  lines.netEarnings = 0
  lines.earned = 0
  lines.leastEarned = Number.POSITIVE_INFINITY
  lines.withheldFromWages = 0
}

const fillPerson = (household: HouseholdYear, place: number, person: PersonLines): void => {
  const signs = place < household.people
  person.deferred = signs ? wholeCents(household.deferredPay?.[place] ?? 0) : 0
  person.wages = signs ? wholeCents(household.wages[place]!) + person.deferred : 0
  person.farmProfit = signs ? wholeCents(household.farmProfit[place]!) : 0
  person.otherProfit = signs ? wholeCents(household.otherSelfEmployment[place]!) : 0
  person.useFarmOptional = signs && household.farmOptional[place] === 1
  person.farmGross = signs ? wholeCents(household.farmGross[place]!) : 0
  person.useNonfarmOptional = signs && household.nonfarmOptional[place] === 1
  person.nonfarmGross = signs ? wholeCents(household.nonfarmGross[place]!) : 0
}

const addPerson = (law: LawYear, person: PersonLines, lines: BusinessLines): void => {
  lines.wages += taxedWages(person)
  lines.socialSecurityWages += person.wages
  lines.farmProfit += person.farmProfit
  lines.otherProfit += person.otherProfit
  lines.half += person.half
  lines.tax += person.tax
  lines.netEarnings += person.netEarnings
  lines.earned += person.earned
  lines.leastEarned = Math.min(lines.leastEarned, taxedWages(person) + person.earned - person.half)
  // The employee's half of the self-employment rates.
  lines.withheldFromWages +=
    atRate(Math.min(person.wages, law.wageBase * 100), law.selfEmploymentSocialSecurityRate / 2) +
    atRate(person.wages, law.selfEmploymentMedicareRate / 2)
}

export const noBusinessLines = (): BusinessLines => ({
  people: [noPersonLines(), noPersonLines()],
  wages: 0,
  socialSecurityWages: 0,
  farmProfit: 0,
  otherProfit: 0,
  section179: 0,
  section1231Loss: 0,
  business: 0,
  excessLoss: 0,
  half: 0,
  tax: 0,
  netEarnings: 0,
  earned: 0,
  leastEarned: 0,
  withheldFromWages: 0,
  earnedLimit: 0,
})

const noPersonLines = (): PersonLines => ({
  wages: 0,
  deferred: 0,
  farmProfit: 0,
  otherProfit: 0,
  useFarmOptional: false,
  farmGross: 0,
  useNonfarmOptional: false,
  nonfarmGross: 0,
  ...noSelfEmploymentTax(),
})
