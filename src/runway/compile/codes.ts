// Words of the plan that the compiled plan holds as numbers, so that a month is worked out without comparing texts.
import type { AccountKind } from '#plan/savings-plan.ts'

/** Kinds of account. */
export const accountCode = {
  cash: 0,
  taxable: 1,
  traditional: 2,
  roth: 3,
  health: 4,
} as const satisfies Record<AccountKind, number>

/** Cash and taxable accounts; the others are for retirement or care. */
export const isSpendable = (kind: number): boolean => kind <= accountCode.taxable

/** By what health savings may be put aside: not, beside the marketplace, or beside another plan for one or for more. */
export const savingsCoverCode = { none: 0, marketplace: 1, ownPlan: 2, familyPlan: 3 } as const

/** How the draw is planned. */
export const drawCode = { steps: 0, ramp: 1, share: 2, sweep: 3 } as const

/** How income is taxed: not, by a plain share, or by the law. */
export const taxCode = { none: 0, share: 1, law: 2 } as const
