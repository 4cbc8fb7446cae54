// A balance sheet by the books alone.
import type { BalanceExtras } from '#ledger/reports/balance-sheet.ts'

export const noExtras: BalanceExtras = {
  marketByAccount: new Map(),
  unbooked: [],
  accruals: [],
  dueWithinYear: new Map(),
  deferredTaxRate: null,
}
