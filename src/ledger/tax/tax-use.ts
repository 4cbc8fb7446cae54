// As what money counts for tax: paid to an office, or put into savings that the return asks about.

/** To whom tax is paid. Payroll is social security and Medicare of workers and of one's own pay: no income tax. */
export const taxOffices = ['federal', 'state', 'local', 'payroll', 'sales'] as const
export type TaxOffice = (typeof taxOffices)[number]

/** Those a household pays from its own income. */
export const incomeTaxOffices = ['federal', 'state', 'local', 'payroll'] as const

/**
 * withheld: kept back from pay, belongs to the year of the pay (26 USC 31). estimate: paid ahead for a year. balance: with the
 * return, after the year. refund: what an earlier year gave back. contribution: into retirement or health savings, for the year
 * named. rollover: from one such account to another.
 */
export const taxUses = ['withheld', 'estimate', 'balance', 'refund', 'contribution', 'rollover'] as const
export type TaxUse = (typeof taxUses)[number]

/** The uses of what went into such savings. */
export const savingUses = ['contribution', 'rollover'] as const

/** The uses that are payments of tax. */
export const paymentUses = ['withheld', 'estimate', 'balance', 'refund'] as const
