// Who a payee is to the year's information returns.

/**
 * worker: on the payroll, gets a wage form. contractor: paid for work, gets an information return above the year's line. company:
 * a corporation or a seller of goods, gets none.
 */
export const payeeKinds = ['worker', 'contractor', 'company'] as const
export type PayeeKind = (typeof payeeKinds)[number]
