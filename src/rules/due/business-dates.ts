// Dates of those who pay others or collect tax for a state, and of the return beside its own day: forms, sales tax, more time, savings.
import { type Day, dayInMonth } from '#calendar/day.ts'
import { addMonths, type Month, month, monthName } from '#calendar/month.ts'
import type { DueDate } from '../due-date.ts'
import { extendedReturnDue, onBusinessDay, returnDue, workFormsDue } from '../estimated-tax.ts'

export const salesTaxPeriods = ['month', 'quarter', 'year'] as const

/** As the state told the seller: how often, and on which day of the month after. */
export interface SalesTaxDue {
  every: (typeof salesTaxPeriods)[number]
  dayOfMonth: number
}

/** What those who worked for the farm or a venture get, and what its payroll files. */
export const workForms = (taxYear: number): DueDate[] => [
  {
    id: `work-forms-${taxYear}`,
    day: workFormsDue(taxYear),
    kind: 'return',
    title: `Forms for those who worked for you in ${taxYear}`,
    says: 'Form W-2 to each worker and to Social Security, Form 943 for the farm’s payroll, Form 940 where unemployment tax is due, and Form 1099-NEC to whom you paid for work above the year’s line. States ask for their own.',
    source: '26 USC 6071(c), 6051(a); instructions of Forms 940, 943 and 1099-NEC, from memory',
  },
]

/** Landlords get theirs as workers do; the copy for the tax office has more time. */
export const rentForms = (taxYear: number): DueDate[] => [
  {
    id: `rent-forms-${taxYear}`,
    day: workFormsDue(taxYear),
    kind: 'return',
    title: `Forms for those to whom you paid rent in ${taxYear}`,
    says: 'Form 1099-MISC to a landlord who is no corporation, above the year’s line; to the tax office by the end of February on paper, of March over the wire.',
    source: '26 USC 6041(d), 6071(b); instructions of Form 1099-MISC, from memory',
  },
]

/** The return’s own day brings two more, and its late day one. */
export const besideReturn = (taxYear: number, saves: boolean): DueDate[] => [
  {
    id: `more-time-${taxYear}`,
    day: returnDue(taxYear),
    kind: 'return',
    title: `Form 4868, if the return for ${taxYear} is not ready`,
    says: 'It gives six months more to file, and none to pay: what is owed is due today all the same.',
    source: '26 CFR 1.6081-4; Form 4868',
  },
  ...(saves
    ? [
        {
          id: `contributions-${taxYear}`,
          day: returnDue(taxYear),
          kind: 'contribution' as const,
          title: `Last day to pay into an IRA or HSA for ${taxYear}`,
          says: 'Say for which year when you pay, and write it into the books. A SEP may wait until the return’s day with more time, a plan of one’s own as its papers say.',
          source: '26 USC 219(f)(3), 223(d)(4)(B), 404(h)(1)(B)',
        },
      ]
    : []),
  {
    id: `return-extended-${taxYear}`,
    day: extendedReturnDue(taxYear),
    kind: 'return',
    title: `Tax return for ${taxYear}, if more time was asked for`,
    says: 'Only with Form 4868 filed by the day the return was due. What is owed had to be paid then all the same.',
    source: '26 CFR 1.6081-4; Form 4868',
  },
]

/** Returns of sales tax for the periods that end in a year. */
export const salesTaxDates = ({ every, dayOfMonth }: SalesTaxDue, year: number): DueDate[] => {
  const length = { month: 1, quarter: 3, year: 12 }[every]
  return Array.from({ length: 12 / length }, (_, i) => month(year, (i + 1) * length)).map((last) => ({
    id: `sales-tax-${every}-${year}-${last}`,
    day: dueAfter(last, dayOfMonth),
    kind: 'sales-tax',
    title: `Sales tax for ${every === 'month' ? monthName(last) : every === 'quarter' ? `the quarter to ${monthName(last)}` : year}`,
    says: 'A return is asked for also where nothing was sold. By the day you entered; the state’s letter decides.',
    source: 'Entered in Dooryard',
  }))
}

const dueAfter = (last: Month, dayOfMonth: number): Day =>
  onBusinessDay(dayInMonth(addMonths(last, 1), dayOfMonth))
