// The farm's cash ahead as a projection expects it, and which waiting purchases a plan under way has made by now.

import { type Month, monthText, parseMonth } from '#calendar/month.ts'
import type { Purchase } from '#farm/farm-document.ts'
import { costOfHour } from '#farm/hired-help.ts'
import type { CashAhead } from '#farm/purchases.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import type { Plan } from '#plan/plan.ts'
import type { ProjectedMonth, Projection } from '#runway/project.ts'

export const cashAhead = (plan: Plan, { months, bought }: Projection): CashAhead => ({
  firstMonth: firstMonthOf(plan),
  opening: plan.farm.cash,
  reserve: plan.farm.reserve,
  netCash: row(months, (one) => one.farmSales - one.farmCosts + one.farmStock + one.farmLoans),
  draws: row(months, (one) => one.plannedDraw),
  calledOn: row(months, (one) => one.drawToHoldFloor),
  level: row(months, (one) => one.level),
  hourCost: costOfHour(plan.farm.hired),
  bought: new Map(
    plan.farm.purchases.flatMap((one, place) => {
      const when = bought[place]
      return when ? [[one.id, parseMonth(when)!]] : []
    }),
  ),
})

const row = (months: readonly ProjectedMonth[], value: (one: ProjectedMonth) => number) =>
  Float64Array.from(months, value)

/** What waited for cash and was bought before `month` by the plan as saved has its date: it is not bought again. */
export const purchasesNow = (saved: Plan, baseline: Projection | null, month: Month): Purchase[] =>
  saved.farm.purchases.map((one, place) => {
    const when = baseline?.bought[place] ?? null
    const isMade = one.timing === 'when cash allows' && when !== null && when < monthText(month)
    return isMade ? { ...one, timing: 'dated', month: when } : one
  })
