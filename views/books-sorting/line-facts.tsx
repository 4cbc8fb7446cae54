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
