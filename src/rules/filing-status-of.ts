// With which status a household files: told once, for the course of a plan and for the pages that work a single year.
import { headOfHousehold, marriedJoint, single, survivingSpouse } from './filing-status.ts'

/**
 * A couple that still signs together files jointly. Whoever is left with a child has a surviving spouse's rates for the law's years
 * after a death (26 USC 2(a)), then a head of household's. `chosen`: the plan's status, of which head of household holds, and joint
 * for one adult told alone. `sinceDeath`: whole years since the other's death; infinite after a separation.
 */
export const filingStatusOf = (
  chosen: number,
  adults: number,
  signing: number,
  hasChildren: boolean,
  sinceDeath: number,
  survivingYears: number,
): number => {
  if (signing > 1) return marriedJoint
  const isLeftWithChild = adults > 1 && hasChildren
  if (isLeftWithChild && sinceDeath <= survivingYears) return survivingSpouse
  if (chosen === headOfHousehold || isLeftWithChild) return headOfHousehold
  return chosen === marriedJoint && adults < 2 ? marriedJoint : single
}
