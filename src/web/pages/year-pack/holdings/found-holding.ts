// The thing that an address names, by its own id or by that of a part of it that was sold.
import { listSides } from '#db/ledger/account-store.ts'
import { storedHoldings } from '#db/year/holding-list.ts'
import type { SideId } from '#ledger/account.ts'
import type { Holding } from '#ledger/reports/stock-inventory.ts'
import type { PageContext } from '#web/forms/answer.tsx'

export interface FoundHolding {
  sideId: SideId
  /** As it is kept, sold parts with it. */
  holding: Holding
}

export const noSuchThing = 'There is no such thing on the inventory.'

/** Farm and ventures keep things; the household writes nothing off. */
export const sidesWithThings = (c: PageContext) =>
  listSides(c.var.web.books).filter(({ kind }) => kind !== 'household')

export const foundHolding = (c: PageContext): FoundHolding | undefined => {
  const asked = c.req.param('id') ?? ''
  return sidesWithThings(c)
    .flatMap(({ id }) => storedHoldings(c.var.web.books, id).map((holding) => ({ sideId: id, holding })))
    .find(({ holding }) => holding.id === asked || holding.parts?.some((part) => part.id === asked))
}
