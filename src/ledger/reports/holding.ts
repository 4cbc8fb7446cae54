// A thing owned for the farm or a venture: stock, equipment, buildings, land, and what lies in store.
import type { Day } from '#calendar/day.ts'
import type { Cents } from '#money/cents.ts'
import type { FarmAssetClass } from '#rules/depreciation/recovery.ts'

export const holdingKinds = [
  'equipment',
  'building',
  'fence',
  'breeding_stock',
  'market_stock',
  'land',
  'produce',
  'supplies',
] as const
export type HoldingKind = (typeof holdingKinds)[number]

export const holdingKindNames: Record<HoldingKind, string> = {
  equipment: 'Machinery and equipment',
  building: 'Buildings and structures',
  fence: 'Fences',
  breeding_stock: 'Breeding stock',
  market_stock: 'Stock for sale',
  land: 'Land',
  produce: 'Produce',
  supplies: 'Supplies',
}

/** How a thing is written off; null for land, stock for sale, produce and supplies. */
export interface HoldingDepreciation {
  assetClass: FarmAssetClass
  section179Cents: Cents
  bonus: boolean
  /** Business part of the use by year where some of it is private; the cost is then the whole cost. A year not named is as the one before. */
  useShares?: Readonly<Record<string, number>>
  /** Stock in the place of a thing sold because of weather: the gain put off then lowers its cost (26 USC 1033(b)(2), (e)). */
  takesPlaceOf?: string
}

export interface WrittenOffBefore {
  amountCents: Cents
  /** Year of the last return in it. */
  through: number
}

export interface Holding {
  id: string
  kind: HoldingKind
  name: string
  quantity: number
  unit: string
  accountId: number | null
  acquiredDay: Day
  inServiceDay: Day | null
  /** Raised on the farm: its cost was deducted as it came, so it has none to write off. */
  raised: boolean
  costCents: Cents
  depreciation: HoldingDepreciation | null
  /** What tax returns up to that of a year have deducted of it in all; null or nothing where none was told. */
  writtenOffBefore?: WrittenOffBefore | null
  marketValueCents: Cents | null
  disposedDay: Day | null
  disposedForCents: Cents | null
  /** Of the cost, what a gain put off takes away; worked out from the sale, never kept. */
  loweredCents?: Cents
}

/**
 * Kinds that wear out in use. Land never does (26 CFR 1.167(a)-2); what is held for sale, and supplies, are no property of that kind
 * either (same place: inventories and stock in trade).
 */
export const wearsOut = (kind: HoldingKind): boolean =>
  ['equipment', 'building', 'fence', 'breeding_stock'].includes(kind)
