// The turning points of one course, marked by the run month by month: of the expected course, storms and every drawn path alike.
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers } from './course-buffers.ts'
import { type Marks, type MonthFigures, unmarked } from './figures/course-figures.ts'
import { hair } from './figures/hair.ts'

export const beginMarks = (plan: CompiledPlan, { marks }: CourseBuffers): void => {
  Object.assign(marks, unmarked)
  marks.gaps.fill(0)
  for (let account = 0; account < plan.savings.count; account += 1)
    marks.savings += plan.savings.opening[account]!
  if (plan.firstSlowerMonth === 0) markSlowerYear(marks, plan.opening.prices)
}

/** The month has run: what it is the first, the last or the lowest of. */
export const markMonth = (plan: CompiledPlan, { marks, month }: CourseBuffers, m: number): void => {
  if (marks.floorMonth < 0 && isBelowFloor(month)) marks.floorMonth = m
  if (marks.firstDraw < 0 && month.draw > hair) marks.firstDraw = m
  if (month.contribution > hair) marks.lastContribution = m
  if (marks.firstUnmet < 0 && month.unmetNeed > hair) marks.firstUnmet = m
  marks.unmetNeed += month.unmetNeed
  const begins = beginsLooking(plan, m)
  if (begins || month.spendable < marks.lowest - hair) {
    marks.lowestMonth = m
    marks.lowest = month.spendable
  }
  const atFirstPrices = month.spendable / month.level
  if (begins || atFirstPrices < marks.lowestAtFirstPrices) marks.lowestAtFirstPrices = atFirstPrices
  marks.unmetAtFirstPrices += month.unmetNeed / month.level
  marks.savings = month.cash + month.taxable + month.traditional + month.roth + month.health - month.taxOwed
  markCarry(marks, month, m)
  if (m + 1 === plan.firstSlowerMonth) markSlowerYear(marks, month.level)
}

/** Of months that are behind, since the books miss them, savings are no longer looked at once the month of today has come. */
const beginsLooking = ({ leftFrom }: CompiledPlan, m: number): boolean => m === 0 || m === leftFrom

/** No balance goes below zero, so a floor of nothing is passed when nothing, or only a retirement account that is not counted, can pay. */
export const isBelowFloor = ({
  spendable,
  floor,
  unmetNeed,
  withdrawnTraditional,
  withdrawnRoth,
  withdrawnHealth,
}: MonthFigures) =>
  spendable < floor - hair ||
  unmetNeed > hair ||
  (spendable < hair && withdrawnTraditional + withdrawnRoth + withdrawnHealth > hair)

const markSlowerYear = (marks: Marks, level: number) => {
  marks.savingsAtSlower = marks.savings
  marks.levelAtSlower = level
  marks.carryAtSlower = marks.carryFrom
}

/** What the farm gives the household in a month, net of what the household puts back, less all that the household pays. */
const markCarry = (marks: Marks, month: MonthFigures, m: number) => {
  const { gaps } = marks
  const gap = month.draw - month.contribution - month.householdCosts
  marks.gap += gap - gaps[m % 12]!
  gaps[m % 12] = gap
  if (m < 11) return
  if (marks.gap < -hair) marks.carryFrom = -1
  else if (marks.carryFrom < 0) marks.carryFrom = m - 11
}

/**
 * The month (not included) up to which the carry month is judged: the first slower year, where draws fall by the plan and the
 * cushion takes over, or the end of the course when there is none or it comes within a year.
 */
export const carryEndOf = (plan: CompiledPlan, { endMonth }: CourseBuffers): number =>
  plan.firstSlowerMonth >= 12 ? Math.min(endMonth, plan.firstSlowerMonth) : endMonth

/** The first month from which net draws cover all household costs over any twelve months running up to `carryEndOf`; −1 when there is none. */
export const carryMonthOf = (plan: CompiledPlan, buffers: CourseBuffers): number =>
  carryEndOf(plan, buffers) < buffers.endMonth ? buffers.marks.carryAtSlower : buffers.marks.carryFrom
