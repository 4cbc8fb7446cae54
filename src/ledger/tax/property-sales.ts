// Form 4797, a sale a line: breeding stock, machinery, buildings and land that farm and ventures sold in the year.
import type { Day } from '#calendar/day.ts'
import { yearIn } from '#calendar/month.ts'
import { type Cents, cents, centsToDollars, dollarsToCents, sumCents, zeroCents } from '#money/cents.ts'
import { type StockSpecies, stockSale } from '#rules/breeding-stock.ts'
import {
  costLeft,
  gainOnSale,
  type Holding,
  holdingName,
  type InventoryRow,
  type StockInventory,
} from '../reports/stock-inventory.ts'
import type { FarmSaid } from './form-said.ts'

export interface PropertySale {
  /** Null for what the books hold as sold and the inventory does not. */
  holdingId: string | null
  name: string
  acquiredDay: string | null
  soldDay: Day | null
  priceCents: Cents
  costCents: Cents
  /** Depreciation with section 179 and bonus, up to the sale. */
  deductedCents: Cents
  gainCents: Cents
  /** Of what it cost, taken away by a gain put off before; the cost above is without it. */
  loweredCents: Cents
  /** Of the gain, put off since stock takes its place (26 USC 1033(e)): it lowers the cost of that stock. */
  putOffCents: Cents
  /** Of the gain: taxed as ordinary income, since depreciation is taken back or it was held too short. */
  ordinaryCents: Cents
  /** The rest, of section 1231: a gain is a long-term one, a loss counts in full. */
  section1231Cents: Cents
  /** Part of the form. */
  part: 'I' | 'II' | 'III'
  /** Of a thing used in part: what was not the business's, sold beside it. All amounts above are then of the business part. */
  personal: PersonalPart | null
}

export interface PersonalPart {
  /** Business part of the use, above 0 and below 1. */
  businessUse: number
  priceCents: Cents
  costCents: Cents
  /** A gain is a capital gain (Form 8949). */
  gainCents: Cents
  /** A loss on what one used oneself counts for nothing (26 USC 165(c), 262). */
  lossNotAllowedCents: Cents
  /** Held more than a year. */
  isLongTerm: boolean
}

export interface PropertySales<Sale = PropertySale> {
  sales: readonly Sale[]
  section1231Cents: Cents
  ordinaryCents: Cents
  /** Gains on the personal part of things used in part, by how long they were held. */
  personalGains: { longCents: Cents; shortCents: Cents }
  /** What the books hold as such sales, and what the inventory does. */
  bookedCents: Cents
  recordedCents: Cents
}

/**
 * Sales on the inventory, and beside them what the books hold beyond: that is taken as held long enough and without basis, so that
 * no sale is left untaxed. What the inventory says counts also where the books hold less. `replaced`: what stock costs that takes
 * the place of stock sold because of weather.
 */
export const propertySales = (
  inventory: StockInventory,
  bookedCents: Cents,
  replaced: FarmSaid['replaced'] = {},
): PropertySales => {
  const recorded = inventory.rows
    .filter((row) => isSold(row.holding, inventory.year))
    .map((row) => withReplacement(saleOf(row), row, replaced[row.holding.id] ?? zeroCents))
  const recordedCents = sumCents(recorded.map(wholePriceOf))
  const rest = cents(bookedCents - recordedCents)
  const sales = rest > 0 ? [...recorded, unrecorded(rest)] : recorded
  return {
    sales,
    section1231Cents: sumCents(sales.map((sale) => sale.section1231Cents)),
    ordinaryCents: sumCents(sales.map((sale) => sale.ordinaryCents)),
    personalGains: { longCents: personalGain(sales, true), shortCents: personalGain(sales, false) },
    bookedCents,
    recordedCents,
  }
}

