// Converting into Roth accounts: up to which line each year, for every plan that has something to convert.

import { yearOf } from '#calendar/month.ts'
import { formatPercent } from '#money/format.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import { limitsOfPlan } from '#plan/place/follows-from-place.ts'
import type { Plan } from '#plan/plan.ts'
import type { Conversion } from '#plan/savings/conversions.ts'
import type { Account } from '#plan/savings-plan.ts'
import { ordinaryRates } from '#rules/data/income-tax.ts'
import { costSharing, creditToPercent } from '#rules/data/marketplace.ts'
import { inForce } from '#rules/in-force.ts'
import type { Way } from './way.ts'

type Line = Pick<Conversion, 'upTo'> & Partial<Pick<Conversion, 'percent' | 'rate'>>

interface NamedLine {
  id: string
  name: string
  says: string
  line: Line
}

const poverty = (percent: number, name: string, says: string): NamedLine => ({
  id: `convert-poverty-${percent}`,
  name: `Convert up to ${name}`,
  says,
  line: { upTo: 'poverty', percent },
})

const bracket = (rate: number): NamedLine => ({
  id: `convert-bracket-${Math.round(rate * 100)}`,
  name:
    rate === 0
      ? 'Convert up to the deduction'
      : `Convert up to the top of the ${formatPercent(rate, 0)} bracket`,
  says:
    rate === 0
      ? 'Each December as much as the deduction leaves untaxed.'
      : `Each December as much as keeps taxable income under the next rate after ${formatPercent(rate, 0)}.`,
  line: { upTo: 'bracket', rate },
})

/** Of the brackets those that a household with little other income may fill: none taxed, and the lowest. */
const bracketsTried = 3

/** Lines of the newest law: the steps of cost sharing above the lowest, where the credit ends, and the lowest rates. */
const lawLines = () => {
  const newest = Number.POSITIVE_INFINITY
  const [lowest, ...steps] = inForce(costSharing, newest).to
  return {
    lowest: lowest!,
    steps,
    endOfCredit: inForce(creditToPercent, newest),
    rates: [0, ...inForce(ordinaryRates, newest).slice(0, bracketsTried)],
  }
}

const linesOf = (plan: Plan): NamedLine[] => {
  const { adult } = limitsOfPlan(plan, yearOf(firstMonthOf(plan)))
  const { lowest, steps, endOfCredit, rates } = lawLines()
  return [
    ...(adult > 0 && adult < lowest
      ? [
          poverty(
            Math.floor(adult),
            'Medicaid’s line',
            `Each December as much as keeps household income at ${Math.floor(adult)}% of the federal poverty level (FPL), so that Medicaid goes on.`,
          ),
        ]
      : []),
    ...steps.map((percent) =>
      poverty(
        percent,
        `${percent}% of the federal poverty level (FPL)`,
        `Each December as much as keeps household income at ${percent}% of the federal poverty level (FPL), a step of cost sharing.`,
      ),
    ),
    poverty(
      endOfCredit,
      `${endOfCredit}% of the federal poverty level (FPL)`,
      `Each December as much as keeps household income at ${endOfCredit}% of the federal poverty level (FPL), above which there is no premium credit in years that have that line.`,
    ),
    ...rates.map(bracket),
  ]
}

/** None where nothing can be converted; to convert nothing, where the plan does. */
export function conversionWays(plan: Plan): readonly Way[] {
  const own = JSON.stringify(plan.savings.conversions)
  return everyConversion(plan).filter((way) => JSON.stringify(way.change(plan).savings.conversions) !== own)
}

const everyConversion = (plan: Plan): readonly Way[] =>
  convertible(plan).length === 0
    ? []
    : [
        nothing,
        ...linesOf(plan).map(
          ({ line, ...words }): Way => ({ ...words, change: (changed) => converting(changed, line) }),
        ),
      ]

const nothing: Way = {
  id: 'convert-nothing',
  name: 'Convert nothing',
  says: 'Nothing is moved into Roth accounts.',
  change: (changed) => ({ ...changed, savings: { ...changed.savings, conversions: [] } }),
}

