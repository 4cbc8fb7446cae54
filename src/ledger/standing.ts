// Standing transfers: which months are due, which were missed, and on which day each falls. Never twice in a month.
import { type Day, dayInMonth, monthOfDay } from '#calendar/day.ts'
import { addMonths, type Month } from '#calendar/month.ts'
import type { Cents } from '#money/cents.ts'
import type { CrossingKind } from './crossing-kind.ts'
import type { FieldProblem } from './problem.ts'

export interface StandingTransfer {
  id: string
  name: string
  kind: CrossingKind
  fromAccountId: number
  toAccountId: number
  amountCents: Cents
  /** 1 to 31; in shorter months the last day. */
  dayOfMonth: number
  firstMonth: Month
  /** Included; null goes on until ended. */
  lastMonth: Month | null
  posting: 'automatic' | 'confirm'
  memo: string
  archivedAt: string | null
}

export interface Occurrence {
  month: Month
  day: Day
}

/** Months due up to today and neither posted nor skipped, oldest first: the last one may be this month's, the rest were missed. */
export const dueOccurrences = (
  transfer: Pick<StandingTransfer, 'dayOfMonth' | 'firstMonth' | 'lastMonth' | 'archivedAt'>,
  settled: ReadonlySet<Month>,
  today: Day,
): Occurrence[] => {
  if (transfer.archivedAt !== null) return []
  const due: Occurrence[] = []
  const last = Math.min(transfer.lastMonth ?? Number.POSITIVE_INFINITY, monthOfDay(today))
  for (let month = transfer.firstMonth; month <= last; month = addMonths(month, 1)) {
    const day = dayInMonth(month, transfer.dayOfMonth)
    if (day <= today && !settled.has(month)) due.push({ month, day })
  }
  return due
}

/** The next day it falls on after today, or null when it has ended. */
export const nextOccurrence = (
  transfer: Pick<StandingTransfer, 'dayOfMonth' | 'firstMonth' | 'lastMonth' | 'archivedAt'>,
  today: Day,
): Occurrence | null => {
  if (transfer.archivedAt !== null) return null
  let month = Math.max(transfer.firstMonth, monthOfDay(today)) as Month
  if (dayInMonth(month, transfer.dayOfMonth) <= today) month = addMonths(month, 1)
  if (transfer.lastMonth !== null && month > transfer.lastMonth) return null
  return { month, day: dayInMonth(month, transfer.dayOfMonth) }
}

/** What is wrong with a standing transfer before its accounts are looked at. */
export const standingProblems = (
  draft: Pick<StandingTransfer, 'name' | 'amountCents' | 'dayOfMonth' | 'firstMonth' | 'lastMonth'>,
): FieldProblem[] => {
  const problems: FieldProblem[] = []
  if (draft.name.trim() === '') problems.push({ path: 'name', message: 'Give the transfer a name' })
  if (draft.amountCents <= 0)
    problems.push({ path: 'amount', message: 'Enter an amount above zero, like 12.34' })
  if (!Number.isInteger(draft.dayOfMonth) || draft.dayOfMonth < 1 || draft.dayOfMonth > 31)
    problems.push({ path: 'dayOfMonth', message: 'Enter a day from 1 to 31' })
  if (draft.lastMonth !== null && draft.lastMonth < draft.firstMonth)
    problems.push({
      path: 'lastMonth',
      message: 'Choose a last month after the first one, or leave it empty',
    })
  return problems
}
