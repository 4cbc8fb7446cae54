// Plans side by side: what each comes to as expected, in its worst bad year, and one time in ten where that was run.
import type { PlanHead } from '#db/plan-store.ts'
import { differences } from '#plan/difference.ts'
import type { Plan } from '#plan/plan.ts'
import { savingsAtEnd } from '#solve/slower-years.ts'
import { type PlanInUse, planNamed } from '#today/current-plan.ts'
import { knowsStorms, projectionIn, stormMilestonesIn, stormSpreadOf } from '#today/projection/courses.ts'
import type { ComparedPlan } from '#views/runway/compare.tsx'
import type { PageContext } from '#web/forms/answer.tsx'
import { dollarsOf } from '#web/forms/shown-dollars.ts'
import { continuedToday, projected } from '#web/forms/with-plan.tsx'
import { oneInTenOf } from '#web/pages/now/chance-now.ts'

const monthsDrawn = 180

/** Without `withStorms` bad years are told only of plans whose storms were run already. */
export const comparedPlans = (
  c: PageContext,
  heads: readonly PlanHead[],
  currentId: string,
  withStorms: boolean,
): { plans: ComparedPlan[]; unreadable: string[] } => {
  const plans: ComparedPlan[] = []
  const unreadable: string[] = []
  let first: Plan | null = null
  for (const { id, name } of heads) {
    const current = planNamed(c.var.web.books, id)
    if (current.status !== 'read') {
      unreadable.push(name)
      continue
    }
    plans.push({
      ...comparedPlan(c, current, withStorms),
      isCurrent: id === currentId,
      differences: first === null ? [] : differences(first, current.plan),
    })
    first ??= current.plan
  }
  return { plans, unreadable }
}

const comparedPlan = (c: PageContext, current: PlanInUse, withStorms: boolean) => {
  const dollars = dollarsOf(c)
  const today = continuedToday(c, current)
  const plan = today.ongoing
  const { milestones, months } = projectionIn(plan, dollars)
  const isRun = withStorms || knowsStorms(plan)
  const { worst } = isRun ? stormSpreadOf(plan) : { worst: null }
  return {
    id: current.planId,
    name: current.name,
    milestones,
    savingsAtEnd: savingsAtEnd(months),
    farmCashAtEnd: months.at(-1)?.farmCash ?? 0,
    stormsRun: isRun,
    badYear: worst && {
      name: worst.storm.name,
      monthsLeft: worst.milestones.monthsLeft,
      lowestSpendable: stormMilestonesIn(plan, worst, dollars).lowestSpendable,
    },
    oneInTen: oneInTenOf(projected(today)),
    spendable: months.slice(0, monthsDrawn).map(({ month, spendable }) => ({ month, dollars: spendable })),
  }
}
