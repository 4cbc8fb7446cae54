// What the Farm page shows of the plan, in the dollars that were asked for: budgets are worked out at the plan's first prices, what
// is bought and held in the dollars of its month.
import { type Month, monthText } from '#calendar/month.ts'
import type { EnterpriseBudget } from '#farm/budgets.ts'
import type { FarmYear } from '#farm/farm-year.ts'
import type { HiredYear } from '#farm/hired-help.ts'
import type { Prices } from '#runway/dollars/dollars.ts'
import type { HerdFigures, MarketFigures, PaybackFigures, PurchaseFigures, SoldFigures } from './figures.ts'

/** The row with all its numbers times a factor, but those that are no dollars. */
const times = <Row extends object>(row: Row, factor: number, notMoney: readonly (keyof Row)[]): Row =>
  Object.fromEntries(
    Object.entries(row).map(([name, value]) => [
      name,
      typeof value === 'number' && !notMoney.includes(name as keyof Row) ? value * factor : value,
    ]),
  ) as Row

export const yearTimes = (year: FarmYear, factor: number): FarmYear =>
  times(year, factor, ['year', 'hours', 'worked', 'hiredHours'])

export const budgetTimes = (budget: EnterpriseBudget, factor: number): EnterpriseBudget => ({
  ...times(budget, factor, ['units', 'hours', 'marketHours', 'overheadHours', 'ownHours']),
  breakEvens: budget.breakEvens.map((one) => times(one, factor, ['yieldPerUnit', 'yieldNeeded'])),
})

export const hiredTimes = (hired: HiredYear, factor: number): HiredYear => times(hired, factor, ['hours'])

export const marketTimes = (market: MarketFigures, factor: number): MarketFigures =>
  times(market, factor, ['trips', 'hours', 'followShare'])

export const soldTimes = (sold: SoldFigures, factor: number): SoldFigures => ({
  ...times(sold, factor, []),
  atMarkets: sold.atMarkets.map((dollars) => dollars * factor),
})

export const herdYearTimes = (
  year: HerdFigures['years'][number],
  { ofFirst }: Prices,
): HerdFigures['years'][number] =>
  times(year, ofFirst(`${year.year}-01`), [
    'year',
    'breedingFemales',
    'kept',
    'forSale',
    'sold',
    'culled',
    'hours',
    'waiting',
    'atAuction',
    'freezer',
  ])

export const paybackTimes = (payback: PaybackFigures, factor: number): PaybackFigures => ({
  ...times(payback, factor, ['monthsToPayBack', 'yearlyReturn', 'hours']),
  running: payback.running.map((point) => times(point, factor, ['month'])),
})

/** Cash that the farm holds now is what it is. */
export const purchasesIn = (purchases: PurchaseFigures, { ofMonth }: Prices): PurchaseFigures => ({
  ...purchases,
  queue: purchases.queue.map((one) =>
    times(one, ofMonth(monthText(one.bought ?? one.earliest)), [
      'earliest',
      'bought',
      'waitMonths',
      'monthsOfDraws',
      'costThen',
    ]),
  ),
  next: purchases.next && times(purchases.next, ofMonth(purchases.next.month), []),
  cash: purchases.cash.map((point) => times(point, ofMonth(monthText(point.month as Month)), ['month'])),
})
