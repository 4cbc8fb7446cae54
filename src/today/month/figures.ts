// The path of a month: each step with what is left of it.
import type { Day } from '#calendar/day.ts'
import type { Month } from '#calendar/month.ts'
import type { SideKind } from '#ledger/account.ts'
import type { ChecklistItem } from '#ledger/close-checklist.ts'
import type { Cents } from '#money/cents.ts'
import type { ExplanationFigures } from '#today/reconcile/figures.ts'

export interface AccountName {
  id: number
  name: string
  side: SideKind
}

/** An account of which files are read, and how far they reach. */
export interface FileStep extends AccountName {
  through: Day
  /** Months before it that no file speaks of, though files before and after were read. */
  unreadBefore: readonly Month[]
  /** Nothing was read for the month. */
  isMissing: boolean
}

export interface ReconcileStep extends AccountName {
  /**
   * `done`: reconciled through the month's end. `agrees`: the books meet what the newest file says. `apart`: they do not, by so much.
   * `waits`: lines up to that day are to be sorted first. `untold`: no file says a balance.
   */
  state: 'done' | 'agrees' | 'apart' | 'waits' | 'untold'
  /** What the file says, as it is read: on a card what is owed. */
  says: { day: Day; balanceCents: Cents } | null
  /** By how much the books have more. */
  apartCents: Cents
  /** What by itself would explain that they are apart. */
  explanations: readonly ExplanationFigures[]
  /** A reconciliation that was begun and not finished. */
  openId: string | null
  /** Of invested savings that are apart: the account of income that a change in value goes to, which one press books. */
  valueAccountId: number | null
}

export interface CloseStep {
  side: { id: string; kind: SideKind; name: string }
  isClosed: boolean
  /** Accounts whose reconciliation was begun: closing over it needs a yes to each. */
  begun: readonly { id: number; name: string }[]
  /** What must be done first, and what may be closed over. */
  stops: readonly ChecklistItem[]
  looks: readonly ChecklistItem[]
}

/** An amount of the month, and of the same month a year before; null where the books do not reach back. */
export interface AgainstRow {
  name: string
  side: SideKind
  cents: Cents
  beforeCents: Cents | null
}

export interface AgainstLastYear {
  /** The month of the year before, if the books know it. */
  otherMonth: Month | null
  rows: readonly AgainstRow[]
}

export interface MonthPath {
  month: Month
  isOver: boolean
  /** The last month that is over: of it alone it is told what it changed. */
  lastOverMonth: Month
  /** The months before this one that closing it shuts too, empty ones between with them. */
  openBefore: readonly Month[]
  /** How far the household's books reach, as Now says it. */
  reach: Day | null
  files: readonly FileStep[]
  /** Standing transfers due by today. */
  transfers: readonly {
    id: string
    name: string
    amountCents: Cents
    month: Month
    day: Day
    /** It was posted before, and taken back. */
    wasTakenBack: boolean
    /** The day of a crossing in the books that may be this very one. */
    alikeOn: Day | null
  }[]
  reconcile: readonly ReconcileStep[]
  close: readonly CloseStep[]
}
