// The lines that plan and books are held against each other by. Every dollar stands in exactly one, so that they add up to how savings changed.
import { z } from 'zod'
import type { Plan } from '#plan/plan.ts'
import type { AccountKind } from '#plan/savings-plan.ts'
import type { ProjectedMonth } from '#runway/project.ts'

/** One month of the household's books, dollars. */
export interface ActualMonth {
  month: string
  living: number
  /** Of living costs, by the name of the account they are booked on. */
  livingBy: Readonly<Record<string, number>>
  care: number
  premiums: number
  taxes: number
  loanPayments: number
  loansDrawn: number
  /** Paid on cards beyond what is booked on them. */
  cardsUnread: number
  /** Lent to somebody outside the books, less paid back. */
  owed: number
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

type Balances = Pick<ProjectedMonth, AccountKind>

/** What the plan's accounts hold before its first month. */
export const openingOf = ({ savings }: Plan): Balances => {
  const held = (kind: string) =>
    savings.accounts.reduce((sum, one) => sum + (one.kind === kind ? one.balance : 0), 0)
  return {
    cash: held('cash'),
    taxable: held('taxable'),
    traditional: held('traditional'),
    roth: held('roth'),
    health: held('health'),
  }
}

const plannedNames = [
  'living',
  'care',
  'premiums',
  'taxes',
  'loanPayments',
  'loanDrawn',
  'oneOffs',
  'draw',
  'contribution',
  'side',
  'pay',
  'socialSecurity',
  'unmetNeed',
  /** Put into retirement accounts less taken out. */
  'setAside',
  /** By cash and taxable accounts. */
  'earned',
  /** Of cash and taxable accounts. */
  'change',
] as const

const amounts = Object.fromEntries(plannedNames.map((name) => [name, z.number()])) as Record<
  (typeof plannedNames)[number],
  z.ZodNumber
>

/** Reads what was kept of a forecast, too: what is missing in it is an error, never nothing. */
export const plannedMonthSchema = z.object({ month: z.string(), ...amounts })

/** A month of the household as a plan expects it, dollars. */
export type PlannedMonth = z.infer<typeof plannedMonthSchema>

/** What moved between spendable savings and retirement accounts is told apart from what they earned. `projected` begins with the plan. */
export const plannedMonths = (plan: Plan, projected: readonly ProjectedMonth[]): PlannedMonth[] =>
  projected.map((month, place) => {
    const before = projected[place - 1] ?? openingOf(plan)
    const setAside = month.setAside - month.withdrawnTraditional - month.withdrawnRoth - month.withdrawnHealth
    const apart = (of: Balances) => of.traditional + of.roth + of.health
    const retirement = apart(month) - apart(before)
    const flows = {
      ...month,
      setAside,
      earned: month.returns - (retirement - setAside - month.saversMatch),
      change: month.cash + month.taxable - before.cash - before.taxable,
    }
    const named = Object.fromEntries(plannedNames.map((name) => [name, flows[name]]))
    return { month: month.month, ...named } as PlannedMonth
  })

/** A plan that expects no care has it among its living costs, as they are asked for; of the same months. */
export const hasCareInLiving = (expected: readonly Pick<PlannedMonth, 'care'>[]): boolean =>
  expected.length > 0 && expected.every(({ care }) => Math.abs(care) < 0.005)

/** What moves a line: lines of one kind are told as one in the review of a month. */
export type LineAbout = 'market' | 'spending' | 'premiums' | 'tax' | 'income' | 'farm' | 'moved'

export interface LineKind {
  name: string
  about: LineAbout
  isCost: boolean
  /** Shown even when plan and books have nothing of it. */
  always: boolean
  ofPlan: (month: PlannedMonth) => number
  ofBooks: (month: ActualMonth) => number
}

type Of = Pick<LineKind, 'ofPlan' | 'ofBooks'>

const cost = (name: string, about: LineAbout, of: Of, always = false): LineKind => ({
  name,
  about,
  isCost: true,
  always,
  ...of,
})
const income = (...given: Parameters<typeof cost>): LineKind => ({ ...cost(...given), isCost: false })

const of = (ofPlan: Of['ofPlan'], ofBooks: Of['ofBooks']): Of => ({ ofPlan, ofBooks })
const none = () => 0

export const livingLine = 'Living costs'
export const oneOffLine = 'One-off items, and lasting things bought'
export const drawLine = 'Draws'

/** Living, care, loan payments, premiums and taxes, as household costs are told everywhere; what was bought to last stands apart. */
export const isHouseholdCost = ({ name, about }: Pick<LineKind, 'name' | 'about'>): boolean =>
  (about === 'spending' && name !== oneOffLine) || about === 'premiums' || about === 'tax'

export const lineKinds: readonly LineKind[] = [
  cost(
    livingLine,
    'spending',
    of(
      (one) => one.living,
      (one) => one.living,
    ),
    true,
  ),
  cost(
    'Care',
    'spending',
    of(
      (one) => one.care,
      (one) => one.care,
    ),
  ),
  cost(
    'Premiums',
    'premiums',
    of(
      (one) => one.premiums,
      (one) => one.premiums,
    ),
    true,
  ),
  cost(
    'Taxes',
    'tax',
    of(
      (one) => one.taxes,
      (one) => one.taxes,
    ),
    true,
  ),
  cost(
    'Loan payments',
    'spending',
    of(
      (one) => one.loanPayments,
      (one) => one.loanPayments,
    ),
  ),
  cost(
    oneOffLine,
    'spending',
    of(
      (one) => one.oneOffs,
      (one) => one.things,
    ),
  ),
  cost(
    'Paid on cards, their charges not booked yet',
    'spending',
    of(none, (one) => one.cardsUnread),
  ),
  income(
    drawLine,
    'farm',
    of(
      (one) => one.draw,
      (one) => one.draws,
    ),
    true,
  ),
  cost(
    'Into the farm',
    'farm',
    of(
      (one) => one.contribution,
      (one) => one.contributions,
    ),
    true,
  ),
  income(
    'Reimbursements by the farm',
    'farm',
    of(none, (one) => one.reimbursements),
  ),
  income(
    'Side ventures',
    'income',
    of(
      (one) => one.side,
      (one) => one.ventures,
    ),
  ),
  cost(
    'Lent to other sides, less paid back',
    'farm',
    of(none, (one) => one.lent),
  ),
  income(
    'Pay, pensions and other income',
    'income',
    of(
      (one) => one.pay,
      (one) => one.pay + one.otherIncome,
    ),
  ),
  income(
    'Benefits and credits',
    'income',
    of(
      (one) => one.socialSecurity,
      (one) => one.benefits,
    ),
  ),
  income(
    'Loans taken',
    'moved',
    of(
      (one) => one.loanDrawn,
      (one) => one.loansDrawn,
    ),
  ),
  income(
    'Interest, dividends and gains',
    'market',
    of(
      (one) => one.earned,
      (one) => one.interest,
    ),
  ),
  cost(
    'Put into retirement and health savings, less taken out',
    'moved',
    of(
      (one) => one.setAside,
      (one) => one.setAside,
    ),
  ),
  cost(
    'Lent to others, less paid back',
    'moved',
    of(none, (one) => one.owed),
  ),
  income(
    'Needs that nothing met',
    'moved',
    of((one) => one.unmetNeed, none),
  ),
  income(
    'Goods and equity booked by hand',
    'moved',
    of(none, (one) => one.other),
  ),
]

/** Costs of the household that are no part of the line of living costs. */
export const apartFromLiving: readonly string[] = lineKinds
  .filter(({ isCost, about, name }) => isCost && about !== 'farm' && about !== 'moved' && name !== livingLine)
  .map(({ name }) => name)
