// What cash books do not show at a year's end, and how much it changed over the year.
import { type Cents, cents, sumCents } from '#money/cents.ts'

/** How an item moves net income: `revenue` adds to it, `cost` and `interest` take from it. */
type Where = 'revenue' | 'cost' | 'interest'

interface AccrualDefinition {
  says: string
  /** As its change is named on the income statement. */
  change: string
  isOwned: boolean
  isCurrent: boolean
  where: Where
}

const owned = (where: Where, says: string, change: string, isCurrent = true): AccrualDefinition => ({
  says,
  change,
  isOwned: true,
  isCurrent,
  where,
})
const owed = (where: Where, says: string, change: string): AccrualDefinition => ({
  says,
  change,
  isOwned: false,
  isCurrent: true,
  where,
})

/**
 * In the order in which they are chosen. Raised breeding stock stands at a base value a head or a group, and its change is revenue
 * (Farm Financial Standards: raised breeding livestock at base values; read in public extension papers).
 */
export const accrualDefinitions = {
  receivable: owned('revenue', 'Owed to us', 'Change in what is owed to us'),
  crops: owned('revenue', 'Crops and produce on hand', 'Change in crops and produce on hand'),
  market_stock: owned('revenue', 'Feeder and market stock on hand', 'Change in feeder and market stock'),
  inventory: owned('revenue', 'Unsold produce and market stock', 'Change in unsold produce and market stock'),
  raised_base: owned(
    'revenue',
    'Raised breeding stock, at base values',
    'Change in base values of raised breeding stock',
    false,
  ),
  supplies: owned('cost', 'Supplies on hand', 'Change in supplies on hand'),
  prepaid: owned('cost', 'Paid ahead', 'Change in what is paid ahead'),
  customers: owed(
    'revenue',
    'Taken from customers for goods still to come',
    'Change in what was taken from customers ahead',
  ),
  payable: owed('cost', 'Bills not yet paid', 'Change in bills not yet paid'),
  accrued_interest: owed('interest', 'Interest owed', 'Change in interest owed'),
  accrued_tax: owed('cost', 'Taxes owed (property, payroll, sales)', 'Change in taxes owed'),
} as const satisfies Record<string, AccrualDefinition>

export type AccrualKind = keyof typeof accrualDefinitions
export const accrualKinds = Object.keys(accrualDefinitions) as [AccrualKind, ...AccrualKind[]]

export interface AccrualItem {
  kind: AccrualKind
  name: string
  amountCents: Cents
}

/** Items at the two ends of a year. */
export interface AccrualYear {
  begin: readonly AccrualItem[]
  end: readonly AccrualItem[]
  /** End less beginning, as read: more owed is more. */
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
