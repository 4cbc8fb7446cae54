// What the closing page shows for each side: how far it is shut, what should be done first, and the trace of what was reopened.
import type { Day } from '#calendar/day.ts'
import type { Month } from '#calendar/month.ts'
import type { SideKind } from '#ledger/account.ts'
import type { ChecklistItem } from '#ledger/close-checklist.ts'

export interface ClosingFigures {
  id: string
  month: Month
  /** ISO instants. */
  closedAt: string
  /** By this computer’s calendar. */
  closedOn: Day
  note: string
  reopenedAt: string | null
  reopenedOn: Day | null
  reopenReason: string | null
  openItems: number
}

export interface SideClosingFigures {
  side: { id: string; kind: SideKind; name: string }
  closedThrough: Month | null
  /** The month whose checklist is shown, and whether it may be closed. */
  month: Month
  checklist: readonly ChecklistItem[]
  mayClose: boolean
  /** Accounts whose reconciliation was begun: closing over it needs a yes to each. */
  begun: readonly { id: number; name: string }[]
  closings: readonly ClosingFigures[]
  /** The one that can be reopened now, and the months that it shut, oldest first. */
  reopenId: string | null
  reopens: readonly Month[]
}

export interface CloseFigures {
  sides: readonly SideClosingFigures[]
}
