// The farm's yearly payroll forms from what its workers were paid: Form 943 with its liability by month, and Form 940 with its tests.
import { dayNumber, weekdayOf } from '#calendar/day.ts'
import { type Cents, cents, centsToDollars, dollarsToCents, sumCents, zeroCents } from '#money/cents.ts'
import { farmUnemploymentTest, federalUnemployment, payableWithForm943 } from '#rules/data/farm-payroll.ts'
import { inForce } from '#rules/in-force.ts'
import { farmSide } from '../account.ts'
import { paysForWork } from '../schedule-lines.ts'
import type { PaidOn, PayeeSaid } from './payee-totals.ts'
import { nameOfWorker, type PayrollTax, taxOnWages, type WorkerPay } from './wages.ts'

/** Printed with the lines. Line numbers are from memory. */
export const payrollFormsSource =
  'Forms 943 and 940, lines in our own words; IRS Pub. 15 (Pub. 51 before 2023); 26 USC 3101, 3111, 3301, 3306'

export interface Form943 {
  workers: number
  wagesCents: Cents
  /** Lines 2 and 4: wages under each tax. */
  socialSecurityWagesCents: Cents
  medicareWagesCents: Cents
  /** Lines 3 and 5, of worker and employer. */
  socialSecurityCents: Cents
  medicareCents: Cents
  /** Line 8. */
  withheldCents: Cents
  /** Line 9. */
  totalCents: Cents
  /** Line 17: what fell due with each month's pay. They add up to the total. */
  monthsCents: readonly Cents[]
  /** Below so much tax nothing need be deposited before; null where nobody was paid. */
  withFormBelowCents: Cents | null
}

/** Of the farm's workers alone: those of a venture are told on Form 941. */
export const form943 = (workers: readonly WorkerPay[], year: number): Form943 => {
  const farm = workers.filter(({ sideId }) => sideId === farmSide)
  const twice = (of: (due: PayrollTax) => Cents) => cents(2 * sumCents(farm.map(({ due }) => of(due))))
  const socialSecurityCents = twice((due) => due.socialSecurityCents)
  const medicareCents = twice((due) => due.medicareCents)
  const withheldCents = sumCents(farm.map(({ federalCents }) => federalCents))
  return {
    workers: farm.length,
    wagesCents: sumCents(farm.map(({ grossCents }) => grossCents)),
    socialSecurityWagesCents: sumCents(farm.map(({ due }) => due.socialSecurityWagesCents)),
    medicareWagesCents: sumCents(farm.map(({ due, grossCents }) => (due.isDue ? grossCents : zeroCents))),
    socialSecurityCents,
    medicareCents,
    withheldCents,
    totalCents: cents(socialSecurityCents + medicareCents + withheldCents),
    monthsCents: liabilityByMonth(farm, year),
    withFormBelowCents: farm.length === 0 ? null : dollarsToCents(inForce(payableWithForm943, year)),
  }
}

/** Each month has what the year's tax grew by, so that cents rounded off in one month are found in the next. */
const liabilityByMonth = (farm: readonly WorkerPay[], year: number): Cents[] => {
  const months = Array.from({ length: 12 }, () => 0)
  for (const worker of farm) {
    let [paid, taxed] = [0, 0]
    worker.months.forEach(({ grossCents, federalCents }, i) => {
      paid += grossCents
      // Whether it is due hangs on the whole year's pay.
      const tax = worker.due.isDue ? taxOnWages(cents(paid), year) : null
      const upTo = tax ? 2 * (tax.socialSecurityCents + tax.medicareCents) : 0
      months[i]! += upTo - taxed + federalCents
      taxed = upTo
    })
  }
  return months.map(cents)
}

