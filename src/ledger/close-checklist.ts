// Before a month is closed: what should have been done by then. Some of it can wait, some of it cannot.
import { type Month, monthName } from '#calendar/month.ts'
import { monthsWords } from '#calendar/spell.ts'

/** What the books know about a month that is to be closed. */
export interface MonthAtClose {
  month: Month
  isOver: boolean
  /** Statement lines of the month that were not sorted. */
  unsortedLines: number
  /** Statement lines dated in the month, sorted or not. */
  readLines: number
  /** Accounts whose statements were read before, and of which nothing was read for this month. */
  unreadAccounts: readonly string[]
  /** Months before it that no file of an account speaks of, though files before and after were read. */
  unreadBefore: readonly { name: string; months: readonly Month[] }[]
  /** Accounts whose reconciliation was begun and not finished. */
  begunAccounts: readonly string[]
  /** Cents left on the accounts for money to be sorted. */
  unsortedMoneyAccounts: number
  /** Standing transfers due in the month and not settled. */
  unsettledTransfers: number
  /** Bank and card accounts with entries in the month, or held against no statement ever; and those reconciled through its end. */
  accountsToReconcile: readonly { name: string; isReconciled: boolean }[]
  /** Accounts whose last statement no longer meets the books in the days through the month's end. */
  changedSinceReconciled: readonly string[]
  /** The month before, when it has entries and is open: closing this one shuts it too. */
  openMonthsBefore: number
}

export interface ChecklistItem {
  id: 'over' | 'lines' | 'unread' | 'unsorted' | 'transfers' | 'begun' | 'reconciled' | 'changed' | 'before'
  /** `stops` must be mended first; `look` may be closed over, with the checklist kept beside the closing. */
  state: 'done' | 'look' | 'stops'
  text: string
}

export const closeChecklist = (at: MonthAtClose): ChecklistItem[] => [
  at.isOver
    ? { id: 'over', state: 'done', text: `${monthName(at.month)} is over` }
    : { id: 'over', state: 'stops', text: `${monthName(at.month)} is not over yet. Close it when it is` },
  counted(
    'lines',
    at.unsortedLines,
    at.readLines > 0 ? 'Every transaction is sorted' : `No transactions in ${monthName(at.month)}`,
    (count) =>
      `${count} ${count === 1 ? 'transaction is' : 'transactions are'} not sorted. Sort ${count === 1 ? 'it' : 'them'} first`,
  ),
  ...unreadItem(at),
  counted(
    'transfers',
    at.unsettledTransfers,
    'Standing transfers are recorded or skipped',
    (count) =>
      `${count} standing ${count === 1 ? 'transfer is' : 'transfers are'} due. Record or skip ${count === 1 ? 'it' : 'them'}`,
  ),
  looked(
    'unsorted',
    at.unsortedMoneyAccounts,
    'No money waits to be sorted',
    (count) =>
      `Money waits on ${count === 1 ? 'an account' : `${count} accounts`} “to be sorted”. Give it its place if you know it`,
  ),
  ...begunItem(at),
  ...reconciledItem(at),
  ...changedItem(at),
  looked(
    'before',
    at.openMonthsBefore,
    'The months before are closed',
    (count) => `${monthsWords(count)} before this one will be shut with it`,
  ),
]

export const mayClose = (items: readonly ChecklistItem[]): boolean =>
  items.every((item) => item.state !== 'stops')

/** Lines that were never read look like lines that are all sorted: only what was read before tells that some are to come. */
const unreadItem = ({ unreadAccounts, unreadBefore }: MonthAtClose): ChecklistItem[] => {
  const says = [
    ...(unreadAccounts.length === 0 ? [] : [`Nothing was read for this month: ${unreadAccounts.join(', ')}`]),
    ...unreadBefore.map(unreadWords),
  ]
  return says.length === 0 ? [] : [{ id: 'unread', state: 'look', text: says.join('. ') }]
}

/** "August 2026 of Farm checking was not read". */
export const unreadWords = ({ name, months }: MonthAtClose['unreadBefore'][number]): string =>
  `${months.map(monthName).join(', ')} of ${name} ${months.length === 1 ? 'was' : 'were'} not read`

/** To be closed over only with a yes to each account (`closeMonth`). */
const begunItem = ({ begunAccounts }: MonthAtClose): ChecklistItem[] =>
  begunAccounts.length === 0
    ? []
    : [
        {
          id: 'begun',
          state: 'look',
          text: `Reconciling was begun and is not finished: ${begunAccounts.join(', ')}`,
        },
      ]

/** What changed since is a point of its own: beside it nothing says that all is reconciled. */
const reconciledItem = ({ accountsToReconcile, changedSinceReconciled }: MonthAtClose): ChecklistItem[] => {
  if (accountsToReconcile.length === 0)
    return [{ id: 'reconciled', state: 'done', text: 'No bank or card account has anything to reconcile' }]
  const open = accountsToReconcile.filter((account) => !account.isReconciled)
  if (open.length > 0) {
    const names = open.map((account) => account.name).join(', ')
    return [{ id: 'reconciled', state: 'look', text: `Not reconciled through the month’s end: ${names}` }]
  }
  return changedSinceReconciled.length > 0
    ? []
    : [{ id: 'reconciled', state: 'done', text: 'Bank and card accounts are reconciled' }]
}

const changedItem = ({ changedSinceReconciled: names }: MonthAtClose): ChecklistItem[] =>
  names.length === 0
    ? []
    : [
        {
          id: 'changed',
          state: 'look',
          text: `Changed since it was reconciled, and no longer as its statement says: ${names.join(', ')}`,
        },
      ]

const counted = (id: ChecklistItem['id'], count: number, done: string, todo: (count: number) => string) =>
  count === 0
    ? ({ id, state: 'done', text: done } as const)
    : ({ id, state: 'stops', text: todo(count) } as const)

const looked = (id: ChecklistItem['id'], count: number, done: string, todo: (count: number) => string) =>
  count === 0
    ? ({ id, state: 'done', text: done } as const)
    : ({ id, state: 'look', text: todo(count) } as const)
