// What was paid for each year's federal and state return, and what the return still owes.
import { lastDayOfYear } from '#calendar/day.ts'
import { parseMonth, yearOf } from '#calendar/month.ts'
import type { Books } from '#db/open.ts'
import type { Plan } from '#plan/plan.ts'
import { steadyIndexing } from '#rules/dated.ts'
import { firstLawYear, lawFor } from '#rules/law.ts'
import { carriedBack, carryBack, type ReturnBefore, returnOfTwoLines } from '#rules/loss-carryback.ts'
import { peopleOfYear } from '#today/cover/cover-household.ts'
import { keptThrough, keptUntilChange } from '#today/kept.ts'
import { booksYear, holdsAllOf, yearIncome } from './books-year.ts'
import type { LastYear } from './paid-ahead.ts'
import {
  type AheadKind,
  nothingPaid,
  type PaidFor,
  type PaidUntil,
  paidAhead,
  surelyPaidFor,
  undecidedIn,
  withPaidEarlier,
} from './paid-for.ts'
import { planForReturns } from './plan-for-returns.ts'
import type { ReturnKind } from './return-kinds.ts'
import { type SavedFor, savedFor } from './saved-for.ts'
import { taxToPay, type YearTax, type YearTaxResult, yearTax } from './tax-worksheet.ts'

/** Dollars. */
export interface TaxPayments extends PaidFor {
  /** By the worksheet, after all of that; null when the year cannot be worked, or the books begin within it. A refund is 0. */
  stillOwed: number | null
  /** By the worksheet too, and not yet there; null as above. */
  comesBack: number | null
}

/**
 * What counts for a year's return. Of payments that fit two readings, so much settles the year before as that owes; what is more is
 * an installment of its own year. Where the books do not know all of the year before, all of it counts there: rather too much is
 * set aside than too little.
 */
export const taxPayments = (
  books: Books,
  plan: Plan | null,
  year: number,
  to: ReturnKind = 'federal',
  until?: PaidUntil,
): TaxPayments =>
  keptUntilChange(
    books,
    `tax paid ${year} ${to} ${until?.day ?? ''} ${until?.bookedBy ?? ''}`,
    () => countPayments(books, plan, year, to, until),
    planForReturns(plan),
  )

const countPayments = (
  books: Books,
  plan: Plan | null,
  year: number,
  to: ReturnKind,
  until: PaidUntil | undefined,
): TaxPayments => {
  const ahead = paidAheadFor(books, plan, year, to, until)
  const undecided = undecidedIn(books, { plan, year: year + 1, to, until })
  const worked = workedYear(books, plan, year, to === 'federal' ? ahead : nothingPaid)
  if (worked.status === 'cannot' || !holdsAllOf(books, year))
    return { ...ahead, withReturn: ahead.withReturn + undecided, stillOwed: null, comesBack: null }
  const balance = balanceWith(to, worked.tax, paidAhead(ahead)) - ahead.withReturn
  // What was left for the next year is gone from this one, whatever the return comes to.
  const owed = Math.max(0, balance + ahead.appliedToNext)
  const settles = Math.min(undecided, owed)
  return {
    ...ahead,
    withReturn: ahead.withReturn + settles,
    stillOwed: owed - settles,
    comesBack: Math.max(0, -balance - ahead.refunded - ahead.appliedToNext),
  }
}

/** What the year's return asks for beyond what was paid ahead; below zero comes back. The state's and a local one rest on the federal one. */
export const balanceWith = (to: ReturnKind, { return: { figures } }: YearTax, ahead: number): number =>
  to === 'federal'
    ? figures.balanceDue
    : (to === 'local' ? figures.localIncomeTax : figures.stateIncomeTax - figures.localIncomeTax) - ahead

/** Payments for the year, of what was paid with its return only what is told as such. */
export const paidAheadFor = (
  books: Books,
  plan: Plan | null,
  year: number,
  to: ReturnKind = 'federal',
  until?: PaidUntil,
): PaidFor => {
  const sure = surelyPaidFor(books, { plan, year, to, until })
  const undecided = undecidedIn(books, { plan, year, to, until })
  if (undecided === 0) return sure
  const { withReturn } = surelyPaidFor(books, { plan, year: year - 1, to })
  const settled = year <= firstLawYear ? 0 : taxPayments(books, plan, year - 1, to).withReturn - withReturn
  return { ...sure, estimates: sure.estimates + Math.max(0, undecided - settled) }
}

