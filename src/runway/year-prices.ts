// How the law of a year meets the prices of a course: past the published years the law moves with the prices the course really had.
import { marriedJoint } from '#rules/filing-status.ts'
import { type MedicareColumn, medicarePremiumMonthly } from '#rules/medicare/premiums.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers } from './course-buffers.ts'

/** In January, prices having stepped: what all months of the year measure by. */
export const setYearPrices = (plan: CompiledPlan, buffers: CourseBuffers, y: number): void => {
  const { state } = buffers
  state.januaryLevel = state.level
  state.lasting.priceRatio = plan.law.projected[y] === 1 ? state.januaryLevel / plan.law.expectedLevel[y]! : 1
  if (plan.health.medicareFrom65 && plan.people.length > 0)
    state.lasting.medicareMonthly = medicareOf(plan, buffers, y)
}

/** Parts B and D of one person, dollars a month at the prices of the year's law. */
const medicareOf = (plan: CompiledPlan, buffers: CourseBuffers, y: number): number => {
  const { law, health } = plan
  const { lasting, medicareLevel } = buffers.state
  const { priceRatio } = lasting
  const income =
    y >= 2 ? buffers.years.medicareIncome[y - 2]! : y === 1 ? law.lastYearIncome : law.twoYearsBackIncome
  const medicare = law.medicare[y]!
  const partD = health.partDPlan < 0 ? medicare.basePartD : (health.partDPlan * medicareLevel) / priceRatio
  return medicarePremiumMonthly(medicare, income / priceRatio, medicareColumn(plan, buffers, y), partD)
}

/** Medicare looks at the income of the return two years back by the lines of that return (42 USC 1395r(i)(4)(B)); before the plan, of its filing. */
const medicareColumn = (plan: CompiledPlan, { state }: CourseBuffers, y: number): MedicareColumn =>
  (y >= 2 ? state.jointReturn[y - 2] === 1 : plan.law.filing === marriedJoint) ? 1 : 0
