// What the Now page shows, as its JSON says it too. Amounts from the books are cents, those of the plan dollars.

import type { Day } from '#calendar/day.ts'
import type { Month } from '#calendar/month.ts'
import type { BehindAccount } from '#db/reconcile/books-behind.ts'
import type { BooksGap } from '#db/reconcile/books-gaps.ts'
import type { BooksReach } from '#db/reconcile/books-reach.ts'
import type { CoverMonth, Pace } from '#ledger/pace.ts'
import type { Cents } from '#money/cents.ts'
import type { TaxSoFarFigures } from '#today/cover/figures.ts'
import type { MonthReview } from '#today/month-review/figures.ts'
import type { SavingsFrom } from '#today/projection/continued-plan.ts'
import type { StepAhead } from './ahead-words.ts'
import type { DrawsFit } from './draws-fit.ts'
import type { FloorParts } from './floor-parts.ts'
import type { OnProgram } from './on-program.ts'
import type { WorkedToEnd } from './worked-to-end.ts'

export interface NowFigures {
  today: Day
  month: Month
  /** How far the household's books reach, the whole months since then that are missing, and those passed over; null before they hold anything. */
  reach: (BooksReach & { missingMonths: number; gaps: readonly BooksGap[] }) | null
  /** Months that the farm's books pass over, though they go on after. */
  farmGaps: readonly BooksGap[]
  /** Accounts of house and farm whose bank files end before the books do. */
  behind: readonly BehindAccount[]
  /** Loans that are owed in the books and that no loan of the plan pays. */
  loansUntold: readonly { id: number; name: string }[]
  /** What the headline rests on, in sentences. */
  reachSays: readonly string[]
  spendable: {
    cents: Cents
    accounts: readonly { id: number; name: string; cents: Cents }[]
    /** Cards on which more was paid than is booked on them: what of it counts as owed back was said by a person. */
    cards: readonly {
      id: number
      name: string
      side: 'farm' | 'household'
      creditCents: Cents
      countedCents: Cents
    }[]
    /** Statement lines of these accounts that are not booked yet, and what they come to. */
    waiting: { lines: number; cents: Cents }
  }
  plan:
    | { status: 'none' }
    /** Without living costs no months can be told: where the setting up was left. */
    | { status: 'begun'; next: '/start/accounts' | '/start/costs' }
    | { status: 'unreadable'; says: string }
    | {
        status: 'read'
        name: string
        revisionNo: number
        startMonth: Month
        /** The first month that is projected: this one, one before it that the books miss, or a plan's first one to come. */
        projectedFromMonth: Month
        /** Null: savings stay above the floor to the end of the plan. */
        monthsLeft: number | null
        floorMonth: Month | null
        monthsLeftWithoutDraws: number | null
        floorMonthWithoutDraws: Month | null
        /** What lies between now and then without draws, dollars of each month; null when savings last. */
        partsWithoutDraws: FloorParts | null
        /** Once the plan has begun: what it expected of savings by the end of last month, and how far the books are from that. */
        correction: { month: Month; expectedDollars: number; differenceDollars: number } | null
        /** Which savings are counted as the books hold them, and which as the plan has them. */
        savingsFrom: SavingsFrom
        floorDollars: number
        carryMonth: Month | null
        /** The first slower year, up to which the carry month is judged; null: to the end of the plan. */
        carryJudgedTo: Month | null
        /** Draws go on to cover household costs beyond it, to the end of the plan. */
        carriesToTheEnd: boolean
        lowestDollars: number
        lowestMonth: Month | null
        /** Tax owed by then and not yet paid: what it takes off what the accounts hold. */
        lowestTaxOwed: number
        lastMonth: Month
        /** Smallest distance of savings to the floor, and when; below zero once they are under it. */
        marginDollars: number
        marginMonth: Month | null
        /** First month in which nothing can pay what is needed; null when money lasts. */
        runsShort: Month | null
        /** Farm cash drawn beyond the planned draws, which this answer counts on; null where none is. */
        calledOn: { fromMonth: Month; dollars: number; says: string } | null
        /** Adults whom a program of the state covers, which this answer counts on; null where none is. */
        onProgram: OnProgram | null
        /** Work that goes on to the end of the plan, which this answer counts on; null where none does. */
        workedToEnd: WorkedToEnd | null
        /** The draws planned for the coming twelve months, which the farm cannot pay; null where it can. */
        drawsFit: (DrawsFit & { says: string }) | null
        badYears: { count: number; reachFloor: number }
        /** The bad year that leaves the least; null while the bad years were not run yet, or there are none. */
        worst: {
          name: string
          monthsLeft: number | null
          floorMonth: Month | null
          lowestDollars: number
        } | null
      }
  /** At the pace of the trailing months in the books, without the plan. */
  paces: readonly Pace[]
  /** What of the plan's costs and income changes for good within the next twelve months, in order of time. */
  ahead: readonly StepAhead[]
  cover: readonly CoverMonth[]
  leak: {
    since: Month | null
    cents: Cents
    contributionCents: Cents
    drawCents: Cents
    reimbursementCents: Cents
  }
  /**
   * The last twelve whole months in the books: what the household spent, the lasting things bought besides, which Spending's total
   * has too, and its money in the farm as each ended.
   */
  spending: readonly { month: Month; cents: Cents; thingsCents: Cents }[]
  houseMoney: readonly { month: Month; cents: Cents }[]
  past: readonly { month: Month; cents: Cents }[]
  future: readonly { month: Month; dollars: number; low: number; high: number; floor: number }[]
  /** The plan as it was saved, in the months of the future; null where the books have told nothing else. */
  baseline: readonly { month: Month; dollars: number }[] | null
  /** The storms were not run yet: the band comes with `?storms=yes`, or by itself a moment later. */
  stormsWait: boolean
  /** What the month that is over changed; null without a plan, or while it waits. */
  review: MonthReview | null
  /** The review was not worked out yet: it comes by itself a moment later, or with `?review=yes`. */
  reviewWaits: boolean
  due: readonly DueItem[]
  /** What is still to be set up; empty once all is done. */
  firstSteps: readonly FirstStep[]
  /** Tax on what the year has brought so far, dollars; null without a plan or before the books hold anything of the year. */
  tax: TaxSoFarFigures | null
}

export interface FirstStep {
  id: string
  /** The number of the account that it asks about, where each is asked about by itself. */
  of?: number
  says: string
  why: string
  href: string
}

export interface DueItem {
  says: string
  href: string
  /** Set for a standing transfer, which can be posted from here. */
  standing?: { id: string; month: Month; name: string; wasTakenBack: boolean; alikeOn: Day | null }
  day: Day | null
}
