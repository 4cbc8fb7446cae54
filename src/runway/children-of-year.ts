// The plan's dependents as a year's return counts them, by their ages on December 31, and as Social Security does, month by month. An
// adult relative is one of the household and an other dependent (26 USC 24(h)(4)), and no child for anything.
import { day, monthOfDay } from '#calendar/day.ts'
import { month, yearIn } from '#calendar/month.ts'
import { isRelative, lastMonthAtHome, lived } from '#plan/life/lived.ts'
import type { Plan } from '#plan/plan.ts'
import { birthMonthByLaw } from '#rules/age-by-law.ts'
import { careChildBelow, earnedCreditChildBelow } from '#rules/data/credits.ts'
import { inForce } from '#rules/in-force.ts'
import { childUntilMonths, inCareUntilMonths } from '#rules/social-security/claim-factors.ts'
import type { Span } from './span.ts'

const creditBelow = inForce(earnedCreditChildBelow, Number.POSITIVE_INFINITY)
const careBelow = inForce(careChildBelow, Number.POSITIVE_INFINITY)

export interface ChildrenOfYear {
  childrenUnder17: number
  otherDependents: number
  earnedCreditChildren: number
  /** Young enough that their care counts for the child and dependent care credit. */
  careChildren: number
  dependentAges: number[]
  /** Of the other dependents, those who are no child of the adults. */
  relatives: number
}

/** One counts while at home to the end of the year: not in the year in which she or he leaves. */
export const childrenOfYear = (plan: Plan, year: number): ChildrenOfYear => {
  const ages: number[] = []
  const ofRelatives: number[] = []
  let students = 0
  for (const child of lived(plan).household.dependents) {
    const age = year - yearIn(child.born)
    if (age < 0 || lastMonthAtHome(child) < month(year, 12)) continue
    if (isRelative(child)) {
      ofRelatives.push(age)
      continue
    }
    ages.push(age)
    if (child.student && age >= creditBelow.child && age < creditBelow.student) students += 1
  }
  const below = (limit: number) => ages.reduce((count, age) => (age < limit ? count + 1 : count), 0)
  return {
    childrenUnder17: below(17),
    otherDependents: ages.length - below(17) + ofRelatives.length,
    earnedCreditChildren: below(creditBelow.child) + students,
    careChildren: below(careBelow),
    dependentAges: [...ages, ...ofRelatives],
    relatives: ofRelatives.length,
  }
}

/** The months of a span in which one is at home, `end` not with them. */
export const monthsAtHome = (
  one: Plan['household']['dependents'][number],
  { firstMonth, months }: Pick<Span, 'firstMonth' | 'months'>,
): { first: number; end: number } => ({
  first: Math.max(0, monthOfDay(day(one.born)) - firstMonth),
  end: Math.min(months, lastMonthAtHome(one) + 1 - firstMonth),
})

/**
 * Those at home and below 18 in a calendar month count as children of both adults; below 16 a parent is paid for their care. Adds one
 * for each to its months, counted from `firstMonth`.
 */
export const addBenefitChildren = (
  plan: Plan,
  firstMonth: number,
  counted: Uint8Array,
  inCare: Uint8Array,
): void => {
  for (const child of lived(plan).household.dependents) {
    if (isRelative(child)) continue
    const born = birthMonthByLaw(child.born) - firstMonth
    const last = lastMonthAtHome(child) - firstMonth
    const add = (out: Uint8Array, months: number) => {
      const end = Math.min(out.length, born + Math.min(months, child.untilAge * 12), last + 1)
      for (let m = Math.max(0, born); m < end; m += 1) out[m]! += 1
    }
    add(counted, childUntilMonths)
    add(inCare, inCareUntilMonths)
  }
}
