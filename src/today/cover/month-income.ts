// What a month that is over brought by the books, as programs of the state look at it.
import { type Month, yearOf } from '#calendar/month.ts'
import { spanOfBooks } from '#db/ledger/balances.ts'
import type { Books } from '#db/open.ts'
import type { Plan } from '#plan/plan.ts'
import { bookedBetween, unearned } from '#today/projection/booked-between.ts'
import { yearIncome } from '#today/tax/books-year.ts'

/**
 * Dollars as of a whole year of such months: pay, pensions, benefits and what money earned are the month's own; farm and ventures, which
 * come by seasons, go by their year (42 CFR 435.603(h)(3)). Null where the books hold nothing of the month.
 */
export const monthIncome = (books: Books, saved: Plan, month: Month): number | null => {
  const span = spanOfBooks(books)
  if (span === null || month < span.first) return null
  const booked = bookedBetween(books, month, (month + 1) as Month)
  const year = yearIncome(books, saved, yearOf(month))
  if (booked === null || year === null) return null
  const { income } = booked
  const own = income.pay + Math.max(0, unearned(income)) + income.lines.socialSecurity
  return own * 12 + year.farmProfit + year.ventureProfit
}
