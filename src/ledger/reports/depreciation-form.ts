// Form 4562 by part from the inventory: section 179, bonus, the year's property by class, that of earlier years, and cars.
import { yearIn } from '#calendar/month.ts'
import { allocate } from '#money/allocate.ts'
import { type Cents, cents, centsToDollars, dollarsToCents, sumCents, zeroCents } from '#money/cents.ts'
import { takesBonus } from '#rules/depreciation/recovery.ts'
import { bonusShare, section179Carried, section179Limits } from '#rules/depreciation/write-offs.ts'
import { firstLawYear } from '#rules/law.ts'
import { formOfYear } from '../form-editions.ts'
import type { StartUp } from '../tax/start-up.ts'
import {
  costLeft,
  hasKnownBonus,
  type InventoryRow,
  type StockInventory,
  type WriteOff,
} from './stock-inventory.ts'

/** Printed with the lines. */
export const depreciationFormSource = (year: number): string =>
  `${formOfYear('Form 4562', year)}, irs.gov: Parts I to VI in our own words; IRS Pub. 946; 26 USC 179(b)(3), 280F(d)(4)`

export const depreciationFormUnread = 'Line numbers are from memory.'

export interface DepreciationForm {
  year: number
  section179: {
    /** Line 6, a thing a line; those of line 7, listed, stand in Part V. */
    things: readonly { name: string; costCents: Cents; electedCents: Cents }[]
    /** Line 8. */
    electedCents: Cents
    /** Line 11: income of the household's businesses and its pay, without the section 179 deduction; null where its law is not known. */
    businessIncomeCents: Cents | null
    /** Line 12. */
    deductedCents: Cents
    /** Line 13: over business income, deducted in a later year. */
    carriedCents: Cents
  }
  /** Line 14. */
  bonusCents: Cents
  /** Recovery periods of the year's property that could take bonus depreciation, by whether it does: the election out is by class. */
  bonus: { taken: readonly number[]; notTaken: readonly number[] }
  /** Line 19, by recovery period, method and convention. */
  placedThisYear: readonly DepreciationClass[]
  /** Line 17. */
  earlierCents: Cents
  /** Part V, a thing a line, with what of its cost is in section 179 of this year: what can carry people is listed, and its business use must be proved. */
  listed: readonly { row: InventoryRow; writeOff: WriteOff; section179Cents: Cents }[]
  /** Line 22, which is line 14 of Schedule F. */
  totalCents: Cents
  /** Part VI: start-up costs deducted in the year, which stand among the other costs of the business's form; null where none are. */
  startUp: StartUp | null
}

export interface DepreciationClass {
  years: number
  method: WriteOff['method']
  convention: string
  basisCents: Cents
  deductedCents: Cents
}

const isNewIn = (year: number, { holding }: InventoryRow): boolean =>
  yearIn(holding.inServiceDay ?? holding.acquiredDay) === year

/** Section 179 deduction elected for things of the year. */
export const electedOf = ({ year, rows }: StockInventory): Cents =>
  sumCents(
    rows.filter((row) => isNewIn(year, row)).flatMap(({ writeOff }) => writeOff?.section179Cents ?? []),
  )

/**
 * What of the elections of all businesses is over their income and left to later years, for each inventory in its share. The limits
 * are the household's, not the single business's. `businessIncomeCents`: farm and ventures before section 179, pay, and gains of
 * business property (26 CFR 1.179-2(c)).
 */
export const section179Left = (
  inventories: readonly StockInventory[],
  businessIncomeCents: Cents,
): Cents[] => {
  const elected = inventories.map(electedOf)
  const all = sumCents(elected)
  const year = inventories[0]?.year ?? 0
  if (all === 0 || year < firstLawYear) return inventories.map(() => zeroCents)
  const qualifying = sumCents(
    inventories.flatMap(({ rows }) =>
      rows.filter((row) => row.writeOff && isNewIn(year, row)).map(({ holding }) => costLeft(holding)),
    ),
  )
  const limits = section179Limits(year, { prices: () => 1 })
  const [cost, business, chosen] = [qualifying, businessIncomeCents, all].map(centsToDollars)
  const left = dollarsToCents(section179Carried(limits, cost!, business!, chosen!))
  return left === 0 ? inventories.map(() => zeroCents) : allocate(left, elected)
}

