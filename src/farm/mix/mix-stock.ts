// Young of a herd in the mix: as in the plan they wait for a market at their cost and go to auction, and cuts lie in the freezer.
import { auctionPriceOf } from '#farm/herd/auction-price.ts'
import type { Herd } from '#farm/herd/herd-document.ts'
import { youngWorth } from '#farm/herd/meat.ts'
import { heldEachMonth } from '#farm/seasonal.ts'

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
  for (let age = 0; age < months - 1; age += 1)
    lies += (monthBefore(pounds, k, age) * (months - 1 - age)) / months
  return lies
}

/** The figure of a month so many months before another, years alike. */
export const monthBefore = (values: readonly number[], k: number, months: number): number =>
  values[(((k - months) % 12) + 12) % 12]!

/** Sold without a market: in a year all of it, at the freezer's cost. */
export const soldFreely = ({ heads, price, pounds, cutPrice, unoffered, freezerPerPound }: MixStock) => ({
  sales: heads.map((each, k) => each * price + pounds[k]! * cutPrice),
  costs: unoffered.map((lies) => lies * freezerPerPound),
})
