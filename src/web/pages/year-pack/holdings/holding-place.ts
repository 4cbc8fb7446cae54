// Whose place bought breeding stock may take: stock of the side that was sold because of weather.
import { dayName } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'
import { listHoldings } from '#db/year/holding-list.ts'
import type { SideId } from '#ledger/account.ts'
import type { HoldingKind } from '#ledger/reports/stock-inventory.ts'
import type { Option } from '#views/parts/field.tsx'

export const soldStockOptions = (books: Books, sideId: SideId, id: string | null): Option[] =>
  soldStockOf(books, sideId, id).map((one) => ({
    value: one.id,
    label: `${one.name}, sold ${dayName(one.disposedDay!)}`,
  }))

interface Typed {
  takesPlaceOf: string
  assetClass: string
  kind: HoldingKind
  raised: boolean
}

/** Why a thing cannot take the place that was typed; null where it can, or takes none. */
export const placeProblem = (
  books: Books,
  sideId: SideId,
  id: string | null,
  { takesPlaceOf, assetClass, kind, raised }: Typed,
): string | null => {
  if (takesPlaceOf === '') return null
  if (!soldStockOf(books, sideId, id).some((one) => one.id === takesPlaceOf)) return 'Choose from the list'
  return kind !== 'breeding_stock' || raised || assetClass === ''
    ? 'Only breeding stock that was bought takes the place of other stock: choose its kind and its class, or leave this empty'
    : null
}

const soldStockOf = (books: Books, sideId: SideId, id: string | null) =>
  listHoldings(books, sideId).filter(
    (one) => one.kind === 'breeding_stock' && one.disposedDay !== null && one.id !== id,
  )
