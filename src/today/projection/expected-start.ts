// What a course expected of the first of its second month: where the month under review would have led, had all gone as planned.
import { type Month, monthOfYear, parseMonth, yearOf } from '#calendar/month.ts'
import type { Loan } from '#farm/loan-document.ts'
import { loanMonths, loanRows } from '#farm/loans.ts'
import { spreadOverYear } from '#farm/seasonal.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import type { Plan } from '#plan/plan.ts'
import { tiedIn } from '#plan/savings/money-earns.ts'
import { statePartOfWithheld } from '#plan/state-law.ts'
import { plannedMonths } from '#runway/against-books/variance-lines.ts'
import { type PlanOfDay, type SettledApart, settledIn } from '#runway/compile/plan-of-day.ts'
import type { ProjectedMonth, Projection } from '#runway/project.ts'
import { accountsIn, sharedIn } from './accounts-apart.ts'
import { coverSoFar } from './cover-so-far.ts'
import { farmNetIn } from './farm-net-before.ts'
import { settlesOf } from './last-year-due.ts'
import { leastPut } from './put-into-farm.ts'
import { loanGoesOn, type StartOfMonth, ventureCashIn } from './start-of-month.ts'
import { leftBy, nothingYet, plannedOf, refundMonth } from './tax-facts.ts'

/** `known` gives what does not depend on how the month went: earnings of years before, purchases made, what the inventory writes off. */
export function expectedStart(then: PlanOfDay, course: Projection, known: StartOfMonth): StartOfMonth {
  const month = (firstMonthOf(then) + 1) as Month
  const first = course.months[0]!
  const planned = accountsIn(then, course, 0)
  const apart = known.apart.map((held, place) => (held === null ? null : planned[place]!))
  return {
    savings: sharedIn(then, first, planned, apart),
    inAccounts: tiedIn(then, planned),
    apart,
    farmCash: first.farmCash,
    ventureCash: ventureCashIn(then, course, 0),
    farmNetBefore: known.farmNetBefore && netWith(then, first),
    loans: {
      household: loansAfter(then.household.loans, month),
      farm: loansAfter(then.farm.loans, month),
    },
    people: known.people,
    purchases: known.purchases,
    hasPutIn: monthOfYear(month) > 1 && (then.hasPutIn === true || first.contribution > leastPut),
    headMoves: known.headMoves,
    tax: monthOfYear(month) === 1 ? taxOfNewYear(then, course) : taxAfter(then, course, month),
    ...(known.writtenOff && { writtenOff: known.writtenOff }),
    settles: monthOfYear(month) === 1 ? settlesOf(course, yearOf(month) - 1) : settlesAfter(then, month),
  }
}

/** The month takes the place of the same month a year before. */
const netWith = ({ draw }: Plan, first: ProjectedMonth): number[] => {
  const before = draw.policy === 'share' ? spreadOverYear(draw.netBefore ?? 0) : []
  const season = monthOfYear(parseMonth(first.month)!) - 1
  return before.map((net, place) => (place === season ? farmNetIn(first) : net))
}

const loansAfter = (loans: readonly Loan[], month: Month): Loan[] =>
  loans.map((loan) => {
    const paid = month - 1 - parseMonth(loan.start)!
    return paid < 1 ? loan : loanGoesOn(loan, month, loanRows(loan)[paid - 1]?.balance ?? 0)
  })

