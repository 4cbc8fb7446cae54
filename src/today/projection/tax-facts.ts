// What a plan under way must know of tax time behind it: this year's income and payments so far, and the two years before.
import { firstDayOf } from '#calendar/day.ts'
import { type Month, month as monthOf, yearOf } from '#calendar/month.ts'
import { spanOfBooks } from '#db/ledger/balances.ts'
import type { Books } from '#db/open.ts'
import { ownPremiumsOf } from '#ledger/tax/pay-before-tax.ts'
import { centsToDollars, sumCents } from '#money/cents.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import type { Plan } from '#plan/plan.ts'
import { firstLawYear } from '#rules/law.ts'
import type { ProjectedYear, Projection } from '#runway/project.ts'
import { keptUntilChange } from '#today/kept.ts'
import { booksYear, holdsAllOf } from '#today/tax/books-year.ts'
import { earlyTaken } from '#today/tax/early-taken.ts'
import { paidAhead, surelyPaidFor } from '#today/tax/paid-for.ts'
import { planForReturns } from '#today/tax/plan-for-returns.ts'
import type { ReturnKind } from '#today/tax/return-kinds.ts'
import { lastYearOf, paidAheadFor, workedYear } from '#today/tax/tax-payments.ts'
import { carriedInto, taxToPay } from '#today/tax/tax-worksheet.ts'
import { bookedBetween, unearned } from './booked-between.ts'
import { coverBehind, coverOf, noCoverYet, withCover } from './cover-so-far.ts'
import { isBooked, lastYearDue, taxOffices } from './last-year-due.ts'

type SoFar = Plan['tax']['soFar']
type LastYear = Plan['tax']['lastYear']
type Carried = Plan['tax']['carried']

/** `baseline` is the plan as saved, run from its own start: it speaks where the books do not. */
export const taxFacts = (
  books: Books,
  saved: Plan,
  month: Month,
  baseline: Projection | null,
  stillDue: number = lastYearDue(books, saved, month, baseline).stillDue,
): Pick<Plan['tax'], 'soFar' | 'lastYear' | 'carried' | 'lossRefundDue'> => ({
  soFar: soFar(books, saved, month, baseline),
  lastYear: {
    ...lastYear(books, saved, yearOf(month), baseline),
    stillDue,
  },
  carried: carried(books, saved, yearOf(month), baseline),
  lossRefundDue: lossRefundDue(books, saved, month, baseline),
})

export const nothingYet: SoFar = {
  farmProfit: 0,
  farmGross: 0,
  otherSelfEmployment: 0,
  wages: 0,
  otherIncome: 0,
  earlyWithdrawals: 0,
  propertyGain: 0,
  ordinaryGain: 0,
  healthPremiums: 0,
  ...noCoverYet,
  paid: 0,
  withheld: 0,
  statePaid: 0,
  localPaid: 0,
}

function soFar(books: Books, saved: Plan, month: Month, baseline: Projection | null): SoFar {
  const year = yearOf(month)
  const january = monthOf(year, 1)
  if (month === january) return { ...nothingYet, ...appliedTo(books, saved, year) }
  const start = firstMonthOf(saved)
  const said = yearOf(start) === year ? saved.tax.soFar : nothingYet
  const span = spanOfBooks(books)
  const saysNothing = Object.values(said).every((amount) => amount === 0)
  const from = saysNothing ? january : (Math.max(start, january) as Month)
  const cover = (first: Month) => coverBehind(books, saved, baseline, month, first)
  if (!span || span.first >= month || !booksYear(books, year).farm) {
    const planned = baseline?.years.find((one) => one.year === year)
    return planned ? plus(said, { ...plannedSoFar(planned, baseline!, start, month), ...cover(from) }) : said
  }
  if (span.first <= january)
    return plus(
      { ...nothingYet, ...coverOf(said) },
      withCover(
        bookedSoFar(books, saved, january, month),
        cover(said.marketplaceMonths > 0 ? from : january),
      ),
    )
  return plus(said, withCover(bookedSoFar(books, saved, from, month), cover(from)))
}

