// Pay and side ventures of the plan that end: at the pace of the books they go on no longer than that.
import { type Month, parseMonth } from '#calendar/month.ts'
import type { IncomeEnd } from '#ledger/pace.ts'
import { departureOf, isGone } from '#plan/life/lived.ts'
import type { Plan } from '#plan/plan.ts'
import { isIn } from '#runway/span.ts'

/** Months counted from `month` on, which is the first. Of what the plan has in `month` itself; what begins later is none of the pace. */
export const incomeEnds = (plan: Plan, month: Month): IncomeEnd[] => {
  const pay = plan.household.pay.filter((line) => goesOn(plan, line, month))
  const ventures = plan.household.sideVentures.filter((line) => goesOn(plan, line, month))
  const lasts = [...pay, ...ventures].flatMap(({ to }) => (to === undefined ? [] : [parseMonth(to)! + 1]))
  const gone = plan.household.people.flatMap(({ id }) => {
    const departure = departureOf(plan, id)
    return departure === null ? [] : [departure.month as number]
  })
  const changes = [...new Set([...lasts, ...gone])].filter((at) => at > month).sort((a, b) => a - b)
  return changes.map((at) => ({
    inMonths: at - month,
    payShare: shareLeft(plan, pay, at),
    ventureShare: shareLeft(plan, ventures, at),
  }))
}

interface Line {
  person?: string | undefined
  perMonth: number
  from?: string | undefined
  to?: string | undefined
}

const goesOn = (plan: Plan, line: Line, at: number): boolean =>
  isIn(line, at) && (line.person === undefined || !isGone(plan, line.person, at))

const shareLeft = (plan: Plan, lines: readonly Line[], at: number): number => {
  const sum = (some: readonly Line[]) => some.reduce((total, { perMonth }) => total + perMonth, 0)
  const all = sum(lines)
  return all > 0 ? sum(lines.filter((line) => goesOn(plan, line, at))) / all : 1
}
