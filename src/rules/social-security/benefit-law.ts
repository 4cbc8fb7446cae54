// Social Security law as numbers by year, published as far as it goes and projected by the plan's prices and wages after that.
import {
  averageWageIndex,
  bendPoints,
  contributionAndBenefitBase,
  costOfLivingPercent,
  earningsTestAmounts,
  quarterOfCoverageAmount,
  wageIndexedAmounts,
  wageIndexFromPublishedAmounts,
} from '../data/social-security.ts'
import { type Indexing, RuleYearError } from '../dated.ts'
import { inForce } from '../in-force.ts'

/** Social Security law by calendar year; index 0 of every array is `firstYear`. Built by `benefitLaw`. */
export interface BenefitLaw {
  firstYear: number
  lastYear: number
  /** The first year whose wage index is projected rather than published. */
  firstProjectedWageYear: number
  /** National average wage index, dollars a year. */
  wageIndex: Float64Array
  /** Contribution and benefit base, dollars a year. */
  wageBase: Float64Array
  /** Cost-of-living adjustment of December of the year, fraction. */
  costOfLiving: Float64Array
  /** Bend points by the year the worker turns 62, dollars a month. */
  firstBend: Float64Array
  secondBend: Float64Array
  /** Bend points of the family maximum by the same year. */
  firstFamilyBend: Float64Array
  secondFamilyBend: Float64Array
  thirdFamilyBend: Float64Array
  /** Earnings for one quarter of coverage, dollars. */
  quarterAmount: Float64Array
  /** Earnings-test amounts, dollars a year: before the year of full retirement age, and in that year before the month. */
  earningsTestUnder: Float64Array
  earningsTestYearOf: Float64Array
}

/** First year of every array: the wage index starts here. */
export const firstLawYear = 1951

const rules = inForce(wageIndexedAmounts, 1979)

/** Law of 1951 … `lastYear`. Wages default to moving with prices, as everywhere in the law (see dated.ts). */
export const benefitLaw = (lastYear: number, indexing: Indexing): BenefitLaw => {
  const size = lastYear - firstLawYear + 1
  const blank = () => new Float64Array(size)
  const law: BenefitLaw = {
    firstYear: firstLawYear,
    lastYear,
    firstProjectedWageYear: 2025,
    wageIndex: blank(),
    wageBase: blank(),
    costOfLiving: blank(),
    firstBend: blank(),
    secondBend: blank(),
    firstFamilyBend: blank(),
    secondFamilyBend: blank(),
    thirdFamilyBend: blank(),
    quarterAmount: blank(),
    earningsTestUnder: blank(),
    earningsTestYearOf: blank(),
  }
  refillBenefitLaw(law, indexing)
  return law
}

/**
 * Writes the law again for another course of prices and wages, without new arrays: for paths with their own inflation.
 * Only years past the published ones differ. The order matters: wages first, because everything else rests on them.
 */
export const refillBenefitLaw = (law: BenefitLaw, indexing: Indexing): void => {
  for (let year = law.firstYear; year <= law.lastYear; year++) fillYear(law, year, indexing)
}

const fillYear = (law: BenefitLaw, year: number, indexing: Indexing): void => {
  const i = year - law.firstYear
  law.wageIndex[i] = wageIndexOf(law, year, indexing)
  law.costOfLiving[i] = costOfLivingOf(year, indexing)
  law.wageBase[i] = contributionAndBenefitBase.values[year] ?? baseByRule(law, year)
  const published = bendPoints.values[year]
  law.firstBend[i] = published?.[0] ?? amountByRule(law, year, 'firstBend')
  law.secondBend[i] = published?.[1] ?? amountByRule(law, year, 'secondBend')
  law.firstFamilyBend[i] = amountByRule(law, year, 'firstFamilyBend')
  law.secondFamilyBend[i] = amountByRule(law, year, 'secondFamilyBend')
  law.thirdFamilyBend[i] = amountByRule(law, year, 'thirdFamilyBend')
  law.quarterAmount[i] = quarterOfCoverageAmount.values[year] ?? quarterByRule(law, year)
  const test = earningsTestAmounts.values[year]
  law.earningsTestUnder[i] =
    test?.[0] ?? Math.max(12 * amountByRule(law, year, 'testUnder'), before(law.earningsTestUnder, i))
  law.earningsTestYearOf[i] =
    test?.[1] ?? Math.max(12 * amountByRule(law, year, 'testYearOf'), before(law.earningsTestYearOf, i))
}

const before = (values: Float64Array, i: number): number => values[i - 1] ?? 0

const wageIndexOf = (law: BenefitLaw, year: number, indexing: Indexing): number => {
  const known = averageWageIndex.values[year] ?? wageIndexFromPublishedAmounts.values[year]
  if (known !== undefined) return known
  const level = indexing.wages ?? indexing.prices
  const growth = level.call(indexing, year) / level.call(indexing, year - 1)
  return Math.round(law.wageIndex[year - law.firstYear - 1]! * growth * 100) / 100
}

/** The adjustment follows prices to a tenth of a percent and is never negative (42 USC 415(i)). 0 before 1975. */
const costOfLivingOf = (year: number, indexing: Indexing): number => {
  const published = costOfLivingPercent.values[year]
  if (published !== undefined) return published / 100
  if (year < 1975) return 0
  const growth = indexing.prices(year) / indexing.prices(year - 1) - 1
  return Math.max(0, Math.round(growth * 1000) / 1000)
}

/** An amount moved with the wage index of two years before. Before the rule began (1979) it gives that year's base amount. */
const amountByRule = (law: BenefitLaw, year: number, name: string): number => {
  const rule = rules[name]
  if (!rule) throw new RuleYearError(name, year, 'no such amount')
  const wages = law.wageIndex[Math.max(0, year - 2 - law.firstYear)]!
  const exact = (rule.amount * wages) / law.wageIndex[rule.wagesOf - law.firstYear]!
  return Math.round(exact / rule.nearest) * rule.nearest
}

/** The base never falls, and stands still after a year without a cost-of-living adjustment. */
const baseByRule = (law: BenefitLaw, year: number): number => {
  const i = year - law.firstYear
  const last = before(law.wageBase, i)
  return before(law.costOfLiving, i) === 0 ? last : Math.max(last, amountByRule(law, year, 'base'))
}

/** 250 dollars in 1978 and, here, in the years before, which counted quarter by quarter. */
const quarterByRule = (law: BenefitLaw, year: number): number =>
  year <= 1978
    ? rules.quarter!.amount
    : Math.max(amountByRule(law, year, 'quarter'), before(law.quarterAmount, year - law.firstYear))