/** The year's worksheet after all that was paid for it, with those payments. The state's are null where none of its tax counts, those of a local office where it asks for none. */
export const worksheetAfterPayments = (
  books: Books,
  plan: Plan | null,
  year: number,
  until?: PaidUntil,
): {
  worked: YearTaxResult
  payments: TaxPayments
  statePayments: TaxPayments | null
  localPayments: TaxPayments | null
} => {
  const payments = taxPayments(books, plan, year, 'federal', until)
  const toState = paidAheadFor(books, plan, year, 'state', until)
  const worked = workedYear(books, plan, year, payments, toState)
  const counts = worked.status === 'worked' && worked.tax.household.state !== null
  const earlier = yearIncome(books, plan, year)?.earlier
  const local = worked.status === 'worked' && worked.tax.return.figures.localIncomeTax > 0
  return {
    worked,
    payments: worked.status === 'worked' ? withPaidEarlier(payments, earlier, 'federal') : payments,
    statePayments: counts
      ? withPaidEarlier(taxPayments(books, plan, year, 'state', until), earlier, 'state')
      : null,
    localPayments: local
      ? withPaidEarlier(taxPayments(books, plan, year, 'local', until), earlier, 'local')
      : null,
  }
}

/** The year's worksheet by the books, with so much paid for it, to the state too. */
export const workedYear = (
  books: Books,
  plan: Plan | null,
  year: number,
  paid: PaidFor = nothingPaid,
  toState: PaidFor = nothingPaid,
): YearTaxResult => {
  // What went in after the year may be for it: the year's own days do not tell.
  const saved = savedFor(books, plan, year)
  return keptThrough(
    books,
    lastDayOfYear(year),
    `worked ${[paid, toState].flatMap((sums) => Object.values(sums)).join(' ')} ${JSON.stringify(saved)}`,
    () => workYear(books, planForReturns(plan), year, { federal: paid, state: toState }, saved),
    planForReturns(plan),
  )
}

const workYear = (
  books: Books,
  plan: Plan | null,
  year: number,
  paid: Record<AheadKind, PaidFor>,
  saved: SavedFor,
): YearTaxResult => {
  const { sides } = booksYear(books, year)
  const income = yearIncome(books, plan, year)
  if (!income) return { status: 'cannot', says: 'There are no farm books yet.' }
  return yearTax(sides, income, paid, lastYearOf(books, plan, year - 1), plan, saved)
}

/** The year before as the books have it, where they hold all of it. */
export const lastYearOf = (books: Books, plan: Plan | null, year: number): LastYear | null =>
  keptThrough(
    books,
    lastDayOfYear(year),
    'last year',
    () => readLastYear(books, plan, year),
    planForReturns(plan),
  )

const readLastYear = (books: Books, plan: Plan | null, year: number): LastYear | null => {
  const { farm } = booksYear(books, year)
  if (!farm || !holdsAllOf(books, year)) return null
  // Without law for the year there is no return of it, nor of those before: they need not be read.
  const worked = year < firstLawYear ? null : workedYear(books, plan, year)
  if (worked === null || worked.status === 'cannot' || !plan) return { gross: farm.income.gross, filed: null }
  const { household, return: filed } = worked.tax
  const { carried, adjustedGrossIncome } = filed.figures
  const back =
    plan.tax.farmLosses === 'back' ? lossTakenBack(books, plan, year, carried.farmLoss) : noLossBack
  return {
    gross: farm.income.gross,
    filed: {
      tax: taxToPay(household, filed),
      stateTax: Math.max(0, filed.figures.stateIncomeTax - filed.figures.localIncomeTax),
      adjustedGrossIncome,
      carried: { ...carried, netOperatingLoss: Math.max(0, carried.netOperatingLoss - back.used) },
      lossRefund: back.refund,
    },
  }
}

const noLossBack = { refund: 0, used: 0 }

/** A farming loss of the year against the returns of the two before (26 USC 172(b)(1)(B)). Dollars. */
const lossTakenBack = (books: Books, plan: Plan, year: number, loss: number): typeof noLossBack => {
  if (loss <= 0) return noLossBack
  const returns = [year - 2, year - 1].map((before) => returnOf(books, plan, before))
  const refund = carryBack(
    returns.filter((one) => one !== null),
    0,
    loss,
  )
  return { refund, used: carriedBack.used }
}

/** A return as the books have it, else by the lines the plan tells of the two years before it. */
const returnOf = (books: Books, plan: Plan, year: number): ReturnBefore | null => {
  if (year < firstLawYear) return null
  const law = lawFor(year, steadyIndexing(plan.assumptions.inflation, plan.assumptions.wageGrowth))
  const worked = holdsAllOf(books, year) ? workedYear(books, plan, year) : null
  if (worked?.status === 'worked') {
    const { household } = worked.tax
    return { law, household: { ...household, carried: { ...household.carried } }, ratio: 1 }
  }
  const { lastYear } = plan.tax
  const { status } = peopleOfYear(plan, year)
  const start = yearOf(parseMonth(plan.startMonth)!)
  const byLines = (income: number, taxable: number): ReturnBefore => ({
    law,
    household: returnOfTwoLines(status, income, taxable),
    ratio: 1,
  })
  if (year === start - 1) return byLines(lastYear.adjustedGrossIncome, lastYear.taxableIncome)
  if (year === start - 2) return byLines(lastYear.incomeTwoYearsBack, lastYear.taxableIncomeTwoYearsBack)
  return null
}
