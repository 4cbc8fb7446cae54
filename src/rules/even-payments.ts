// Substantially equal payments from a retirement account before 59½, free of the additional tax (26 USC 72(t)(2)(A)(iv); Notice 2022-6).
import { singleLifeExpectancy } from './data/inherited-accounts.ts'
import { evenPaymentRules } from './data/retirement-accounts.ts'
import { inForce } from './in-force.ts'

/** Notice 2022-6 sec. 3.01(a) to (c); before 2023 Rev. Rul. 2002-62. */
export const evenPaymentMethods = ['lifeExpectancy', 'amortization', 'annuity'] as const
export type EvenPaymentMethod = (typeof evenPaymentMethods)[number]

const expectancies = inForce(singleLifeExpectancy, Number.POSITIVE_INFINITY)
const rules = inForce(evenPaymentRules, Number.POSITIVE_INFINITY)

/** Whether the table has an age reached in the year. */
export const hasLifeExpectancy = (age: number): boolean => expectancies[age] !== undefined

/**
 * A year's payment on a balance. By life expectancy it is worked out again every year, by the others kept. `factor` is what a dollar a
 * year for life is worth at the first age, by the mortality table of Treas. Reg. 1.401(a)(9)-9(e) and a rate within the limit: it is
 * given, since no copy of that table was found that yields the Single Life Table.
 */
export const evenPayment = (
  by: EvenPaymentMethod,
  balance: number,
  age: number,
  rate: number,
  factor: number,
): number => {
  if (by === 'annuity') return balance / factor
  const years = expectancies[age]
  if (years === undefined) throw new Error(`The Single Life Table is not held for an age of ${age}`)
  return by === 'lifeExpectancy' || rate === 0
    ? balance / years
    : (balance * rate) / (1 - (1 + rate) ** -years)
}

/** The first month in which payments begun in `from` may change or end: after five years or at 59½, whichever is later. */
export const evenPaymentsEnd = (from: number, month59Half: number): number =>
  Math.max(from + rules.years! * 12, month59Half)

/** The highest rate of an amortization, given 120 % of the federal mid-term rate or nothing. */
export const highestEvenRate = (midTermRate: number): number =>
  Math.max(rules.rate!, midTermRate * rules.midTermShare!)
