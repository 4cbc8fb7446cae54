// A year's income as the tax law asks for it, read from the books of all sides: farm, pay, ventures, interest, stock and equipment sold.
import { type Cents, centsToDollars, sumCents } from '#money/cents.ts'
import type { GrossIncome } from '#rules/estimated-tax.ts'
import type { CoverMonth } from '../tax/cover-papers.ts'
import type { FarmSaid } from '../tax/form-said.ts'
import { householdForm } from '../tax/household-lines.ts'
import { cameIn, onLine } from '../tax/income-places.ts'
import { wagesOf } from '../tax/pay-before-tax.ts'
import { type PropertySales, salesTogether } from '../tax/property-sales.ts'
import { type AccountYear, type BookYear, takenOffPay } from './book-year.ts'
import type { ScheduleC } from './schedule-c.ts'
import { grossFarmIncome, type ScheduleF } from './schedule-f.ts'

/** Dollars, of one calendar year as far as it is booked. */
export interface YearIncome {
  year: number
  /** Schedule F line 9, line 33 and line 34. */
  farmGross: number
  farmExpenses: number
  farmProfit: number
  /** Wages as Form W-2 has them in box 1, without what was taken off them before tax. */
  pay: number
  /** Of pay, what its accounts say whose it is. */
  payBy: PayBy
  /** What was taken off before tax: for an employer's health plan, and into a plan at work, which Social Security taxes. */
  beforeTax: { premiums: number; deferred: number; deferredBy: PayBy }
  /** Profit of the side ventures, Schedule C line 31 of each. */
  ventureProfit: number
  /** The same, each with who runs it where that was said. */
  ventures: readonly { name: string; person: string | null; profit: number; gross: number }[]
  /** Whose farm it is, where that was said; the plan tells it else. */
  owners?: Pick<FarmSaid, 'ownership' | 'owner' | 'firstShare'>
  /** Credit for tax on fuel burned on the farm, dollars. */
  fuelTaxCredit?: number
  /** What Forms 1095-A say of each month, where they were entered. */
  coverMonths?: readonly CoverMonth[]
  /** Interest that is taxed, the farm's too; a change in what investments are worth is no income until they are sold. */
  interest: number
  /** What the household's accounts with a line of their own brought. */
  lines: HouseholdLines
  /** Breeding stock and equipment sold: the gain of section 1231, and what is taxed as ordinary income. */
  sold: {
    section1231: number
    ordinary: number
    /** Of both, what ventures sold. */
    ofVentures: { section1231: number; ordinary: number }
    /** Capital gains on the personal part of things used in part. */
    personal: { longTerm: number; shortTerm: number }
    isRecorded: boolean
  }
  /** Section 179 deduction elected in the year beyond its business income: left to later ones. */
  section179Left?: number
  /** For the two-thirds test of farmers. */
  gross: GrossIncome
  /** Of all this, what was said to have come before books that begin within the year; with what was paid for it then. */
  earlier?: EarlierIncome
}

export type PayBy = readonly { person: string; amount: number }[]

/** Dollars; all dividends are in the first, the qualified ones in both. */
export interface HouseholdLines {
  ordinaryDividends: number
  qualifiedDividends: number
  taxExemptInterest: number
  iraDistributions: number
  pensions: number
  socialSecurity: number
  /** Unemployment pay and what else is taxed as it comes. */
  other: number
}

/** Dollars. */
export interface EarlierIncome {
  farmGross: number
  farmProfit: number
  wages: number
  otherSelfEmployment: number
  otherIncome: number
  /** Of `otherIncome`, taken early from retirement savings. */
  earlyWithdrawals: number
  propertyGain: number
  ordinaryGain: number
  healthPremiums: number
  /** Marketplace cover of these months: how many, and of all of them together premium, benchmark and credit in advance. */
  marketplaceMonths: number
  marketplacePremiums: number
  marketplaceBenchmark: number
  advanceCredit: number
  /** Of federal tax, withheld and ahead. */
  paid: number
  /** What of `paid` was withheld; never more than it. */
  withheld: number
  /** Of state and local income tax, withheld and ahead. */
  statePaid: number
  /** What of `statePaid` went to a local office. */
  localPaid: number
}

/** The year's income with what came before the books began in it. */
export const withEarlier = (income: YearIncome, earlier: EarlierIncome): YearIncome => ({
  ...income,
  farmGross: income.farmGross + earlier.farmGross,
  farmExpenses: income.farmExpenses + earlier.farmGross - earlier.farmProfit,
  farmProfit: income.farmProfit + earlier.farmProfit,
  pay: income.pay + earlier.wages,
  ventureProfit: income.ventureProfit + earlier.otherSelfEmployment,
  interest: income.interest + earlier.otherIncome,
  sold: {
    ...income.sold,
    section1231: income.sold.section1231 + earlier.propertyGain,
    ordinary: income.sold.ordinary + earlier.ordinaryGain,
  },
  gross: {
    farm: income.gross.farm + earlier.farmGross,
    total: income.gross.total + earlierGross(earlier).reduce(addAbove0, 0),
  },
  earlier,
})

