// Medicare premiums of one year as numbers: published or computed ahead as far as known, carried on by prices (income lines) and premium growth after.
import {
  incomeLinesJoint,
  incomeLinesSeparate,
  incomeLinesSingle,
  partBAdditions,
  partBDeductible,
  partBStandardPremium,
  partDAdditions,
  partDBasePremium,
} from '../data/medicare.ts'
import { type Dated, type Indexing, lastKnownYear, lookUp, RuleYearError, yearsOf } from '../dated.ts'
import type { MedicareYear } from './premiums.ts'

/** Level of health premiums by year on any base (only ratios are used); prices serve when the plan names none. */
export type PremiumLevel = (year: number) => number

/** The last income line (500,000 and 750,000) stands still through 2027 and moves with prices from 2028 (42 USC 1395r(i)(5)(C)). */
const lastLineMovesFrom = 2028

/**
 * Premiums of a year, dollars per person and month. Past the last published year premiums and additions grow with `premiums`
 * to ten cents; income lines move with prices to the nearest thousand. Throws `RuleYearError` before 2024.
 */
export const medicareYear = (
  year: number,
  indexing: Indexing,
  premiums: PremiumLevel = indexing.prices,
): MedicareYear => {
  const { first, last } = yearsOf(partBStandardPremium)
  if (year < first) throw new RuleYearError(partBStandardPremium.rule, year, `figures start in ${first}`)
  const grown = (amount: number, from: number): number =>
    year > from
      ? Math.round(((amount * premiums.call(indexing, year)) / premiums.call(indexing, from)) * 10) / 10
      : amount
  const one = (fact: Dated<number>): number => {
    const from = Math.min(year, yearsOf(fact).last)
    return grown(fact.values[from]!, from)
  }
  const all = (fact: Dated<readonly number[]>): Float64Array => {
    const from = Math.min(year, yearsOf(fact).last)
    return Float64Array.from(fact.values[from]!, (amount) => grown(amount, from))
  }
  return {
    year,
    projected: year > last,
    standardPartB: one(partBStandardPremium),
    basePartD: one(partDBasePremium),
    deductiblePartB: Math.round(one(partBDeductible)),
    tierStarts: [
      Float64Array.from(lines(incomeLinesSingle, year, indexing)),
      Float64Array.from(lines(incomeLinesJoint, year, indexing)),
      separateStarts(year, indexing),
    ],
    addedPartB: all(partBAdditions),
    addedPartD: all(partDAdditions),
  }
}

const lines = (fact: typeof incomeLinesSingle, year: number, indexing: Indexing): number[] => {
  const last = lastKnownYear(fact)
  const values = [...lookUp(fact, year, indexing).value]
  if (year > last)
    values[values.length - 1] = lastLine(fact.values[yearsOf(fact).last]!.at(-1)!, year, indexing)
  return values
}

const lastLine = (amount: number, year: number, indexing: Indexing): number => {
  if (year < lastLineMovesFrom) return amount
  const factor = indexing.prices(year) / indexing.prices(lastLineMovesFrom - 1)
  return Math.round((amount * factor) / 1000) * 1000
}

/** Separate returns skip the first three additions: four equal starts leave only the fourth and the fifth. The fifth is the single top less the first line. */
const separateStarts = (year: number, indexing: Indexing): Float64Array => {
  const published = incomeLinesSeparate.values[year] ?? incomeLinesSeparate.ahead?.[year]
  const single = lines(incomeLinesSingle, year, indexing)
  const [first, top] = published ?? [single[0]!, single.at(-1)! - single[0]!]
  return Float64Array.of(first, first, first, first, top)
}
