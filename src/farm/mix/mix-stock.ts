// Young of a herd in the mix: as in the plan they wait for a market at their cost and go to auction, and cuts lie in the freezer.
import { auctionPriceOf } from '#farm/herd/auction-price.ts'
import type { Herd } from '#farm/herd/herd-document.ts'
import { youngWorth } from '#farm/herd/meat.ts'
import type { Row } from '#farm/program.ts'
import { heldEachMonth } from '#farm/seasonal.ts'
import type { MixFrame, Period } from './mix-frame.ts'
import { addColumn, addRow, type MixProgram, sumOver } from './mix-parts.ts'

/** For one unit of the line; twelve-month figures from January. */
export interface MixStock {
  /** Heads that leave as they are or by hanging weight, and what one brings at a market and at auction. */
  heads: number[]
  price: number
  auctionPrice: number
  waitMonths: number
  /** Keep of one that waits, in a month. */
  costs: number[]
  /** Packaged pounds that come into the freezer, and what of them is not yet offered at a month's end. */
  pounds: number[]
  unoffered: number[]
  cutPrice: number
  freezerPerPound: number
}

/** `processing`: what the cutting of a unit's young costs by month. */
export const stockOf = (herd: Herd, ready: readonly number[]): { stock: MixStock; processing: number[] } => {
  const worth = youngWorth(herd)
  const cut = ready.map((heads) => heads * (1 - worth.byWeight))
  const pounds = cut.map((heads) => heads * worth.pounds)
  return {
    stock: {
      heads: ready.map((heads, k) => (worth.price > 0 ? heads - cut[k]! : 0)),
      price: worth.price,
      auctionPrice: auctionPriceOf(herd),
      waitMonths: herd.waitMonths,
      costs: heldEachMonth(herd.costPerYoung),
      pounds,
      unoffered: pounds.map((_, k) => unofferedAt(pounds, k, worth.cutsMonths)),
      cutPrice: worth.cutPrice,
      freezerPerPound: worth.freezerPerPound,
    },
    processing: cut.map((heads) => heads * worth.processing),
  }
}

/** Cuts are offered in equal parts over their months. */
const unofferedAt = (pounds: readonly number[], k: number, months: number): number => {
  let lies = 0
  for (let age = 0; age < months - 1; age += 1) lies += (before(pounds, k, age) * (months - 1 - age)) / months
  return lies
}

/** The figure of a month so many months before another, years alike. */
const before = (values: readonly number[], k: number, months: number): number =>
  values[(((k - months) % 12) + 12) % 12]!

/** Sold without a market: in a year all of it, at the freezer's cost. */
export const soldFreely = ({ heads, price, pounds, cutPrice, unoffered, freezerPerPound }: MixStock) => ({
  sales: heads.map((each, k) => each * price + pounds[k]! * cutPrice),
  costs: unoffered.map((lies) => lies * freezerPerPound),
})

/** What of the stock each period sells at markets, as terms in dollars; what waits, is auctioned and lies frozen stands in the program. */
export const addStock = (
  mix: MixProgram,
  line: MixFrame['lines'][number],
  column: number,
  periods: readonly Period[],
): Row['terms'][] => {
  const { stock } = line
  if (stock === null) return periods.map(() => [])
  const columns = periods.map(
    (period): StockColumns => ({
      period,
      sold: addColumn(mix),
      auctioned: addColumn(mix),
      waits: addColumn(mix),
      cuts: addColumn(mix),
      lies: addColumn(mix),
    }),
  )
  for (const [p, one] of columns.entries()) {
    addHeads(mix, line, stock, column, one, columns.at(p - 1)!)
    addCuts(mix, line, stock, column, one, columns.at(p - 1)!)
  }
  return columns.map(({ sold, cuts }) => [
    [sold, stock.price],
    [cuts, stock.cutPrice],
  ])
}

interface StockColumns {
  period: Period
  sold: number
  auctioned: number
  waits: number
  cuts: number
  lies: number
}

type Added = [
  mix: MixProgram,
  line: MixFrame['lines'][number],
  stock: MixStock,
  column: number,
  one: StockColumns,
  before: StockColumns,
]

/** The longest waiting leave first: who waits became ready no longer ago than they may, and only those go to auction. */
const addHeads = (...[mix, { name }, stock, column, one, last]: Added) => {
  const due = one.period.reduce((sum, k) => sum + before(stock.heads, k, stock.waitMonths), 0)
  const into = -sumOver(stock.heads, one.period)
  const left: Row['terms'] = [
    ...changed(one.waits, last.waits),
    [one.sold, 1],
    [one.auctioned, 1],
    [column, into],
  ]
  addRow(mix, `${name} ready`, left, '=', 0, true)
  addAtMost(mix, `${name} to auction`, one.auctioned, column, due)
  addAtMost(mix, `${name} waiting`, one.waits, column, waitingAt(stock, one.period.at(-1)!))
  mix.netTerms.push([one.auctioned, stock.auctionPrice])
  mix.netTerms.push([one.waits, -sumOver(stock.costs, one.period)])
}

const addCuts = (...[mix, { name }, stock, column, one, last]: Added) => {
  const into = -sumOver(stock.pounds, one.period)
  const left: Row['terms'] = [...changed(one.lies, last.lies), [one.cuts, 1], [column, into]]
  addRow(mix, `${name} frozen`, left, '=', 0, true)
  const least: Row['terms'] = [
    [one.lies, 1],
    [column, -stock.unoffered[one.period.at(-1)!]!],
  ]
  addRow(mix, `${name} in the freezer`, least, '>=', 0, true)
  mix.netTerms.push([one.lies, -stock.freezerPerPound * one.period.length])
}

/** With one period in the year what it ends with is what it began with. */
const changed = (now: number, last: number): Row['terms'] =>
  now === last
    ? []
    : [
        [now, 1],
        [last, -1],
      ]

const addAtMost = (mix: MixProgram, name: string, column: number, of: number, each: number) =>
  addRow(
    mix,
    name,
    [
      [column, 1],
      [of, -each],
    ],
    '<=',
    0,
    true,
  )

/** Those that became ready no longer ago than they may wait. */
const waitingAt = ({ heads, waitMonths }: MixStock, k: number): number => {
  let most = 0
  for (let age = 0; age < waitMonths; age += 1) most += before(heads, k, age)
  return most
}