const earlierGross = (earlier: EarlierIncome): number[] => [
  earlier.farmGross,
  earlier.wages,
  earlier.otherSelfEmployment,
  earlier.otherIncome,
  earlier.propertyGain + earlier.ordinaryGain,
]

/** `form` is the farm's Schedule F with line 14 as it will be filed, `farmSales` what it sold on Form 4797; each venture has its own. */
export const incomeOfYear = (
  sides: readonly BookYear[],
  form: ScheduleF,
  farmSales: PropertySales,
  ventureForms: readonly VentureForms[],
): YearIncome => {
  const sold = soldOf(farmSales, ventureForms)
  const all = sides.flatMap((side) => side.accounts)
  const lineOf = (line: string): number => inDollars(onLine(all, householdForm, line))
  const wages = wagesIncome(onLine(all, householdForm, '1a'))
  const interest = lineOf('2b')
  const lines: HouseholdLines = {
    ordinaryDividends: lineOf('3a') + lineOf('3b'),
    qualifiedDividends: lineOf('3a'),
    taxExemptInterest: lineOf('2a'),
    iraDistributions: lineOf('4b'),
    pensions: lineOf('5b'),
    socialSecurity: lineOf('6a'),
    other: lineOf('S1-7') + lineOf('S1-8'),
  }
  const ventures = ventureForms.map(({ form, person }) => ({
    name: form.name,
    person,
    profit: centsToDollars(form.netProfitCents),
    gross: centsToDollars(form.grossIncomeCents),
  }))
  const ventureIncome = ventures.reduce((sum, { gross }) => sum + gross, 0)
  const farm = centsToDollars(grossFarmIncome(form, farmSales.section1231Cents))
  return {
    year: form.year,
    farmGross: centsToDollars(form.grossIncomeCents),
    farmExpenses: centsToDollars(form.totalExpensesCents),
    farmProfit: centsToDollars(form.netProfitCents),
    ...wages,
    ventureProfit: centsToDollars(sumCents(ventureForms.map(({ form }) => form.netProfitCents))),
    ventures,
    interest,
    lines,
    sold,
    gross: {
      farm,
      total:
        farm +
        [
          wages.pay,
          ventureIncome,
          ...ventureForms.map(({ sales }) => centsToDollars(sales.section1231Cents)),
          interest,
          sold.ordinary,
          sold.personal.longTerm + sold.personal.shortTerm,
          taxedOf(lines),
        ].reduce(addAbove0, 0),
    },
  }
}

const wagesIncome = (rows: readonly AccountYear[]): Pick<YearIncome, 'pay' | 'payBy' | 'beforeTax'> => {
  const sumOf = (of: (row: AccountYear) => Cents) => centsToDollars(sumCents(rows.map(of)))
  const deferredOf = (row: AccountYear) => takenOffPay(row, 'deferred')
  return {
    pay: sumOf(wagesOf),
    payBy: byPerson(rows, wagesOf),
    beforeTax: {
      premiums: sumOf((row) => takenOffPay(row, 'premium')),
      deferred: sumOf(deferredOf),
      deferredBy: byPerson(rows, deferredOf),
    },
  }
}

interface VentureForms {
  form: ScheduleC
  person: string | null
  sales: PropertySales
}

const soldOf = (farmSales: PropertySales, ventures: readonly VentureForms[]): YearIncome['sold'] => {
  const all = [farmSales, ...ventures.map((venture) => venture.sales)]
  const { section1231Cents, ordinaryCents, personalGains, sales } = salesTogether(
    all.map((one) => ({ name: '', sales: one })),
  )
  return {
    section1231: centsToDollars(section1231Cents),
    ordinary: centsToDollars(ordinaryCents),
    ofVentures: {
      section1231: centsToDollars(sumCents(ventures.map((one) => one.sales.section1231Cents))),
      ordinary: centsToDollars(sumCents(ventures.map((one) => one.sales.ordinaryCents))),
    },
    personal: {
      longTerm: centsToDollars(personalGains.longCents),
      shortTerm: centsToDollars(personalGains.shortCents),
    },
    isRecorded: sales.every(({ holdingId }) => holdingId !== null),
  }
}

const addAbove0 = (sum: number, amount: number): number => sum + Math.max(0, amount)

const inDollars = (rows: readonly AccountYear[]): number => centsToDollars(sumCents(rows.map(cameIn)))

const byPerson = (rows: readonly AccountYear[], of: (row: AccountYear) => Cents): PayBy =>
  rows.flatMap((row) =>
    row.account.personId === null ? [] : [{ person: row.account.personId, amount: centsToDollars(of(row)) }],
  )

/** What of these lines is gross income as it stands: Social Security is so in part only, and is left out of the farmer's test. */
const taxedOf = ({ ordinaryDividends, iraDistributions, pensions, other }: HouseholdLines): number =>
  ordinaryDividends + iraDistributions + pensions + other
