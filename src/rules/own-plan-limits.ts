// What who works for themselves may put into a plan of their own business in a year: SEP, SIMPLE or solo 401(k).
import { type ContributionLimits, ownerSepContribution, soloPlanContribution } from './contribution-limits.ts'
import { simpleMatch } from './data/retirement-accounts.ts'
import { inForce } from './in-force.ts'
import type { LawYear } from './law-year.ts'

export const ownPlanKinds = ['sep', 'simple', 'solo401k'] as const
export type OwnPlanKind = (typeof ownPlanKinds)[number]

/**
 * The most that may go in and be deducted for the owner, dollars, on a year's net profit of the business, the net earnings from
 * self-employment that it makes, and half of the tax on these (26 USC 404(a)(8), 408(p), 402(g), 415(c); IRS Pub. 560; 404(a)(8) from memory). One plan
 * at a time: who has two, or defers at work too, has less.
 */
export const ownPlanLimit = (
  kind: OwnPlanKind,
  limits: ContributionLimits,
  netProfit: number,
  netEarnings: number,
  half: number,
): number => {
  if (kind === 'simple')
    return Math.min(limits.simple, netEarnings) + netEarnings * inForce(simpleMatch, limits.year)
  return kind === 'sep'
    ? ownerSepContribution(netProfit, half, limits)
    : soloPlanContribution(netProfit, half, limits).total
}

/** Half of self-employment tax by the usual method, wages taking of the wage base first (26 USC 164(f), 1402(b)). Dollars. */
export const halfOfUsualTax = (law: LawYear, netEarnings: number, wages: number): number => {
  const underBase = Math.min(netEarnings, Math.max(0, law.wageBase - wages))
  return (underBase * law.selfEmploymentSocialSecurityRate + netEarnings * law.selfEmploymentMedicareRate) / 2
}
