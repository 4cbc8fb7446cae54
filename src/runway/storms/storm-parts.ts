// What a bad year is made of: each flow summed as the run noted it, beside the same flow of the plan as expected.

import type { Dollars, Prices } from '#runway/dollars/dollars.ts'
import type { MonthSeries } from '#runway/figures/course-figures.ts'
import type { ProjectedMonth } from '#runway/project.ts'

/** Flows by the figure they are noted under: what they are called, where they lie, and whether more of them is more in hand. */
export const stormFlows = {
  farmSales: { name: 'farm sales', side: 'farm', sign: 1 },
  farmCosts: { name: 'farm costs', side: 'farm', sign: -1 },
  draw: { name: 'draws', side: 'household', sign: 1 },
  contribution: { name: 'put into the farm', side: 'household', sign: -1 },
  pay: { name: 'pay', side: 'household', sign: 1 },
  side: { name: 'side ventures', side: 'household', sign: 1 },
  socialSecurity: { name: 'Social Security', side: 'household', sign: 1 },
  living: { name: 'living costs', side: 'household', sign: -1 },
  loanPayments: { name: 'loan payments', side: 'household', sign: -1 },
  premiums: { name: 'premiums', side: 'household', sign: -1 },
  care: { name: 'care', side: 'household', sign: -1 },
  taxes: { name: 'tax', side: 'household', sign: -1 },
  oneOffs: { name: 'one-off costs', side: 'household', sign: -1 },
  returns: { name: 'returns of accounts', side: 'household', sign: 1 },
} as const satisfies Partial<Record<MonthSeries, { name: string; side: 'farm' | 'household'; sign: 1 | -1 }>>

export type StormFlow = keyof typeof stormFlows
export const flowNames = Object.keys(stormFlows) as StormFlow[]

/** Summed over the years after a bad year has begun, in dollars of the year and at the plan's first prices. */
export type FlowSums = Record<StormFlow, { ofTheYear: number; atFirstPrices: number }>

const yearsCounted = 10

/** `flow(name, m)`: of month m of the projection; `level(m)` its price level. */
export const sumFlows = (
  flow: (name: StormFlow, m: number) => number,
  level: (m: number) => number,
  from: number,
  end: number,
): FlowSums => {
  const sums = Object.fromEntries(
    flowNames.map((name) => [name, { ofTheYear: 0, atFirstPrices: 0 }]),
  ) as FlowSums
  for (let m = Math.max(0, from); m < Math.min(end, from + yearsCounted * 12); m += 1)
    for (const name of flowNames) {
      sums[name].ofTheYear += flow(name, m)
      sums[name].atFirstPrices += flow(name, m) / level(m)
    }
  return sums
}

/** Of projected months, from place `from` on. */
export const flowsOfMonths = (months: readonly ProjectedMonth[], from: number): FlowSums =>
  sumFlows(
    (name, m) => months[m]![name],
    (m) => months[m]!.level,
    from,
    months.length,
  )

export interface StormChange {
  name: string
  side: 'farm' | 'household'
  /** More of it, or less below zero; of costs too. */
  dollars: number
  isCost: boolean
  /** Whether it leaves more in hand. */
  helps: boolean
}

/** By how much each flow differs from the plan's own, the largest first; what differs by less than a dollar is left out. */
export const stormChanges = (
  under: FlowSums,
  expected: FlowSums,
  dollars: Dollars,
  prices: Prices,
): StormChange[] =>
  flowNames
    .map((flow) => {
      const { name, side, sign } = stormFlows[flow]
      const kind = dollars.of === 'year' ? 'ofTheYear' : 'atFirstPrices'
      const factor = dollars.of === 'year' ? 1 : prices.ofFirst(dollars.month)
      const more = (under[flow][kind] - expected[flow][kind]) * factor
      return { name, side, dollars: more, isCost: sign < 0, helps: more * sign > 0 }
    })
    .filter((one) => Math.abs(one.dollars) >= 1)
    .sort((a, b) => Math.abs(b.dollars) - Math.abs(a.dollars))
