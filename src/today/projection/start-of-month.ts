// What a projection starts from at the first of a month, and a plan started again from there. Dollars.
import { type Month, monthText, parseMonth } from '#calendar/month.ts'
import type { Loan } from '#farm/loan-document.ts'
import { loanRows } from '#farm/loans.ts'
import type { HeadMove } from '#farm/notebook/heads.ts'
import { departureOf } from '#plan/life/lived.ts'
import type { Plan } from '#plan/plan.ts'
import { partsOf } from '#plan/savings/money-earns.ts'
import type { Account, AccountKind } from '#plan/savings-plan.ts'
import { planSpan } from '#runway/compile/compile.ts'
import { isDescribed } from '#runway/compile/compile-farm.ts'
import type { PlanOfDay, SettledApart, WrittenOff } from '#runway/compile/plan-of-day.ts'
import type { Projection } from '#runway/project.ts'
import { grownBeyond } from '#runway/span.ts'
import type { HeldApart, SavingsByKind } from './accounts-apart.ts'
import { cashHandedOver } from './cash-handed-over.ts'
import { countedHerds, type SoldBeyond, soldBeyond } from './head-counts.ts'

export interface StartOfMonth {
  /** By kind; one left out stays as the plan's own accounts have it. Cash below zero: more is owed on cards than is there. */
  savings: SavingsByKind
  /** Of `savings`, what lies in each account of the books, by its number; an account of the plan that none of these is has a part of the rest. */
  inAccounts: ReadonlyMap<number, number>
  /** Inherited accounts, which are no part of `savings`. */
  apart: HeldApart
  farmCash: number
  /** By side venture of the plan, in its order. */
  ventureCash: readonly number[]
  /** January to December, of the twelve months before; null where draws do not look back. */
  farmNetBefore: number[] | null
  loans: { household: Loan[]; farm: Loan[] }
  people: Plan['household']['people']
  purchases: Plan['farm']['purchases']
  /** Of the notebook. */
  headMoves: readonly HeadMove[]
  tax: Pick<Plan['tax'], 'soFar' | 'lastYear' | 'carried' | 'lossRefundDue'>
  /** Of `tax.lastYear.stillDue`, what is settled in other months than April. */
  settles?: SettledApart
  /** The household has put money into the farm in the months of the year that are behind. */
  hasPutIn: boolean
  writtenOff?: WrittenOff
}

/** The plan as saved, with what is so at the start of `month` in place of what it opened with. */
export function startedAgain(saved: Plan, month: Month, start: StartOfMonth): PlanOfDay {
  const { sideVentures, oneOffs } = cashHandedOver(saved.household, month, start.ventureCash)
  const sold = soldWithin(saved, month, start)
  return {
    ...saved,
    continuesFrom: monthText(month),
    ...(start.settles && { settles: start.settles }),
    ...(start.hasPutIn && { hasPutIn: true }),
    ...(start.writtenOff && { writtenOff: start.writtenOff }),
    savings: { ...saved.savings, accounts: accountsHolding(saved, month, start) },
    household: {
      ...saved.household,
      people: start.people,
      loans: start.loans.household,
      sideVentures,
      oneOffs: [...oneOffs, ...owedAtFirst(month, start)],
    },
    farm: {
      ...saved.farm,
      cash: farmCashIn(saved, start) + sold.sum,
      herds: countedHerds(saved.farm, start.headMoves, month),
      loans: start.loans.farm,
      purchases: start.purchases,
    },
    tax: { ...saved.tax, ...start.tax, soFar: withSold(start.tax.soFar, sold) },
    draw:
      saved.draw.policy === 'share' && start.farmNetBefore
        ? { ...saved.draw, netBefore: start.farmNetBefore }
        : saved.draw,
  }
}

/** A farm of which the plan says nothing gives what is planned: what lies in its account does not make it one that earns nothing. */
const farmCashIn = ({ farm }: Plan, { farmCash }: StartOfMonth): number =>
  isDescribed(farm) ? farmCash : farm.cash

/**
 * Stock sold within the month beyond what it expects is gone from its first day on, and so its money is there from then on, and
 * stands in the year's income: until the books' next month holds what it really brought.
 */
const soldWithin = (saved: Plan, month: Month, { headMoves }: StartOfMonth): SoldBeyond => {
  const sold = soldBeyond(saved.farm, headMoves, month)
  if (sold.sum === 0) return sold
  const { inflation, farmPriceGrowth } = saved.assumptions
  const span = planSpan({ ...saved, continuesFrom: monthText(month) })
  const level = grownBeyond(span, 0, inflation) * grownBeyond(span, 0, farmPriceGrowth)
  return {
    sum: sold.sum * level,
    sales: sold.sales * level,
    gain1231: sold.gain1231 * level,
    gainOrdinary: sold.gainOrdinary * level,
  }
}

