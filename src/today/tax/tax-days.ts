// The days on which a year's tax is due, with what the worksheet still asks to be paid ahead on them.
import { addDays, type Day } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'
import type { Plan } from '#plan/plan.ts'
import type { DueDate } from '#rules/due-date.ts'
import { stateTaxDates, taxDates } from '#rules/due-dates.ts'
import type { StateCode } from '#rules/places/state-names.ts'
import { booksYear, hasResults, isFarmer } from './books-year.ts'
import type { AheadKind } from './paid-for.ts'
import { worksheetAfterPayments } from './tax-payments.ts'

export interface TaxDay {
  date: DueDate
  /** Dollars, by the books so far; null of a return, and of a year that cannot be worked yet. */
  stillAhead: number | null
}

/** All days of a tax year, but those on which the state asks for nothing. `state` is null where none of its tax counts. */
export const taxDays = (
  books: Books,
  plan: Plan | null,
  taxYear: number,
  state: StateCode | null,
  today: Day,
): TaxDay[] => {
  const farmer = isFarmer(books, plan, taxYear)
  const left = stillAhead(books, plan, taxYear)
  return [...taxDates(taxYear, farmer), ...(state ? stateTaxDates(state, taxYear, farmer) : [])]
    .filter(
      ({ kind, day }) =>
        kind !== 'state-estimated-tax' || !(isNear(day, today) && asksNothingOn(left.state, day)),
    )
    .map((date) => ({ date, stillAhead: leftOn(left, date) }))
}

/**
 * Whether the worksheet asks for no more on a state's day of payment that is near or over. What lies further off may still be asked
 * for by what the year brings until then.
 */
export const asksStateNothing = (
  books: Books,
  plan: Plan | null,
  taxYear: number,
  due: Day,
  today: Day,
): boolean => isNear(due, today) && asksNothingOn(stillAhead(books, plan, taxYear).state, due)

const asksNothingOn = (state: StillAhead['state'], due: Day): boolean => state !== null && !state.has(due)

const isNear = (due: Day, today: Day): boolean => due <= addDays(today, nearDays)

/** As far ahead as Now lists days of tax. */
export const nearDays = 75

/** By day, dollars. Null of a year that cannot be worked yet, and for the state where none of its tax counts. */
type StillAhead = Record<AheadKind, ReadonlyMap<Day, number> | null>

const stillAhead = (books: Books, plan: Plan | null, taxYear: number): StillAhead => {
  const { worked } = worksheetAfterPayments(books, plan, taxYear)
  if (worked.status === 'cannot' || !hasResults(booksYear(books, taxYear)))
    return { federal: null, state: null }
  const byDay = (installments: readonly { due: Day; amount: number }[]) =>
    new Map(installments.map(({ due, amount }) => [due, amount]))
  const { estimated, stateEstimated } = worked.tax
  return {
    federal: byDay(estimated.installments),
    state: stateEstimated && byDay(stateEstimated.installments),
  }
}

const leftOn = ({ federal, state }: StillAhead, { kind, day }: DueDate): number | null => {
  if (kind === 'estimated-tax') return federal && (federal.get(day) ?? 0)
  return kind === 'state-estimated-tax' && state ? (state.get(day) ?? 0) : null
}
