// The inventory of stock and equipment at a year's end, with each thing's depreciation of the year and what is left of its cost.
import { type Day, firstDayOfYear, lastDayOfYear } from '#calendar/day.ts'
import { yearIn } from '#calendar/month.ts'
import { type Cents, cents, centsToDollars, dollarsToCents, sumCents, zeroCents } from '#money/cents.ts'
import { isMostlyPrivate, meanUse, useIn } from '#rules/depreciation/listed-use.ts'
import { type FarmAssetClass, firstRecoveryYear, isListed, recoveryIn } from '#rules/depreciation/recovery.ts'
import {
  type AssetSchedule,
  type DepreciableAsset,
  depreciationSchedule,
} from '#rules/depreciation/schedule.ts'
import { firstBonusYear } from '#rules/depreciation/write-offs.ts'

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
  marketValueCents: Cents | null
  disposedDay: Day | null
  disposedForCents: Cents | null
  /** Of the cost, what a gain put off takes away; worked out from the sale, never kept. */
  loweredCents?: Cents
}

export interface InventoryRow {
  holding: Holding
  bookCents: Cents
  /** What it is worth at the year's end; without a market value what is left of its cost. Null once it is gone. */
  market: { cents: Cents; isAtCost: boolean } | null
  deductedThisYearCents: Cents
  deductedBeforeCents: Cents
  /** Of what was deducted, so much became income again when business use fell, in this year or before (26 USC 280F(b)(2)). */
  fellBackCents: Cents
  /** Business part of its use over all years it was in use; 1 where nothing of it is private. */
  businessUse: number
  convention: string | null
  /** How it is written off; null for what is not, and for what was long ago. */
  writeOff: WriteOff | null
}

export interface WriteOff {
  assetClass: FarmAssetClass
  /** Recovery period. */
  years: number
  method: '200 % declining balance' | '150 % declining balance' | 'straight line'
  section179Cents: Cents
  bonusCents: Cents
  /** Used to carry people, so that its use must be proved (26 USC 280F(d)(4)). */
  isListed: boolean
  /** Business part of the year's use, 1 where nothing was said. */
  useShare: number
  /** Deducted before beyond the straight line, income of this year since business use fell to half or less. */
  excessCents: Cents
}

export interface StockInventory {
  year: number
  rows: readonly InventoryRow[]
  depreciationCents: Cents
  /** Income of the year: deducted before, and taken back as business use fell to half or less. */
  fallsBackCents: Cents
  marketCents: Cents
  /** Cost of stock bought to be sold that was on hand at the year's beginning and end; what an account of its own holds is not in it. */
  resale: { beginCents: Cents; endCents: Cents }
}

/** Everything held at some time in the year. Depreciation follows src/rules/depreciation, all of a year's purchases together. */
export const stockInventory = (known: readonly Holding[], year: number): StockInventory => {
  const holdings = known.map((holding) => asOfYearEnd(holding, year))
  const depreciable = holdings.filter((holding) => isDepreciable(holding) && !isWrittenOff(holding))
  const first = Math.min(year, ...depreciable.map((holding) => yearIn(serviceDay(holding))))
  const schedule = depreciationSchedule(depreciable.map(assetOf), first, year)
  const deductions = new Map(depreciable.map((holding, i) => [holding.id, schedule.assets[i]!]))
  const rows = holdings
    .filter((holding) => heldIn(holding, year))
    .map((holding): InventoryRow => {
      const asset = deductions.get(holding.id)
      const yearly = asset?.deductions.map(dollarsToCents) ?? []
      const deductedThisYearCents = yearly.at(-1) ?? zeroCents
      const gone = holding.disposedDay !== null && yearIn(holding.disposedDay) <= year
      const deductedBeforeCents = sumCents(yearly.slice(0, -1))
      const fellBackCents = fellBackBy(asset, holding, year)
      const spent = isWrittenOff(holding)
      const basis = cents(
        costLeft(holding) - deductedBeforeCents - deductedThisYearCents + (asset ? fellBackCents : 0),
      )
      return {
        holding,
        bookCents: gone || spent ? zeroCents : basis,
        market: gone ? null : worthOf(holding, spent ? zeroCents : basis),
        deductedThisYearCents,
        deductedBeforeCents: spent ? costLeft(holding) : deductedBeforeCents,
        fellBackCents,
        businessUse: businessUseOf(holding, year),
        convention: asset?.convention ?? null,
        writeOff: asset ? writeOffOf(asset, holding, year, fellBackCents) : null,
      }
    })
  return {
    year,
    rows,
    depreciationCents: sumCents(rows.map((row) => row.deductedThisYearCents)),
    fallsBackCents: sumCents(rows.map(({ writeOff }) => writeOff?.excessCents ?? zeroCents)),
    resale: { beginCents: resaleAt(holdings, year - 1), endCents: resaleAt(holdings, year) },
    marketCents: sumCents(rows.map(({ market }) => market?.cents ?? zeroCents)),
  }
}

/** A year's papers hold what was so by its last day: what became of a thing afterwards is the next year's. */
const asOfYearEnd = (holding: Holding, year: number): Holding =>
  holding.disposedDay !== null && holding.disposedDay > lastDayOfYear(year)
    ? { ...holding, disposedDay: null, disposedForCents: null }
    : holding

