// The farm's net cash of the twelve months before a plan goes on, which a draw as a share of its surplus looks back on.
import { type Month, monthOfYear } from '#calendar/month.ts'
import { spanOfBooks } from '#db/ledger/balances.ts'
import { farmNetMonths } from '#db/ledger/farm-months.ts'
import type { Books } from '#db/open.ts'
import { centsToDollars, zeroCents } from '#money/cents.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import type { Plan } from '#plan/plan.ts'
import { netBefore } from '#runway/compile/compile-ahead.ts'
import type { ProjectedMonth, Projection } from '#runway/project.ts'

/** January to December: by the books where they hold the month whole, else as planned. Null where draws look at nothing behind them. */
export function farmNetBefore(
  books: Books,
  saved: Plan,
  month: Month,
  baseline: Projection | null,
): number[] | null {
  if (saved.draw.policy !== 'share') return null
  const start = firstMonthOf(saved)
  const booked = farmNetMonths(books, (month - 12) as Month, (month - 1) as Month)
  const first = booked.size > 0 ? spanOfBooks(books)!.first : month
  const before = netBefore(saved, start, 1)
  const net = new Array<number>(12).fill(0)
  for (let at = (month - 12) as Month; at < month; at = (at + 1) as Month) {
    net[monthOfYear(at) - 1] =
      at > first
        ? centsToDollars(booked.get(at) ?? zeroCents)
        : at >= start
          ? farmNetIn(baseline!.months[at - start]!)
          : before[at - start + 12]!
  }
  return net
}

/** A projected month's, before purchases and draws. */
export const farmNetIn = (month: ProjectedMonth): number =>
  month.farmSales - month.farmCosts + month.farmStock + month.farmLoans + month.farmPurchaseGains
