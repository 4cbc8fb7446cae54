// The premium tax credit of 26 USC 36B at one household income, in whole cents, and what must be paid back of an advance.
import type { LawYear } from '../law-year.ts'

/** Whole cents, January first. */
export interface CentsByMonth {
  premiums: Float64Array
  benchmarks: Float64Array
}

/** One household's marketplace cover in one year. Whole cents; nothing here changes while a credit is looked for. */
export interface Cover {
  /** Poverty line of the household's size and region. */
  povertyLine: number
  /** Income at or under which the household belongs to Medicaid and has no credit; 0 where that is not applied. */
  medicaidLine: number
  months: number
  /** Premiums and benchmark premiums of all months of cover. */
  premium: number
  benchmark: number
  /** Each month's premium and benchmark where the months differ; null where they are alike. */
  byMonth: CentsByMonth | null
  advance: number
  /** 0 when the filing status bars the credit (married filing separately, 26 USC 36B(c)(1)(C)). */
  creditAllowed: number
  /** 1 when the repayment limits for single filers apply, else 0. */
  repaymentSingle: number
}

/** Poverty line in cents for a household of `size`; further people add the same amount each. */
export const povertyLineCents = (law: LawYear, region: number, size: number): number =>
  (law.povertyFirst[region]! + law.povertyAdditional[region]! * (size - 1)) * 100

/** Poverty line in dollars by which Medicaid and the states' programs measure: that of the guidelines of the year itself. */
export const programPovertyLine = (law: LawYear, region: number, size: number): number =>
  law.medicaidPovertyFirst[region]! + law.medicaidPovertyAdditional[region]! * (size - 1)

/** Income in cents up to which adults are covered by Medicaid in an expansion state, by the guidelines of the year itself. */
export const medicaidLineCents = (law: LawYear, region: number, size: number): number =>
  Math.floor(programPovertyLine(law, region, size) * law.medicaidPercent)

/** Whole percent of the poverty line, the fraction dropped as Form 8962 does. Negative income counts as 0. */
export const wholePercent = (income: number, povertyLine: number): number =>
  income <= 0 ? 0 : Math.floor((income * 100) / povertyLine)

/**
 * Applicable percentage in hundredths of a percent of income (996 is 9.96 %) at a whole percent of the poverty line:
 * straight line within the band, rounded half up to 0.01 % (26 CFR 1.36B-3(g)).
 */
export const applicableHundredths = (law: LawYear, percent: number): number => {
  const { applicableFrom, applicableInitial, applicableFinal } = law
  let band = applicableFrom.length - 1
  while (band > 0 && percent < applicableFrom[band]!) band -= 1
  const initial = applicableInitial[band]!
  const rise = applicableFinal[band]! - initial
  if (rise === 0 || band === applicableFrom.length - 1) return initial
  const from = applicableFrom[band]!
  return initial + Math.floor((rise * (percent - from)) / (applicableFrom[band + 1]! - from) + 0.5)
}

/** What the household itself is expected to pay for the benchmark plan in a full year, in cents (not cut to dollars). */
export const yearlyContribution = (law: LawYear, income: number, povertyLine: number): number =>
  income <= 0
    ? 0
    : Math.floor((income * applicableHundredths(law, wholePercent(income, povertyLine)) + 5_000) / 10_000)

/** 1 when the income is within the lines of the credit. Below the lower line an advance paid in good faith keeps it open. */
export const creditOpen = (law: LawYear, cover: Cover, income: number): boolean => {
  if (cover.creditAllowed === 0 || cover.months === 0) return false
  if (income * 100 > cover.povertyLine * law.creditToPercent) return false
  if (cover.advance > 0) return true
  return income * 100 >= cover.povertyLine * law.creditFromPercent && income > cover.medicaidLine
}

/** Credit of the year in cents: the lesser of the premium and the benchmark less the contribution, over the months of cover. */
export const creditAt = (law: LawYear, cover: Cover, income: number): number => {
  if (!creditOpen(law, cover, income)) return 0
  const contribution = yearlyContribution(law, income, cover.povertyLine)
  if (cover.byMonth !== null) return creditByMonth(cover.byMonth, contribution)
  const ownShare = cover.months === 12 ? contribution : Math.floor((contribution * cover.months) / 12 + 0.5)
  const room = cover.benchmark - ownShare
  return room <= 0 ? 0 : Math.min(room, cover.premium)
}

/** Form 8962, lines 12 to 24: each month by itself, as the lesser of its premium and of its benchmark less a twelfth of the contribution. */
const creditByMonth = ({ premiums, benchmarks }: CentsByMonth, contribution: number): number => {
  const own = Math.floor(contribution / 12 + 0.5)
  let credit = 0
  for (let k = 0; k < 12; k += 1) credit += Math.min(premiums[k]!, Math.max(0, benchmarks[k]! - own))
  return credit
}

/** Most that must be paid back of an excess advance at this percent, in cents; the excess itself where no limit stands. */
export const repayment = (law: LawYear, cover: Cover, income: number, excess: number): number => {
  if (excess <= 0) return 0
  const limit = repaymentLimitAt(law, cover, wholePercent(income, cover.povertyLine))
  return Math.min(excess, limit)
}

/** In cents; without bound where the law of the year has no limit at that percent. */
export const repaymentLimitAt = (law: LawYear, cover: Cover, percent: number): number => {
  const bands = law.repaymentBandTo
  for (let band = 0; band < bands.length; band += 1) {
    if (percent < bands[band]!) return repaymentLimitCents(law, cover, band)
  }
  return Number.MAX_SAFE_INTEGER
}

/** Repayment limit of one band, in cents. */
export const repaymentLimitCents = (law: LawYear, cover: Cover, band: number): number =>
  (cover.repaymentSingle === 1 ? law.repaymentLimitSingle[band]! : law.repaymentLimitOther[band]!) * 100