/** What was sold before its use fell keeps what it deducted: the sale takes it back. */
const fellBackBy = (asset: AssetSchedule | undefined, { disposedDay }: Holding, year: number): Cents => {
  const excess = asset?.excess ?? null
  const last = disposedDay === null ? year : Math.min(year, yearIn(disposedDay) - 1)
  return excess !== null && excess.year <= last ? dollarsToCents(excess.amount) : zeroCents
}

const businessUseOf = (holding: Holding, year: number): number => {
  if (!holding.depreciation?.useShares) return 1
  const last = holding.disposedDay === null ? year : Math.min(year, yearIn(holding.disposedDay))
  return meanUse(sharesOf(holding), last - yearIn(serviceDay(holding)) + 1)
}

/** What counts as its cost for tax. */
export const costLeft = ({ costCents, loweredCents }: Holding): Cents =>
  cents(costCents - (loweredCents ?? 0))

const worthOf = ({ marketValueCents }: Holding, leftCents: Cents): InventoryRow['market'] => ({
  cents: marketValueCents ?? leftCents,
  isAtCost: marketValueCents === null,
})

/** Wears out and was bought, and nobody said yet how it is written off. */
export const isUntold = ({ kind, raised, depreciation, costCents }: Holding): boolean =>
  ['equipment', 'building', 'fence', 'breeding_stock'].includes(kind) &&
  !raised &&
  depreciation === null &&
  costCents > 0

const writeOffOf = (
  { assetClass, section179, bonus, excess }: AssetSchedule,
  holding: Holding,
  year: number,
  fellBackCents: Cents,
): WriteOff => {
  const serviceYear = yearIn(serviceDay(holding))
  const { generalYears, straightLine, decliningBalance } = recoveryIn(assetClass, serviceYear)
  const shares = sharesOf(holding)
  // From the drop on, as if it had always been so (26 USC 280F(b)(2)).
  const hasDropped = excess !== null && excess.year <= year
  return {
    assetClass,
    years: generalYears,
    method:
      straightLine || isMostlyPrivate(shares[0]!, serviceYear) || hasDropped
        ? 'straight line'
        : decliningBalance === 200
          ? '200 % declining balance'
          : '150 % declining balance',
    section179Cents: dollarsToCents(section179),
    bonusCents: dollarsToCents(bonus),
    isListed: isListed(assetClass),
    useShare: useIn(shares, year - serviceYear),
    excessCents: excess?.year === year ? fellBackCents : zeroCents,
  }
}

/** Bought stock is deducted in the year it is sold (26 CFR 1.61-4(a), IRS Pub. 225): until then its cost waits. */
const resaleAt = (holdings: readonly Holding[], year: number): Cents =>
  sumCents(
    holdings
      .filter(({ kind, raised, accountId }) => kind === 'market_stock' && !raised && accountId === null)
      .filter((holding) => heldAtYearEnd(holding, year))
      .map(({ costCents }) => costCents),
  )

/** Owned on December 31, what was sold on that day left out. */
export const heldAtYearEnd = (holding: Holding, year: number): boolean =>
  holding.acquiredDay <= lastDayOfYear(year) &&
  (holding.disposedDay === null || holding.disposedDay > lastDayOfYear(year))

const heldIn = (holding: Holding, year: number): boolean =>
  holding.acquiredDay <= lastDayOfYear(year) &&
  (holding.disposedDay === null || holding.disposedDay >= firstDayOfYear(year))

const isDepreciable = (holding: Holding): boolean => holding.depreciation !== null && !holding.raised

/** In use since before the tables begin: all of its cost was deducted long ago. */
const isWrittenOff = (holding: Holding): boolean =>
  isDepreciable(holding) && yearIn(serviceDay(holding)) < firstRecoveryYear

const assetOf = (holding: Holding): DepreciableAsset => ({
  name: holding.name,
  assetClass: holding.depreciation!.assetClass,
  cost: centsToDollars(costLeft(holding)),
  placedInService: serviceDay(holding),
  acquired: holding.acquiredDay,
  section179: centsToDollars(holding.depreciation!.section179Cents),
  bonus: holding.depreciation!.bonus && hasKnownBonus(holding),
  ...(holding.depreciation!.useShares ? { useShares: sharesOf(holding) } : {}),
  ...(holding.disposedDay ? { disposed: holding.disposedDay } : {}),
})

/** By year of service, up to the last one told. */
const sharesOf = (holding: Holding): number[] => {
  const told = holding.depreciation?.useShares ?? {}
  const first = yearIn(serviceDay(holding))
  const last = Math.max(first, ...Object.keys(told).map(Number))
  let share = 1
  return Array.from({ length: last - first + 1 }, (_, i) => {
    share = told[String(first + i)] ?? share
    return share
  })
}

/** Bonus of earlier years is not kept here; what was deducted at once then is entered as such. */
export const hasKnownBonus = (holding: Pick<Holding, 'inServiceDay' | 'acquiredDay'>): boolean =>
  yearIn(serviceDay(holding)) >= firstBonusYear

const serviceDay = ({ inServiceDay, acquiredDay }: Pick<Holding, 'inServiceDay' | 'acquiredDay'>): Day =>
  inServiceDay ?? acquiredDay

/** What a sale in the year brought over what was left of the cost. */
export const gainOnSale = (row: InventoryRow): Cents | null => {
  const { disposedDay, disposedForCents } = row.holding
  if (disposedDay === null || disposedForCents === null) return null
  const basis = row.holding.raised
    ? 0
    : costLeft(row.holding) - row.deductedBeforeCents - row.deductedThisYearCents + row.fellBackCents
  return cents(disposedForCents - basis)
}
