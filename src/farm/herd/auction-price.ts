// What a young one that found no market brings at auction.
import type { Herd } from './herd-document.ts'
import { youngWorth } from './meat.ts'

/** Dollars a head; half of what one sells for where the plan says nothing, our own assumption. */
export const auctionPriceOf = (herd: Herd): number =>
  herd.prices.atAuction ?? (herd.prices.youngSold || youngWorth(herd).price) / 2
