// How the sale of a herd's grown stock is taxed: raised and bought animals apart, by the rule of breeding stock.
import { yearIn } from '#calendar/month.ts'
import { type StockSaleResult, type StockSpecies, stockSale } from '#rules/breeding-stock.ts'
import type { FarmAssetClass } from '#rules/data/depreciation.ts'
import { firstLawYear } from '#rules/law.ts'
import type { BirdKind, Herd, HerdKind } from './herd-document.ts'
import { ratesOf } from './herd-rates.ts'

const species: Record<HerdKind, StockSpecies> = {
  sheep: 'sheep',
  goats: 'goats',
  cattle: 'cattle',
  pigs: 'hogs',
  layers: 'poultry',
  ducks: 'poultry',
  geese: 'poultry',
  turkeys: 'poultry',
}

/** Depreciation classes of bought stock; none for poultry, which is goods. */
export const stockClasses: Readonly<Record<Exclude<HerdKind, BirdKind>, FarmAssetClass>> = {
  sheep: 'sheep-or-goats',
  goats: 'sheep-or-goats',
  cattle: 'cattle',
  pigs: 'hogs',
}

/**
 * One animal sold as a cull at its plan price. Culls are taken to have stood in the herd a year on average; bought stock is
 * taken as written off in full: what is spread over years goes on to be deducted, so that its whole cost counts once.
 */
export const cullSale = (herd: Herd, origin: 'raised' | 'purchased'): StockSaleResult => {
  const cost = origin === 'purchased' ? herd.prices.breedingFemale : 0
  return stockSale({
    // A plan sells under the law it begins in, however long the herd has stood.
    year: Math.max(firstLawYear, yearIn(herd.start) + 1),
    species: species[herd.kind],
    origin,
    heldForUse: true,
    monthsHeld: (origin === 'raised' ? ratesOf(herd).breedingAgeMonths : 0) + 12,
    netPrice: herd.prices.cullFemale,
    cost,
    depreciationAllowed: cost,
  })
}

/** Shares of a cull's price that are section 1231 gain; `isGoods`: its sale and purchase belong on Schedule F (poultry). */
export const cullTax = (herd: Herd): { isGoods: boolean; raised1231: number; bought1231: number } => {
  const [raised, bought] = [cullSale(herd, 'raised'), cullSale(herd, 'purchased')]
  const share = (sale: StockSaleResult) => (sale.gain > 0 ? sale.section1231 / sale.gain : 0)
  return { isGoods: raised.form === 'schedule-f', raised1231: share(raised), bought1231: share(bought) }
}
