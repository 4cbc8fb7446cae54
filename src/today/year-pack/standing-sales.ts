// Things that were sold or lost and still stand in the books of farm and ventures: with which cost, and what was written off of it.
import { type Day, firstDayOfYear, lastDayOfYear } from '#calendar/day.ts'
import { takenOff } from '#db/ledger/household-postings.ts'
import { yearsOfBooks } from '#db/ledger/report-store.ts'
import { isCash } from '#ledger/account.ts'
import { type AccountYear, type BookYear, closingOf } from '#ledger/reports/book-year.ts'
import { heldOn } from '#ledger/reports/stock-inventory.ts'
import { lineRole, sellsAssets } from '#ledger/schedule-lines.ts'
import { type PropertySale, wholeCostOf } from '#ledger/tax/property-sales.ts'
import { allocate } from '#money/allocate.ts'
import { type Cents, cents, sumCents, zeroCents } from '#money/cents.ts'
import { type BooksYear, booksYear, type VentureYear } from '#today/tax/books-year.ts'
import type { PackGround } from './pack-ground.ts'

export type Business = Pick<VentureYear, 'books' | 'inventory' | 'sales'>

/** A sale of the year, and the account that holds the cost of what was sold. */
export interface Sold {
  sale: PropertySale
  year: number
  accountId: number | null
}

export interface Standing extends Sold {
  row: AccountYear
  contra: AccountYear | undefined
  costCents: Cents
  deductedCents: Cents
  side: BookYear
}

/**
 * What of these things stands in the books of a side at the end of the year, once `toBookCents` more of depreciation is booked, and the
 * amounts with which it is taken out. `sold` is in the order of days: where less was taken out than all of them cost, the later stand.
 */
export const standing = (
  ground: PackGround,
  side: BookYear,
  sold: readonly Sold[],
  toBookCents: number,
  at: 'begin' | 'end' = 'end',
): Standing[] => {
  const on = at === 'end' ? lastDayOfYear(ground.year) : ground.beginsOn
  const balanceOf = at === 'end' ? closingOf : ({ openingCents }: AccountYear) => openingCents
  const held = (ground.things.get(side.sideId) ?? []).filter(({ holding }) => heldOn(holding, on))
  const rows = side.accounts.filter((row) => sold.some(({ accountId }) => accountId === row.account.id))
  const taken = takenOf(ground, side, rows, { from: firstDayOfYear(sold[0]?.year ?? ground.year), to: on })
  const contra =
    side.accounts.find((row) => isWrittenOffOn(row, balanceOf(row))) ?? gathering(side, toBookCents)
  const deductedOfHeld = sumCents(held.map(({ deducted }) => deducted[at]))
  const deductedLeft = Math.max(0, (contra ? toBookCents - balanceOf(contra) : 0) - deductedOfHeld)
  const found = rows.flatMap((row) => {
    const own = sold.filter(({ accountId }) => accountId === row.account.id)
    // Written off on the account itself, what is held stands there at less than its cost.
    const ofHeld = held
      .filter(({ holding }) => holding.accountId === row.account.id)
      .map(({ holding, deducted }) => cents(holding.costCents - (contra ? 0 : deducted[at])))
    let costLeft = Math.max(0, balanceOf(row) - sumCents(ofHeld))
    let takenLeft: number = taken.get(row.account.id) ?? 0
    return own.flatMap((one) => {
      const untaken = Math.max(0, wholeCostOf(one.sale) - takenLeft)
      takenLeft = Math.max(0, takenLeft - wholeCostOf(one.sale))
      const costCents = cents(Math.min(untaken, costLeft))
      if (costCents === 0) return []
      costLeft -= costCents
      return [{ ...one, row, contra, costCents, side }]
    })
  })
  // Each takes out its own; where less is booked than all of them have, none takes what is another's.
  const own = found.map(({ sale, costCents }) => cents(Math.min(sale.deductedCents, costCents)))
  const shares = deductedLeft < sumCents(own) ? allocate(cents(deductedLeft), own) : own
  return found.map((one, i) => ({ ...one, deductedCents: shares[i]! }))
}

/** An entry that writes off on the accounts themselves takes nothing out of them; one that writes off beside them may. */
const takenOf = (
  { books }: PackGround,
  side: BookYear,
  rows: readonly AccountYear[],
  days: { from: Day; to: Day },
): Map<number, Cents> => {
  const accountsOf = (some: readonly AccountYear[]) => some.map(({ account }) => account)
  return takenOff(
    books,
    accountsOf(rows),
    accountsOf(side.accounts.filter(({ account }) => lineRole(account) === 'depreciation')),
    accountsOf(side.accounts.filter((row) => gathers(row) || isWrittenOffOn(row, closingOf(row)))),
    days,
  )
}

/** An account that gathers depreciation, of a balance below zero. */
const isWrittenOffOn = ({ account }: AccountYear, balanceCents: Cents): boolean =>
  account.kind === 'asset' && !isCash(account) && balanceCents < 0

