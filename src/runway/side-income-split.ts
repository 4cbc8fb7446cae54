// Side income split into retirement accounts and the emergency fund, as the plan says, against the limits of the year's law.
import { ageOn, type Day, day } from '#calendar/day.ts'
import type { Plan } from '#plan/plan.ts'
import { contributionLimits, ownerSepContribution, soloPlanContribution } from '#rules/contribution-limits.ts'
import { steadyIndexing } from '#rules/dated.ts'
import { lawFor } from '#rules/law.ts'
import { selfEmploymentTax } from '#rules/return/self-employment-tax.ts'
import type { ProjectedMonth } from './project.ts'

/** Dollars a year, at the prices of the months it was given. */
export interface SideIncomeSplit {
  year: number
  basis: 'enacted' | 'projected'
  ventures: { id: string; name: string; net: number; setAsideShare: number; toRetirement: number }[]
  toRetirement: number
  toEmergencyFund: number
  emergencyFundTarget: number
  limits: {
    name: string
    age: number
    ira: number
    sep: number
    soloPlan: number
    hsaSelfOnly: number
    hsaFamily: number
  }[]
  aboveLimits: number
  /** What the Treasury adds over the whole plan (26 USC 6433), and the month in which it first comes; null: never. */
  saversMatch: { total: number; firstMonth: string | null }
}

/**
 * `months`: the plan's course from its start in today's dollars; its first twelve say what side income and costs come to.
 * `firstPrices`: what a dollar of the plan's first prices is in them.
 */
export const sideIncomeSplit = (
  plan: Plan,
  months: readonly ProjectedMonth[],
  year: number,
  firstPrices = 1,
): SideIncomeSplit => {
  const { inflation, wageGrowth } = plan.assumptions
  const indexing = steadyIndexing(inflation, wageGrowth)
  const ahead = months.slice(0, 12)
  const sideAhead = ahead.reduce((sum, one) => sum + one.side, 0)
  const ventures = venturesOf(plan, firstPrices)
  const limits = plan.household.people.map((person) => {
    const age = ageOn(person.born as Day, day(`${year}-12-31`))
    const own = contributionLimits(year, age, indexing)
    const profit = plan.household.sideVentures.reduce(
      (sum, venture, k) => sum + (venture.person === person.id ? ventures[k]!.net : 0),
      0,
    )
    const { half } = selfEmploymentTax(lawFor(year, indexing), {
      ...noEarnings,
      otherProfit: Math.round(profit * 100),
    })
    const halfTax = half / 100
    return {
      name: person.name,
      age,
      ira: own.ira,
      sep: ownerSepContribution(profit, halfTax, own),
      soloPlan: soloPlanContribution(profit, halfTax, own).total,
      hsaSelfOnly: own.hsaSelfOnly,
      hsaFamily: own.hsaFamily,
      basis: own.basis,
    }
  })
  const toRetirement = ventures.reduce((sum, one) => sum + one.toRetirement, 0)
  const room = limits.reduce((sum, one) => sum + one.ira, 0)
  const costs = ahead.reduce((sum, one) => sum + one.householdCosts, 0) / Math.max(1, ahead.length)
  return {
    year,
    basis: limits.some((one) => one.basis === 'projected') ? 'projected' : 'enacted',
    ventures,
    toRetirement,
    toEmergencyFund: Math.max(0, (ventures.length > 0 ? sideAhead : 0) - toRetirement),
    emergencyFundTarget: costs * plan.savings.reserveMonths,
    limits: limits.map(({ basis: _, ...one }) => one),
    aboveLimits: Math.max(0, toRetirement - room),
    saversMatch: {
      total: months.reduce((sum, one) => sum + one.saversMatch, 0),
      firstMonth: months.find((one) => one.saversMatch > 0)?.month ?? null,
    },
  }
}

const venturesOf = (plan: Plan, firstPrices: number): SideIncomeSplit['ventures'] =>
  plan.household.sideVentures.map((venture) => {
    const margin = venture.perMonth * (1 - venture.costShare) - venture.costPerMonth
    const net = Math.max(0, 12 * margin * firstPrices)
    return {
      id: venture.id,
      name: venture.name,
      net,
      setAsideShare: venture.setAsideShare,
      toRetirement: net * venture.setAsideShare,
    }
  })

const noEarnings = {
  wages: 0,
  farmProfit: 0,
  otherProfit: 0,
  useFarmOptional: false,
  farmGross: 0,
  useNonfarmOptional: false,
  nonfarmGross: 0,
}
