// The month a projection of the plan begins with.
import { type Month, parseMonth } from '#calendar/month.ts'
import type { Plan } from './plan.ts'

/** The plan's first month, or the one it is continued from. */
export const firstMonthOf = ({
  startMonth,
  continuesFrom,
}: Pick<Plan, 'startMonth' | 'continuesFrom'>): Month => parseMonth(continuesFrom ?? startMonth)!
