// Things that were sold or lost and whose cost still stands in the books: net income has the whole price until it is taken out.
import { dayName, lastDayOfYear } from '#calendar/day.ts'
import { type PropertySale, wholeCostOf } from '#ledger/tax/property-sales.ts'
import { cents, sumCents, zeroCents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import type { StatedDepreciation, YearPackFigures } from './figures.ts'
import type { PackGround } from './pack-ground.ts'
import {
  type Business,
  type Standing,
  salesAccountOf,
  soldOf,
  standing,
  takenOutWith,
} from './standing-sales.ts'

type Gap = YearPackFigures['gaps'][number]

/** Of farm and ventures. Where an entry took out less than the cost of a year's sales, the later ones still stand. */
export const soldGaps = (ground: PackGround, stated: readonly StatedDepreciation[]): Gap[] => {
  const { farm, ventures } = ground.read
  return [...(farm ? [farm] : []), ...ventures].flatMap((business) =>
    gapsOf(
      ground,
      business,
      stated.find(({ sideId }) => sideId === business.books.sideId),
    ),
  )
}

const gapsOf = (ground: PackGround, business: Business, stated: StatedDepreciation | undefined): Gap[] => {
  const sold = soldOf(business)
  const homeless = sold
    .filter(({ accountId }) => accountId === null)
    .map(({ sale }) => withoutAccount(sale, ground.year))
  const left = standing(ground, business.books, sold, 0)
  // The page that books the difference shows this list: what it takes out, and at which cost, is told from there.
  const out = takenOutWith(ground, business.books, stated?.differenceCents ?? zeroCents)
  return [...homeless, ...left.map((one) => bookedFirst(one, stated, out) ?? stillStands(one))]
}

/** While depreciation is not booked the entry cannot be told: booking the difference comes first, and takes out what it can. */
const bookedFirst = (
  { sale, costCents, deductedCents }: Standing,
  stated: StatedDepreciation | undefined,
  takenOut: readonly Standing[],
): Gap | null => {
  if (stated === undefined) return null
  const lacks = stated.differenceCents + sumCents(stated.earlier.map((before) => before.differenceCents))
  const isShort = deductedCents < Math.min(sale.deductedCents, costCents)
  // The oldest first: a later year's entry takes out only what is written off whole once it is booked.
  const lacking = stated.earlier[0]?.year ?? (stated.differenceCents === 0 ? undefined : stated.year)
  // Booked in another year than the schedule has it, nothing is lacking.
  if (lacking === undefined || (lacks <= 0 && !isShort)) return null
  const out =
    lacking === stated.year ? takenOut.find((one) => one.sale.holdingId === sale.holdingId) : undefined
  return {
    says: `${leftSays(sale)}, and its cost of ${formatCents(out?.costCents ?? costCents)} is still in the books. Book the difference of depreciation of ${lacking}: ${out ? 'the same entry takes out what was sold' : 'then this point tells the entry that takes it out'}.`,
    href: `/year-pack/depreciation?year=${lacking}&side=${stated.sideId}`,
  }
}

const leftSays = ({ name, soldDay, priceCents, personal }: PropertySale): string =>
  `${name} was ${priceCents + (personal?.priceCents ?? 0) > 0 ? 'sold' : 'lost or given away'} on ${dayName(soldDay!)}`

const withoutAccount = (sale: PropertySale, year: number): Gap => ({
  says: `${leftSays(sale)}, and no account is chosen that holds its cost of ${formatCents(wholeCostOf(sale))}: nothing shows whether it is still in the books. Choose the account.`,
  href: `/year-pack/holdings/${sale.holdingId}?year=${year}`,
})

const stillStands = ({ sale, row, contra, costCents, deductedCents, year, side }: Standing): Gap => {
  const sales = salesAccountOf(side)
  const basis = cents(costCents - deductedCents)
  const debits = [
    ...(contra && deductedCents > 0 ? [`debit “${contra.account.name}” ${formatCents(deductedCents)}`] : []),
    ...(basis > 0
      ? [
          `debit ${sales ? `“${sales.account.name}”` : 'the account that has such sales'} ${formatCents(basis)}`,
        ]
      : []),
  ]
  const what =
    deductedCents > 0
      ? `its cost of ${formatCents(costCents)} and ${formatCents(deductedCents)} of depreciation are still`
      : `${formatCents(costCents)} of its cost is still`
  return {
    says: `${leftSays(sale)}; ${what} in the books, so that net income is ${formatCents(basis)} too high. Book on ${dayName(lastDayOfYear(year))}, by debits and credits: ${debits.join(', ')}, credit “${row.account.name}” ${formatCents(costCents)}.`,
    href: `/books/entry?side=${side.sideId}&kind=journal`,
  }
}
