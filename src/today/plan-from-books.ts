// A plan that has begun, set right by the books: from the start of this month its course goes on from what they hold.
import { addDays, type Day, firstDayOf, monthOfDay } from '#calendar/day.ts'
import { addMonths, type Month, parseMonth } from '#calendar/month.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { balancesOn, spanOfBooks } from '#db/ledger/balances.ts'
import { cardCredits } from '#db/ledger/card-credits.ts'
import { spendableOn } from '#db/ledger/household-months.ts'
import type { Books } from '#db/open.ts'
import { farmSide, isMoney } from '#ledger/account.ts'
import { moneyHeld } from '#ledger/money-held.ts'
import { centsToDollars } from '#money/cents.ts'
import type { Plan } from '#plan/plan.ts'
import type { Restart } from '#runway/compile/compiled-plan.ts'
import { projectionOf } from './courses.ts'

export interface PlanFromBooks {
  plan: Plan
  /** Spendable savings and farm cash at the start of this month by the books; null before the plan or the books have begun. */
  restart: Restart | null
  /** Savings at the end of last month as the plan expected them, and how far the books are from that. */
  correction: { month: Month; expectedDollars: number; differenceDollars: number } | null
}

/** Herds, loans and tax of the year stay as planned: those the plan's own first figures and its revisions set. */
export function planFromBooks(books: Books, plan: Plan, today: Day): PlanFromBooks {
  const month = monthOfDay(today)
  const start = parseMonth(plan.startMonth)!
  const span = spanOfBooks(books)
  const before = projectionOf(plan).months[month - start - 1]
  if (month <= start || !before || !span || span.first >= month)
    return { plan, restart: null, correction: null }
  const eve = addDays(firstDayOf(month), -1)
  const spendable = centsToDollars(spendableOn(books, eve))
  const restart = { month: month - start, spendable, farmCash: farmCashOn(books, eve) }
  const expectedDollars = before.spendable
  return {
    plan,
    restart,
    correction: {
      month: addMonths(month, -1),
      expectedDollars,
      differenceDollars: spendable - expectedDollars,
    },
  }
}

/** Working money of the farm at the end of a day, in dollars. */
export const farmCashOn = (books: Books, day: Day): number => {
  const accounts = listAccounts(books, { sideId: farmSide, withArchived: true })
  return centsToDollars(moneyHeld(balancesOn(books, day), accounts.filter(isMoney), cardCredits(books)))
}
