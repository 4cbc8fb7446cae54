// The depreciation schedule: assets in, deductions by asset and year out, with section 179, bonus, conventions and disposals.
import { type Day, day } from '#calendar/day.ts'
import { yearIn } from '#calendar/month.ts'
import { keeper } from '#kept/keeper.ts'
import type { FarmAssetClass } from '../data/depreciation.ts'
import { byShares, leftByYear, sumToCent, toCent, underLimits } from './by-year.ts'
import {
  type ChangingUse,
  changesUse,
  excessOnDrop,
  isMostlyPrivate,
  laterDeductions,
  type UseShares,
  useIn,
} from './listed-use.ts'
import { type Convention, type DepreciationSystem, yearlyShares } from './rates.ts'
import { takesBonus, takesSection179 } from './recovery.ts'
import { fits, goingOnFrom, type Returned } from './returned.ts'
import { type CarLimits, carLimits, section179CapOf } from './vehicle-limits.ts'
import { bonusShare } from './write-offs.ts'

export interface DepreciableAsset {
  name: string
  assetClass: FarmAssetClass
  /** Business part of the cost, dollars to the cent; land and private use already taken off. */
  cost: number
  /** Business part of the use, 1 when left out: it lowers the yearly limits of a car. */
  businessShare?: number
  placedInService: Day
  /** Where a part of the use is private: the business part by year of service; `cost` is then the whole cost. */
  useShares?: UseShares
  /** Day of the binding purchase, where it differs from first use: it decides the bonus. */
  acquired?: Day
  /** Section 179 amount elected, dollars, within the year's ceiling (see write-offs.ts). */
  section179?: number
  /** False when the owner elects out of bonus depreciation. */
  bonus?: boolean
  system?: DepreciationSystem
  /** What returns up to that of a year have deducted in all: later years go on from it (`goneOn`). */
  returned?: Returned
  disposed?: Day
}

export interface AssetSchedule {
  name: string
  assetClass: FarmAssetClass
  cost: number
  section179: number
  bonus: number
  convention: Convention['kind']
  /** Deductions of the years of the schedule, dollars to the cent, section 179 and bonus in the first. */
  deductions: number[]
  /** Adjusted basis at the end of each year; 0 once disposed of. */
  basisAtYearEnd: number[]
  /** Where business use fell to half or less: what was deducted beyond the straight line is income of that year. */
  excess: { year: number; amount: number } | null
  system: DepreciationSystem
  /** Beside what returns deducted, what the class's own table would have; null where nothing of returns was told. */
  returned: (Returned & { byTable: number; isTold: boolean }) | null
}

export interface DepreciationSchedule {
  years: number[]
  assets: AssetSchedule[]
  totals: number[]
}

/**
 * Deductions of `firstYear` … `lastYear`. The half-year convention holds unless more than 40 % of a year's basis goes into
 * service in its last quarter, when all that year's assets take the mid-quarter one (26 USC 168(d)(3); assets disposed of
 * in their first year and tenant houses do not count). A year of disposal takes half its deduction, or up to the middle of
 * the quarter; an asset bought and sold in one year takes none.
 */
export const depreciationSchedule = (
  assets: readonly DepreciableAsset[],
  firstYear: number,
  lastYear: number,
): DepreciationSchedule => {
  const years = Array.from({ length: lastYear - firstYear + 1 }, (_, i) => firstYear + i)
  const lastQuarterYears = new Set(
    years.concat(assets.map(serviceYear)).filter((y) => midQuarterYear(assets, y)),
  )
  const rows = assets.map((asset) => assetRow(asset, years, lastQuarterYears.has(serviceYear(asset))))
  const totals = years.map((_, i) => sumToCent(rows.map((row) => row.deductions[i]!)))
  return { years, assets: rows, totals }
}

const assetRow = (owned: DepreciableAsset, years: readonly number[], midQuarter: boolean): AssetSchedule => {
  const { asset, whole, left, ...row } = courseOnce(owned, midQuarter ? 'mid-quarter' : 'usual', () =>
    courseOf(owned, midQuarter),
  )
  return {
    ...row,
    deductions: years.map((year) => whole[year - serviceYear(asset)] ?? 0),
    basisAtYearEnd: years.map((year) => basisAfter(asset, left, year)),
  }
}

