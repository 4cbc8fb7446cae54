// Things that were sold or lost and whose cost still stands in the books: net income has the whole price until it is taken out.
import { dayName, firstDayOfYear, lastDayOfYear } from '#calendar/day.ts'
import { takenOff } from '#db/ledger/household-postings.ts'
import { isCash } from '#ledger/account.ts'
import { type AccountYear, type BookYear, closingOf } from '#ledger/reports/book-year.ts'
import { heldAtYearEnd } from '#ledger/reports/stock-inventory.ts'
import { lineRole, sellsAssets } from '#ledger/schedule-lines.ts'
import { type PropertySale, wholeCostOf } from '#ledger/tax/property-sales.ts'
import { allocate } from '#money/allocate.ts'
import { type Cents, cents, sumCents, zeroCents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import type { VentureYear } from '#today/tax/books-year.ts'
import type { StatedDepreciation, YearPackFigures } from './figures.ts'
import type { PackGround } from './side-statements.ts'

type Gap = YearPackFigures['gaps'][number]
type Business = Pick<VentureYear, 'books' | 'inventory' | 'sales'>

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
  const left = standing(ground, business, sold, 0)
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

/** Of what still stands, what the entry of the depreciation takes out: written off whole once it is booked, and with an account for its sale. */
export const takenOutWith = (ground: PackGround, side: BookYear, toBookCents: Cents): Standing[] =>
  salesAccountOf(side)
    ? standingSales(ground, side.sideId, toBookCents).filter(
        ({ sale, contra, costCents, deductedCents }) =>
          contra !== undefined && deductedCents === Math.min(sale.deductedCents, costCents),
      )
    : []

const soldOf = (business: Business): Sold[] => {
  const things = new Map(business.inventory.rows.map(({ holding }) => [holding.id, holding]))
  return business.sales.sales
    .filter((sale) => wholeCostOf(sale) > 0)
    .toSorted((a, b) => ((a.soldDay ?? '') < (b.soldDay ?? '') ? -1 : 1))
    .flatMap((sale) => {
      const holding = things.get(sale.holdingId ?? '')
      return holding ? [{ sale, accountId: holding.accountId }] : []
    })
}

/**
 * What of things sold in the year still stands in the books of a side, once `toBookCents` more of depreciation is booked: the entry
 * that takes each out.
 */
const standingSales = (ground: PackGround, sideId: string, toBookCents: Cents): Standing[] => {
  const { farm, ventures } = ground.read
  const business = [...(farm ? [farm] : []), ...ventures].find(({ books }) => books.sideId === sideId)
  return business ? standing(ground, business, soldOf(business), toBookCents) : []
}

const leftSays = ({ name, soldDay, priceCents, personal }: PropertySale): string =>
  `${name} was ${priceCents + (personal?.priceCents ?? 0) > 0 ? 'sold' : 'lost or given away'} on ${dayName(soldDay!)}`

const withoutAccount = (sale: PropertySale, year: number): Gap => ({
  says: `${leftSays(sale)}, and no account is chosen that holds its cost of ${formatCents(wholeCostOf(sale))}: nothing shows whether it is still in the books. Choose the account.`,
  href: `/year-pack/holdings/${sale.holdingId}?year=${year}`,
})

const standing = (
  { books, year, things }: PackGround,
  { books: side }: Business,
  sold: readonly Sold[],
  toBookCents: number,
): Standing[] => {
  const held = (things.get(side.sideId) ?? []).filter(({ holding }) => heldAtYearEnd(holding, year))
  const rows = side.accounts.filter((row) => sold.some(({ accountId }) => accountId === row.account.id))
  const writesOff = side.accounts.filter(({ account }) => lineRole(account) === 'depreciation')
  const days = { from: firstDayOfYear(year), to: lastDayOfYear(year) }
  const taken = takenOff(
    books,
    rows.map(({ account }) => account),
    writesOff.map(({ account }) => account),
    days,
  )
  const contra = side.accounts.find((row) => isWrittenOffOn(row)) ?? gathering(side, toBookCents)
  const deductedOfHeld = sumCents(held.map(({ deducted }) => deducted.end))
  const deductedLeft = Math.max(0, (contra ? toBookCents - closingOf(contra) : 0) - deductedOfHeld)
  const found = rows.flatMap((row) => {
    const own = sold.filter(({ accountId }) => accountId === row.account.id).map(({ sale }) => sale)
    // Written off on the account itself, what is held stands there at less than its cost.
    const ofHeld = held
      .filter(({ holding }) => holding.accountId === row.account.id)
      .map(({ holding, deducted }) => holding.costCents - (contra ? 0 : deducted.end))
    let costLeft = Math.max(0, closingOf(row) - sumCents(ofHeld.map(cents)))
    let takenLeft: number = taken.get(row.account.id) ?? 0
    return own.flatMap((sale) => {
      const untaken = Math.max(0, wholeCostOf(sale) - takenLeft)
      takenLeft = Math.max(0, takenLeft - wholeCostOf(sale))
      const costCents = cents(Math.min(untaken, costLeft))
      if (costCents === 0) return []
      costLeft -= costCents
      return [{ sale, row, contra, costCents, year, side }]
    })
  })
  // Each takes out its own; where less is booked than all of them have, none takes what is another's.
  const own = found.map(({ sale, costCents }) => cents(Math.min(sale.deductedCents, costCents)))
  const shares = deductedLeft < sumCents(own) ? allocate(cents(deductedLeft), own) : own
  return found.map((one, i) => ({ ...one, deductedCents: shares[i]! }))
}

/** The account that gathers depreciation, of a balance below zero. */
const isWrittenOffOn = (row: AccountYear): boolean =>
  row.account.kind === 'asset' && !isCash(row.account) && closingOf(row) < 0

/** Before anything was written off, the account made for it. */
const gathering = (side: BookYear, toBookCents: number): AccountYear | undefined =>
  toBookCents === 0 ? undefined : side.accounts.find(({ account }) => account.contraKind === 'depreciation')

interface Sold {
  sale: PropertySale
  accountId: number | null
}

export interface Standing {
  sale: PropertySale
  row: AccountYear
  contra: AccountYear | undefined
  costCents: Cents
  deductedCents: Cents
  year: number
  side: BookYear
}

/** The account that has such sales. */
export const salesAccountOf = (side: BookYear): AccountYear | undefined =>
  side.accounts.find(({ account }) => sellsAssets(account) && account.archivedAt === null)

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
