// What a return by the books asks of the plan: a plan in which only that differs is another one to it, and all others are one.
import { Alike } from '#kept/alike.ts'
import { keptWith } from '#kept/keeper.ts'
import type { Plan } from '#plan/plan.ts'

/**
 * The plan without what no return by the books asks: its draws, how much each line of living costs (the books know), and what markets
 * bring. The same object for all plans that differ in these alone, like those of pulled levers: what was worked from it is kept with it.
 */
export const planForReturns = <Given extends Plan | null>(plan: Given): Given =>
  plan === null ? plan : (keptWith(plan, 'for returns', () => lately.foundOr(unasked(plan))) as Given)

const unasked = (plan: Plan): Plan => ({
  ...plan,
  household: { ...plan.household, living: plan.household.living.map((line) => ({ ...line, perMonth: 0 })) },
  draw: { policy: 'steps', steps: [], growth: 0, withPrices: false },
  assumptions: { ...plan.assumptions, stocks: 0, bonds: 0, bills: 0, farmPriceGrowth: 0 },
})

const lately = new Alike<Plan>(12)
