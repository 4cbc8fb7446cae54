// Income tax on taxable income: the rate schedules, the Tax Table, and the lower rates on gains. Whole cents.
import type { RateLaw } from '../law-year.ts'
import { atRate } from '../rounding.ts'

/**
 * Tax on taxable income of which `preferred` is long-term gain and qualified dividends (26 USC 1(h)): gains stack on top
 * of ordinary income, and the result is never above the tax without the lower rates. `table` looks the ordinary tax up in
 * the printed table where it applies.
 */
export const incomeTax = (
  law: RateLaw,
  status: number,
  taxable: number,
  preferred: number,
  table = false,
): number => {
  const gains = Math.min(taxable, preferred)
  const whole = ordinaryTax(law, status, taxable, table)
  if (gains <= 0) return whole
  const ordinary = taxable - gains
  return Math.min(whole, ordinaryTax(law, status, ordinary, table) + gainsTax(law, status, ordinary, gains))
}

const ordinaryTax = (law: RateLaw, status: number, taxable: number, table: boolean): number =>
  table && taxable < tableEnds ? tableTax(law, status, taxable) : scheduleTax(law, status, taxable)

/** Tax by the rate schedule of 26 USC 1(j). */
export const scheduleTax = (law: RateLaw, status: number, taxable: number): number => {
  if (taxable <= 0) return 0
  const starts = law.ordinaryStarts[status]!
  let band = starts.length - 1
  while (band > 0 && taxable <= starts[band]! * 100) band -= 1
  const below = law.ordinaryTaxAtStart[status]![band]!
  const part = taxable - starts[band]! * 100
  return Math.floor(below * 100 + (part * Math.round(law.ordinaryRates[band]! * 100)) / 100 + 0.5 + 1e-6)
}

const tableEnds = 100_000_00

/** Tax Table: the schedule at the middle of the row that holds the income, to the nearest dollar. For income under 100,000 dollars. */
export const tableTax = (law: RateLaw, status: number, taxable: number): number => {
  const middle = tableRowMiddle(taxable)
  return Math.floor(scheduleTax(law, status, middle) / 100 + 0.5) * 100
}

/** Rows: under 5 dollars no tax, then to 15, to 25, by 25 up to 3,000, by 50 up to 100,000. */
const tableRowMiddle = (taxable: number): number => {
  if (taxable < 5_00) return 0
  if (taxable < 15_00) return 10_00
  if (taxable < 25_00) return 20_00
  const width = taxable < 3_000_00 ? 25_00 : 50_00
  return Math.floor(taxable / width) * width + width / 2
}

/** Tax on gains stacked on top of `ordinary` taxable income, at the three rates of 26 USC 1(h). */
export const gainsTax = (law: RateLaw, status: number, ordinary: number, gains: number): number => {
  const zeroRoom = Math.max(0, law.gainZeroMax[status]! * 100 - ordinary)
  const atZero = Math.min(gains, zeroRoom)
  const fifteenRoom = Math.max(0, law.gainFifteenMax[status]! * 100 - ordinary - atZero)
  const atFifteen = Math.min(gains - atZero, fifteenRoom)
  const atTwenty = gains - atZero - atFifteen
  return atRate(atFifteen, law.gainRates[1]!) + atRate(atTwenty, law.gainRates[2]!)
}