/** All businesses of a household have one form: what one lost lowers what another gained (26 USC 1231(a)). */
export const salesTogether = (
  businesses: readonly { name: string; sales: PropertySales }[],
): PropertySales<PropertySale & { business: string }> => {
  const sumOf = (of: (sales: PropertySales) => Cents) => sumCents(businesses.map(({ sales }) => of(sales)))
  return {
    sales: businesses.flatMap(({ name, sales }) => sales.sales.map((sale) => ({ ...sale, business: name }))),
    section1231Cents: sumOf((one) => one.section1231Cents),
    ordinaryCents: sumOf((one) => one.ordinaryCents),
    personalGains: {
      longCents: sumOf((one) => one.personalGains.longCents),
      shortCents: sumOf((one) => one.personalGains.shortCents),
    },
    bookedCents: sumOf((one) => one.bookedCents),
    recordedCents: sumOf((one) => one.recordedCents),
  }
}

/** With the personal part of a thing used in part, as the books hold both. */
const wholePriceOf = ({ priceCents, personal }: PropertySale): Cents =>
  cents(priceCents + (personal?.priceCents ?? 0))
export const wholeCostOf = ({ costCents, loweredCents, personal }: PropertySale): Cents =>
  cents(costCents + loweredCents + (personal?.costCents ?? 0))

const personalGain = (sales: readonly PropertySale[], isLongTerm: boolean): Cents =>
  sumCents(sales.flatMap(({ personal }) => (personal?.isLongTerm === isLongTerm ? [personal.gainCents] : [])))

/** Kept for use and not for sale: stock for sale, produce and supplies are sold on Schedule F. */
const isSold = ({ kind, disposedDay }: Holding, year: number): boolean =>
  disposedDay !== null &&
  yearIn(disposedDay) === year &&
  kind !== 'market_stock' &&
  kind !== 'produce' &&
  kind !== 'supplies'

const unrecorded = (price: Cents): PropertySale => ({
  holdingId: null,
  name: 'Sold by the books, on no thing of the inventory',
  acquiredDay: null,
  soldDay: null,
  priceCents: price,
  costCents: zeroCents,
  deductedCents: zeroCents,
  gainCents: price,
  loweredCents: zeroCents,
  putOffCents: zeroCents,
  ordinaryCents: zeroCents,
  section1231Cents: price,
  part: 'I',
  personal: null,
})

const saleOf = (row: InventoryRow): PropertySale => {
  const { holding } = row
  const deducted = cents(row.deductedBeforeCents + row.deductedThisYearCents - row.fellBackCents)
  if (row.businessUse < 1) return saleInPart(row, deducted)
  const priceCents = holding.disposedForCents ?? zeroCents
  const gain = gainOnSale(row) ?? cents(-Math.max(0, holding.raised ? 0 : costLeft(holding) - deducted))
  return {
    holdingId: holding.id,
    name: holdingName(holding),
    acquiredDay: holding.acquiredDay,
    soldDay: holding.disposedDay,
    priceCents,
    costCents: holding.raised ? zeroCents : costLeft(holding),
    deductedCents: deducted,
    gainCents: gain,
    loweredCents: holding.loweredCents ?? zeroCents,
    putOffCents: zeroCents,
    ...splitOf(row, gain, deducted),
    personal: null,
  }
}

/**
 * A thing used in part is sold as two (IRS Pub. 544): price and cost are split by the use, all depreciation is the business's. Where
 * more was deducted than the business part of the cost, that part is as large as what was deducted: no basis is below nothing.
 */
