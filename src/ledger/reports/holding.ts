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

/** Of a thing, so much was sold, lost or given away while the rest stayed. */
export interface SoldPart {
  id: string
  /** Of the thing’s quantity. */
  quantity: number
  disposedDay: Day
  disposedForCents: Cents | null
}

export interface Holding {
  /** Of a sold part, its own. */
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
  /** As it is kept: parts of it that are gone; all amounts are then of the whole. */
  parts?: readonly SoldPart[]
  /** One of several into which a thing was divided as parts were sold: which thing, and how much that was. Amounts are of this part. */
  partOf?: { holdingId: string; quantity: number }
}

/**
 * Kinds that wear out in use. Land never does (26 CFR 1.167(a)-2); what is held for sale, and supplies, are no property of that kind
 * either (same place: inventories and stock in trade).
 */
export const wearsOut = (kind: HoldingKind): boolean =>
  ['equipment', 'building', 'fence', 'breeding_stock'].includes(kind)

/** A part that is gone says which part it was. */
export const holdingName = ({ id, name, quantity, unit, partOf }: Holding): string =>
  partOf && partOf.holdingId !== id
    ? `${name} (${quantity} of ${partOf.quantity}${unit ? ` ${unit}` : ''})`
    : name

/** Owned at the end of a day. */
export const heldOn = (
  { acquiredDay, disposedDay }: Pick<Holding, 'acquiredDay' | 'disposedDay'>,
  on: Day,
): boolean => acquiredDay <= on && (disposedDay === null || disposedDay > on)