/** What the year begins with of tax: refunds of the year before that were left for it. */
function appliedTo(books: Books, saved: Plan, year: number): Pick<SoFar, 'paid' | 'statePaid' | 'localPaid'> {
  const applied = (to: ReturnKind) =>
    taxOffices(saved).includes(to) ? surelyPaidFor(books, { plan: saved, year, to }).applied : 0
  const localPaid = applied('local')
  return { paid: applied('federal'), statePaid: applied('state') + localPaid, localPaid }
}

/** Income is read off the year's books with the other months left out; depreciation comes by year (`written-off.ts`). */
function bookedSoFar(books: Books, saved: Plan, from: Month, month: Month): SoFar {
  const year = yearOf(month)
  const booked = bookedBetween(books, from, month)
  const { farm } = booksYear(books, year)
  if (!farm || !booked) return nothingYet
  const { income, sides } = booked
  const home = sides.find((side) => side.kind === 'household')
  const until = firstDayOf(month)
  const paidTo = (to: ReturnKind) => paidAheadFor(books, saved, year, to, { day: until })
  const paidSoFar = (to: ReturnKind) => paidAhead(paidTo(to))
  const countsState = taxOffices(saved).includes('state')
  const localPaid = countsState ? Math.max(0, paidSoFar('local')) : 0
  return {
    farmProfit: income.farmProfit,
    farmGross: income.farmGross,
    otherSelfEmployment: income.ventureProfit,
    wages: income.pay,
    otherIncome: Math.max(0, unearned(income)) + income.sold.personal.shortTerm,
    earlyWithdrawals: earlyTaken(saved, sides),
    // A gain of section 1231 is a long-term one: what was not the business's of a thing used in part goes with it.
    propertyGain: income.sold.section1231 + income.sold.personal.longTerm,
    ordinaryGain: income.sold.ordinary,
    ...noCoverYet,
    healthPremiums: home ? Math.max(0, centsToDollars(sumCents(ownPremiumsOf(home)))) : 0,
    paid: Math.max(0, paidSoFar('federal')),
    withheld: Math.max(0, paidTo('federal').withheld),
    statePaid: countsState ? Math.max(0, paidSoFar('state')) + localPaid : 0,
    localPaid,
  }
}

/** Without books: the year as planned, in the part of its months that are over. */
function plannedSoFar(planned: ProjectedYear, baseline: Projection, start: Month, month: Month): SoFar {
  const first = Math.max(start, monthOf(planned.year, 1))
  const part = (month - first) / (monthOf(planned.year, 12) + 1 - first)
  const before = baseline.months[month - start - 1]
  return {
    ...nothingYet,
    farmProfit: planned.farmProfit * part,
    farmGross: planned.farmGross * part,
    otherSelfEmployment: planned.sideProfit * part,
    wages: planned.wages * part,
    otherIncome: (planned.pensions + planned.retirementIncome) * part,
    earlyWithdrawals: planned.earlyWithdrawals * part,
    propertyGain: planned.gains * part,
    paid: Math.max(0, planned.tax * part - (before?.taxOwed ?? 0)),
  }
}

const plus = (a: SoFar, b: SoFar): SoFar =>
  Object.fromEntries(
    Object.keys(nothingYet).map((key) => [key, a[key as keyof SoFar] + b[key as keyof SoFar]]),
  ) as SoFar

function lastYear(
  books: Books,
  saved: Plan,
  year: number,
  baseline: Projection | null,
): Omit<LastYear, 'stillDue'> {
  const startYear = yearOf(firstMonthOf(saved))
  const before =
    filedOf(books, saved, year - 1) ?? (startYear === year ? null : plannedOf(baseline, year - 1))
  const said = saved.tax.lastYear
  const twoBack =
    filedOf(books, saved, year - 2) ??
    (startYear === year
      ? { adjustedGrossIncome: said.incomeTwoYearsBack, taxableIncome: said.taxableIncomeTwoYearsBack }
      : startYear === year - 1
        ? said
        : plannedOf(baseline, year - 2))
  const threeBack =
    filedOf(books, saved, year - 3) ??
    (startYear === year
      ? { taxableIncome: said.taxableIncomeThreeYearsBack }
      : startYear === year - 1
        ? { taxableIncome: said.taxableIncomeTwoYearsBack }
        : startYear === year - 2
          ? said
          : plannedOf(baseline, year - 3))
  return {
    ...(before ?? said),
    incomeTwoYearsBack: twoBack?.adjustedGrossIncome ?? 0,
    taxableIncomeTwoYearsBack: twoBack?.taxableIncome ?? 0,
    taxableIncomeThreeYearsBack: threeBack?.taxableIncome ?? 0,
  }
}

