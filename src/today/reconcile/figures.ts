// What the reconcile pages show: amounts in the sign a person reads for the account.
import type { Day } from '#calendar/day.ts'
import type { ReconcileLine } from '#db/reconcile/reconcile-reader.ts'
import type { SideKind } from '#ledger/account.ts'
import type { Explanation } from '#ledger/reconcile-apart.ts'
import type { Cents } from '#money/cents.ts'

export interface ReconcileAccount {
  id: number
  name: string
  side: { kind: SideKind; name: string }
  balanceCents: Cents
  /** The last finished statement's day, and the open one's id. */
  reconciledThrough: Day | null
  openId: string | null
  /** Set when that statement and the books no longer meet: how much more the books have. */
  changed: { id: string; cents: Cents } | null
  /** What the newest file of the account says, if it is later than that; on a card what is owed. */
  fileSays: { day: Day; balanceCents: Cents } | null
}

export interface ReconcileListFigures {
  accounts: readonly ReconcileAccount[]
}

export interface ExplainedLine {
  /** Null for a line of the bank's file that is not in the books. */
  entryNo: number | null
  postingId: number | null
  day: Day
  payee: string
  amountCents: Cents
  isSetAside: boolean
}

/** What by itself would explain that books and statement differ. */
export interface ExplanationFigures {
  kind: Explanation['kind']
  lines: readonly ExplainedLine[]
  /** What a mistyped amount should be. */
  shouldBeCents: Cents | null
  /** What the account held before its first line, by its files, and the day of that line. */
  opening: { day: Day; cents: Cents } | null
}

export interface ReconcileLineFigures extends Omit<ReconcileLine, 'entryId'> {
  /** It stands in an explanation of the difference. */
  isExplaining: boolean
}

export interface ChangedLineFigures {
  entryNo: number
  day: Day
  payee: string
  amountCents: Cents
  reversesNo: number | null
}

export interface ReconcileFigures {
  id: string
  account: { id: number; sideId: string; name: string; isDebt: boolean }
  side: { kind: SideKind; name: string }
  state: 'open' | 'finished'
  statementDay: Day
  previousBalanceCents: Cents
  statementBalanceCents: Cents
  tickedCents: Cents
  /** The statement against what the books have now: of a finished one, not zero when it no longer holds. */
  differenceCents: Cents
  /** What came into the books since it was finished and keeps it from holding; empty while it holds. */
  changed: readonly ChangedLineFigures[]
  note: string
  /** The likeliest first; empty when nothing is left over, or nothing by itself explains it. */
  explanations: readonly ExplanationFigures[]
  lines: readonly ReconcileLineFigures[]
  /** Only the last finished one of an account can be taken up again. */
  mayReopen: boolean
}
