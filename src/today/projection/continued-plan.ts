// THE plan of a day: continued from the first of this month (or the first that the books miss), from what they hold there. Every page, storm, run of chance and
// question that speaks of the plan projects this one; the plan as saved is its baseline and is only held against the books.
import { type Day, monthOfDay } from '#calendar/day.ts'
import { type Month, monthText, parseMonth } from '#calendar/month.ts'
import { latestChangeId } from '#db/change-log.ts'
import { booksReach } from '#db/ledger/balances.ts'
import type { Books } from '#db/open.ts'
import type { Loan } from '#farm/loan-document.ts'
import { loanRows } from '#farm/loans.ts'
import type { Plan } from '#plan/plan.ts'
import type { Account, AccountKind } from '#plan/savings-plan.ts'
import type { ProjectedMonth } from '#runway/project.ts'
import { type BookFacts, bookFacts } from './book-facts.ts'
import { baselineOf } from './courses.ts'
import { peopleNow } from './earnings-since.ts'
import { purchasesNow } from './purchases-ahead.ts'
import { taxFacts } from './tax-facts.ts'

export interface ContinuedPlan {
  plan: Plan
  /** Whether the books hold anything of the time before this month. */
  fromBooks: boolean
  /** Savings at the end of last month as the plan expected them, and how far the books are from that; null in its first month. */
  correction: { month: Month; expectedDollars: number; differenceDollars: number } | null
}

/**
 * A plan that begins later than this month, or has ended, stays as it is; one under way without books goes on as planned. The
 * same object as long as nothing it rests on has changed: what is worked out from a plan is kept with it.
 */
export function continuedPlan(books: Books, saved: Plan, today: Day): ContinuedPlan {
  const month = continuedFrom(books, saved, today)
  const change = latestChangeId(books)
  const found = known.get(saved)
  if (found?.change === change && found.month === month) return found.continued
  const made = makeContinued(books, saved, month)
  const key = JSON.stringify(made.plan)
  const continued = found?.key === key ? { ...made, plan: found.continued.plan } : made
  known.set(saved, { change, month, key, continued })
  return continued
}

/**
 * This month, or the one after the last that the books hold where months are missing: those are projected too, since what they
 * cost is in no book. Never before the plan's first month.
 */
function continuedFrom(books: Books, saved: Plan, today: Day): Month {
  const thisMonth = monthOfDay(today)
  const reach = booksReach(books, today)
  const known = reach === null ? thisMonth : Math.min(thisMonth, monthOfDay(reach) + 1)
  return Math.min(thisMonth, Math.max(known, parseMonth(saved.startMonth)!)) as Month
}

const known = new WeakMap<Plan, { change: number; month: Month; key: string; continued: ContinuedPlan }>()

function makeContinued(books: Books, saved: Plan, month: Month): ContinuedPlan {
  const start = parseMonth(saved.startMonth)!
  const facts = month < start ? null : bookFacts(books, month)
  const baseline = month > start ? baselineOf(saved) : null
  const before = baseline?.months[month - start - 1]
  if (month < start || (baseline ? !before : !facts))
    return { plan: saved, fromBooks: false, correction: null }
  const plan: Plan = {
    ...saved,
    continuesFrom: monthText(month),
    savings: { ...saved.savings, accounts: accountsNow(saved.savings.accounts, facts, before) },
    household: {
      ...saved.household,
      people: peopleNow(books, saved, month, baseline),
      loans: loansNow(saved.household.loans, month, facts?.loans.household),
      oneOffs: [...saved.household.oneOffs, ...owedAtFirst(month, facts)],
    },
    farm: {
      ...saved.farm,
      cash: facts?.farmCash ?? before?.farmCash ?? saved.farm.cash,
      loans: loansNow(saved.farm.loans, month, facts?.loans.farm),
      purchases: purchasesNow(saved, baseline, month),
    },
    tax: { ...saved.tax, ...taxFacts(books, saved, month, baseline) },
  }
  return { plan, fromBooks: facts !== null, correction: correctionOf(month, facts, before) }
}

function correctionOf(
  month: Month,
  facts: BookFacts | null,
  before: ProjectedMonth | undefined,
): ContinuedPlan['correction'] {
  if (!before || !facts) return null
  // A kind that the books do not know goes on as it was planned, and differs by nothing.
  const spendable = (facts.savings.cash ?? before.cash) + (facts.savings.taxable ?? before.taxable)
  return {
    month: (month - 1) as Month,
    expectedDollars: before.spendable,
    differenceDollars: spendable - before.spendable,
  }
}

const spendableKinds: readonly AccountKind[] = ['cash', 'taxable']

/** Each kind's total by the books, else as the plan expected it, in the proportions of the plan's own accounts. */
function accountsNow(
  accounts: readonly Account[],
  facts: BookFacts | null,
  before: ProjectedMonth | undefined,
): Account[] {
  const totalOf = (kind: AccountKind) => {
    const own = accounts.filter((account) => account.kind === kind)
    return facts?.savings[kind] ?? before?.[kind] ?? sumOf(own)
  }
  // Money that can be spent is never left out: what the plan has no account for lies in its cash.
  const homeless = spendableKinds
    .filter((kind) => !accounts.some((account) => account.kind === kind))
    .reduce((sum, kind) => sum + (facts?.savings[kind] ?? 0), 0)
  return accounts.map((account) => {
    const own = accounts.filter((one) => one.kind === account.kind)
    const total = Math.max(0, totalOf(account.kind) + (account.kind === 'cash' ? homeless : 0))
    const planned = sumOf(own)
    const part = planned > 0 ? account.balance / planned : own[0] === account ? 1 : 0
    const balance = total * part
    return {
      ...account,
      balance,
      ...(account.basis === undefined ? {} : { basis: Math.min(account.basis, balance) }),
    }
  })
}

const sumOf = (accounts: readonly Account[]): number =>
  accounts.reduce((sum, account) => sum + account.balance, 0)

/** More owed on cards than there is in cash must be paid: no account of a plan holds less than nothing. */
const owedAtFirst = (month: Month, facts: BookFacts | null): Plan['household']['oneOffs'] => {
  const cash = facts?.savings.cash ?? 0
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

/** A loan that runs goes on from what the books say is owed, at its own payment; without an account there, by its terms. */
const loansNow = (
  loans: readonly Loan[],
  month: Month,
  booked: ReadonlyMap<number, number> | undefined,
): Loan[] =>
  loans.map((loan) => {
    const owed = loan.bookAccount === undefined ? undefined : booked?.get(loan.bookAccount)
    const paid = month - 1 - parseMonth(loan.start)!
    if (owed === undefined || paid < 0) return loan
    const rows = loanRows(loan)
    const payment = rows[0]?.payment ?? 0
    const left = Math.max(1, rows.length - paid)
    const bears = payment > (owed * loan.yearlyRate) / 12
    return {
      ...loan,
      principal: Math.max(0, owed),
      start: monthText((month - 1) as Month),
      drawn: false,
      months: bears && loan.paymentPerMonth !== undefined ? undefined : left,
      paymentPerMonth: bears ? payment : undefined,
    }
  })
