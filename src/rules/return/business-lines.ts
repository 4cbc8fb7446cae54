// Businesses of everyone on the return: self-employment tax by person, profit that reaches income, and what it is measured by later.
import type { HouseholdYear } from '../household-year.ts'
import type { LawYear } from '../law-year.ts'
import { atRate, wholeCents } from '../rounding.ts'
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
  farmProfit: number
  otherProfit: number
  /** Profit or loss that reaches income, after the loss limit of 26 USC 461(l). */
  business: number
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

export interface PersonLines extends SelfEmployment, SelfEmploymentTax {}

export const workBusiness = (law: LawYear, household: HouseholdYear, lines: BusinessLines): void => {
  clear(lines)
  for (let place = 0; place < 2; place += 1) {
    const person = lines.people[place]!
    fillPerson(household, place, person)
    workSelfEmployment(law, person, person)
    if (place < household.people) addPerson(law, person, lines)
  }
  lines.business = Math.max(
    lines.farmProfit + lines.otherProfit,
    -law.businessLossLimit[household.status]! * 100,
  )
  lines.earnedLimit = earnedIncomeLimit(lines.people, wholeCents(household.sep))
}

const clear = (lines: BusinessLines): void => {
  lines.wages = 0
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
  person.wages = signs ? wholeCents(household.wages[place]!) : 0
  person.farmProfit = signs ? wholeCents(household.farmProfit[place]!) : 0
  person.otherProfit = signs ? wholeCents(household.otherSelfEmployment[place]!) : 0
  person.useFarmOptional = signs && household.farmOptional[place] === 1
  person.farmGross = signs ? wholeCents(household.farmGross[place]!) : 0
  person.useNonfarmOptional = signs && household.nonfarmOptional[place] === 1
  person.nonfarmGross = signs ? wholeCents(household.nonfarmGross[place]!) : 0
}

const addPerson = (law: LawYear, person: PersonLines, lines: BusinessLines): void => {
  lines.wages += person.wages
  lines.farmProfit += person.farmProfit
  lines.otherProfit += person.otherProfit
  lines.half += person.half
  lines.tax += person.tax
  lines.netEarnings += person.netEarnings
  lines.earned += person.earned
  lines.leastEarned = Math.min(lines.leastEarned, person.wages + person.earned - person.half)
  // The employee's half of the self-employment rates.
  lines.withheldFromWages +=
    atRate(Math.min(person.wages, law.wageBase * 100), law.selfEmploymentSocialSecurityRate / 2) +
    atRate(person.wages, law.selfEmploymentMedicareRate / 2)
}

export const noBusinessLines = (): BusinessLines => ({
  people: [noPersonLines(), noPersonLines()],
  wages: 0,
  farmProfit: 0,
  otherProfit: 0,
  business: 0,
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
  farmProfit: 0,
  otherProfit: 0,
  useFarmOptional: false,
  farmGross: 0,
  useNonfarmOptional: false,
  nonfarmGross: 0,
  ...noSelfEmploymentTax(),
})
