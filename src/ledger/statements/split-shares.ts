// A bill that is split the same way each time: its parts by percent or amount.

/** `percent` in hundredths of a percent, `amount` in cents, `rest` what the others leave. All are whole numbers. */
export interface SplitShare {
  accountId: number
  enterpriseId: string | null
  by: 'percent' | 'amount' | 'rest'
  value: number
}
