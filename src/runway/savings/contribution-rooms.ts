// January: how much each person may put into which kind of account this year, by the income that the year is expected to have.
import { deductibleIra, rothAllowed } from '#rules/contribution-limits.ts'
import { accountCode } from '#runway/compile/codes.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers } from '#runway/course-buffers.ts'
import { healthRoom } from './health-savings.ts'

/**
 * A traditional IRA takes what may be deducted, a Roth IRA what income allows, both together the year's limit (26 USC 219(g),
 * 408A(c)(3)): a contribution that brings no deduction is not made. `income` at the law's prices, below 0 where no law is asked.
 */
export const setRooms = (
  plan: CompiledPlan,
  buffers: CourseBuffers,
  m: number,
  y: number,
  income: number,
): void => {
  const { savings, law } = plan
  const { state } = buffers
  const { roomTraditional, roomRoth } = state.year
  // Where nobody is expected to earn, nothing may go in (see `roomFor`); what went in before the plan is asked about at its start.
  const isAsked = income >= 0 && (m === 0 || state.year.earnedAhead > 0)
  for (let p = 0; p < 2; p += 1) {
    const limit = savings.contributionLimit[p * plan.years + y]!
    roomTraditional[p] = limit
    roomRoth[p] = limit
    if (!isAsked) continue
    const { status } = state.householdYear
    const covered = savings.covered[p * plan.years + y] === 1
    const spouseCovered = state.alive[1 - p] === 1 && savings.covered[(1 - p) * plan.years + y] === 1
    roomTraditional[p] = deductibleIra(law.years[y]!, status, limit, income, covered, spouseCovered)
    roomRoth[p] = rothAllowed(law.years[y]!, status, limit, income)
  }
}

/** First month: what went in before it counts for the year’s limits and its return. */
export const countPutIn = ({ people }: CompiledPlan, { state }: CourseBuffers): void => {
  const { year, contributed } = state
  for (let p = 0; p < people.length; p += 1) {
    const { traditional, roth, ownPlan, health } = people[p]!.putInSoFar
    contributed[p] = traditional + roth
    year.intoOwnPlan[p] = ownPlan
    year.traditionalContributions += traditional
    year.rothContributions += roth
    year.healthSavings += health
    year.intoHealth[p] = health
  }
}

/** Of it, what the year’s income does not let a traditional IRA deduct counts as what goes in without a deduction (26 USC 408(o)). */
export const keepWithinRooms = ({ people }: CompiledPlan, { state }: CourseBuffers): void => {
  const { year } = state
  for (let p = 0; p < people.length; p += 1) {
    const beyond = Math.max(0, people[p]!.putInSoFar.traditional - year.roomTraditional[p]!)
    year.traditionalContributions -= beyond
    year.rothContributions += beyond
  }
}

/** What may still go into a retirement account of a person this year. Deferrals to a plan at work come out of that one's pay. */
export const roomFor = (
  plan: CompiledPlan,
  buffers: CourseBuffers,
  account: number,
  person: number,
  y: number,
): number => {
  const { savings } = plan
  const { contributed, evenMonthly, year } = buffers.state
  if (evenMonthly[account]! > 0 || savings.isInherited[account] === 1) return 0
  if (savings.isWorkPlan[account] === 1)
    return (
      Math.min(savings.deferralLimit[person * plan.years + y]!, year.wagesAhead[person]!) -
      year.deferred[person]!
    )
  if (savings.ownPlan[account]! >= 0) return buffers.state.ownPlanRoom[account]! - year.intoOwnPlan[person]!
  if (savings.kind[account] === accountCode.health) return healthRoom(buffers.state.year, person)
  const room = savings.kind[account] === accountCode.traditional ? year.roomTraditional : year.roomRoth
  return Math.min(room[person]! - contributed[person]!, year.earnedAhead - contributed[0]! - contributed[1]!)
}
