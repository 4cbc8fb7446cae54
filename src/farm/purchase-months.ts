// The months in which a purchase is of use, counted from the month in which it is bought: one reading for plan, payback, queue and fit.
import type { Purchase } from './farm-document.ts'

type Used = Pick<Purchase, 'worksAfterMonths' | 'usefulYears'>

/** It works after the months it takes, in the month after it is bought at the soonest. */
export const worksFrom = ({ worksAfterMonths }: Pick<Used, 'worksAfterMonths'>): number =>
  Math.max(1, worksAfterMonths)

/** The month after its last of use, in which what it is then worth comes back. */
export const worksUntil = (one: Used): number => worksFrom(one) + Math.round(one.usefulYears * 12)
