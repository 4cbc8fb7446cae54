// What the return of the year before still asks for, or gives back, from a month on, and in which months.
import { firstDayOf } from '#calendar/day.ts'
import { type Month, month as monthOf, monthOfYear, monthText, yearOf } from '#calendar/month.ts'
import type { Books } from '#db/open.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import type { Plan } from '#plan/plan.ts'
import { stateLawOf } from '#plan/state-law.ts'
import { seasonOfMonthDay, stateDatesOf } from '#rules/states/state-dates.ts'
import type { SettledApart } from '#runway/compile/plan-of-day.ts'
import type { Projection } from '#runway/project.ts'
import { booksYear, holdsAllOf, isFarmer } from '#today/tax/books-year.ts'
import { nothingPaid, paidAhead } from '#today/tax/paid-for.ts'
import { type ReturnKind, returnKinds } from '#today/tax/return-kinds.ts'
import { balanceWith, taxPayments, workedYear } from '#today/tax/tax-payments.ts'

/** The federal return is settled in it, and the state's in its own month. */
const settlementMonth = 4

interface LastYearDue {
  stillDue: number
  settles: SettledApart
}

const noneApart: SettledApart = { january: 0, stateJanuary: 0, stateReturn: 0 }

export function lastYearDue(
  books: Books,
  saved: Plan,
  month: Month,
  baseline: Projection | null,
): LastYearDue {
  const year = yearOf(month)
  if (yearOf(firstMonthOf(saved)) === year)
    return {
      stillDue: monthOfYear(month) <= settlementMonth ? saved.tax.lastYear.stillDue : 0,
      settles: noneApart,
    }
  if (isBooked(books, year - 1)) return byBooks(books, saved, month)
  return byPlan(saved, month, baseline)
}

/** Of a course January settles only the year before; what it leaves, the return does. */
function byPlan(saved: Plan, month: Month, baseline: Projection | null): LastYearDue {
  const year = yearOf(month)
  const planned = baseline?.years.find((one) => one.year === year - 1)
  if (!planned) return { stillDue: 0, settles: noneApart }
  const ahead = settlesOf(baseline, year - 1)
  const isBegun = monthOfYear(month) > 1
  const federal = planned.taxLeft - planned.stateTaxLeft - (isBegun ? ahead.january : 0)
  const state = planned.stateTaxLeft - (isBegun ? ahead.stateJanuary : 0)
  return dueIn(saved, month, { federal, state }, isBegun ? noneApart : ahead)
}

/** What is over is settled; `ahead`: what of it January does. */
const dueIn = (
  { household }: Plan,
  month: Month,
  left: { federal: number; state: number },
  { january, stateJanuary }: Omit<SettledApart, 'stateReturn'>,
): LastYearDue => {
  const stateMonth = seasonOfMonthDay(stateDatesOf(household.place.state).return) + 1
  const federal = monthOfYear(month) <= settlementMonth ? left.federal : 0
  const state = monthOfYear(month) <= stateMonth ? left.state : 0
  return { stillDue: federal + state, settles: { january, stateJanuary, stateReturn: state - stateJanuary } }
}

/** What a course settles of a year in the January after it, where it pays nothing else, and with the state’s return. */
export const settlesOf = (course: Projection | null, year: number): SettledApart => {
  const paid = course?.months.find(({ month }) => month === monthText(monthOf(year + 1, 1)))
  const left = course?.years.find((one) => one.year === year)
  if (!paid || !left) return noneApart
  const { taxes, stateTaxes } = paid
  return {
    january: taxes - stateTaxes,
    stateJanuary: stateTaxes,
    stateReturn: left.stateTaxLeft - stateTaxes,
  }
}

function byBooks(books: Books, saved: Plan, month: Month): LastYearDue {
  const left = (to: ReturnKind) => (taxOffices(saved).includes(to) ? leftOf(books, saved, month, to) : 0)
  const federal = left('federal')
  const state = left('state') + left('local')
  const ahead = monthOfYear(month) === 1 ? aheadInJanuary(books, saved, month) : { federal: 0, state: 0 }
  return dueIn(
    saved,
    month,
    { federal, state },
    {
      january: Math.min(Math.max(0, federal), ahead.federal),
      stateJanuary: Math.min(Math.max(0, state), ahead.state),
    },
  )
}

/** By the worksheet, after what was paid before the month; below zero comes back. */
function leftOf(books: Books, saved: Plan, month: Month, to: ReturnKind): number {
  const { worked, paid } = workedBefore(books, saved, month, to)
  if (worked.status === 'cannot') return 0
  const owed = balanceWith(to, worked.tax, paidAhead(paid)) + paid.appliedToNext
  return owed > 0 ? Math.max(0, owed - paid.withReturn) : Math.min(0, owed + paid.refunded)
}

function workedBefore(books: Books, saved: Plan, month: Month, to: ReturnKind) {
  const year = yearOf(month) - 1
  const before = { day: firstDayOf(month) }
  const paid = taxPayments(books, saved, year, to, before)
  const federal = taxPayments(books, saved, year, 'federal', before)
  return { paid, worked: workedYear(books, saved, year, to === 'federal' ? federal : nothingPaid) }
}

/** What each office wants by the middle or the end of January: of a farmer all of it, of others what is left of the payments ahead. */
function aheadInJanuary(books: Books, saved: Plan, month: Month): { federal: number; state: number } {
  const year = yearOf(month) - 1
  if (isFarmer(books, saved, year))
    return { federal: Number.POSITIVE_INFINITY, state: Number.POSITIVE_INFINITY }
  const before = { day: firstDayOf(month) }
  const paid = (to: ReturnKind) => taxPayments(books, saved, year, to, before)
  const worked = workedYear(books, saved, year, paid('federal'), paid('state'))
  if (worked.status === 'cannot') return { federal: 0, state: 0 }
  const sum = (installments: readonly { due: string; amount: number }[] = []) =>
    installments.reduce(
      (all, { due, amount }) => (due < firstDayOf((month + 1) as Month) ? all + amount : all),
      0,
    )
  return {
    federal: sum(worked.tax.estimated.installments),
    state: sum(worked.tax.stateEstimated?.installments),
  }
}

/** Whether the books hold the whole of a year, the farm's among them. */
export const isBooked = (books: Books, year: number): boolean =>
  holdsAllOf(books, year) && booksYear(books, year).farm !== null

/** State and local tax count in the projection where the plan has them; else what was paid of it is no matter of the plan's. */
export const taxOffices = (plan: Plan): ReturnKind[] =>
  stateLawOf(plan, yearOf(firstMonthOf(plan))) === null ? ['federal'] : [...returnKinds]
