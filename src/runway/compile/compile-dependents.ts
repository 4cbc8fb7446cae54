// Children and relatives at home to years and months.
import type { Plan } from '#plan/plan.ts'
import { addBenefitChildren, childrenOfYear, monthsAtHome } from '#runway/children-of-year.ts'
import type { Span } from '#runway/span.ts'

export const compileDependents = (plan: Plan, span: Span): CompiledDependents => {
  const byYear = () => new Float64Array(span.years)
  const out: CompiledDependents = {
    careChildren: byYear(),
    childrenUnder17: byYear(),
    earnedCreditChildren: byYear(),
    otherDependents: byYear(),
    relatives: byYear(),
    dependentAges: [],
    benefitChildren: new Uint8Array(span.months),
    childrenInCare: new Uint8Array(span.months),
    ownMoneyReal: new Float64Array(span.months),
  }
  for (let y = 0; y < span.years; y += 1) {
    const children = childrenOfYear(plan, span.firstYear + y)
    out.childrenUnder17[y] = children.childrenUnder17
    out.otherDependents[y] = children.otherDependents
    out.relatives[y] = children.relatives
    out.earnedCreditChildren[y] = children.earnedCreditChildren
    out.careChildren[y] = children.careChildren
    out.dependentAges[y] = children.dependentAges
  }
  addBenefitChildren(plan, span.firstMonth, out.benefitChildren, out.childrenInCare)
  for (const one of plan.household.dependents) {
    const { first, end } = monthsAtHome(one, span)
    for (let m = first; m < end; m += 1) out.ownMoneyReal[m]! += one.ownMoney
  }
  return out
}

/** Those at home who are none of the plan's adults. */
export interface CompiledDependents {
  /** Children under 13 at each year’s end, whose care counts. */
  careChildren: Float64Array
  /** Qualifying children under 17, those for the earned income credit, and other dependents, by year; of the last, adult relatives. */
  childrenUnder17: Float64Array
  earnedCreditChildren: Float64Array
  otherDependents: Float64Array
  relatives: Float64Array
  /** Ages of all of them, by year. */
  dependentAges: number[][]
  /** By month: children at home whom Social Security counts, and those of them young enough that a parent is paid for their care. */
  benefitChildren: Uint8Array
  childrenInCare: Uint8Array
  /** What they put into the household of their own, by month at first prices. */
  ownMoneyReal: Float64Array
}