export interface Form940 {
  /** Wages of the year's quarters, and of the year before's where its books are there. */
  quartersCents: readonly Cents[]
  beforeCents: readonly Cents[]
  workers: number
  /** Weeks with pay to as many workers as the test asks. */
  weeks: number
  /** Null where it cannot be told: enough workers, and the books know days of pay, not of work. */
  isDue: boolean | null
  /** What the law asks: either wages of a quarter, or so many workers in so many weeks. Null where nobody was paid. */
  tests: { quarterCents: Cents; workers: number; weeks: number; taxedOfEachCents: Cents } | null
  /** Line 3. */
  paymentsCents: Cents
  /** Line 5: over the amount that is taxed of each. */
  overCents: Cents
  /** Line 7. */
  taxableCents: Cents
  /** Line 8, where the state's own tax was paid in full and in time. */
  taxCents: Cents
}

/**
 * A farm pays federal unemployment tax where it paid the law's amount in a quarter of this year or the one before, or had ten workers
 * in twenty weeks (26 USC 3306(a)(2)). `paid` are the year's payments, with `said` telling who works here.
 */
export const form940 = (
  workers: readonly WorkerPay[],
  before: readonly WorkerPay[],
  { paid, said }: { paid: readonly PaidOn[]; said: readonly PayeeSaid[] },
  year: number,
): Form940 => {
  const farm = workers.filter(isOfFarm)
  // The law of a year is asked only where somebody was paid: books may hold years that no law is kept of.
  if (farm.length === 0 && !before.some(isOfFarm)) return noPayroll
  const law = inForce(federalUnemployment, year)
  const tests = {
    quarterCents: dollarsToCents(inForce(farmUnemploymentTest, year)),
    workers: law.workers,
    weeks: law.weeks,
    taxedOfEachCents: dollarsToCents(law.wages),
  }
  const [quartersCents, beforeCents] = [quartersOf(farm), quartersOf(before.filter(isOfFarm))]
  const weeks = weeksWith(paid, said, law.workers)
  const isMet =
    [...quartersCents, ...beforeCents].some((sum) => sum >= tests.quarterCents) || weeks >= law.weeks
  const paymentsCents = sumCents(farm.map(({ grossCents }) => grossCents))
  const overCents = sumCents(
    farm.map(({ grossCents }) => cents(Math.max(0, grossCents - tests.taxedOfEachCents))),
  )
  const taxableCents = cents(paymentsCents - overCents)
  return {
    quartersCents,
    beforeCents,
    workers: farm.length,
    weeks,
    isDue: isMet ? true : farm.length >= law.workers ? null : false,
    tests,
    paymentsCents,
    overCents,
    taxableCents,
    taxCents: dollarsToCents(centsToDollars(taxableCents) * (law.rate - law.credit)),
  }
}

const noPayroll: Form940 = {
  quartersCents: [zeroCents, zeroCents, zeroCents, zeroCents],
  beforeCents: [zeroCents, zeroCents, zeroCents, zeroCents],
  workers: 0,
  weeks: 0,
  isDue: false,
  tests: null,
  paymentsCents: zeroCents,
  overCents: zeroCents,
  taxableCents: zeroCents,
  taxCents: zeroCents,
}

const isOfFarm = ({ sideId }: WorkerPay): boolean => sideId === farmSide

const quartersOf = (workers: readonly WorkerPay[]): Cents[] =>
  [0, 3, 6, 9].map((from) =>
    sumCents(workers.flatMap(({ months }) => months.slice(from, from + 3).map((one) => one.grossCents))),
  )

const weeksWith = (paid: readonly PaidOn[], said: readonly PayeeSaid[], least: number): number => {
  const workers = nameOfWorker(said)
  const byWeek = new Map<number, Set<string>>()
  for (const { payee, account, day } of paid) {
    const name = workers.get(payee)
    if (name === undefined || account.sideId !== farmSide || !paysForWork(account)) continue
    const week = dayNumber(day) - weekdayOf(day)
    byWeek.set(week, (byWeek.get(week) ?? new Set()).add(name))
  }
  return [...byWeek.values()].filter(({ size }) => size >= least).length
}
