// What the page for changing several entries shows; amounts in the sign a person reads for the register's account.
import type { Day } from '#calendar/day.ts'
import type { SideKind } from '#ledger/account.ts'
import type { Cents } from '#money/cents.ts'
import type { FieldErrors, Option } from '../parts/field.tsx'

export interface ChosenRow {
  postingId: number
  entryNo: number
  day: Day
  payee: string
  memo: string
  others: readonly { name: string }[]
  amountCents: Cents
}

interface LookedAt {
  entryNo: number
  day: Day
  payee: string
  /** Of the ticked lines of the entry together. */
  amountCents: Cents
}

export interface ChangePreview {
  booked: readonly (LookedAt & { postingIds: readonly number[]; says: readonly string[] })[]
  staying: readonly (LookedAt & { why: string })[]
  /** What each account's balance does when it is booked; accounts that stay as they are are left out. */
  effects: readonly { accountId: number; name: string; changeCents: Cents }[]
}

export interface ChangeFigures {
  account: { id: number; name: string }
  side: { kind: SideKind; name: string }
  rows: readonly ChosenRow[]
  /** Empty until it was asked for. */
  preview: ChangePreview | null
}

export interface ChangePageProps {
  figures: ChangeFigures
  typed: { value(name: string): string }
  errors: FieldErrors
  /** Of the form that books. */
  formId: string
  accounts: readonly Option[]
  enterprises: readonly Option[]
  /** The search of the register, to go back to. */
  back: string
  /** Where one of the preview's tables is as CSV; left out when the page came from a form that was sent. */
  csv: ((table: 'booked' | 'staying') => string) | undefined
}
