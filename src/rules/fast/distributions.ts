// Fast entry point of required distributions for the projection: start age and divisor by age, plain numbers, no allocation.
import { distributionStartAges, uniformLifetimeDivisors } from '../data/retirement-accounts.ts'
import { inForce } from '../in-force.ts'

const divisors = inForce(uniformLifetimeDivisors, 2022)
const table = Float64Array.from({ length: 121 }, (_, age) => divisors[age] ?? 0)
const startAges = Int8Array.from({ length: 300 }, (_, i) => inForce(distributionStartAges, 1900 + i))

/**
 * The age whose year is the first with a required distribution (26 USC 401(a)(9)(C), SECURE 2.0 sec. 107): 75 for births
 * from 1960, 73 from 1951, 72 before (born from July 1949); earlier births started at 70½, here taken as 71 and long begun.
 */
export const distributionStartAge = (bornYear: number): number => startAges[bornYear - 1900]!

/**
 * Divisor of the Uniform Lifetime Table at the age reached in the year; `Infinity` before the start age, so that
 * balance ÷ divisor is 0. Not for a sole beneficiary spouse more than ten years younger (joint table, smaller amounts).
 */
export const distributionDivisor = (bornYear: number, year: number): number => {
  const age = year - bornYear
  if (age < distributionStartAge(bornYear)) return Number.POSITIVE_INFINITY
  return table[Math.min(120, Math.max(72, age))]!
}
