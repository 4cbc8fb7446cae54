// The phases of a plan beside the farm before them, as every page tells them: with what prices and costs grow, in the dollars asked for.
import { type PhaseBeside, phasesBeside } from '#farm/phase-years.ts'
import { keptWith } from '#kept/keeper.ts'
import type { Plan } from '#plan/plan.ts'
import type { Prices } from '#runway/dollars/dollars.ts'
import { grownCourse } from '#runway/farm/grown-course.ts'

export const phasesIn = (plan: Plan, prices: Prices): PhaseBeside[] =>
  keptWith(plan, 'phases beside', () =>
    phasesBeside(
      plan.farm,
      (who) => plan.household.people.find((one) => one.id === who)?.name ?? who,
      (course) => grownCourse(plan, course),
    ),
  ).map((phase) => phaseIn(phase, prices))

/** The farm's phases are told at the plan's first prices: the year before one, its settled year, and what is sold as it begins. */
const phaseIn = (phase: PhaseBeside, { ofFirst, ofMonth }: Prices): PhaseBeside => {
  const [now, before] = [ofFirst(`${phase.year}-01`), ofFirst(`${phase.yearBefore}-01`)]
  return {
    ...phase,
    net: phase.net * now,
    lease: phase.lease * now,
    netBefore: phase.netBefore * before,
    leaseBefore: phase.leaseBefore * before,
    leaseAYear: phase.leaseAYear * now,
    sales: phase.sales.map((sale) => ({
      ...sale,
      price: sale.price * ofFirst(phase.from),
      basis: sale.basis * ofMonth(phase.from),
    })),
    wound: phase.wound.map((one) => ({ ...one, brings: one.brings * ofFirst(phase.from) })),
  }
}
