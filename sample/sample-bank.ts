// The span of the sample's statements, its bank accounts, and how its bank dates what it posts.
import { addDays, type Day, dayInMonth, monthOfDay, weekdayOf } from '#calendar/day.ts'
import { type Month, month } from '#calendar/month.ts'

export type BankAccountName = 'farm' | 'household' | 'savings'

export interface Movement {
  account: BankAccountName
  day: Day
  /** Into the account positive. */
  cents: number
  payee: string
  memo: string
  check?: string
}

export const firstMonth = month(2023, 11)
export const lastMonth = month(2026, 10)
export const sampleMonths: readonly Month[] = Array.from(
  { length: lastMonth - firstMonth + 1 },
  (_, index) => (firstMonth + index) as Month,
)

/** On November 1, 2023, in cents. */
export const openingCents: Readonly<Record<BankAccountName, number>> = {
  farm: 12_600_00,
  household: 8_920_00,
  savings: 149_000_00,
}

/** Banks post on working days: what falls on a weekend comes on Monday. */
export const postedOn = (wanted: Day): Day => {
  const weekday = weekdayOf(wanted)
  return weekday === 6 ? addDays(wanted, 2) : weekday === 0 ? addDays(wanted, 1) : wanted
}

/** The posting day for a date of a month, moved back when it would leave the month. */
export const postedInMonth = (inMonth: Month, date: number): Day => {
  const posted = postedOn(dayInMonth(inMonth, date))
  return monthOfDay(posted) === inMonth ? posted : addDays(posted, -3)
}