/** An asset is the same in each year that asks for it. */
const courseOnce = keeper(2)

interface AssetCourse extends Omit<AssetSchedule, 'deductions' | 'basisAtYearEnd'> {
  asset: DepreciableAsset
  /** Deductions by year of service, and what is left of the cost after each. */
  whole: readonly number[]
  left: readonly number[]
}

const courseOf = (owned: DepreciableAsset, midQuarter: boolean): AssetCourse => {
  const lifeBy = (system: DepreciationSystem | undefined, quarter = midQuarter) =>
    lifeOf(system === undefined ? owned : { ...owned, system }, quarter)
  const life = goneOn(owned, lifeBy)
  const { asset, convention, section179, bonus, uncut, use } = life
  const whole = cutAtDisposal(asset, convention, uncut)
  return {
    asset,
    whole,
    left: leftByYear(asset.cost, whole),
    name: asset.name,
    assetClass: asset.assetClass,
    cost: asset.cost,
    section179,
    bonus,
    convention: convention.kind,
    excess: use === null ? null : excessOnDrop(use, uncut),
    system: asset.system ?? 'general',
    returned: life.returned,
  }
}

interface Life {
  asset: DepreciableAsset
  convention: Convention
  section179: number
  bonus: number
  use: ChangingUse | null
  /** Deductions by year of service as if it were never disposed of. */
  uncut: number[]
}

const lifeOf = (owned: DepreciableAsset, midQuarter: boolean): Life => {
  const asset = businessPart(owned)
  const convention = conventionOf(asset, midQuarter)
  const sameYearSale = asset.disposed !== undefined && yearIn(asset.disposed) === serviceYear(asset)
  const claimsBonus =
    asset.bonus !== false && asset.system !== 'alternative' && takesBonus(asset.assetClass) && !sameYearSale
  const share = claimsBonus ? bonusShare(asset.acquired ?? asset.placedInService, serviceYear(asset)) : 0
  const limits = carLimits(asset.assetClass, serviceYear(asset), share > 0, asset.businessShare)
  const mostAtOnce = limits?.[0] ?? asset.cost
  const section179 = sameYearSale ? 0 : Math.min(electedSection179(asset), mostAtOnce)
  const bonus = Math.min(toCent((asset.cost - section179) * share), toCent(mostAtOnce - section179))
  const use = changingUse(owned, asset, section179 + bonus, convention)
  const uncut = sameYearSale ? [0] : wholeLife(asset, section179 + bonus, convention, limits, use)
  return { asset, convention, section179, bonus, use, uncut }
}

/** By the method that what was returned fits, under either convention; by the class's own where it fits none. */
const goneOn = (
  { returned }: DepreciableAsset,
  lifeBy: (system?: DepreciationSystem, midQuarter?: boolean) => Life,
): Life & Pick<AssetSchedule, 'returned'> => {
  const own = lifeBy()
  const served = returned === undefined ? 0 : returned.through - serviceYear(own.asset) + 1
  if (returned === undefined || served < 1) return { ...own, returned: null }
  const { asset, uncut } = own
  const isQuarter = own.convention.kind === 'mid-quarter'
  const systems: (DepreciationSystem | undefined)[] = asset.useShares
    ? [undefined]
    : [undefined, 'general-150', 'general-line', 'alternative']
  const told = systems
    .flatMap((system) => [isQuarter, !isQuarter].map((quarter) => lifeBy(system, quarter)))
    .find((life) => fits(life.uncut, served, { amount: returned.amount, cost: asset.cost }))
  const life = told ?? own
  return {
    ...life,
    uncut: goingOnFrom(life.uncut, served, returned.amount, told !== undefined),
    returned: { ...returned, byTable: sumToCent(uncut.slice(0, served)), isTold: told !== undefined },
  }
}

/** Of a thing used in part: its business part, and no more than straight line where that is half or less. */
const businessPart = (asset: DepreciableAsset): DepreciableAsset => {
  if (!asset.useShares) return asset
  const share = useIn(asset.useShares, 0)
  const part = { ...asset, cost: toCent(asset.cost * share), businessShare: share }
  return isMostlyPrivate(share, serviceYear(asset)) ? { ...part, system: 'alternative', section179: 0 } : part
}

