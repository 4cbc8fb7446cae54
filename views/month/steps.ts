// The steps of the month's path: what is done, what is left of each, and the one sentence that says where the month stands.
import { dayName, lastDayOf, monthOfDay } from '#calendar/day.ts'
import { type Month, monthName } from '#calendar/month.ts'
import { unreadWords } from '#ledger/close-checklist.ts'
import { formatCents } from '#money/format.ts'
import { allOf } from '#money/lists.ts'
import type { MonthPageFigures } from './figures.ts'

export interface Step {
  id: 'files' | 'sort' | 'transfers' | 'reconcile' | 'close' | 'look'
  name: string
  isDone: boolean
  /** What is left of it, in a few words. */
  left: string
}

export const stepsOf = (figures: MonthPageFigures): Step[] => {
  const missing = figures.files.filter((file) => file.isMissing || file.unreadBefore.length > 0)
  const waiting = waitingIn(figures)
  const unreconciled = figures.reconcile.filter(({ state }) => state !== 'done')
  const isClosed = isShut(figures)
  const isBare = isUntouched(figures)
  const name = monthName(figures.month)
  return [
    {
      id: 'files',
      name: 'Files',
      isDone: missing.length === 0 && figures.files.length > 0,
      left: filesLeft(figures),
    },
    {
      id: 'sort',
      name: 'Sort',
      isDone: waiting === 0 && !isBare,
      left: isBare
        ? 'after the files'
        : waiting === 0
          ? `${figures.sort.read} of ${name}, all sorted`
          : `${waiting} left`,
    },
    {
      id: 'transfers',
      name: 'Transfers',
      isDone: dueThrough(figures).length === 0 && !isBare,
      left: transfersLeft(figures),
    },
    {
      id: 'reconcile',
      name: 'Reconcile',
      isDone: unreconciled.length === 0 && !isBare,
      left: isBare
        ? 'after the files'
        : figures.reconcile.length === 0
          ? 'nothing moved'
          : unreconciled.length === 0
            ? `all ${figures.reconcile.length} accounts`
            : `${unreconciled.length} left of ${figures.reconcile.length}`,
    },
    { id: 'close', name: 'Close', isDone: isClosed, left: closeLeft(figures) },
    { id: 'look', name: 'Look', isDone: false, left: 'what the month changed' },
  ]
}

/** "October waits for 5 transactions, then it can be closed." */
export const answerOf = (figures: MonthPageFigures): string => {
  const name = monthName(figures.month)
  const waits = [
    counted(waitingIn(figures), 'transaction'),
    counted(dueThrough(figures).length, 'transfer'),
    counted(figures.files.filter((file) => file.isMissing).length, 'file', 'from the bank'),
  ].filter(Boolean)
  if (isShut(figures)) return `${name} is closed.`
  if (waits.length > 0)
    return `${name} waits for ${allOf(waits)}${figures.isOver ? ', then it can be closed' : ''}.`
  if (isUntouched(figures) || (figures.files.length === 0 && !figures.isOver))
    return `No bank file has been read yet. Begin with the files of ${name}.`
  if (!figures.isOver) return `Nothing waits. ${name} can be closed when it is over.`
  if (figures.close.length === 0) return `Nothing was booked in ${name}.`
  const begun = figures.close.flatMap((side) => side.begun.map((account) => account.name))
  const against = againstClosing(figures)
  if (begun.length === 0)
    return against === '' ? `${name} can be closed.` : `${name} can be closed; ${against}.`
  return `${name} can be closed; reconciling ${begun.join(', ')} was begun and is not finished.`
}

export const isShut = ({ close }: Pick<MonthPageFigures, 'close'>): boolean =>
  close.length > 0 && close.every((side) => side.isClosed)

/** Before any file, in a month that what is booked by hand does not reach: there is nothing in it to sort, reconcile or close. */
export const isUntouched = ({
  files,
  close,
  reach,
  month,
}: Pick<MonthPageFigures, 'files' | 'close' | 'reach' | 'month'>): boolean =>
  files.length === 0 && (close.length === 0 || reach === null || monthOfDay(reach) < month)

export const waitingIn = ({ sort }: MonthPageFigures): number => sort.inShown + sort.moreSure + sort.left

const counted = (count: number, one: string, more = ''): string =>
  count === 0 ? '' : `${count} ${one}${count === 1 ? '' : 's'}${more === '' ? '' : ` ${more}`}`

/** Due by the end of the month that is shown: one of a later month keeps this one from nothing. */
const dueThrough = ({ transfers, month }: MonthPageFigures) =>
  transfers.filter(({ day }) => day <= lastDayOf(month))

const transfersLeft = (figures: MonthPageFigures): string => {
  const [all, through] = [figures.transfers.length, dueThrough(figures).length]
  if (all === 0) return 'none is due'
  if (through === 0) return `none through ${monthName(figures.month)}, ${all} due since`
  return all === through ? `${all} due` : `${through} due, ${all - through} more since`
}

const filesLeft = (figures: MonthPageFigures): string => [readWords(figures), ...gapsOf(figures)].join('. ')

/** "August 2026 of Farm checking was not read", until it is. */
const gapsOf = ({ files }: MonthPageFigures): string[] =>
  files
    .filter(({ unreadBefore }) => unreadBefore.length > 0)
    .map(({ name, unreadBefore: months }) => unreadWords({ name, months }))

const readWords = (figures: MonthPageFigures): string => {
  const { files, month, reach } = figures
  const missing = files.filter((file) => file.isMissing)
  if (files.length === 0) return 'none read yet'
  if (missing.length > 0)
    return `nothing read of ${monthName(month)}: ${missing.map((file) => endsBefore(file, month)).join('; ')}`
  const least = files.map((file) => file.through).toSorted()[0]!
  if (least >= lastDayOf(month)) return `all reach the end of ${monthName(month)}`
  return waitingIn(figures) > 0 || reach === null
    ? `read for ${monthName(month)}`
    : `the books reach ${dayName(reach)}`
}

/** Read to the month before, it is the turn of this one's; what ends earlier says since when. */
const endsBefore = ({ name, through }: MonthPageFigures['files'][number], month: Month): string =>
  monthOfDay(through) < month - 1 ? `${name}, read to ${dayName(through)}` : name

const closeLeft = (figures: MonthPageFigures): string => {
  const { close, month, isOver } = figures
  if (isShut(figures)) return `${monthName(month)} is closed`
  if (isUntouched(figures)) return 'nothing is booked'
  if (!isOver) return 'when the month is over'
  if (waitingIn(figures) > 0 || close.some((side) => side.stops.length > 0)) return 'after that'
  const against = againstClosing(figures)
  return against === '' ? 'it can be closed' : `it can be closed; ${against}`
}

/** What a month may be closed over, and better is not. */
const againstClosing = ({ reconcile }: Pick<MonthPageFigures, 'reconcile'>): string => {
  const named = (state: MonthPageFigures['reconcile'][number]['state']) =>
    reconcile.filter((account) => account.state === state).map(({ name }) => name)
  const apart = named('apart')
  if (apart.length > 0) return `bank and books are apart: ${apart.join(', ')}`
  const open = reconcile.filter(({ state }) => state !== 'done' && state !== 'untold')
  return open.length === 0 ? '' : `not reconciled yet: ${open.map(({ name }) => name).join(', ')}`
}

/** "$12.00 more", as the books have it against the file. */
export const apartWords = (cents: MonthPageFigures['reconcile'][number]['apartCents']): string =>
  `${formatCents(Math.abs(cents) as typeof cents)} ${cents > 0 ? 'more' : 'less'}`
