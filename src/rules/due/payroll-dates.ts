// Dates of those who pay workers, and of two who own a farm as partners: deposits of payroll tax, Form 941 by quarter, Form 1065.
import { dayInMonth } from '#calendar/day.ts'
import { addMonths, month, monthName } from '#calendar/month.ts'
import { monthlyDepositsUpTo, payableWithForm943 } from '../data/farm-payroll.ts'
import type { DueDate } from '../due-date.ts'
import { onBusinessDay } from '../estimated-tax.ts'
import { inForce } from '../in-force.ts'

/** Tax on the farm's wages, of worker and employer with what was withheld, dollars. */
export interface FarmPayrollTax {
  /** January first. */
  byMonth: readonly number[]
  yearBefore: number
  /** Of the second year before: it decides how often is deposited. */
  twoYearsBefore: number
}

export interface PayrollGround {
  /** Null where the farm paid no worker, and of years whose law is not kept here. */
  farm: FarmPayrollTax | null
  /** A business that is no farm paid wages. */
  othersWages: boolean
  /** The farm is a partnership. */
  partnership: boolean
}

const caution = 'Ask a payroll service or a licensed preparer.'

export const payrollDates = (
  { farm, othersWages, partnership }: PayrollGround,
  taxYear: number,
): DueDate[] => [
  ...(farm ? farmDeposits(farm, taxYear) : []),
  ...(othersWages ? quarterlyReturns(taxYear) : []),
  ...(partnership ? [partnershipReturn(taxYear)] : []),
]

/**
 * Each month with pay, by the 15th of the next one; none while neither this year nor the one before comes to the least that must be
 * deposited. Over the line of the second year before, days follow the days of pay and are only told.
 */
const farmDeposits = (
  { byMonth, yearBefore, twoYearsBefore }: FarmPayrollTax,
  taxYear: number,
): DueDate[] => {
  const least = inForce(payableWithForm943, taxYear)
  const soFar = byMonth.reduce((sum, tax) => sum + tax, 0)
  if (Math.max(soFar, yearBefore) < least) return []
  const most = inForce(monthlyDepositsUpTo, taxYear)
  const dollars = (amount: number) => amount.toLocaleString('en-US')
  const rule =
    twoYearsBefore > most
      ? `Tax of ${taxYear - 2} was over $${dollars(most)}: deposits are due within days of each pay, not by this day.`
      : `By the 15th of the next month, unless the whole year’s tax stays under $${dollars(least)} and goes with Form 943.`
  return byMonth.flatMap((tax, i): DueDate[] => {
    const paid = month(taxYear, i + 1)
    return tax <= 0
      ? []
      : [
          {
            id: `payroll-deposit-${taxYear}-${i + 1}`,
            day: onBusinessDay(dayInMonth(addMonths(paid, 1), 15)),
            kind: 'payroll',
            title: `Deposit the payroll tax of ${monthName(paid)}`,
            says: `${rule} ${caution}`,
            source: '26 CFR 31.6302-1(c), (f)(4); IRS Pub. 51 and Pub. 15, section 11, from memory',
          },
        ]
  })
}

const quarterlyReturns = (taxYear: number): DueDate[] =>
  [3, 6, 9, 12].map((last, i) => ({
    id: `form-941-${taxYear}-${i + 1}`,
    day: onBusinessDay(dayInMonth(addMonths(month(taxYear, last), 1), 31)),
    kind: 'payroll',
    title: `Form 941 for the quarter to ${monthName(month(taxYear, last))}`,
    says: `For workers of a venture that is no farm; the farm’s are on Form 943. From $2,500 a quarter on, its tax is deposited before. ${caution}`,
    source: '26 CFR 31.6071(a)-1(a)(1), 31.6302-1(f)(4); instructions of Form 941, from memory',
  }))

const partnershipReturn = (taxYear: number): DueDate => ({
  id: `partnership-return-${taxYear}`,
  day: onBusinessDay(dayInMonth(month(taxYear + 1, 3), 15)),
  kind: 'return',
  title: `Form 1065 of the farm’s partnership for ${taxYear}`,
  says: `With a Schedule K-1 to each partner, before their own returns. Late, it costs a penalty for each partner and month. Two spouses may be a qualified joint venture instead. ${caution}`,
  source: '26 USC 6072(b), 6031, 6698, 761(f)',
})
