// The plan's dependents as a year's return counts them, by their ages on December 31, and as Social Security does, month by month.
import { month, yearIn } from '#calendar/month.ts'
import { lastMonthAtHome, lived } from '#plan/life/lived.ts'
import type { Plan } from '#plan/plan.ts'
import { birthMonthByLaw } from '#rules/age-by-law.ts'
import { careChildBelow } from '#rules/data/credits.ts'
import { inForce } from '#rules/in-force.ts'
import { childUntilMonths, inCareUntilMonths } from '#rules/social-security/claim-factors.ts'

const careBelow = inForce(careChildBelow, Number.POSITIVE_INFINITY)

export interface ChildrenOfYear {
  childrenUnder17: number
  otherDependents: number
  earnedCreditChildren: number
  /** Young enough that their care counts for the child and dependent care credit. */
  careChildren: number
  dependentAges: number[]
}

/** A child counts while at home to the end of the year: not in the year in which it leaves. */
export const childrenOfYear = (plan: Plan, year: number): ChildrenOfYear => {
  const ages = lived(plan)
    .household.dependents.filter((child) => lastMonthAtHome(child) >= month(year, 12))
    .map((child) => year - yearIn(child.born))
    .filter((age) => age >= 0)
  const below = (limit: number) => ages.filter((age) => age < limit).length
  return {
    childrenUnder17: below(17),
    otherDependents: ages.length - below(17),
    earnedCreditChildren: below(19),
    careChildren: below(careBelow),
    dependentAges: ages,
  }
}

/** Those at home and below 18 in a calendar month count as children of both adults; below 16 a parent is paid for their care. */
export const benefitChildrenOf = (plan: Plan): ((at: number) => { counted: number; inCare: number }) => {
  const children = lived(plan).household.dependents.map((child) => ({
    born: birthMonthByLaw(child.born),
    untilAge: child.untilAge * 12,
    last: lastMonthAtHome(child),
  }))
  const below = (limit: number, at: number) => {
    let count = 0
    for (const { born, untilAge, last } of children)
      if (at >= born && at - born < Math.min(limit, untilAge) && at <= last) count += 1
    return count
  }
  return (at) => ({ counted: below(childUntilMonths, at), inCare: below(inCareUntilMonths, at) })
}