const saleInPart = (row: InventoryRow, deducted: Cents): PropertySale => {
  const { holding, businessUse } = row
  const wholePrice = holding.disposedForCents ?? zeroCents
  const priceCents = cents(Math.round(wholePrice * businessUse))
  const wholeCost = costLeft(holding)
  const costCents = cents(Math.max(Math.round(wholeCost * businessUse), deducted))
  const gainCents = cents(priceCents - costCents + deducted)
  const own = { price: cents(wholePrice - priceCents), cost: cents(wholeCost - costCents) }
  return {
    holdingId: holding.id,
    name: holdingName(holding),
    acquiredDay: holding.acquiredDay,
    soldDay: holding.disposedDay,
    priceCents,
    costCents,
    deductedCents: deducted,
    gainCents,
    loweredCents: holding.loweredCents ?? zeroCents,
    putOffCents: zeroCents,
    ...splitOf(row, gainCents, deducted),
    personal: {
      businessUse,
      priceCents: own.price,
      costCents: own.cost,
      gainCents: cents(Math.max(0, own.price - own.cost)),
      lossNotAllowedCents: cents(Math.max(0, own.cost - own.price)),
      isLongTerm: isOverAYear(holding.acquiredDay, holding.disposedDay!),
    },
  }
}

/** More than one year, from the day after it was bought (26 USC 1222; Rev. Rul. 66-7, from memory). */
const isOverAYear = (from: string, to: string): boolean => to > `${yearIn(from) + 1}${from.slice(4)}`

/** Of a gain no more is taxed than the price is over what the new stock costs (26 USC 1033(a)(2), 1245(b)(4)). */
const withReplacement = (sale: PropertySale, { holding }: InventoryRow, cost: Cents): PropertySale => {
  if (holding.kind !== 'breeding_stock' || sale.gainCents <= 0 || cost <= 0) return sale
  const taxed = Math.min(sale.gainCents, Math.max(0, sale.priceCents - cost))
  const ordinary = Math.min(sale.ordinaryCents, taxed)
  return {
    ...sale,
    putOffCents: cents(sale.gainCents - taxed),
    ordinaryCents: cents(ordinary),
    section1231Cents: cents(taxed - ordinary),
  }
}

/**
 * Stock by how long it was held (26 USC 1231(b)(3)). All else: held a year or less, all of it is ordinary (1231(b)(1)); over a year,
 * as much as was deducted (1245).
 */
const splitOf = (
  { holding }: InventoryRow,
  gain: Cents,
  deducted: Cents,
): Pick<PropertySale, 'ordinaryCents' | 'section1231Cents' | 'part'> => {
  if (holding.kind !== 'breeding_stock') {
    if (!isOverAYear(holding.acquiredDay, holding.disposedDay!))
      return { ordinaryCents: gain, section1231Cents: zeroCents, part: 'II' }
    const takenBack = cents(Math.max(0, Math.min(gain, deducted)))
    return {
      ordinaryCents: takenBack,
      section1231Cents: cents(gain - takenBack),
      part: takenBack > 0 ? 'III' : 'I',
    }
  }
  const { ordinary, section1231, form } = stockSale({
    year: yearIn(holding.disposedDay!),
    species: speciesOf[holding.depreciation?.assetClass ?? ''] ?? 'cattle',
    origin: holding.raised ? 'raised' : 'purchased',
    heldForUse: true,
    monthsHeld: wholeMonths(holding.acquiredDay, holding.disposedDay!),
    netPrice: centsToDollars(holding.disposedForCents ?? zeroCents),
    cost: centsToDollars(costLeft(holding)),
    depreciationAllowed: centsToDollars(deducted),
  })
  return {
    ordinaryCents: dollarsToCents(ordinary),
    section1231Cents: dollarsToCents(section1231),
    part: form === '4797-part-iii' ? 'III' : form === '4797-part-i' ? 'I' : 'II',
  }
}

/** Species by class of property; without a class the longest holding period counts. */
const speciesOf: Record<string, StockSpecies> = {
  cattle: 'cattle',
  hogs: 'hogs',
  'sheep-or-goats': 'sheep',
  'horses-to-12-years': 'horses',
  'horses-over-12-years': 'horses',
}

const wholeMonths = (from: string, to: string): number => {
  const count = (text: string) => yearIn(text) * 12 + Number(text.slice(5, 7))
  return count(to) - count(from) - (to.slice(8) < from.slice(8) ? 1 : 0)
}
