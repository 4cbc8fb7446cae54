// A plan as it is run on a day: the document, and beside it what only that day knows.
import type { Month } from '#calendar/month.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import type { Plan } from '#plan/plan.ts'
import { seasonOfMonthDay, stateDatesOf } from '#rules/states/state-dates.ts'

/** Told to the projection with the plan; never saved, no part of the document. */
interface SeenFrom {
  /** The month of today, which months left are counted from: the projection may begin before or after it. */
  leftFrom: Month
  /** The first month that has not yet begun: a bad year begins no earlier. */
  badYearsFrom: Month
}

/**
 * Of what the return of the year before still asks for or gives back (`tax.lastYear.stillDue`), what is settled in January, to
 * either office, and with the state's return; the rest is in April. Dollars.
 */
export interface SettledApart {
  january: number
  stateJanuary: number
  stateReturn: number
}

/**
 * What the books write off of things that came into use before the projection, in dollars of each year, the projection's first year first;
 * after the last one nothing. Of section 179, what is elected in the first year stands apart: it waits for income. Of each venture
 * all of it, by the plan's person who runs it.
 */
export interface WrittenOff {
  /** Null where the books hold nothing of the farm's that wears out: what the plan bought before then counts. */
  farm: { byYear: readonly number[]; section179: number } | null
  ventures: readonly { person: string | null; byYear: readonly number[] }[]
}

/** Without `seenFrom` all is told from the projection's own first month. What is made of such a plan keeps it. */
export interface PlanOfDay extends Plan {
  seenFrom?: SeenFrom
  settles?: SettledApart
  /** The household has put money into the farm in months of the first year that lie before the projection. */
  hasPutIn?: boolean
  writtenOff?: WrittenOff
}

/** The month on whose first day months left are counted from, whatever the day: today's, or the projection's own where no day is told. */
export const leftFromOf = (plan: PlanOfDay): Month => plan.seenFrom?.leftFrom ?? firstMonthOf(plan)

/** The one rule of months left: from a month to the one in which savings are first below the floor, and none where it is behind. */
export const monthsLeftTo = (floorMonth: number, from: number): number => Math.max(0, floorMonth - from)

/** The same of a compiled plan. */
export interface CompiledDay {
  /** Month that months left are counted from: today's, below zero before a plan begins. */
  leftFrom: number
  hasPutIn: boolean
}

/** What of it is settled in a month of the year, 0 to 11. */
export const settledIn = (
  { tax, household, settles }: PlanOfDay,
  season: number,
): { federal: number; state: number } => {
  const { january = 0, stateJanuary = 0, stateReturn = 0 } = settles ?? {}
  const april = tax.lastYear.stillDue - january - stateJanuary - stateReturn
  return {
    federal: season === 0 ? january : season === 3 ? april : 0,
    state:
      (season === 0 ? stateJanuary : 0) +
      (season === seasonOfMonthDay(stateDatesOf(household.place.state).return) ? stateReturn : 0),
  }
}
