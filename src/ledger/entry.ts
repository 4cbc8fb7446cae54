// A balanced entry on one side. `balanceEntry` is the only way to get one, and says what is wrong at which field.
import { type Day, dayName, monthOfDay } from '#calendar/day.ts'
import { type Month, monthName } from '#calendar/month.ts'
import { CENTS_MAX, type Cents, sumCents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import type { Account, SideId } from './account.ts'
import { type FieldProblem, laterDayOrReopen } from './problem.ts'

export const entrySources = [
  'form',
  'crossing',
  'receipt',
  'standing',
  'statement',
  'opening',
  'reversal',
  'import',
] as const
export type EntrySource = (typeof entrySources)[number]

export interface DraftLine {
  accountId: number
  /** Debits positive. */
  amountCents: Cents
  memo?: string
  enterpriseId?: string | null
  /** The batch a sale or cost belongs to. */
  batchId?: string | null
  crossingId?: string | null
}

export interface EntryDraft {
  /** Made by the form, so that sending twice books once. */
  id: string
  sideId: SideId
  day: Day
  payee: string
  memo: string
  source: EntrySource
  lines: readonly DraftLine[]
}

declare const balancedBrand: unique symbol
export type BalancedEntry = EntryDraft & { readonly [balancedBrand]: true }

/** What the books know when an entry is drafted. */
export interface EntryGround {
  account(id: number): Account | undefined
  /** The last month that is closed on a side, or null. */
  closedThrough(side: SideId): Month | null
  /** The day of a side's first opening balances, or null. */
  opensOn(side: SideId): Day | null
}

const textLimit = 500

export const balanceEntry = (
  draft: EntryDraft,
  ground: EntryGround,
): { ok: true; entry: BalancedEntry } | { ok: false; problems: FieldProblem[] } => {
  const problems = [
    ...textProblems(draft),
    ...closedProblems(draft, ground),
    ...earlyProblems(draft, ground),
    ...draft.lines.flatMap((line, index) => lineProblems(draft, line, index, ground)),
  ]
  if (problems.length === 0) problems.push(...balanceProblems(draft))
  return problems.length > 0 ? { ok: false, problems } : { ok: true, entry: draft as BalancedEntry }
}

const textProblems = (draft: EntryDraft): FieldProblem[] =>
  (['payee', 'memo'] as const)
    .filter((field) => draft[field].length > textLimit)
    .map((field) => ({ path: field, message: `Shorten this to ${textLimit} letters or fewer` }))

const closedProblems = (draft: EntryDraft, ground: EntryGround): FieldProblem[] => {
  const closed = ground.closedThrough(draft.sideId)
  return closed !== null && monthOfDay(draft.day) <= closed ? [closedMonthProblem(closed)] : []
}

/** Opening balances hold all that came before them: an entry of an earlier day would count it a second time. */
const earlyProblems = ({ source, sideId, day }: EntryDraft, ground: EntryGround): FieldProblem[] => {
  const opened = source === 'opening' || source === 'reversal' ? null : ground.opensOn(sideId)
  return opened !== null && day < opened
    ? [
        {
          path: 'day',
          message: `These books begin on ${dayName(opened)}, with balances that hold all that came before. Choose that day or a later one`,
        },
      ]
    : []
}

export const closedMonthProblem = (closed: Month, path = 'day'): FieldProblem => ({
  path,
  message: `These books are closed through ${monthName(closed)}. ${laterDayOrReopen}`,
})

const lineProblems = (
  draft: EntryDraft,
  line: DraftLine,
  index: number,
  ground: EntryGround,
): FieldProblem[] => {
  const at = (field: string, message: string) => [{ path: `lines.${index}.${field}`, message }]
  const account = ground.account(line.accountId)
  if (!account) return at('account', 'Choose an account from the list')
  if (account.sideId !== draft.sideId)
    return at(
      'account',
      `“${account.name}” is in other books. Choose an account of these books, or record a crossing`,
    )
  if (account.archivedAt !== null)
    return at('account', `“${account.name}” was archived. Choose another account, or bring it back`)
  if (account.crossingRole !== null && !line.crossingId)
    return at('account', `“${account.name}” stands for the other side. Record a crossing instead`)
  if (line.amountCents === 0) return at('amount', 'Enter an amount, like 12.34')
  if (Math.abs(line.amountCents) > CENTS_MAX)
    return at('amount', 'That is more than these books can hold. Check the amount')
  if ((line.memo ?? '').length > textLimit) return at('memo', `Shorten this to ${textLimit} letters or fewer`)
  return []
}

const balanceProblems = (draft: EntryDraft): FieldProblem[] => {
  if (draft.lines.length < 2) return [{ path: 'lines', message: 'Enter at least two lines' }]
  const off = sumCents(draft.lines.map((line) => line.amountCents))
  if (off === 0) return []
  const more = off > 0 ? 'debits are larger than credits' : 'credits are larger than debits'
  return [
    {
      path: 'lines',
      message: `The lines do not balance: ${more} by ${formatCents(Math.abs(off) as Cents)}. Change a line so that both are equal`,
    },
  ]
}
