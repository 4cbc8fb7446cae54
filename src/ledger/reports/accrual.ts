// What cash books do not show at a year's end, and how much it changed over the year.
import { type Cents, cents, sumCents } from '#money/cents.ts'

export const accrualKinds = [
  'receivable',
  'inventory',
  'prepaid',
  'payable',
  'accrued_interest',
  'accrued_tax',
] as const
export type AccrualKind = (typeof accrualKinds)[number]

export const accrualKindNames: Record<AccrualKind, string> = {
  receivable: 'Owed to us',
  inventory: 'Unsold produce and market stock',
  prepaid: 'Paid ahead, supplies on hand',
  payable: 'Bills not yet paid',
  accrued_interest: 'Interest owed',
  accrued_tax: 'Taxes owed (property, payroll, sales)',
}

export const isOwned = (kind: AccrualKind): boolean =>
  kind === 'receivable' || kind === 'inventory' || kind === 'prepaid'

export interface AccrualItem {
  kind: AccrualKind
  name: string
  amountCents: Cents
}

/** Items at the two ends of a year. */
export interface AccrualYear {
  begin: readonly AccrualItem[]
  end: readonly AccrualItem[]
  changes: Readonly<Record<AccrualKind, Cents>>
}

export const accrualYear = (begin: readonly AccrualItem[], end: readonly AccrualItem[]): AccrualYear => ({
  begin,
  end,
  changes: Object.fromEntries(
    accrualKinds.map((kind) => [kind, cents(totalOf(end, kind) - totalOf(begin, kind))]),
  ) as Record<AccrualKind, Cents>,
})

const totalOf = (items: readonly AccrualItem[], kind: AccrualKind): Cents =>
  sumCents(items.filter((item) => item.kind === kind).map((item) => item.amountCents))
