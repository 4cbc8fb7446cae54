// What was paid beyond what is owed: a debt below zero is none, and sales tax paid that nothing was booked for stands in the takings.
import { type Cents, cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import type { Account } from '../account.ts'

/** Somebody owes it back, or its other half is missing. `balanceCents`: debits positive. */
export const isOverpaid = ({ kind }: Pick<Account, 'kind'>, balanceCents: Cents): boolean =>
  kind === 'liability' && balanceCents > 0

/** What is said where more sales tax was paid than the books hold as collected; null where it was not. */
export const salesTaxOverpaid = (
  { name, kind, taxKind }: Pick<Account, 'name' | 'kind' | 'taxKind'>,
  balanceCents: Cents,
): string | null =>
  taxKind === 'sales' && isOverpaid({ kind }, balanceCents)
    ? `“${name}”: ${formatCents(cents(balanceCents))} more was paid than was booked as collected. If your takings were booked with the tax in them, sales are that much too high: book it once under Debits and credits, the account of the sales as debit and “${name}” as credit, and split later takings so.`
    : null
