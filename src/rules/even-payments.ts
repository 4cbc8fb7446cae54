// Substantially equal payments from a retirement account before 59½, free of the additional tax (26 USC 72(t)(2)(A)(iv); Notice 2022-6).
import { evenPaymentRules, singleLifeExpectancy } from './data/retirement-accounts.ts'
import { inForce } from './in-force.ts'

/** The third method, by an annuity factor, needs a mortality table that is not held here. */
export const evenPaymentMethods = ['lifeExpectancy', 'amortization'] as const

const expectancies = inForce(singleLifeExpectancy, Number.POSITIVE_INFINITY)
const rules = inForce(evenPaymentRules, Number.POSITIVE_INFINITY)

/** Whether the table has an age reached in the year. */
export const hasLifeExpectancy = (age: number): boolean => expectancies[age] !== undefined

/** A year's payment on a balance. By life expectancy it is worked out again every year, by amortization kept. */
export const evenPayment = (byAmortization: boolean, balance: number, age: number, rate: number): number => {
  const years = expectancies[age]
  if (years === undefined) throw new Error(`The Single Life Table is not held for an age of ${age}`)
  return !byAmortization || rate === 0 ? balance / years : (balance * rate) / (1 - (1 + rate) ** -years)
}

/** The first month in which payments begun in `from` may change or end: after five years or at 59½, whichever is later. */
export const evenPaymentsEnd = (from: number, month59Half: number): number =>
  Math.max(from + rules.years! * 12, month59Half)

/** The highest rate of an amortization, given 120 % of the federal mid-term rate or nothing. */
export const highestEvenRate = (midTermRate: number): number =>
  Math.max(rules.rate!, midTermRate * rules.midTermShare!)
