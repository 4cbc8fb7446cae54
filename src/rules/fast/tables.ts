// Leaf computations of the fast return: whole cents in plain numbers, rates as they stand in the law, no objects made.
import type { LawYear } from '../law-year.ts'

// Products of cents and rates have at most seven decimals; the hair keeps exact halves rounding up in binary.
export const atRate = (cents: number, rate: number): number => Math.floor(cents * rate + 0.500001)

/** Tax by the rate schedule; `taxable` in cents. */
const scheduleTax = (law: LawYear, status: number, taxable: number): number => {
  if (taxable <= 0) return 0
  const starts = law.ordinaryStarts[status]!
  let band = 6
  while (band > 0 && taxable <= starts[band]! * 100) band -= 1
  const below = law.ordinaryTaxAtStart[status]![band]! * 100
  return Math.floor(below + (taxable - starts[band]! * 100) * law.ordinaryRates[band]! + 0.500001)
}

export const gainsTax = (law: LawYear, status: number, ordinary: number, gains: number): number => {
  const atZero = Math.min(gains, Math.max(0, law.gainZeroMax[status]! * 100 - ordinary))
  const room = Math.max(0, law.gainFifteenMax[status]! * 100 - ordinary - atZero)
  const atFifteen = Math.min(gains - atZero, room)
  return atRate(atFifteen, law.gainRates[1]!) + atRate(gains - atZero - atFifteen, law.gainRates[2]!)
}

export const taxOn = (law: LawYear, status: number, taxable: number, preferred: number): number => {
  const whole = scheduleTax(law, status, taxable)
  const gains = Math.min(taxable, preferred)
  if (gains <= 0) return whole
  const ordinary = taxable - gains
  return Math.min(whole, scheduleTax(law, status, ordinary) + gainsTax(law, status, ordinary, gains))
}

/** Alternative minimum tax above the regular tax. */
export const minimumTaxOver = (
  law: LawYear,
  status: number,
  minimumIncome: number,
  taxable: number,
  preferred: number,
  regular: number,
): number => {
  const over = Math.max(0, minimumIncome - law.minimumTaxPhaseOutFrom[status]! * 100)
  const cut = law.minimumTaxExemption[status]! * 100 - atRate(over, law.minimumTaxPhaseOutRate)
  const base = minimumIncome - Math.max(0, cut)
  if (base <= 0) return 0
  const gains = Math.min(base, preferred)
  const ordinary = Math.max(0, taxable - preferred)
  const withGains = minimumRates(law, status, base - gains) + gainsTax(law, status, ordinary, gains)
  return Math.max(0, Math.min(minimumRates(law, status, base), withGains) - regular)
}

const minimumRates = (law: LawYear, status: number, base: number): number => {
  const over = Math.max(0, base - law.minimumTaxUpperFrom[status]! * 100)
  return atRate(base - over, law.minimumTaxRates[0]!) + atRate(over, law.minimumTaxRates[1]!)
}

export const taxedBenefits = (
  law: LawYear,
  status: number,
  benefits: number,
  otherIncome: number,
): number => {
  if (benefits <= 0) return 0
  const half = Math.floor(benefits / 2 + 0.5)
  const provisional = otherIncome + half
  const base = law.benefitsBase[status]! * 100
  if (provisional <= base) return 0
  const upper = law.benefitsUpperBase[status]! * 100
  const lower = Math.min(half, Math.floor((Math.min(provisional, upper) - base) / 2 + 0.5))
  if (provisional <= upper) return lower
  return Math.min(atRate(provisional - upper, 0.85) + lower, atRate(benefits, 0.85))
}

export const additionalMedicare = (law: LawYear, status: number, wages: number, net: number): number => {
  const threshold = law.additionalMedicareFrom[status]! * 100
  const onWages = Math.max(0, wages - threshold)
  const onBusiness = Math.max(0, net - Math.max(0, threshold - wages))
  return atRate(onWages, law.additionalMedicareRate) + atRate(onBusiness, law.additionalMedicareRate)
}

export const earnedCredit = (
  law: LawYear,
  joint: boolean,
  children: number,
  earned: number,
  adjusted: number,
): number => {
  const kids = Math.min(3, children)
  const from = (joint ? law.earnedCreditPhaseOutFromJoint : law.earnedCreditPhaseOutFrom)[kids]! * 100
  const byEarnings = earnedFormula(law, kids, from, earned)
  return adjusted < from ? byEarnings : Math.min(byEarnings, earnedFormula(law, kids, from, adjusted))
}

const earnedFormula = (law: LawYear, kids: number, from: number, income: number): number => {
  const rising = Math.min(law.earnedCreditMax[kids]! * 100, atRate(income, law.earnedCreditRate[kids]!))
  const falling = atRate(Math.max(0, income - from), law.earnedCreditPhaseOutRate[kids]!)
  return Math.max(0, rising - falling)
}

export const saversRate = (law: LawYear, status: number, adjusted: number): number => {
  const limits = law.saversLimits[status]!
  for (let band = 0; band < limits.length; band += 1) {
    if (adjusted <= limits[band]! * 100) return law.saversRates[band]!
  }
  return 0
}

/** Share of care costs credited: a point less for each step of income, in one stretch or, from 2026, in two. */
export const careRate = (law: LawYear, status: number, adjusted: number): number => {
  const overFirst = Math.max(0, adjusted - law.careFirstFrom * 100)
  const overSecond = Math.max(0, adjusted - law.careSecondFrom[status]! * 100)
  const first = law.careRateTop - Math.ceil(overFirst / (law.careStep * 100)) / 100
  const second =
    Math.max(law.careRateMiddle, first) - Math.ceil(overSecond / (law.careSecondStep[status]! * 100)) / 100
  return Math.round(Math.max(law.careRateLeast, second) * 100) / 100
}

export const qualifiedDeduction = (
  law: LawYear,
  status: number,
  income: number,
  taxableBefore: number,
  preferred: number,
  wagesPaid: number,
  property: number,
): number => {
  let fifth = atRate(income, law.qbiRate)
  const over = taxableBefore - law.qbiThreshold[status]! * 100
  if (over > 0) {
    const half = atRate(wagesPaid, 0.5)
    const limit = Math.max(half, atRate(wagesPaid, 0.25) + atRate(property, 0.025))
    const cut = Math.max(0, fifth - limit)
    const range = law.qbiRange[status]! * 100
    fifth -= over >= range ? cut : Math.floor((cut * over) / range + 0.5)
  }
  const most = Math.min(fifth, atRate(Math.max(0, taxableBefore - preferred), law.qbiRate))
  const least = income >= law.qbiMinimumFrom * 100 ? law.qbiMinimum * 100 : 0
  return Math.min(Math.max(most, least), taxableBefore)
}
