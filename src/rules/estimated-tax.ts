// Estimated tax: whether the year counts as a farmer's year, what must be paid in advance, and when.
import { addDays, type Day, day, weekdayOf } from '#calendar/day.ts'
import { farmerShareOfGrossIncome, requiredPaymentShares } from './data/farm-timing.ts'
import { inForce } from './in-force.ts'

/** Gross income of a year for the two-thirds test, dollars: farm gross includes stock sold; total counts gains, not proceeds. */
export interface GrossIncome {
  farm: number
  total: number
}

export interface EstimatedTaxInput {
  taxYear: number
  thisYear: GrossIncome
  lastYear: GrossIncome
  /** Tax of this year after credits other than withholding, dollars (expected). */
  taxThisYear: number
  /** Tax on last year's return, dollars; null when there was none or it did not cover twelve months. */
  taxLastYear: number | null
  adjustedGrossIncomeLastYear: number
  withheld: number
  /** Paid ahead for the year so far, dollars: it meets the installments in the order in which they fall due (26 USC 6654(b)(3)). */
  paid: number
  marriedSeparate: boolean
}

export interface EstimatedTaxPlan {
  /** At least two thirds of gross income came from farming, this year or last (26 USC 6654(i)(2)). */
  farmer: boolean
  requiredAnnualPayment: number
  /** What is left to pay in advance, in order; empty when nothing is required. */
  installments: { due: Day; amount: number }[]
  /** For a farmer: file and pay everything by this day and no installment is needed. */
  fileInsteadBy: Day | null
  returnDue: Day
}

/** Where the dates and shares stand. */
export const estimatedTaxSource = '26 USC 6654(d), (i); IRS Topic 416'

/** What decides a farmer's year and the required payment: fractions of gross income and of tax, and dollars. */
export interface EstimatedTaxShares {
  farmerShare: number
  farmerThisYear: number
  othersThisYear: number
  lastYear: number
  lastYearHighIncome: number
  highIncomeOver: number
  nothingUnder: number
}

export const estimatedTaxShares = (taxYear: number): EstimatedTaxShares => {
  const part = inForce(requiredPaymentShares, taxYear)
  return {
    farmerShare: inForce(farmerShareOfGrossIncome, taxYear),
    farmerThisYear: part.farmerThisYear!,
    othersThisYear: part.othersThisYear!,
    lastYear: part.lastYear!,
    lastYearHighIncome: part.lastYearHighIncome!,
    highIncomeOver: part.highIncomeOver!,
    nothingUnder: part.nothingUnder!,
  }
}

/** Works out the year's required payment and its installments, in dollars. */
export const estimatedTaxPlan = (input: EstimatedTaxInput): EstimatedTaxPlan => {
  const shares = estimatedTaxShares(input.taxYear)
  const { thisYear, lastYear } = input
  const farmer =
    isFarmersIncome(shares, thisYear.farm, thisYear.total) ||
    isFarmersIncome(shares, lastYear.farm, lastYear.total)
  const required = requiredPayment(
    shares,
    farmer,
    input.taxThisYear,
    input.taxLastYear,
    input.adjustedGrossIncomeLastYear,
    input.marriedSeparate,
  )
  const small = input.taxThisYear - input.withheld < shares.nothingUnder || input.taxLastYear === 0
  const left = small ? 0 : Math.max(0, required - input.withheld)
  const dates = farmer ? [farmerInstallmentDue(input.taxYear)] : quarterlyInstallmentsDue(input.taxYear)
  return {
    farmer,
    requiredAnnualPayment: required,
    installments: unpaidOf(
      dates.map((due) => ({ due, amount: left / dates.length })),
      input.paid,
    ),
    fileInsteadBy: farmer ? farmerFilingDue(input.taxYear) : null,
    returnDue: returnDue(input.taxYear),
  }
}

