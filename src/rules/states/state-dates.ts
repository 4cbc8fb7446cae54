// When a state wants its income tax: the return, and what is paid ahead.
import { type Day, day } from '#calendar/day.ts'
import {
  type EstimatedTaxInput,
  estimatedTaxPlan,
  onBusinessDay,
  quarterlyShares,
  unpaidOf,
} from '../estimated-tax.ts'
import { type StateCode, stateNames } from '../places/state-names.ts'
import { stateData } from './state-data.ts'

export interface StateDates {
  /** Month and day in the year after the tax year, like 04-15. */
  return: string
  /** Of the four payments ahead: three in the tax year, the last in the January after it; and the part of the year's that each is, 0 where none is asked. */
  estimated: readonly string[]
  shares: readonly number[]
  /** Null where they are the federal ones, which is then said. */
  source: string | null
}

const federal: StateDates = {
  return: '04-15',
  estimated: ['04-15', '06-15', '09-15', '01-15'],
  shares: quarterlyShares,
  source: null,
}

/** The data has those that differ; of all other states the federal dates are taken. */
export const stateDatesOf = (state: StateCode | null | undefined): StateDates => {
  const due = state ? stateData(state).due : undefined
  if (due === undefined) return federal
  return {
    return: due.return ?? federal.return,
    estimated: due.estimated ?? federal.estimated,
    shares: due.shares ?? federal.shares,
    source: `${due.source} (${due.obtained === 'read' ? 'second hand' : 'from memory'})`,
  }
}

/** Days of a tax year, moved as the federal ones are where they meet a weekend or a holiday. */
export const stateInstallmentsDue = ({ estimated }: StateDates, taxYear: number): Day[] =>
  estimated.map((monthDay) => onBusinessDay(day(`${monthDay < '02' ? taxYear + 1 : taxYear}-${monthDay}`)))

/** Whether anything is to be paid before the return. */
export const asksAhead = ({ shares }: StateDates): boolean => shares.some((part) => part > 0)

export const stateReturnDue = (dates: StateDates, taxYear: number): Day =>
  onBusinessDay(day(`${taxYear + 1}-${dates.return}`))

/** Calendar month of a month and day, January 0. */
export const seasonOfMonthDay = (monthDay: string): number => Number(monthDay.slice(0, 2)) - 1

export interface StateEstimatedTax {
  name: string
  installments: { due: Day; amount: number }[]
  returnDue: Day
  /** Null where the federal dates are taken. */
  source: string | null
}

/** What is still to be paid ahead to a state, by the federal shares and bounds on its own tax and days; a farmer pays once. Null without income tax. */
export const stateEstimatedTax = (state: StateCode, input: EstimatedTaxInput): StateEstimatedTax | null => {
  if (!stateData(state).hasIncomeTax) return null
  const dates = stateDatesOf(state)
  const { farmer, installments } = estimatedTaxPlan({ ...input, paid: 0 })
  const all = installments.reduce((sum, { amount }) => sum + amount, 0)
  const days = stateInstallmentsDue(dates, input.taxYear)
  const parts = farmer && asksAhead(dates) ? [0, 0, 0, 1] : dates.shares
  return {
    name: stateNames[state],
    installments: unpaidOf(
      days.map((due, k) => ({ due, amount: all * parts[k]! })),
      input.paid,
    ),
    returnDue: stateReturnDue(dates, input.taxYear),
    source: dates.source,
  }
}
