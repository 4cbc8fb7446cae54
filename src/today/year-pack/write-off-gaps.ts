// What of things owned cannot be written off as it was entered, and what returns wrote off that no method explains.
import { lastDayOfYear } from '#calendar/day.ts'
import { holdingKindNames, type InventoryRow, wearsOut } from '#ledger/reports/stock-inventory.ts'
import { formatCents } from '#money/format.ts'
import type { OpenPoint } from './figures.ts'
import type { PackGround } from './pack-ground.ts'

export const writeOffGaps = (ground: PackGround): OpenPoint[] => [
  ...classOfWhatLasts(ground),
  ...returnedOtherwise(ground),
]

const hrefOf = (id: string, year: number) => `/year-pack/holdings/${id}?year=${year}`

const classOfWhatLasts = ({ things, year }: PackGround): OpenPoint[] =>
  [...things.values()]
    .flat()
    .filter(({ holding }) => holding.depreciation !== null && !wearsOut(holding.kind))
    .filter(({ holding }) => holding.acquiredDay <= lastDayOfYear(year))
    .map(({ holding }) => ({
      says: `${holding.name} has a class of depreciation, and its kind is “${holdingKindNames[holding.kind]}”: nothing of it is written off (26 CFR 1.167(a)-2). Take the class off, or choose the kind that it is.`,
      href: hrefOf(holding.id, year),
    }))

/** The schedule goes on from what was filed; which method that was is the preparer's to say. */
const returnedOtherwise = ({ read: { farm, ventures }, year }: PackGround): OpenPoint[] =>
  [...(farm ? [farm] : []), ...ventures]
    .flatMap(({ inventory }) => inventory.rows)
    .flatMap(({ holding, returned }) =>
      returned && !returned.isTold
        ? [{ says: returnedSays(holding.name, returned), href: hrefOf(holding.id, year) }]
        : [],
    )

const returnedSays = (name: string, returned: NonNullable<InventoryRow['returned']>): string => {
  const { amountCents, through, byTableCents } = returned
  const both = `${name}: returns up to ${through} wrote off ${formatCents(amountCents)}, the table of its class has ${formatCents(byTableCents)} by then, and no other method fits.`
  return amountCents < byTableCents
    ? `${both} The schedule goes on from what was filed. Ask which method the return used: where it took less than was allowed, the cost is lowered by what was allowed all the same (26 USC 1016(a)(2)), and the rest takes a change of method (Form 3115).`
    : `${both} The schedule spreads what is left over the years that are left, as after section 179 or bonus depreciation. Check it against the return.`
}