/** The year so far, with the month's planned income and payments. */
function taxAfter(then: PlanOfDay, course: Projection, month: Month): StartOfMonth['tax'] {
  const { soFar, lastYear, carried, lossRefundDue } = then.tax
  const first = course.months[0]!
  const wages = wagesOf(then, course, first)
  const interest = loanMonths(then.farm.loans, firstMonthOf(then), 1).interest[0]!
  const withheld = wages * withheldOf(then)
  const forState = withheld * (statePartOfWithheld(then) ?? 0)
  const cover = coverSoFar(then, course, month)
  const settled = settledIn(then, monthOfYear(month) - 2)
  return {
    soFar: {
      farmProfit: soFar.farmProfit + first.farmSales - first.farmCosts - interest,
      farmGross: soFar.farmGross + first.farmSales,
      otherSelfEmployment: soFar.otherSelfEmployment + first.side + first.sideKept,
      wages: soFar.wages + wages,
      otherIncome:
        soFar.otherIncome +
        pensionsOf(then, course, first) +
        first.withdrawnTraditional +
        Math.max(0, plannedMonths(then, [first])[0]!.earned),
      earlyWithdrawals: soFar.earlyWithdrawals + first.withdrawnTraditional * earlyPart(then, course),
      propertyGain: soFar.propertyGain,
      ordinaryGain: soFar.ordinaryGain,
      healthPremiums:
        soFar.healthPremiums +
        Math.max(0, first.premiums - (cover.marketplacePremiums - cover.advanceCredit)),
      marketplaceMonths: soFar.marketplaceMonths + cover.marketplaceMonths,
      marketplacePremiums: soFar.marketplacePremiums + cover.marketplacePremiums,
      marketplaceBenchmark: soFar.marketplaceBenchmark + cover.marketplaceBenchmark,
      advanceCredit: soFar.advanceCredit + cover.advanceCredit,
      paid: Math.max(0, soFar.paid + first.taxes - first.stateTaxes - settled.federal + withheld - forState),
      withheld: soFar.withheld + withheld - forState,
      localPaid: soFar.localPaid,
      statePaid: soFar.statePaid + forState + Math.max(0, first.stateTaxes - settled.state),
    },
    lastYear: { ...lastYear, stillDue: lastYear.stillDue - settled.federal - settled.state },
    carried,
    lossRefundDue: monthOfYear(month) > refundMonth ? 0 : lossRefundDue,
  }
}

/** Once the month before `month` has settled its part. */
const settlesAfter = (then: PlanOfDay, month: Month): SettledApart => {
  const { stateJanuary = 0, stateReturn = 0 } = then.settles ?? {}
  const left = stateJanuary + stateReturn - settledIn(then, monthOfYear(month) - 2).state
  return { january: 0, stateJanuary: 0, stateReturn: left }
}

const taxOfNewYear = (then: Plan, course: Projection): StartOfMonth['tax'] => {
  const year = course.years.find((one) => one.year === yearOf(firstMonthOf(then)))
  const before = then.tax.lastYear
  return {
    soFar: nothingYet,
    lastYear: {
      ...(plannedOf(course, yearOf(firstMonthOf(then))) ?? before),
      incomeTwoYearsBack: before.adjustedGrossIncome,
      taxableIncomeTwoYearsBack: before.taxableIncome,
      taxableIncomeThreeYearsBack: before.taxableIncomeTwoYearsBack,
      stillDue: year?.taxLeft ?? 0,
    },
    carried: leftBy(year),
    lossRefundDue: year?.lossRefund ?? 0,
  }
}

/** Gross pay of the month: its part of the year's, as its take-home pay is of the rest of the year's. */
const wagesOf = (then: Plan, course: Projection, first: ProjectedMonth): number =>
  Math.max(0, (yearUnderWay(then, course)?.wages ?? 0) - then.tax.soFar.wages) *
  partOfPay(then, course, first)

const pensionsOf = (then: Plan, course: Projection, first: ProjectedMonth): number =>
  (yearUnderWay(then, course)?.pensions ?? 0) * partOfPay(then, course, first)

/** Of what the rest of the year takes out of traditional accounts, the part with the tax added. */
const earlyPart = (then: Plan, course: Projection): number => {
  const taken = restOfYear(then, course).reduce((sum, one) => sum + one.withdrawnTraditional, 0)
  const early = (yearUnderWay(then, course)?.earlyWithdrawals ?? 0) - then.tax.soFar.earlyWithdrawals
  return taken > 0 ? Math.min(1, Math.max(0, early / taken)) : 0
}

const restOfYear = (then: Plan, { months }: Projection): ProjectedMonth[] => {
  const year = yearOf(firstMonthOf(then))
  return months.filter((one) => yearOf(parseMonth(one.month)!) === year)
}

const yearUnderWay = (then: Plan, course: Projection) =>
  course.years.find((one) => one.year === yearOf(firstMonthOf(then)))

/** Of all that is paid in the rest of the year, what the month pays. */
const partOfPay = (then: Plan, course: Projection, first: ProjectedMonth): number => {
  const paid = restOfYear(then, course).reduce((sum, one) => sum + one.pay, 0)
  return paid > 0 ? first.pay / paid : 0
}

const withheldOf = ({ household: { pay } }: Plan): number => {
  const yearly = ({ perMonth, months }: Plan['household']['pay'][number]) => perMonth * (months.length || 12)
  const gross = pay.reduce((sum, one) => sum + yearly(one), 0)
  return gross > 0 ? pay.reduce((sum, one) => sum + yearly(one) * one.withheldShare, 0) / gross : 0
}