/** The same from a year on: what is converted while savings are short costs them its tax. */
export const convertingFrom = (way: Way, year: number): Way => ({
  id: `${way.id}${fromYearMark}${year}`,
  name: `${way.name} from ${year} on`,
  says: `${way.says} From ${year} on.`,
  change: (plan) => {
    const changed = way.change(plan)
    const conversions = changed.savings.conversions.map((one) => ({ ...one, fromYear: year }))
    return { ...changed, savings: { ...changed.savings, conversions } }
  },
})

const fromYearMark = '-from-'

/** A way of converting by its short name, be it the plan's own, a year in it or not. */
export const conversionNamed = (plan: Plan, id: string): Way | undefined => {
  const [line, year, more] = id.split(fromYearMark)
  const way = everyConversion(plan).find((one) => one.id === line)
  if (way === undefined || year === undefined) return way
  return more === undefined && /^\d{4}$/.test(year) ? convertingFrom(way, Number(year)) : undefined
}

/** Years in which a later beginning may do better: of the first slower phase, and in which the youngest who converts is past 59½. */
export const laterYears = (plan: Plan): number[] => {
  const first = yearOf(firstMonthOf(plan))
  const slower = plan.farm.phases.map(({ from }) => Number(from.slice(0, 4)))
  const free = convertible(plan).map((account) => {
    const owner = plan.household.people.find(({ id }) => id === ownerOf(plan, account))!
    return Number(owner.born.slice(0, 4)) + 60
  })
  return [...new Set([Math.min(...slower), Math.max(...free)])].filter(
    (year) => Number.isFinite(year) && year > first,
  )
}

const ownerOf = ({ household }: Plan, { owner }: Account): string | undefined =>
  owner ?? household.people[0]?.id

const convertible = (plan: Plan): Account[] =>
  plan.savings.accounts.filter(
    (one) =>
      one.kind === 'traditional' &&
      one.inherited === undefined &&
      ownerOf(plan, one) !== undefined &&
      (one.heldAs !== 'workPlan' || one.leftWork !== undefined),
  )

/** Every account that can be, into the owner's own Roth IRA, which is opened where there is none. */
function converting(plan: Plan, line: Line): Plan {
  const accounts = [...plan.savings.accounts]
  const { endOfCredit, rates } = lawLines()
  // What a way does not go by stays as a form begins with it.
  const unused = { percent: endOfCredit, rate: rates[2]! }
  const conversions = convertible(plan).map((from): Conversion => {
    const owner = ownerOf(plan, from)
    let into = accounts.find(
      (one) =>
        one.kind === 'roth' &&
        one.heldAs === 'ira' &&
        one.inherited === undefined &&
        ownerOf(plan, one) === owner,
    )
    if (into === undefined) {
      into = openedFor(plan, from, owner!)
      accounts.push(into)
    }
    return {
      id: `into-roth-${from.id}`.slice(0, 40),
      from: from.id,
      into: into.id,
      perYear: 0,
      ...unused,
      ...line,
    }
  })
  const { spendOrder } = plan.savings
  const isSpent = conversions.every(({ into }) => spendOrder.includes('roth') || spendOrder.includes(into))
  return {
    ...plan,
    savings: {
      ...plan.savings,
      accounts,
      conversions,
      spendOrder: isSpent ? spendOrder : [...spendOrder, 'roth'],
    },
  }
}

/** Invested as what it is converted from. */
const openedFor = ({ household, savings }: Plan, { mix, fee }: Account, owner: string): Account => {
  const taken = new Set(savings.accounts.map(({ id }) => id))
  const id = [`roth-${owner}`, `roth-${owner}-2`, `roth-${owner}-3`]
    .map((each) => each.slice(0, 40))
    .find((each) => !taken.has(each))!
  return {
    id,
    name: `Roth IRA of ${household.people.find((one) => one.id === owner)!.name}`.slice(0, 80),
    kind: 'roth',
    owner,
    balance: 0,
    mix,
    fee,
    heldAs: 'ira',
    evenPaymentsBy: 'lifeExpectancy',
    evenPaymentsRate: 0.05,
  }
}
