// With which status a household files: told once, for the course of a plan and for the pages that work a single year.
import { headOfHousehold, marriedJoint, single, survivingSpouse } from './filing-status.ts'

/** No status of a return: the plan leaves it to the law. */
export const unsaid = -1

/**
 * A couple that still signs together files jointly. Whoever is left with a child has a surviving spouse's rates for the law's years
 * after a death (26 USC 2(a)), then a head of household's, and so has one adult alone with a child or another dependent relative at home (2(b)): a relative alone
 * makes no surviving spouse. `chosen`: the plan's status,
 * of which head of household holds, single for one adult alone, and joint for one told alone; `unsaid` where it names none.
 * `sinceDeath`: whole years since the other's death; infinite after a separation.
 */
export const filingStatusOf = (
  chosen: number,
  adults: number,
  signing: number,
  hasDependents: boolean,
  sinceDeath: number,
  survivingYears: number,
  hasChildren: boolean = hasDependents,
): number => {
  if (signing > 1) return marriedJoint
  if (adults > 1 && hasChildren && sinceDeath <= survivingYears) return survivingSpouse
  const isLeftWithOne = adults > 1 && hasDependents
  const isAloneWithOne = adults === 1 && chosen === unsaid && hasDependents
  if (chosen === headOfHousehold || isLeftWithOne || isAloneWithOne) return headOfHousehold
  return chosen === marriedJoint && adults < 2 ? marriedJoint : single
}
