// A balance sheet by the books alone.
import { day } from '#calendar/day.ts'
import type { BalanceExtras } from '#ledger/reports/balance-sheet.ts'

export const noExtras: BalanceExtras = {
  on: day('2026-12-31'),
  marketByAccount: new Map(),
  things: [],
  unbooked: [],
  accruals: [],
  dueWithinYear: new Map(),
  deferredTaxRate: null,
}
