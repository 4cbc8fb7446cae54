// The plan held against what really happened, line by line; the lines add up to how savings changed.
import type { Plan } from '#plan/plan.ts'
import type { ProjectedMonth } from './project.ts'

/** One month of the household's books, dollars. */
export interface ActualMonth {
  month: string
  living: number
  care: number
  premiums: number
  taxes: number
  loanPayments: number
  loansDrawn: number
  /** Paid on cards beyond what is booked on them. */
  cardsUnread: number
  /** Lasting things bought, less sold. */
  things: number
  draws: number
  contributions: number
  reimbursements: number
  ventures: number
  lent: number
  pay: number
  benefits: number
  interest: number
  otherIncome: number
  setAside: number
  /** Goods and equity that balance to nothing mostly. */
  other: number
  /** At the month's end. */
  spendable: number
  /** Of spendable savings in the month, opening balances left out. */
  change: number
}

export interface VarianceLine {
  name: string
  planned: number
  actual: number
  /** Actual less planned. */
  difference: number
  /** True when the difference leaves less in savings than planned. */
  isWorse: boolean
  /** Costs lower savings, the rest raise them. */
  isCost: boolean
}

export interface Variance {
  /** Months compared: the same months of plan and books, or the plan's first year against the books' last. */
  planned: { from: string; to: string }
  actual: { from: string; to: string }
  sameMonths: boolean
  /** Lines without a dollar on either side are left out, but for those every household has. */
  lines: VarianceLine[]
  /** What the lines come to: cash and taxable accounts at the end, less at the beginning. */
  change: VarianceLine
}

/** Null when there is not a month of books to compare. Months of books must be whole and in order. */
export const varianceOf = (
  plan: Plan,
  projected: readonly ProjectedMonth[],
  books: readonly ActualMonth[],
): Variance | null => {
  const places = new Map(projected.map((month, place) => [month.month, place]))
  const shared = books.filter((month) => places.has(month.month)).slice(-12)
  const sameMonths = shared.length > 0
  const actual = sameMonths ? shared : books.slice(-12)
  const first = sameMonths ? places.get(shared[0]!.month)! : 0
  const planned = projected.slice(first, first + actual.length)
  if (actual.length === 0 || planned.length === 0) return null
  const flows = planned.map((month, k) => plannedFlows(month, projected[first + k - 1] ?? openingOf(plan)))
  const lines = lineKinds.map(({ name, isCost, ofPlan, ofBooks }) =>
    lineOf(name, isCost, total(flows, ofPlan), total(actual, ofBooks)),
  )
  return {
    planned: { from: planned[0]!.month, to: planned.at(-1)!.month },
    actual: { from: actual[0]!.month, to: actual.at(-1)!.month },
    sameMonths,
    lines: lines.filter((line, at) => lineKinds[at]!.always || !isNothing(line)),
    change: lineOf(
      'Change in savings',
      false,
      total(flows, (one) => one.change),
      total(actual, (one) => one.change),
    ),
  }
}

const total = <One>(list: readonly One[], pick: (one: One) => number) =>
  list.reduce((sum, one) => sum + pick(one), 0)

const lineOf = (name: string, isCost: boolean, planned: number, actual: number): VarianceLine => {
  const difference = actual - planned
  return { name, planned, actual, difference, isCost, isWorse: isCost ? difference > 0 : difference < 0 }
}

const isNothing = ({ planned, actual }: VarianceLine): boolean =>
  Math.abs(planned) < 0.005 && Math.abs(actual) < 0.005

type Balances = Pick<ProjectedMonth, 'cash' | 'taxable' | 'traditional' | 'roth'>

/** What the plan's accounts hold before its first month. */
const openingOf = ({ savings }: Plan): Balances => {
  const held = (kind: string) =>
    savings.accounts.reduce((sum, one) => sum + (one.kind === kind ? one.balance : 0), 0)
  return {
    cash: held('cash'),
    taxable: held('taxable'),
    traditional: held('traditional'),
    roth: held('roth'),
  }
}

/** A month of the plan with what moved between spendable savings and retirement accounts told apart from what they earned. */
const plannedFlows = (month: ProjectedMonth, before: Balances) => {
  const setAside = month.setAside - month.withdrawnTraditional - month.withdrawnRoth
  const retirement = month.traditional + month.roth - before.traditional - before.roth
  const earnedInRetirement = retirement - setAside - month.saversMatch
  return {
    ...month,
    setAside,
    earned: month.returns - earnedInRetirement,
    change: month.cash + month.taxable - before.cash - before.taxable,
  }
}

type PlannedFlows = ReturnType<typeof plannedFlows>

interface LineKind {
  name: string
  isCost: boolean
  /** Shown even when plan and books have nothing of it. */
  always: boolean
  ofPlan: (month: PlannedFlows) => number
  ofBooks: (month: ActualMonth) => number
}

const cost = (
  name: string,
  ofPlan: LineKind['ofPlan'],
  ofBooks: LineKind['ofBooks'],
  always = false,
): LineKind => ({ name, isCost: true, always, ofPlan, ofBooks })
const income = (
  name: string,
  ofPlan: LineKind['ofPlan'],
  ofBooks: LineKind['ofBooks'],
  always = false,
): LineKind => ({ name, isCost: false, always, ofPlan, ofBooks })
const none = () => 0

export const livingLine = 'Living costs'
export const oneOffLine = 'One-off items, and lasting things bought'
export const drawLine = 'Draws'

const lineKinds: readonly LineKind[] = [
  cost(
    livingLine,
    (one) => one.living,
    (one) => one.living,
    true,
  ),
  cost(
    'Care',
    (one) => one.care,
    (one) => one.care,
  ),
  cost(
    'Premiums',
    (one) => one.premiums,
    (one) => one.premiums,
    true,
  ),
  cost(
    'Taxes',
    (one) => one.taxes,
    (one) => one.taxes,
    true,
  ),
  cost(
    'Loan payments',
    (one) => one.loanPayments,
    (one) => one.loanPayments,
  ),
  cost(
    oneOffLine,
    (one) => one.oneOffs,
    (one) => one.things,
  ),
  cost('Paid on cards, their charges not booked yet', none, (one) => one.cardsUnread),
  income(
    drawLine,
    (one) => one.draw,
    (one) => one.draws,
    true,
  ),
  cost(
    'Into the farm',
    (one) => one.contribution,
    (one) => one.contributions,
    true,
  ),
  income('Reimbursements by the farm', none, (one) => one.reimbursements),
  income(
    'Side ventures',
    (one) => one.side,
    (one) => one.ventures,
  ),
  cost('Lent to other sides, less paid back', none, (one) => one.lent),
  income(
    'Off-farm pay',
    (one) => one.pay,
    (one) => one.pay,
  ),
  income(
    'Benefits and credits',
    (one) => one.socialSecurity,
    (one) => one.benefits,
  ),
  income(
    'Loans taken',
    (one) => one.loanDrawn,
    (one) => one.loansDrawn,
  ),
  income(
    'Interest, dividends and gains',
    (one) => one.earned,
    (one) => one.interest,
  ),
  income('Other income', none, (one) => one.otherIncome),
  cost(
    'Put into retirement accounts, less taken out',
    (one) => one.setAside,
    (one) => one.setAside,
  ),
  income('Needs that nothing met', (one) => one.unmetNeed, none),
  income('Goods and equity booked by hand', none, (one) => one.other),
]
