// Classes of farm property as a person names them, and how each is written off in the year it is placed in service.
import { decliningBalancePercent, type FarmAssetClass, recoveryYears } from '../data/depreciation.ts'
import { yearsOf } from '../dated.ts'
import { inForce } from '../in-force.ts'

export type { FarmAssetClass }

export interface AssetClass {
  label: string
  /** Straight line also under the general system. */
  straightLine?: true
  /** Buildings and their parts may not be deducted at once under section 179 (26 USC 179(d)(1); from memory). */
  noSection179?: true
  /** A passenger car's deduction of each year is limited (26 USC 280F). */
  yearlyLimit?: true
  /** Used to carry people: listed property (26 USC 280F(d)(4)); trucks and tractors made for farm work are not. */
  listed?: true
  /** Only a part may be deducted under section 179 (26 USC 179(b)(5)). */
  section179Cap?: true
}

export const assetClasses: Readonly<Record<FarmAssetClass, AssetClass>> = {
  'machinery-new': { label: 'Machinery and equipment, bought new' },
  'machinery-used': { label: 'Machinery and equipment, bought used' },
  'fence-or-grain-bin': { label: 'Farm fences and grain bins' },
  'cotton-ginning': { label: 'Cotton ginning equipment' },
  'single-purpose-structure': { label: 'Greenhouse, hog barn, milking parlor (single purpose)' },
  'orchard-or-vineyard': { label: 'Fruit and nut trees, vines', straightLine: true },
  'farm-building': { label: 'General farm building (barn, shed, shop)', noSection179: true },
  'land-improvement': { label: 'Drainage tile, well, paved lot, other land improvement' },
  cattle: { label: 'Breeding or dairy cattle' },
  hogs: { label: 'Breeding hogs' },
  'sheep-or-goats': { label: 'Breeding sheep and goats' },
  'horses-to-12-years': { label: 'Breeding or work horses up to 12 years old' },
  'horses-over-12-years': { label: 'Breeding or work horses over 12 years old' },
  vehicle: { label: 'Car, or truck or van up to 6,000 pounds loaded', yearlyLimit: true, listed: true },
  suv: { label: 'Sport utility vehicle over 6,000 pounds loaded', section179Cap: true, listed: true },
  pickup: { label: 'Pickup or van over 6,000 pounds loaded', listed: true },
  'heavy-truck-or-trailer': { label: 'Heavy truck, trailer' },
  'road-tractor': { label: 'Over-the-road tractor unit' },
  computer: { label: 'Computer' },
  'tenant-house': { label: 'Tenant house (residential rental)', straightLine: true, noSection179: true },
}

/**
 * Whether section 179 covers a class of property. False too for what is no class here: land, which is never written off, and
 * supplies, which always are at once.
 */
export const takesSection179 = (assetClass: string): boolean =>
  Object.hasOwn(assetClasses, assetClass) && !assetClasses[assetClass as FarmAssetClass].noSection179

/** Whether a class of property is listed, so that its use must be proved. */
export const isListed = (assetClass: FarmAssetClass): boolean => assetClasses[assetClass].listed ?? false

/** Bonus is for classes with a recovery period of 20 years or less (26 USC 168(k)(2)(A)); false too for land and supplies. */
export const takesBonus = (assetClass: string): boolean =>
  Object.hasOwn(assetClasses, assetClass) && assetClass !== 'tenant-house'

export interface Recovery {
  generalYears: number
  alternativeYears: number
  straightLine: boolean
  /** Percent of the declining balance: 200 or 150. */
  decliningBalance: number
}

/**
 * What was in service before this year is written off in every year that has income tax law here: no class was long enough
 * to reach it.
 */
export const firstRecoveryYear = yearsOf(recoveryYears).first

/** Years and method for property placed in service in `year`. Throws `RuleYearError` before 1989. */
export const recoveryIn = (assetClass: FarmAssetClass, year: number): Recovery => {
  const [generalYears, alternativeYears] = inForce(recoveryYears, year)[assetClass]
  return {
    generalYears,
    alternativeYears,
    straightLine: assetClasses[assetClass].straightLine ?? false,
    decliningBalance: generalYears >= 15 ? 150 : inForce(decliningBalancePercent, year),
  }
}
