// What lies in a Roth account: contributions come out first, then conversions, the oldest first, then what was earned (26 USC 408A(d)(4)).
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers, CourseState } from '#runway/course-buffers.ts'

/** Before a person's first Roth money has lain its years, earnings are income at any age (26 USC 408A(d)(2)(B)); an heir's are taken to have. */
export const isNewRoth = (
  { savings }: CompiledPlan,
  { rothSince }: CourseState,
  account: number,
  y: number,
): boolean =>
  savings.isInherited[account] === 0 &&
  y < rothSince[Math.max(0, savings.owner[account]!)]! + savings.rothWait

/** Something goes into a Roth account in year `y`: the first starts its owner's years. */
export const noteRoth = (
  { savings }: CompiledPlan,
  { rothSince }: CourseState,
  account: number,
  y: number,
): void => {
  const owner = Math.max(0, savings.owner[account]!)
  rothSince[owner] = Math.min(rothSince[owner]!, y)
}

/** Dollars of an account that were converted and are still there. */
export const convertedIn = (plan: CompiledPlan, { converted }: CourseState, account: number): number => {
  if (plan.savings.conversions.count === 0) return 0
  let sum = 0
  for (let cell = account * plan.years; cell < (account + 1) * plan.years; cell += 1) sum += converted[cell]!
  return sum
}

/** Of the `beyond` dollars taken after the contributions, those that were converted too few years before year `y` (26 USC 408A(d)(3)(F)). */
export const youngConversions = (
  plan: CompiledPlan,
  { converted }: CourseState,
  account: number,
  y: number,
  beyond: number,
): number => {
  if (plan.savings.conversions.count === 0) return 0
  let left = beyond
  let young = 0
  for (let k = 0; k <= y && left > 0; k += 1) {
    const part = Math.min(left, converted[account * plan.years + k]!)
    left -= part
    if (y - k < plan.savings.conversionWait) young += part
  }
  return young
}

/** Takes up to so many dollars of conversions out, the oldest first. Returns what was not found among them: earnings. */
export const takeConverted = (
  plan: CompiledPlan,
  { state }: CourseBuffers,
  account: number,
  wanted: number,
): number => {
  if (plan.savings.conversions.count === 0) return wanted
  let left = wanted
  for (let cell = account * plan.years; cell < (account + 1) * plan.years && left > 0; cell += 1) {
    const part = Math.min(left, state.converted[cell]!)
    state.converted[cell] = state.converted[cell]! - part
    left -= part
  }
  return left
}

/** All that an account was made of is multiplied, as when it is brought to another sum; 0 empties it. */
export const scaleConverted = (
  plan: CompiledPlan,
  { converted }: CourseState,
  account: number,
  factor: number,
): void => {
  if (plan.savings.conversions.count === 0) return
  for (let cell = account * plan.years; cell < (account + 1) * plan.years; cell += 1)
    converted[cell] = converted[cell]! * factor
}