const gathers = ({ account }: AccountYear): boolean => account.contraKind === 'depreciation'

/** Before anything was written off, the account made for it. */
const gathering = (side: BookYear, toBookCents: number): AccountYear | undefined =>
  toBookCents === 0 ? undefined : side.accounts.find(gathers)

/** Of what was sold in the year and still stands, what the entry of its depreciation takes out: written off whole once it is booked, and with an account for its sale. */
export const takenOutWith = (ground: PackGround, side: BookYear, toBookCents: Cents): Standing[] => {
  const business = businessOf(ground.read, side.sideId)
  return business && salesAccountOf(side)
    ? standing(ground, side, soldOf(business), toBookCents).filter(
        ({ sale, contra, costCents, deductedCents }) =>
          contra !== undefined && deductedCents === Math.min(sale.deductedCents, costCents),
      )
    : []
}

/** What was sold in the year, in the order of days. */
export const soldOf = ({ books, inventory, sales }: Business): Sold[] => {
  const things = new Map(inventory.rows.map(({ holding }) => [holding.id, holding]))
  return sales.sales
    .filter((sale) => wholeCostOf(sale) > 0)
    .toSorted((a, b) => ((a.soldDay ?? '') < (b.soldDay ?? '') ? -1 : 1))
    .flatMap((sale) => {
      const holding = things.get(sale.holdingId ?? '')
      return holding ? [{ sale, year: books.year, accountId: holding.accountId }] : []
    })
}

const businessOf = ({ farm, ventures }: BooksYear, sideId: string): Business | undefined =>
  [...(farm ? [farm] : []), ...ventures].find(({ books }) => books.sideId === sideId)

/** The account that has such sales. */
export const salesAccountOf = (side: BookYear): AccountYear | undefined =>
  side.accounts.find(({ account }) => sellsAssets(account) && account.archivedAt === null)

/** A thing that is gone, as the books hold it. */
export interface GoneThing {
  holdingId: string
  name: string
  soldDay: Day
  accountId: number
  /** Stands in its account. */
  costCents: Cents
  /** By the schedule; nothing where it is written off on the account itself. */
  deductedCents: Cents
  /** Of its cost, what no depreciation takes off. */
  leftCents: Cents
}

/** All that is gone by an end of the year, whenever it went, and stands in the books of a side. */
export const goneThings = (ground: PackGround, side: BookYear, at: 'begin' | 'end'): GoneThing[] => {
  const last = at === 'end' ? ground.year : ground.year - 1
  const sold = yearsOfBooks(ground.books)
    .filter((year) => year <= last)
    .sort((a, b) => a - b)
    .flatMap((year) => {
      const business = businessOf(booksYear(ground.books, year), side.sideId)
      return business ? soldOf(business) : []
    })
  const found = standing(ground, side, sold, 0, at)
  return found
    .map((one) => goneThing(one, found, ground, at))
    .toSorted((a, b) => (a.soldDay < b.soldDay ? -1 : 1))
}

const goneThing = (
  one: Standing,
  all: readonly Standing[],
  ground: PackGround,
  at: 'begin' | 'end',
): GoneThing => {
  const { sale, row, contra, costCents } = one
  const deductedCents = cents(Math.min(sale.deductedCents, contra ? costCents : wholeCostOf(sale)))
  const most = (leftCents: number) => cents(Math.min(costCents, leftCents))
  return {
    holdingId: sale.holdingId!,
    name: sale.name,
    soldDay: sale.soldDay!,
    accountId: row.account.id,
    costCents: contra ? costCents : most(wholeCostOf(sale) - writtenOffOnAccount(one, all, ground, at)),
    deductedCents: contra ? deductedCents : zeroCents,
    leftCents: contra ? cents(costCents - deductedCents) : most(wholeCostOf(sale) - deductedCents),
  }
}

/** By how much an account stands lower than what is held and what is gone have cost: of it the part of one thing, as the schedule has them. */
const writtenOffOnAccount = (
  { row, side, sale }: Standing,
  all: readonly Standing[],
  { things, year, beginsOn }: PackGround,
  at: 'begin' | 'end',
): number => {
  const on = at === 'end' ? lastDayOfYear(year) : beginsOn
  const held = (things.get(side.sideId) ?? []).filter(
    ({ holding }) => holding.accountId === row.account.id && heldOn(holding, on),
  )
  const gone = all.filter((one) => one.row === row).map((one) => one.sale)
  const costs = [...held.map(({ holding }) => holding.costCents), ...gone.map(wholeCostOf)]
  const deducted = sumCents([
    ...held.map((one) => one.deducted[at]),
    ...gone.map(({ deductedCents }) => deductedCents),
  ])
  const balanceCents = at === 'end' ? closingOf(row) : row.openingCents
  const written = Math.min(deducted, Math.max(0, sumCents(costs) - balanceCents))
  return deducted <= 0 ? 0 : Math.round((written * sale.deductedCents) / deducted)
}
