// Health savings: what may go in by the months of the cover that goes with them, and what care they may still pay free of tax.
import { marketplace, otherPlan, uncovered } from '#rules/coverage/coverage-kinds.ts'
import { accountCode, savingsCoverCode } from '#runway/compile/codes.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers } from '#runway/course-buffers.ts'
import { empty } from '#runway/figures/emptied.ts'
import type { YearTotals } from '#runway/year-totals.ts'
import { isEarly, ownerNow } from './early.ts'

/**
 * January: a twelfth of the year's limit for each month in which a person is covered by a plan that allows it and by nothing else (26
 * USC 223(b)(1), (2), (7)); family cover gives both one amount together, the catch-up stays each one's own (223(b)(3), (5)). The rule
 * by which cover in December stands for the whole year (223(b)(8)) is left out: it asks for such cover to the end of the next December. Months
 * behind in the first year count as its first month does. `kinds`: member × month, places in `coverageKinds`.
 */
export const setHealthRooms = (
  plan: CompiledPlan,
  buffers: CourseBuffers,
  m: number,
  y: number,
  kinds: Uint8Array,
): void => {
  if (!plan.savings.hasHealthSavings) return
  const { state } = buffers
  const { year } = state
  empty(year.roomHealth)
  year.roomHealthShared = 0
  const season = (plan.firstMonth + m) % 12
  for (let k = m; k < plan.months && k - m < 12 - season; k += 1) {
    const times = k === m ? 1 + season : 1
    addMonth(plan, buffers, kinds, k, y, (times * state.lasting.priceRatio) / 12)
  }
}

/** `part` of the year's limits for a month like this. */
const addMonth = (
  plan: CompiledPlan,
  { state }: CourseBuffers,
  kinds: Uint8Array,
  m: number,
  y: number,
  part: number,
): void => {
  const { year } = state
  const cover = plan.health.savingsCover[y]!
  const isFamily =
    cover === savingsCoverCode.marketplace
      ? countOn(plan, kinds, m) > 1
      : cover === savingsCoverCode.familyPlan
  let family = 0
  for (let i = 0; i < plan.coverage.members.length; i += 1) {
    const p = plan.coverage.person[i]!
    if (p < 0 || state.alive[p] === 0 || !allows(cover, kinds[i * plan.months + m]!)) continue
    const limits = plan.savings.limits[p * plan.years + y]!
    const alone = isFamily ? 0 : limits.hsaSelfOnly - limits.hsaCatchUp
    year.roomHealth[p] = year.roomHealth[p]! + (alone + limits.hsaCatchUp) * part
    if (isFamily) family = (limits.hsaFamily - limits.hsaCatchUp) * part
  }
  year.roomHealthShared += family
}

const allows = (cover: number, kind: number): boolean => {
  if (cover === savingsCoverCode.none) return false
  return cover === savingsCoverCode.marketplace
    ? kind === marketplace
    : kind === otherPlan || kind === uncovered
}

const countOn = ({ coverage, months }: CompiledPlan, kinds: Uint8Array, m: number): number => {
  let on = 0
  for (let i = 0; i < coverage.members.length; i += 1) if (kinds[i * months + m] === marketplace) on += 1
  return on
}

/** What a person may still put in this year: one's own room, then what the other has left of the shared one. */
export const healthRoom = (
  { roomHealth, roomHealthShared, intoHealth }: YearTotals,
  person: number,
): number => {
  const other = 1 - person
  const usedByOther = Math.max(0, intoHealth[other]! - roomHealth[other]!)
  return Math.max(0, roomHealth[person]! + roomHealthShared - usedByOther - intoHealth[person]!)
}

/** What will have gone in by the end of the year: what did, and the plan's contributions as far as these kinds of cover allow. */
export const expectHealthSavings = (
  plan: CompiledPlan,
  buffers: CourseBuffers,
  m: number,
  y: number,
  kinds: Uint8Array,
): number => {
  const { savings } = plan
  const { year } = buffers.state
  if (!savings.hasHealthSavings) return year.healthSavings
  setHealthRooms(plan, buffers, m, y, kinds)
  const season = (plan.firstMonth + m) % 12
  let expected = year.healthSavings
  let shared = year.roomHealthShared
  for (let p = 0; p < 2; p += 1) shared -= Math.max(0, year.intoHealth[p]! - year.roomHealth[p]!)
  for (let p = 0; p < 2; p += 1) {
    let wanted = 0
    for (let account = 0; account < savings.count; account += 1) {
      if (savings.kind[account] !== accountCode.health || Math.max(0, savings.owner[account]!) !== p) continue
      for (let k = m; k < plan.months && k - m < 12 - season; k += 1)
        wanted += savings.contributions[account * plan.months + k]!
    }
    const own = Math.min(wanted, Math.max(0, year.roomHealth[p]! - year.intoHealth[p]!))
    const both = Math.min(wanted - own, Math.max(0, shared))
    shared -= both
    expected += own + both
  }
  return expected
}

/**
 * Care since the course began that was not paid from health savings yet: it may be later, in any year (26 USC 223(d)(2), (f)(1); IRS
 * Notice 2004-50, Q&A 39). From 65 of the owner on with the year's Medicare premiums, supplements not among them (223(d)(2)(C)(iv)).
 */
export const unpaidCare = (
  plan: CompiledPlan,
  buffers: CourseBuffers,
  account: number,
  m: number,
): number => {
  const { health, year } = buffers.state
  return health.careUnpaid + (paysMedicare(plan, buffers, account, m) ? year.medicareUnpaid : 0)
}

const paysMedicare = (plan: CompiledPlan, buffers: CourseBuffers, account: number, m: number): boolean =>
  ownerNow(plan, buffers, account) >= 0 && !isEarly(plan, buffers, account, m)

/** Of what is taken, the part that is care paid free of tax; a premium paid so is deducted no more (26 USC 223(f)(6), 162(l)). */
export const payCare = (
  plan: CompiledPlan,
  buffers: CourseBuffers,
  account: number,
  taken: number,
  m: number,
): number => {
  const { state } = buffers
  const { year } = state
  const care = Math.min(taken, state.health.careUnpaid)
  state.health.careUnpaid -= care
  if (!paysMedicare(plan, buffers, account, m)) return care
  const premiums = Math.min(taken - care, year.medicareUnpaid)
  year.medicareUnpaid -= premiums
  year.premiumsDeductible -= premiums
  return care + premiums
}