/** What the return of the year before left: by the books, else as the plan that starts in the year says, else as planned. */
function carried(books: Books, saved: Plan, year: number, baseline: Projection | null): Carried {
  if (yearOf(firstMonthOf(saved)) === year) return saved.tax.carried
  if (isBooked(books, year - 1)) {
    const { farmLoss, ...left } = carriedInto(saved, year, lastYearOf(books, saved, year - 1))
    return left
  }
  return leftBy(baseline?.years.find((one) => one.year === year - 1))
}

/** What a year of a course leaves to the next ones. */
export const leftBy = (year: ProjectedYear | undefined): Carried => ({
  netOperatingLoss: year?.netOperatingLoss ?? 0,
  qualifiedBusiness: year?.qualifiedBusinessLoss ?? 0,
  shortTermLoss: year?.shortTermLoss ?? 0,
  longTermLoss: year?.longTermLoss ?? 0,
  section179: year?.section179Left ?? 0,
})

/** What last year's farming loss brings back, up to the May in which it comes. */
function lossRefundDue(books: Books, saved: Plan, month: Month, baseline: Projection | null): number {
  const year = yearOf(month)
  if (saved.tax.farmLosses !== 'back' || month > monthOf(year, refundMonth)) return 0
  if (yearOf(firstMonthOf(saved)) === year) return saved.tax.lossRefundDue
  if (isBooked(books, year - 1)) return lastYearOf(books, saved, year - 1)?.filed?.lossRefund ?? 0
  return baseline?.years.find((one) => one.year === year - 1)?.lossRefund ?? 0
}

/** A farming loss carried back is paid out in it. */
export const refundMonth = 5

type Filed = Omit<
  LastYear,
  'incomeTwoYearsBack' | 'taxableIncomeTwoYearsBack' | 'taxableIncomeThreeYearsBack' | 'stillDue'
>

/** The year's return by the books, where they hold all of it. */
const filedOf = (books: Books, saved: Plan, year: number): Filed | null =>
  keptUntilChange(books, `filed for ${year}`, () => readFiled(books, saved, year), planForReturns(saved))

function readFiled(books: Books, saved: Plan, year: number): Filed | null {
  const { farm } = booksYear(books, year)
  if (!farm || year < firstLawYear || !holdsAllOf(books, year)) return null
  const worked = workedYear(books, saved, year)
  if (worked.status !== 'worked') return null
  const { household, return: filed } = worked.tax
  const { gross } = farm.income
  return {
    tax: taxToPay(household, filed),
    stateTax: Math.max(0, filed.figures.stateIncomeTax),
    adjustedGrossIncome: filed.figures.adjustedGrossIncome,
    taxableIncome: filed.figures.taxableIncome,
    farmShare: gross.total > 0 ? Math.min(1, Math.max(0, gross.farm / gross.total)) : 0,
  }
}

/** The year as a course expects it. */
export function plannedOf(baseline: Projection | null, year: number): Filed | null {
  const planned = baseline?.years.find((one) => one.year === year)
  if (!planned) return null
  const total = planned.farmGross + Math.max(0, planned.sideProfit) + planned.wages + planned.retirementIncome
  return {
    tax: Math.max(0, planned.tax - planned.stateTax),
    stateTax: Math.max(0, planned.stateTax),
    adjustedGrossIncome: planned.adjustedGrossIncome,
    taxableIncome: planned.taxableIncome,
    farmShare: total > 0 ? planned.farmGross / total : 0,
  }
}