const changingUse = (
  { cost, useShares }: DepreciableAsset,
  part: DepreciableAsset,
  atOnce: number,
  convention: Convention,
): ChangingUse | null => {
  if (!useShares || !changesUse(useShares)) return null
  const year = serviceYear(part)
  const limits = carLimits(part.assetClass, year, atOnce > (part.section179 ?? 0))
  return {
    serviceYear: year,
    wholeCost: cost,
    atOnce,
    shares: useShares,
    byMethod: yearlyShares(part.assetClass, year, convention, part.system),
    byLine: yearlyShares(part.assetClass, year, convention, 'alternative'),
    limitIn: limits && ((i) => limits[Math.min(i, 3)]!),
  }
}

/**
 * Deductions by year of service, rounded to the cent; the last one takes up what rounding left, so that all add to the cost.
 * A car's are held under its yearly limits, and what they held back follows after the last year of the table. Where bonus
 * fills the first limit the table runs on all that is left of the cost (Rev. Proc. 2019-13, its safe harbor).
 */
const wholeLife = (
  asset: DepreciableAsset,
  atOnce: number,
  convention: Convention,
  limits: CarLimits | null,
  use: ChangingUse | null,
): number[] => {
  const shares = yearlyShares(asset.assetClass, serviceYear(asset), convention, asset.system)
  const amounts = byShares(shares, toCent(asset.cost - atOnce))
  amounts[0] = toCent(amounts[0]! + atOnce)
  const byTables = limits ? underLimits(amounts, limits, asset.cost) : amounts
  return use === null ? byTables : [byTables[0]!, ...laterDeductions(use).map(toCent)]
}

const cutAtDisposal = (
  asset: DepreciableAsset,
  convention: Convention,
  amounts: readonly number[],
): number[] => {
  if (asset.disposed === undefined) return [...amounts]
  const last = yearIn(asset.disposed) - serviceYear(asset)
  if (last >= amounts.length) return [...amounts]
  const kept = amounts.slice(0, last + 1)
  kept[last] = toCent(kept[last]! * partOfDisposalYear(convention, asset.disposed))
  return kept
}

const partOfDisposalYear = (convention: Convention, disposed: Day): number => {
  const month = Number(disposed.slice(5, 7))
  if (convention.kind === 'half-year') return 0.5
  if (convention.kind === 'mid-quarter') return (Math.ceil(month / 3) - 0.5) / 4
  return (month - 0.5) / 12
}

const basisAfter = (asset: DepreciableAsset, left: readonly number[], year: number): number => {
  if (year < serviceYear(asset)) return 0
  if (asset.disposed !== undefined && yearIn(asset.disposed) <= year) return 0
  return left[Math.min(year - serviceYear(asset), left.length - 1)]!
}

const conventionOf = (asset: DepreciableAsset, midQuarter: boolean): Convention => {
  const month = Number(asset.placedInService.slice(5, 7))
  if (asset.assetClass === 'tenant-house') return { kind: 'mid-month', month }
  return midQuarter
    ? { kind: 'mid-quarter', quarter: Math.ceil(month / 3) as 1 | 2 | 3 | 4 }
    : { kind: 'half-year' }
}

/** More than 40 % of the year's basis, section 179 taken off and bonus not, first used in October to December. */
const midQuarterYear = (assets: readonly DepreciableAsset[], year: number): boolean => {
  let all = 0
  let lastQuarter = 0
  for (const asset of assets) {
    if (serviceYear(asset) !== year || asset.assetClass === 'tenant-house') continue
    if (asset.disposed !== undefined && yearIn(asset.disposed) === year) continue
    const basis = asset.cost - electedSection179(asset)
    all += basis
    if (asset.placedInService >= day(`${year}-10-01`)) lastQuarter += basis
  }
  return lastQuarter > 0.4 * all
}

const electedSection179 = (asset: DepreciableAsset): number => {
  const elected = asset.section179 ?? 0
  if (elected > 0 && !takesSection179(asset.assetClass))
    throw new Error(`Section 179 does not cover ${asset.assetClass}: ${asset.name}`)
  return Math.min(elected, asset.cost, section179CapOf(asset.assetClass, serviceYear(asset)))
}

const serviceYear = (asset: DepreciableAsset): number => yearIn(asset.placedInService)
