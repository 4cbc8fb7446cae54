// The facts of one waiting line, wherever it is shown.
import { type Day, dayName } from '#calendar/day.ts'
import type { SideKind } from '#ledger/account.ts'
import type { Cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { SideWord } from '../parts/side.tsx'

export interface DeskRow {
  id: number
  accountId: number
  account: string
  side: { name: string; kind: SideKind }
  day: Day
  amount: Cents
  payee: string
  memo: string
  checkNumber: string
  /** Why it is doubtful; `''` for the others. */
  doubt: string
  /** It may replace another line. */
  hasEarlier: boolean
  /** The last month that is closed, like “February 2026”, where its day lies in or before it and it is not in the books; else `''`. */
  closed: string
  /** Another kind of file brought the same movement: ticked to be set aside. */
  isLikelyTwin: boolean
  /** `places`: where the payee's transactions went before, likeliest first. */
  proposal: {
    value: string
    says: string
    why: string
    isSure: boolean
    places: readonly string[]
  } | null
}

/** Nothing can be booked on its day before the month is open again. */
export const ClosedNote = ({ rows }: { rows: readonly Pick<DeskRow, 'closed' | 'side'>[] }) => {
  const shut = rows.filter(({ closed }) => closed !== '')
  const [first] = shut
  if (!first) return null
  const which = shut.length === rows.length ? '' : `, where ${shut.length} of ${rows.length} lie`
  return (
    <span class="closed-note">
      The books of {first.side.name} are closed through {first.closed}
      {which}. To book on {shut.length === 1 ? 'its own day' : 'their own days'}:{' '}
      <a href="/books/close">Reopen the month</a>
    </span>
  )
}

export const LineFacts = ({ row }: { row: DeskRow }) => (
  <p class="sorting-facts">
    <span class="sorting-day">{dayName(row.day)}</span>
    <span class="sorting-payee">
      <strong>{row.payee || row.memo || 'No text'}</strong>
      {row.payee && row.memo ? <span class="hint"> {row.memo}</span> : null}
      {row.checkNumber ? <span class="hint"> check {row.checkNumber}</span> : null}
    </span>
    <span class="sorting-account">
      <SideWord kind={row.side.kind}>{row.account}</SideWord>
    </span>
    <span class="amount">
      <span class="hidden-text">{row.amount < 0 ? 'Out: ' : 'In: '}</span>
      {formatCents(row.amount)}
    </span>
  </p>
)
