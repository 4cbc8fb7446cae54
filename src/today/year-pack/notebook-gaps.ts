// What the farm's notebook leaves open for the preparer: goods and market days that are in no books, hired hours without pay, miles without an odometer.
import { addDays, type Day, dayName, firstDayOfYear, lastDayOfYear } from '#calendar/day.ts'
import { yearIn } from '#calendar/month.ts'
import { feesNowhere } from '#db/notebook/fees-nowhere.ts'
import type { KeptMarketDay } from '#db/notebook/field-notes.ts'
import { cashOf } from '#db/notebook/settle-market.ts'
import type { Books } from '#db/open.ts'
import { booksReach } from '#db/reconcile/books-reach.ts'
import { headsSay } from '#farm/herd/heads-say.ts'
import type { HeadClass } from '#farm/notebook/kinds.ts'
import { type HerdHeads, isBreedingStock, type PreparerNotes } from '#farm/notebook/preparer.ts'
import { isCountedByHead } from '#farm/notebook/whole-heads.ts'
import { farmSide } from '#ledger/account.ts'
import type { StockInventory } from '#ledger/reports/stock-inventory.ts'
import { daysBetweenHalves } from '#ledger/statements/matching.ts'
import { cents, sumCents } from '#money/cents.ts'
import { formatCents, formatCount } from '#money/format.ts'
import { allOf } from '#money/lists.ts'
import type { YearPackFigures } from './figures.ts'

type Gap = YearPackFigures['gaps'][number]

export const isEmpty = ({ trips, odometers, hired, goods }: PreparerNotes): boolean =>
  trips.length + odometers.length + hired.length + goods.length === 0

export const notebookGaps = (notes: PreparerNotes, inventory: StockInventory | null, year: number): Gap[] => {
  const waiting = notes.goods.filter(({ isBooked }) => !isBooked).length
  const unpaid = notes.hired.filter(({ hasUnpaid }) => hasUnpaid).map(({ person }) => person)
  const gaps = headGaps(notes.herds, inventory)
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
      says: `${formatCount(notes.farmMiles)} miles for the farm are noted in ${year}, and no odometer at its beginning and end: the farm’s share of the driving is not known.`,
      href: '/farm/notebook?open=trip',
    })
  const driven = notes.odometers.reduce((sum, one) => sum + one.driven, 0)
  const isRead = notes.odometers.some((one) => one.driven !== 0)
  if (isRead && notes.farmMiles > driven)
    gaps.push({
      says: `${formatCount(notes.farmMiles)} miles for the farm are noted in ${year}, and by their odometers the vehicles went ${formatCount(driven)} in all: one of the two is not right.`,
      href: `/farm/preparer?year=${year}`,
    })
  return gaps
}

/** Market days of which nobody has said yet where the cash went and how the fee was paid. */
export const marketGaps = (waiting: readonly KeptMarketDay[], year: number): Gap[] => {
  const ofYear = waiting.filter(({ day }) => yearIn(day) === year)
  const sums = [
    ['cash', sumCents(ofYear.map(cashOf))],
    ['fees', sumCents(ofYear.map(({ feeCents }) => feeCents ?? cents(0)))],
  ] as const
  const open = sums.filter(([, sum]) => sum > 0).map(([name, sum]) => `their ${name} of ${formatCents(sum)}`)
  return open.length === 0
    ? []
    : [
        {
          says: `Market days: ${ofYear.length} of ${year} ${ofYear.length === 1 ? 'waits' : 'wait'} for the table. ${asBegun(allOf(open))} are in these figures only as far as the bank’s statements have brought them.`,
          href: '/farm/notebook/table',
        },
      ]
}

/** Fees that were to come by the bank's statements, or were settled before they were asked about. */
export const feeGaps = (books: Books, year: number, today: Day): Gap[] => {
  const reach = booksReach(books, today, farmSide)
  if (reach === null) return []
  // Its line may still come.
  const known = addDays(reach, -daysBetweenHalves)
  const [last] = [known, lastDayOfYear(year)].sort()
  const { days, sumCents: sum } = feesNowhere(books, firstDayOfYear(year), last!)
  return days === 0
    ? []
    : [
        {
          says: `Fees of market days: ${days} of ${year} ${days === 1 ? 'is' : 'are'} settled, and no account has a payment of ${days === 1 ? `${formatCents(sum)}` : `these amounts, ${formatCents(sum)} in all,`} near ${days === 1 ? 'its day' : 'their days'}. Unless fees were paid together or at another time, record them: they are in no costs.`,
          href: '/books/entry?side=farm',
        },
      ]
}

const asBegun = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

/** The two kinds of stock on the inventory, by the classes of the notebook; which line is which herd, nobody said. */
const stockKinds = [
  { kind: 'breeding_stock', name: 'breeding stock', isOfIt: isBreedingStock },
  { kind: 'market_stock', name: 'stock for sale', isOfIt: (one: HeadClass) => !isBreedingStock(one) },
] as const

/** Heads that have no value: of a kind that the inventory lacks, herd by herd; of one that it has, those beyond the heads there. */
const headGaps = (herds: readonly HerdHeads[], inventory: StockInventory | null): Gap[] => {
  const kinds = stockKinds.map((one) => ({
    ...one,
    held: (inventory?.rows ?? []).filter(
      ({ holding, market }) => market !== null && holding.kind === one.kind,
    ),
  }))
  const lacking = kinds.filter(({ held }) => held.length === 0)
  return [
    ...herds.flatMap((herd) =>
      withoutValue(herd, (headClass) => lacking.some(({ isOfIt }) => isOfIt(headClass))),
    ),
    ...kinds.flatMap(({ name, isOfIt, held }) => {
      const noted = herds
        .flatMap(({ ended }) => Object.entries(ended ?? {}) as [HeadClass, number][])
        .reduce((sum, [headClass, count]) => sum + (isOfIt(headClass) ? Math.max(0, count) : 0), 0)
      const listed = held.reduce((sum, { holding }) => sum + holding.quantity, 0)
      // A line by the lot or the pound says nothing of heads.
      const isByHead = held.every(({ holding: { unit } }) => unit.trim() === '' || isCountedByHead(unit))
      return held.length > 0 && isByHead && noted > listed ? [beyondListed(name, noted, listed)] : []
    }),
  ]
}

const beyondListed = (name: string, noted: number, listed: number): Gap => ({
  says: `The notebook has ${noted} head of ${name}, and the inventory ${listed}: ${noted - listed} have no value there, unless one of its lines stands for several.`,
  href: '/year-pack/holdings/new',
})

const withoutValue = (
  { herd, kind, ended, countedOn }: HerdHeads,
  isLacking: (headClass: HeadClass) => boolean,
): Gap[] => {
  const there = (Object.entries(ended ?? {}) as [HeadClass, number][]).filter(
    ([headClass, count]) => count > 0 && isLacking(headClass),
  )
  if (there.length === 0) return []
  const when = countedOn === null ? 'noted' : `by the count of ${dayName(countedOn)} and what was noted since`
  return [
    {
      says: `${herd}: ${headsSay(kind, Object.fromEntries(there))} ${when}, no value. The inventory has no such stock, so the balance sheet counts nothing for them: add them with what they are worth.`,
      href: '/year-pack/holdings/new',
    },
  ]
}
