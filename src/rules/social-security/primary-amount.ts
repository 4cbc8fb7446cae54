// The primary insurance amount in its exact form, step by step as the agency rounds it.
import { Decimal } from '#money/decimal.ts'
import { computationYears, primaryFactors } from '../data/social-security.ts'
import { inForce } from '../in-force.ts'
import type { BenefitLaw } from './benefits.ts'

/** Covered earnings by calendar year, dollars: wages, and net earnings from self-employment after the 0.9235 factor. */
export type EarningsHistory = ReadonlyMap<number, number>

export interface PrimaryAmount {
  eligibilityYear: number
  /** Every year with earnings: capped at the base, indexed to the year of age 60, and whether it is among the highest 35. */
  years: { year: number; covered: Decimal; indexed: Decimal; counted: boolean }[]
  highest35: Decimal
  /** Average indexed monthly earnings, whole dollars. */
  averageMonthly: number
  bendPoints: [number, number]
  /** Dollars a month in the year of eligibility, then after each cost-of-living adjustment. */
  atEligibility: Decimal
  afterAdjustments: { year: number; percent: number; amount: Decimal }[]
  amount: Decimal
  /** True where a wage index, bend point or adjustment of a projected year was used. */
  projected: boolean
}

const countedYears = inForce(computationYears, Number.POSITIVE_INFINITY)

/**
 * The amount payable in `year` on earnings of all years before it (42 USC 415(a), (b), (i); 20 CFR 404.211, 404.212).
 * `bornYear` as the law counts it. For births from 1929 and for retirement, not disability. Does not ask for 40 quarters.
 */
export const primaryAmount = (
  law: BenefitLaw,
  bornYear: number,
  history: EarningsHistory,
  year: number,
): PrimaryAmount => {
  const eligibilityYear = bornYear + 62
  const years = indexedYears(law, bornYear, history, year)
  const counted = years.filter((row) => row.counted)
  const highest35 = counted.reduce((sum, row) => sum.plus(row.indexed), new Decimal(0))
  const averageMonthly = highest35
    .div(countedYears * 12)
    .floor()
    .toNumber()
  const bendPoints = bendPointsOf(law, eligibilityYear)
  const atEligibility = primaryAmountFromAverage(averageMonthly, bendPoints)
  const afterAdjustments = adjusted(law, atEligibility, eligibilityYear, year)
  return {
    eligibilityYear,
    years,
    highest35,
    averageMonthly,
    bendPoints,
    atEligibility,
    afterAdjustments,
    amount: afterAdjustments.at(-1)?.amount ?? atEligibility,
    projected: Math.max(eligibilityYear - 2, year - 1) >= law.firstProjectedWageYear + 2,
  }
}

const indexedYears = (law: BenefitLaw, bornYear: number, history: EarningsHistory, year: number) => {
  const indexingYear = bornYear + 60
  const rows = [...history]
    .filter(([earnedIn, earned]) => earnedIn < year && earned > 0)
    .sort(([a], [b]) => a - b)
    .map(([earnedIn, earned]) => {
      const covered = Decimal.min(String(earned), String(at(law, law.wageBase, earnedIn)))
      const indexed =
        earnedIn < indexingYear
          ? covered
              .times(String(at(law, law.wageIndex, indexingYear)))
              .div(String(at(law, law.wageIndex, earnedIn)))
          : covered
      return { year: earnedIn, covered, indexed: indexed.toDecimalPlaces(2), counted: false }
    })
  const highest = rows.toSorted((a, b) => b.indexed.cmp(a.indexed)).slice(0, countedYears)
  for (const row of highest) row.counted = true
  return rows
}

const bendPointsOf = (law: BenefitLaw, year: number): [number, number] => [
  at(law, law.firstBend, year),
  at(law, law.secondBend, year),
]

/** Average monthly earnings in whole dollars to the primary amount, rounded down to ten cents. */
export const primaryAmountFromAverage = (
  averageMonthly: number,
  [first, second]: readonly [number, number],
): Decimal => {
  const [low, middle, high] = inForce(primaryFactors, 1979)
  return downToDime(
    new Decimal(Math.min(averageMonthly, first))
      .times(String(low))
      .plus(new Decimal(Math.max(0, Math.min(averageMonthly, second) - first)).times(String(middle)))
      .plus(new Decimal(Math.max(0, averageMonthly - second)).times(String(high))),
  )
}

/** Each December's adjustment from the eligibility year on, rounded down to ten cents every time. */
const adjusted = (law: BenefitLaw, start: Decimal, from: number, year: number) => {
  const steps: PrimaryAmount['afterAdjustments'] = []
  let amount = start
  for (let of = from; of < year; of++) {
    const fraction = String(at(law, law.costOfLiving, of))
    amount = downToDime(amount.times(new Decimal(fraction).plus(1)))
    steps.push({ year: of, percent: new Decimal(fraction).times(100).toNumber(), amount })
  }
  return steps
}

export const downToDime = (amount: Decimal): Decimal => amount.times(10).floor().div(10)

const at = (law: BenefitLaw, values: Float64Array, year: number): number => {
  const value = values[year - law.firstYear]
  if (value === undefined) throw new Error(`Law runs ${law.firstYear}–${law.lastYear}; asked for ${year}`)
  return value
}
