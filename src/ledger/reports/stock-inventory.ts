// The inventory of stock and equipment at a year's end, with each thing's depreciation of the year and what is left of its cost.
import { type Day, firstDayOfYear, lastDayOfYear } from '#calendar/day.ts'
import { yearIn } from '#calendar/month.ts'
import { keeper } from '#kept/keeper.ts'
import { type Cents, cents, centsToDollars, dollarsToCents, sumCents, zeroCents } from '#money/cents.ts'
import { isMostlyPrivate, meanUse, useIn } from '#rules/depreciation/listed-use.ts'
import { type FarmAssetClass, firstRecoveryYear, isListed, recoveryIn } from '#rules/depreciation/recovery.ts'
import {
  type AssetSchedule,
  type DepreciableAsset,
  depreciationSchedule,
} from '#rules/depreciation/schedule.ts'
import { firstBonusYear } from '#rules/depreciation/write-offs.ts'
import { type Holding, heldOn, type WrittenOffBefore, wearsOut } from './holding.ts'
import { dividedThings, partSchedules } from './sold-parts.ts'

export {
  type Holding,
  type HoldingDepreciation,
  type HoldingKind,
  heldOn,
  holdingKindNames,
  holdingKinds,
  holdingName,
  type WrittenOffBefore,
  wearsOut,
} from './holding.ts'

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
  /** What returns deducted beside what the table of its class would have; `isTold` where a method fits. Null where none was told. */
  returned: (WrittenOffBefore & { byTableCents: Cents; isTold: boolean }) | null
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
  const deductions = schedulesOf(depreciable, first, year)
  const rows = holdings
    .filter((holding) => heldIn(holding, year))
    .map((holding): InventoryRow => {
      const asset = deductions.get(holding.id)
      const yearly = asset?.deductions.map(dollarsToCents) ?? []
      const deductedThisYearCents = yearly.at(-1) ?? zeroCents
      const gone = holding.disposedDay !== null && yearIn(holding.disposedDay) <= year
      const deductedBeforeCents = asset ? sumCents(yearly.slice(0, -1)) : returnedOf(holding, year)
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
        returned: asset?.returned
          ? {
              ...holding.writtenOffBefore!,
              byTableCents: dollarsToCents(asset.returned.byTable),
              isTold: asset.returned.isTold,
            }
          : null,
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

/** By id. Of a thing of which parts were sold, the whole goes into the schedule, and its parts share what it deducts. */
const schedulesOf = (
  depreciable: readonly Holding[],
  first: number,
  year: number,
): Map<string, AssetSchedule> => {
  const scheduled = (of: readonly Holding[]) => {
    const { assets, years } = depreciationSchedule(of.map(assetOf), first, year)
    return { years, byId: new Map(of.map(({ id }, i) => [id, assets[i]!])) }
  }
  const alone = scheduled(depreciable)
  const divided = dividedThings(depreciable)
  if (divided.length === 0) return alone.byId
  const isPart = new Set(divided.flatMap(({ parts }) => parts.map(({ id }) => id)))
  const { byId, years } = scheduled([
    ...depreciable.filter(({ id }) => !isPart.has(id)),
    ...divided.map(({ whole }) => whole),
  ])
  const ofParts = divided.map(({ whole, parts }) =>
    partSchedules({ whole: byId.get(whole.id)!, parts }, (id) => alone.byId.get(id)!, years),
  )
  return new Map([...byId, ...ofParts.flatMap((one) => [...one])])
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
  wearsOut(kind) && !raised && depreciation === null && costCents > 0

const writeOffOf = (
  { assetClass, section179, bonus, excess, system }: AssetSchedule,
  holding: Holding,
  year: number,
  fellBackCents: Cents,
): WriteOff => {
  const serviceYear = yearIn(serviceDay(holding))
  const { generalYears, alternativeYears, straightLine, decliningBalance } = recoveryIn(
    assetClass,
    serviceYear,
  )
  const shares = sharesOf(holding)
  // From the drop on, as if it had always been so (26 USC 280F(b)(2)).
  const hasDropped = excess !== null && excess.year <= year
  return {
    assetClass,
    // As a return told it; a car of little business use keeps the period that its form names.
    years: system === 'alternative' && !holding.depreciation?.useShares ? alternativeYears : generalYears,
    method:
      straightLine ||
      system === 'general-line' ||
      system === 'alternative' ||
      isMostlyPrivate(shares[0]!, serviceYear) ||
      hasDropped
        ? 'straight line'
        : decliningBalance === 200 && system === 'general'
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
export const heldAtYearEnd = (holding: Holding, year: number): boolean => heldOn(holding, lastDayOfYear(year))

const heldIn = (holding: Holding, year: number): boolean =>
  holding.acquiredDay <= lastDayOfYear(year) &&
  (holding.disposedDay === null || holding.disposedDay >= firstDayOfYear(year))

const isDepreciable = ({ depreciation, raised, kind }: Holding): boolean =>
  depreciation !== null && !raised && wearsOut(kind)

/** Without a class, what returns of earlier years have deducted is all that is known. */
const returnedOf = ({ kind, raised, writtenOffBefore }: Holding, year: number): Cents =>
  writtenOffBefore && writtenOffBefore.through < year && wearsOut(kind) && !raised
    ? writtenOffBefore.amountCents
    : zeroCents

/** In use since before the tables begin: all of its cost was deducted long ago. */
const isWrittenOff = (holding: Holding): boolean =>
  isDepreciable(holding) && yearIn(serviceDay(holding)) < firstRecoveryYear

const assetOf = (holding: Holding): DepreciableAsset => assetOnce(holding, 'asset', () => readAsset(holding))

/** The years of an inventory ask for the same things. */
const assetOnce = keeper(1)

const readAsset = (holding: Holding): DepreciableAsset => ({
  name: holding.name,
  assetClass: holding.depreciation!.assetClass,
  cost: centsToDollars(costLeft(holding)),
  placedInService: serviceDay(holding),
  acquired: holding.acquiredDay,
  section179: centsToDollars(holding.depreciation!.section179Cents),
  bonus: holding.depreciation!.bonus && hasKnownBonus(holding),
  ...(holding.depreciation!.useShares ? { useShares: sharesOf(holding) } : {}),
  ...(holding.writtenOffBefore
    ? {
        returned: {
          amount: centsToDollars(holding.writtenOffBefore.amountCents),
          through: holding.writtenOffBefore.through,
        },
      }
    : {}),
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

/** Whether it was in use by the end of a day. */
export const inServiceBy = (holding: Holding, on: Day): boolean => serviceDay(holding) <= on

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
