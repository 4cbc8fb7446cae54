// By which poverty level a program measures a household's income, and with how many people in it.
import type { LawYear } from '../law-year.ts'
import { povertyLineCents, programPovertyLine } from '../marketplace/premium-credit.ts'
import { basicByCreditLine } from '../places/published.ts'
import type { CoverageLimits } from './coverage-limits.ts'
import { programOf } from './program-of.ts'

/** Parts of the poverty level by which Medicaid measures the year's household. */
export interface Measure {
  /** What one more person adds. */
  perPerson: number
  /** The level by which the state's basic health program measures that household, and what one more person adds to it. */
  basic: number
  basicPerPerson: number
}

/** Where nobody but the return's household is counted, and all programs go by one level. */
export const plainMeasure: Measure = { perPerson: 0, basic: 1, basicPerPerson: 0 }

/** `size`: those of the year's return. `state`: empty where none is known. */
export const measureFor = (law: LawYear, region: number, size: number, state: string): Measure => {
  const line = programPovertyLine(law, region, size)
  const perPerson = law.medicaidPovertyAdditional[region]! / line
  return basicByCreditLine(state)
    ? {
        perPerson,
        basic: povertyLineCents(law, region, size) / 100 / line,
        basicPerPerson: law.povertyAdditional[region]! / line,
      }
    : { perPerson, basic: 1, basicPerPerson: perPerson }
}

/**
 * Place in `coverageKinds` for someone in whose household so many people more count than on the year's return, or fewer. Incomes in
 * percent of Medicaid's level for the household of the return: `percent` that of the month, `ofYear` that of the whole year.
 */
export const programFor = (
  limits: CoverageLimits,
  standing: number,
  percent: number,
  ofYear: number,
  more: number,
  measure: Measure,
): number => {
  const level = more === 0 ? 1 : 1 + more * measure.perPerson
  const forBasic = ofYear / (measure.basic + more * measure.basicPerPerson)
  return programOf(limits, standing, percent / level, ofYear / level, forBasic)
}
