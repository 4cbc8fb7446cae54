// Solves the circle: the self-employed health deduction lowers income, income sets the premium credit, the credit lowers the deduction.
import type { LawYear } from '../law-year.ts'
import { type Cover, creditAt, repaymentLimitCents, wholePercent } from './premium-credit.ts'

/** Whole cents. */
export interface DeductionCase {
  /** Household income before the deduction for marketplace premiums. */
  incomeBefore: number
  /** Earned income of the business left for this deduction (Form 7206, after other health premiums). */
  earnedLimit: number
  /** Premiums of the months in which the deduction is allowed, and the number of those months. */
  deductiblePremium: number
  deductibleMonths: number
}

/** Whole cents; `method` is a place in `coverMethods`. */
export interface DeductionAndCredit {
  deduction: number
  credit: number
  method: number
}

const methodNone = 0
const methodNoDeduction = 1
export const methodIterative = 2
export const methodBracketed = 3
export const methodUpToLine = 4

/** The steps shrink to about a sixth each pass, so a cent is reached in ten or so; more passes mean a cycle. */
const passLimit = 24

/**
 * Deduction and credit together, written into `out`.
 * `iterative`: the steps of Rev. Proc. 2014-41 came to rest, both definitions hold to a cent. `bracketed`: the steps
 * cycle, so the crossing was enclosed; both hold to a cent, or, on a jump of the percentage or at the lower line, the credit
 * holds and the deduction stays short of the rest of the premium by that jump. `up to the line`: the crossing is at the line where the
 * credit ends. Above it no credit is taken off the premium (26 CFR 1.162(l)-1(a)(1)), so the deduction runs until the income
 * stands one cent over the line; a dollar more would bring the credit back. In each the two never exceed the premium.
 */
export const solveDeductionAndCredit = (
  law: LawYear,
  cover: Cover,
  from: DeductionCase,
  out: DeductionAndCredit,
): void => {
  const most = cover.months === 0 ? 0 : largestDeduction(law, cover, from)
  if (most <= 0) {
    const method = cover.months === 0 ? methodNone : methodNoDeduction
    settle(out, 0, creditAt(law, cover, from.incomeBefore), method)
    return
  }
  const cap = keptAboveLowerLine(law, cover, from, most)
  let deduction = cap
  let before = Number.NaN
  for (let pass = 0; pass < passLimit; pass += 1) {
    const next = deductionAfter(law, cover, from, cap, deduction)
    const move = next - deduction
    if (move <= 1 && move >= -1) {
      const kept = move < 0 ? next : deduction
      const held = kept === cap && deductionAfter(law, cover, from, most, kept) > kept + 1
      const credit = creditAt(law, cover, from.incomeBefore - kept)
      settle(out, kept, credit, held ? methodBracketed : methodIterative)
      return
    }
    // Between two deductions back and forth: no further pass comes to rest.
    if (next === before) break
    before = deduction
    deduction = next
  }
  bracket(law, cover, from, cap, out)
}

const settle = (out: DeductionAndCredit, deduction: number, credit: number, method: number): void => {
  out.deduction = deduction
  out.credit = credit
  out.method = method
}

/** The deduction that the credit at the income after `deduction` leaves open. */
const deductionAfter = (
  law: LawYear,
  cover: Cover,
  from: DeductionCase,
  most: number,
  deduction: number,
): number => {
  const left =
    from.deductiblePremium -
    deductibleCredit(cover, from, creditAt(law, cover, from.incomeBefore - deduction))
  return Math.min(left, most)
}

/** The part of the credit that belongs to the months with a deduction. */
const deductibleCredit = (cover: Cover, from: DeductionCase, credit: number): number =>
  from.deductibleMonths === cover.months
    ? credit
    : Math.floor((credit * from.deductibleMonths) / cover.months)

/** Largest deduction in cents: earned income, and with an advance what was paid plus the limitation on additional tax. */
const largestDeduction = (law: LawYear, cover: Cover, from: DeductionCase): number => {
  const limitation = limitationOnAdditionalTax(law, cover, from)
  const paid =
    limitation < 0
      ? from.deductiblePremium
      : from.deductiblePremium - deductibleCredit(cover, from, cover.advance) + limitation
  return Math.min(from.earnedLimit, paid, from.deductiblePremium)
}

/**
 * Limitation on additional tax of 26 CFR 1.36B-4(a)(3)(iii) in cents: the lowest repayment limit whose own income test
 * passes; -1 when none does, when nothing was advanced, or in years without repayment limits (from 2026).
 */
export const limitationOnAdditionalTax = (law: LawYear, cover: Cover, from: DeductionCase): number => {
  if (cover.advance <= 0) return -1
  for (let band = 0; band < law.repaymentBandTo.length; band += 1) {
    const limit = repaymentLimitCents(law, cover, band)
    const paid = from.deductiblePremium - deductibleCredit(cover, from, cover.advance) + limit
    const income = from.incomeBefore - Math.min(from.earnedLimit, paid)
    if (wholePercent(income, cover.povertyLine) < law.repaymentBandTo[band]!) return limit
  }
  return -1
}

/**
 * Where the largest deduction would push income under the lower line of the credit, the steps start from the largest one
 * that does not: else they come to rest on no credit at all although a smaller deduction keeps it, which the ceiling on
 * deduction and credit together allows as well. An income that starts under the line is left alone, and so is a household to
 * whom the line gives no credit.
 */
const keptAboveLowerLine = (law: LawYear, cover: Cover, from: DeductionCase, most: number): number => {
  if (cover.advance > 0) return most
  const line = Math.ceil((cover.povertyLine * law.creditFromPercent) / 100)
  const open = from.incomeBefore - Math.max(line, cover.medicaidLine > 0 ? cover.medicaidLine + 1 : 0)
  const keeps = open > 0 && open < most && creditAt(law, cover, from.incomeBefore - open) > 0
  return keeps ? open : most
}

/** Encloses the crossing to one cent between no deduction and `most`. */
const bracket = (
  law: LawYear,
  cover: Cover,
  from: DeductionCase,
  most: number,
  out: DeductionAndCredit,
): void => {
  let low = 0
  let high = most
  if (deductionAfter(law, cover, from, most, high) >= high) low = high
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2)
    if (deductionAfter(law, cover, from, most, middle) >= middle) low = middle
    else high = middle
  }
  const credit = creditAt(law, cover, from.incomeBefore - low)
  const holds = deductionAfter(law, cover, from, most, low) - low <= 1
  settle(out, low, credit, !holds && credit === 0 ? methodUpToLine : methodBracketed)
}