/** What payments ahead leave of installments, each in its turn; those that are met are none. */
export const unpaidOf = <Installment extends { amount: number }>(
  installments: readonly Installment[],
  paid: number,
): Installment[] => {
  let over = Math.max(0, paid)
  return installments.flatMap((one) => {
    const met = Math.min(one.amount, over)
    over -= met
    // Parts of a whole divided and added again miss it by less than a cent.
    return one.amount - met < 0.005 ? [] : [{ ...one, amount: one.amount - met }]
  })
}

/** True when two thirds or more of a year's gross income is from farming; false in a year without income. */
export const isFarmersIncome = (shares: EstimatedTaxShares, farm: number, total: number): boolean =>
  total > 0 && farm >= shares.farmerShare * total - 1e-9

/** The part of the tax that must be paid in the year, dollars: of this year's, or of last year's when that is less and known. */
export const requiredPayment = (
  shares: EstimatedTaxShares,
  farmer: boolean,
  taxThisYear: number,
  taxLastYear: number | null,
  adjustedGrossIncomeLastYear: number,
  marriedSeparate: boolean,
): number => {
  const fromThisYear = taxThisYear * (farmer ? shares.farmerThisYear : shares.othersThisYear)
  if (taxLastYear === null) return fromThisYear
  const line = marriedSeparate ? shares.highIncomeOver / 2 : shares.highIncomeOver
  const highIncome = !farmer && adjustedGrossIncomeLastYear > line
  return Math.min(fromThisYear, taxLastYear * (highIncome ? shares.lastYearHighIncome : shares.lastYear))
}

/** January 15 after the tax year: a farmer's one installment. */
export const farmerInstallmentDue = (taxYear: number): Day => onBusinessDay(day(`${taxYear + 1}-01-15`))

/** March 1 after the tax year: a farmer who files and pays by then owes no installment. */
export const farmerFilingDue = (taxYear: number): Day => onBusinessDay(day(`${taxYear + 1}-03-01`))

/** Each of the four payments is a quarter of the year's (26 USC 6654(d)(1)(A)). */
export const quarterlyShares = [0.25, 0.25, 0.25, 0.25] as const

/** April 15, June and September of the tax year and January 15 after it. */
export const quarterlyInstallmentsDue = (taxYear: number): Day[] =>
  [`${taxYear}-04-15`, `${taxYear}-06-15`, `${taxYear}-09-15`, `${taxYear + 1}-01-15`].map((text) =>
    onBusinessDay(day(text)),
  )

/** April 15 after the tax year; also the last day for IRA and HSA contributions of that year. */
export const returnDue = (taxYear: number): Day => onBusinessDay(day(`${taxYear + 1}-04-15`))

/** January 31 after the tax year: wage forms, payments for work and the farm's payroll return (26 USC 6071(c)). */
export const workFormsDue = (taxYear: number): Day => onBusinessDay(day(`${taxYear + 1}-01-31`))

/** October 15 after the tax year, where Form 4868 was filed by April 15 (26 CFR 1.6081-4). */
export const extendedReturnDue = (taxYear: number): Day => onBusinessDay(day(`${taxYear + 1}-10-15`))

/**
 * A due date on a Saturday, Sunday or legal holiday of the District of Columbia moves to the next business day
 * (26 USC 7503). The two holidays that meet a tax date are told here: King's birthday and Emancipation Day.
 */
export const onBusinessDay = (due: Day): Day => {
  let moved = due
  while (weekdayOf(moved) === 0 || weekdayOf(moved) === 6 || isHoliday(moved)) moved = addDays(moved, 1)
  return moved
}

const isHoliday = (value: Day): boolean => {
  const date = Number(value.slice(8, 10))
  if (value.slice(5, 7) === '01') return weekdayOf(value) === 1 && date >= 15 && date <= 21
  return value.slice(5, 7) === '04' && value === emancipationDay(value.slice(0, 4))
}

/** April 16; the Friday before when it is a Saturday, the Monday after when it is a Sunday. */
const emancipationDay = (year: string): Day => {
  const sixteenth = day(`${year}-04-16`)
  const weekday = weekdayOf(sixteenth)
  if (weekday === 6) return addDays(sixteenth, -1)
  return weekday === 0 ? addDays(sixteenth, 1) : sixteenth
}