/** `carriedCents` of the elections waits for a later year (`section179Left`). */
export const depreciationForm = (
  inventory: StockInventory,
  businessIncomeCents: Cents,
  carriedCents: Cents,
): DepreciationForm => {
  const { year, rows } = inventory
  const writtenOff = rows.flatMap((row) => (row.writeOff ? [{ row, writeOff: row.writeOff }] : []))
  const isNew = ({ row }: { row: InventoryRow }) => isNewIn(year, row)
  // Bought and sold in one year, nothing of it is written off, and there is nothing to elect (26 CFR 1.168(d)-1(b)(3)(ii), from memory).
  const stays = ({ row: { holding } }: { row: InventoryRow }) =>
    holding.disposedDay === null || yearIn(holding.disposedDay) > year
  const listed = writtenOff.filter(({ writeOff }) => writeOff.isListed)
  const others = writtenOff.filter(({ writeOff }) => !writeOff.isListed)
  const electedCents = electedOf(inventory)
  return {
    year,
    section179: {
      things: others
        .filter((one) => isNew(one) && one.writeOff.section179Cents > 0)
        .map(({ row: { holding }, writeOff }) => ({
          name: holding.name,
          costCents: costLeft(holding),
          electedCents: writeOff.section179Cents,
        })),
      electedCents,
      businessIncomeCents: year < firstLawYear ? null : businessIncomeCents,
      deductedCents: cents(electedCents - carriedCents),
      carriedCents,
    },
    bonusCents: sumCents(others.filter(isNew).map(({ writeOff }) => writeOff.bonusCents)),
    bonus: bonusOf(writtenOff.filter(isNew).filter(stays)),
    placedThisYear: classesOf(others.filter(isNew).filter(stays)),
    earlierCents: sumCents(others.filter((one) => !isNew(one)).map(({ row }) => row.deductedThisYearCents)),
    listed: listed.map((one) => ({
      ...one,
      section179Cents: isNew(one) ? one.writeOff.section179Cents : zeroCents,
    })),
    totalCents: cents(inventory.depreciationCents - carriedCents),
    startUp: null,
  }
}

/** By what is left after section 179 of property that may take it does, or does not; listed property only when used over half for business. */
const bonusOf = (rows: readonly { row: InventoryRow; writeOff: WriteOff }[]): DepreciationForm['bonus'] => {
  const able = rows.filter(
    ({ row: { holding }, writeOff }) =>
      hasKnownBonus(holding) &&
      bonusShare(holding.acquiredDay, yearIn(holding.inServiceDay ?? holding.acquiredDay)) > 0 &&
      takesBonus(writeOff.assetClass) &&
      (!writeOff.isListed || writeOff.useShare > 0.5) &&
      costLeft(holding) > writeOff.section179Cents,
  )
  const yearsOf = (isTaken: boolean) =>
    [
      ...new Set(
        able
          .filter(({ writeOff }) => writeOff.bonusCents > 0 === isTaken)
          .map(({ writeOff }) => writeOff.years),
      ),
    ].sort((a, b) => a - b)
  return { taken: yearsOf(true), notTaken: yearsOf(false) }
}

/** By the basis that is left after a gain put off in it; a class of which nothing is left has no line. */
const classesOf = (rows: readonly { row: InventoryRow; writeOff: WriteOff }[]): DepreciationClass[] => {
  const classes = new Map<string, DepreciationClass>()
  for (const { row, writeOff } of rows) {
    const { years, method, section179Cents, bonusCents } = writeOff
    const convention = row.convention ?? ''
    const key = `${String(years).padStart(2, '0')} ${method} ${convention}`
    const before = classes.get(key)
    const atOnce = cents(section179Cents + bonusCents)
    classes.set(key, {
      years,
      method,
      convention,
      basisCents: cents((before?.basisCents ?? 0) + costLeft(row.holding) - atOnce),
      deductedCents: cents((before?.deductedCents ?? 0) + row.deductedThisYearCents - atOnce),
    })
  }
  return [...classes.entries()]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([, one]) => one)
    .filter(({ basisCents, deductedCents }) => basisCents !== 0 || deductedCents !== 0)
}
