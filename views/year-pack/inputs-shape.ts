// What the forms for the year pack are given.
import type { AccrualKind } from '#ledger/reports/accrual.ts'
import type { DatedValue } from '#ledger/reports/market-values.ts'
import type { Holding } from '#ledger/reports/stock-inventory.ts'
import type { Cents } from '#money/cents.ts'
import type { FieldErrors } from '../parts/field.tsx'

export interface PackInputs {
  year: number
  revision: number
  loans: readonly {
    id: number
    name: string
    side: string
    owedCents: Cents
    /** What falls due by the plan's terms of it; null where it has none. */
    byTermsCents: Cents | null
  }[]
  lasting: readonly { id: number; name: string; side: string; booksCents: Cents }[]
  sides: readonly { id: string; name: string }[]
  accruals: readonly {
    id: string
    sideId: string
    side: string
    kind: AccrualKind
    name: string
    amountCents: Cents
    at: 'begin' | 'end'
  }[]
  holdings: readonly Holding[]
  /** Held at the year’s end, each with its value of that day and the newest one before it. */
  things: readonly {
    id: string
    name: string
    costCents: Cents
    valueCents: Cents | null
    before: DatedValue | null
  }[]
}

/** Which of the page's forms was typed into, with its errors. */
export interface InputForm {
  typed: { value(name: string): string }
  errors: FieldErrors
}
