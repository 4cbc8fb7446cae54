// What the Crossings page shows, as its JSON says it too.
import type { Day } from '#calendar/day.ts'
import type { Month } from '#calendar/month.ts'
import type { SideKind } from '#ledger/account.ts'
import type { CrossingKind } from '#ledger/crossing-kind.ts'
import type { LeakMonth } from '#ledger/leak.ts'
import type { Cents } from '#money/cents.ts'

export interface EquityFigures {
  side: { id: string; kind: SideKind; name: string }
  equityCents: Cents
  ownedCents: Cents
  owedCents: Cents
  parts: readonly { name: string; cents: Cents; accountId: number | null }[]
}

export interface DueRow {
  standingId: string
  month: Month
  day: Day
  name: string
  kindName: string
  amountCents: Cents
  isMissed: boolean
  /** It was posted before, and taken back. */
  wasTakenBack: boolean
  /** The day of a crossing in the books that may be this very one. */
  alikeOn: Day | null
}

export interface StandingRow {
  id: string
  name: string
  kindName: string
  amountCents: Cents
  from: string
  to: string
  nextDay: Day | null
  endsAfter: Month | null
  isAutomatic: boolean
}

export interface CrossingRow {
  id: string
  day: Day
  kind: CrossingKind
  kindName: string
  amountCents: Cents
  from: { kind: SideKind; name: string; account: string }
  to: { kind: SideKind; name: string; account: string }
  memo: string
  goodsSay: string
  isTakenBack: boolean
  takesBack: boolean
}

export interface CrossingsFigures {
  equity: readonly EquityFigures[]
  leak: readonly LeakMonth[]
  due: readonly DueRow[]
  standing: readonly StandingRow[]
  history: readonly CrossingRow[]
}
