// What a month changed, as page, JSON and terminal say it. Dollars.
import type { Month } from '#calendar/month.ts'
import type { LineAbout } from '#runway/against-books/variance-lines.ts'

/** `time`: the month as it was expected. `plan`: the plan was changed. `rest`: what comes of starting again from the books. */
export type ReviewPartKind = 'time' | LineAbout | 'plan' | 'rest'

export interface ReviewPart {
  kind: ReviewPartKind
  name: string
  /** What it did to spendable savings by the end of the month. */
  savings: number
  /** What it does to them by the end of the same month a year on, less what nothing could pay until then. */
  yearAhead: number
  /** What it did to months left; null where it ends or begins lasting to the end of the plan. */
  months: number | null
  /** Months left with this part and those before it; null: to the end of the plan. */
  monthsLeft: number | null
}

export type MonthReview =
  | { status: 'none'; says: string }
  | {
      status: 'read'
      /** The month that is told of: the last one that is over. */
      month: Month
      /** At its start by the plan of then, and now. Null: to the end of the plan. */
      monthsLeft: { before: number | null; now: number | null }
      savings: { before: number; expected: number; now: number }
      yearAhead: { before: number; now: number }
      /** In the order in which each was put in place of what was expected; together they are the whole change. */
      parts: readonly ReviewPart[]
      /** Household costs, premiums and taxes with them, as Now tells the household’s spending. */
      spending: { planned: number; actual: number }
      /** One-off items, and things bought to last. */
      things: { planned: number; actual: number }
      /** House money in the farm; null without a farm in the books. */
      inFarm: { before: number; now: number } | null
      /** The revision that stood as the month began, and the one of now. */
      revisions: { before: number; now: number }
      /** Why the plan of then is not the one that stood as the month began, in a sentence; null where it is. */
      standsIn: string | null
    }
