// Schedule J: part of the year's farm income taxed as if a third of it had come in each of the three years before (26 USC 1301; 26 CFR 1.1301-1).
import type { RateLaw } from '../law-year.ts'
import { incomeTax } from './income-tax.ts'

/** A year before, dollars of its own: as it was filed, or as an earlier averaging left it. */
export interface BaseYear {
  /** Null: not known, and then nothing can be averaged. */
  law: RateLaw | null
  status: number
  /** Below zero where deductions were more than income. */
  taxable: number
  /** Of it, long-term gains and qualified dividends. */
  preferred: number
  /** A dollar of this year in that year's: 1 but for a course with prices of its own. */
  ratio: number
}

export interface FarmAveraging {
  /** The year before, the one before that, and the third. */
  years: readonly [BaseYear, BaseYear, BaseYear]
  /** Farm income to be averaged, dollars; below zero for as much as costs least tax. */
  elected: number
}

/** Whole cents. */
export interface AveragedTax {
  elected: number
  tax: number
}

/** A figure of the year in cents: taxable income, the preferred part of it, and the most that is farm income. */
export interface AveragedYear {
  status: number
  taxable: number
  preferred: number
  farmIncome: number
}

/**
 * Writes the tax with averaging into `out`, by the elected amount or the one that costs least; no more than the farm's ordinary
 * taxable income. Tax is piecewise even in what is elected, so that the least lies where a rate begins, in this year or a base year.
 */
export const averageFarmIncome = (
  law: RateLaw,
  year: AveragedYear,
  { years, elected }: FarmAveraging,
  out: AveragedTax,
): void => {
  out.elected = 0
  out.tax = incomeTax(law, year.status, year.taxable, year.preferred)
  const most = Math.max(0, Math.min(year.farmIncome, year.taxable - Math.max(0, year.preferred)))
  if (most === 0 || years.some((base) => base.law === null)) return
  if (elected >= 0) {
    out.elected = Math.min(most, Math.round(elected * 100))
    out.tax = taxWith(law, year, years, out.elected)
    return
  }
  tryElection(law, year, years, most, most, out)
  for (const start of law.ordinaryStarts[year.status]!)
    tryElection(law, year, years, year.taxable - year.preferred - start * 100, most, out)
  for (const base of years)
    for (const start of base.law!.ordinaryStarts[base.status]!) {
      const room = start - base.taxable + Math.max(0, base.preferred)
      tryElection(law, year, years, Math.round((room * 300) / base.ratio), most, out)
    }
}

/** Keeps an election that costs less than the best so far. */
const tryElection = (
  law: RateLaw,
  year: AveragedYear,
  years: FarmAveraging['years'],
  elected: number,
  most: number,
  out: AveragedTax,
): void => {
  if (elected <= 0 || elected > most) return
  const tax = taxWith(law, year, years, elected)
  if (tax >= out.tax) return
  out.elected = elected
  out.tax = tax
}

/** Lines 4, 8, 12 and 16 of the schedule less the tax of the base years without it. */
const taxWith = (
  law: RateLaw,
  year: AveragedYear,
  years: FarmAveraging['years'],
  elected: number,
): number => {
  let tax = incomeTax(law, year.status, year.taxable - elected, year.preferred)
  for (const { law: of, status, taxable, preferred, ratio } of years) {
    const before = Math.round(taxable * 100)
    const gains = Math.round(preferred * 100)
    const more = incomeTax(of!, status, Math.max(0, before + Math.round((elected * ratio) / 3)), gains)
    tax += Math.round((more - incomeTax(of!, status, Math.max(0, before), gains)) / ratio)
  }
  return tax
}
