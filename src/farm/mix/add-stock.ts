// The stock of herds in the program of the mix: what waits, goes to auction and lies frozen, period by period.
import type { Row } from '#farm/program.ts'
import type { MixLine, Period } from './mix-frame.ts'
import { addColumn, addRow, type MixProgram, sumOver } from './mix-parts.ts'
import { type MixStock, monthBefore } from './mix-stock.ts'

/** What of the stock each period sells at markets, as terms in dollars; what waits, is auctioned and lies frozen stands in the program. */
export const addStock = (
  mix: MixProgram,
  line: MixLine,
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
  line: MixLine,
  stock: MixStock,
  column: number,
  one: StockColumns,
  before: StockColumns,
]

/** The longest waiting leave first: who waits became ready no longer ago than they may, and only those go to auction. */
const addHeads = (...[mix, { name }, stock, column, one, last]: Added) => {
  const due = one.period.reduce((sum, k) => sum + monthBefore(stock.heads, k, stock.waitMonths), 0)
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
  for (let age = 0; age < waitMonths; age += 1) most += monthBefore(heads, k, age)
  return most
}
