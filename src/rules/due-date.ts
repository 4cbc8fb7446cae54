// A day of the law that a household must not miss.
import type { Day } from '#calendar/day.ts'

export type DueKind =
  | 'estimated-tax'
  | 'state-estimated-tax'
  | 'return'
  | 'open-enrollment'
  | 'medicare'
  | 'required-distribution'
  | 'contribution'
  | 'sales-tax'
  | 'payroll'

export interface DueDate {
  /** The same for the same date of the same thing, so that a calendar replaces it rather than adding another. */
  id: string
  day: Day
  kind: DueKind
  title: string
  says: string
  source: string
}
