// What the farm's notebook leaves open for the preparer: goods that are in no books, hired hours without pay, miles without an odometer.
import { dayName } from '#calendar/day.ts'
import { headsSay } from '#farm/herd/heads-say.ts'
import type { HerdHeads, PreparerNotes } from '#farm/notebook/preparer.ts'
import type { StockInventory } from '#ledger/reports/stock-inventory.ts'
import type { YearPackFigures } from './figures.ts'

type Gap = YearPackFigures['gaps'][number]

export const isEmpty = ({ trips, odometers, hired, goods }: PreparerNotes): boolean =>
  trips.length + odometers.length + hired.length + goods.length === 0

export const notebookGaps = (notes: PreparerNotes, inventory: StockInventory | null, year: number): Gap[] => {
  const waiting = notes.goods.filter(({ isBooked }) => !isBooked).length
  const unpaid = notes.hired.filter(({ hasUnpaid }) => hasUnpaid).map(({ person }) => person)
  const gaps: Gap[] = hasStock(inventory) ? [] : notes.herds.flatMap(withoutValue)
  if (waiting > 0)
    gaps.push({
      says: `Goods used at home or bartered: ${waiting} of ${notes.goods.length} noted in ${year} ${waiting === 1 ? 'waits' : 'wait'} for the table and ${waiting === 1 ? 'is' : 'are'} in none of these figures.`,
      href: '/farm/notebook/table',
    })
  if (unpaid.length > 0)
    gaps.push({
      says: `Hired hours of ${unpaid.join(', ')}: for some of ${year} no pay is noted. Compare them with what the books paid for labor.`,
      href: `/farm/preparer?year=${year}`,
    })
  if (notes.farmMiles > 0 && notes.odometers.every(({ driven }) => driven === 0))
    gaps.push({
      says: `${notes.farmMiles} miles for the farm are noted in ${year}, and no odometer at its beginning and end: the farm’s share of the driving is not known.`,
      href: '/farm/notebook?open=trip',
    })
  const driven = notes.odometers.reduce((sum, one) => sum + one.driven, 0)
  const isRead = notes.odometers.some((one) => one.driven !== 0)
  if (isRead && notes.farmMiles > driven)
    gaps.push({
      says: `${notes.farmMiles} miles for the farm are noted in ${year}, and by their odometers the vehicles went ${driven} in all: one of the two is not right.`,
      href: `/farm/preparer?year=${year}`,
    })
  return gaps
}

/** Whether any stock was held at the year's end by the inventory: which heads of the notebook it is, nobody said. */
const hasStock = (inventory: StockInventory | null): boolean =>
  inventory?.rows.some(
    ({ holding, market }) =>
      market !== null && (holding.kind === 'breeding_stock' || holding.kind === 'market_stock'),
  ) ?? false

const withoutValue = ({ herd, kind, ended, countedOn }: HerdHeads): Gap[] => {
  const heads = Object.fromEntries(Object.entries(ended ?? {}).filter(([, count]) => count > 0))
  if (Object.keys(heads).length === 0) return []
  const when = countedOn === null ? 'noted' : `by the count of ${dayName(countedOn)} and what was noted since`
  return [
    {
      says: `${herd}: ${headsSay(kind, heads)} ${when}, no value. The inventory has no stock, so the balance sheet counts nothing for them: add them with what they are worth.`,
      href: '/year-pack/holdings/new',
    },
  ]
}