const withSold = (soFar: Plan['tax']['soFar'], sold: SoldBeyond): Plan['tax']['soFar'] => ({
  ...soFar,
  farmGross: soFar.farmGross + sold.sales,
  farmProfit: soFar.farmProfit + sold.sales,
  propertyGain: soFar.propertyGain + sold.gain1231,
  ordinaryGain: soFar.ordinaryGain + sold.gainOrdinary,
})

/** What each side venture holds at the end of the month at this place of a course; as the plan has it before the first. */
export const ventureCashIn = (
  { household: { sideVentures } }: Plan,
  { parts }: Pick<Projection, 'parts'>,
  place: number,
): number[] =>
  sideVentures.map(({ cash }, venture) =>
    parts === null || place < 0 ? cash : (parts.ventureCash[venture * parts.months + place] ?? cash),
  )

/** Gone with an owner who has left by a separation. */
const isGone = (plan: Plan, month: Month, { owner }: Account): boolean => {
  const departure = owner === undefined ? null : departureOf(plan, owner)
  return departure?.kind === 'separation' && departure.month < month
}

const spendableKinds: readonly AccountKind[] = ['cash', 'taxable']
const noAccounts: ReadonlyMap<number, number> = new Map()

/** Each kind's total, in the proportions of the plan's own accounts where none is tied to the books; an inherited one holds what it holds by itself. */
function accountsHolding(
  saved: Plan,
  month: Month,
  { savings: totals, apart, inAccounts }: Pick<StartOfMonth, 'savings' | 'apart' | 'inAccounts'>,
): Account[] {
  const accounts = saved.savings.accounts.map((one) =>
    isGone(saved, month, one) ? { ...one, balance: 0 } : one,
  )

  // Money that can be spent is never left out: what the plan has no account for lies in its cash.
  const homeless = spendableKinds
    .filter((kind) => !accounts.some((account) => account.kind === kind))
    .reduce((sum, kind) => sum + (totals[kind] ?? 0), 0)
  return accounts.map((account, place) => {
    const alone = apart[place] ?? null
    if (alone !== null) return holding(account, isGone(saved, month, account) ? 0 : alone)
    const own = accounts.filter((one, at) => one.kind === account.kind && (apart[at] ?? null) === null)
    const planned = own.reduce((sum, one) => sum + one.balance, 0)
    const held = totals[account.kind] ?? planned
    const total = Math.max(0, held + (account.kind === 'cash' ? homeless : 0))
    const parts = partsOf(own, total, account.kind === 'cash' ? inAccounts : noAccounts)
    return holding(account, parts[own.indexOf(account)]!)
  })
}

const holding = (account: Account, balance: number): Account => ({
  ...account,
  balance,
  ...(account.basis === undefined ? {} : { basis: Math.min(account.basis, balance) }),
})

/** More owed on cards than there is in cash must be paid: no account of a plan holds less than nothing. */
const owedAtFirst = (month: Month, start: StartOfMonth): Plan['household']['oneOffs'] => {
  const cash = start.savings.cash ?? 0
  if (cash >= 0) return []
  return [
    {
      id: 'owed-at-first',
      name: 'Owed on cards and accounts',
      month: monthText(month),
      cost: -cash,
      todaysPrices: false,
    },
  ]
}

/**
 * A loan that runs goes on from what is owed on it, at its own payment and to its own last one, which pays what is left; where what is
 * owed is not known, by its terms. One of which nothing is paid before its end bears interest from its beginning.
 */
export const loanGoesOn = (loan: Loan, month: Month, owed: number | undefined): Loan => {
  const paid = month - 1 - parseMonth(loan.start)!
  if (owed === undefined || paid < 0) return loan
  const { months, paymentPerMonth } = loan
  const principal = Math.max(0, owed)
  if (paymentPerMonth === 0 && months !== undefined)
    return { ...loan, principal, drawn: false, months: Math.max(months, paid + 1) }
  const rows = loanRows(loan)
  const payment = paymentPerMonth ?? rows[0]?.payment ?? 0
  const left = Math.max(1, (months ?? rows.length) - paid)
  const bears = payment > (owed * loan.yearlyRate) / 12
  const hasBoth = paymentPerMonth !== undefined && months !== undefined
  return {
    ...loan,
    principal,
    start: monthText((month - 1) as Month),
    drawn: false,
    months: bears && months === undefined ? undefined : left,
    paymentPerMonth: bears || hasBoth ? payment : undefined,
  }
}
