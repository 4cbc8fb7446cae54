// Which depreciation the statements of a business take, as booked, and which its form, by the schedule: this year's and that of the years before.
import { yearsOfBooks } from '#db/ledger/report-store.ts'
import { type Cents, cents, sumCents, zeroCents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { type BooksYear, booksYear } from '#today/tax/books-year.ts'
import type { StatedDepreciation, YearPackFigures } from './figures.ts'
import type { PackGround } from './pack-ground.ts'
import { goneThings } from './standing-sales.ts'

/** Null of a side that writes nothing off. */
export const statedDepreciation = (ground: PackGround, sideId: string): StatedDepreciation | null => {
  const { books, read } = ground
  const of = businessOf(read, sideId)
  if (!of) return null
  const { year, name, kind } = of.books
  return {
    year,
    sideId,
    name,
    line: kind === 'farm' ? 'Schedule F line 14' : 'Schedule C line 13',
    ...of.form.depreciation,
    takenBack: takenBackOf(of),
    differenceCents: differenceOf(of),
    earlier: yearsOfBooks(books)
      .filter((before) => before < year)
      .flatMap((before) => {
        const then = businessOf(booksYear(books, before), sideId)
        const differenceCents = then ? differenceOf(then) : zeroCents
        return differenceCents === 0 ? [] : [{ year: before, differenceCents }]
      })
      .sort((a, b) => a.year - b.year),
    gone: goneThings(ground, of.books, 'end'),
  }
}

type Business = Pick<NonNullable<BooksYear['farm']>, 'books' | 'inventory'> & {
  form: { depreciation: { bookedCents: Cents; scheduleCents: Cents | null } }
}

const businessOf = ({ farm, ventures }: BooksYear, sideId: string): Business | undefined =>
  [...(farm ? [farm] : []), ...ventures].find(({ books }) => books.sideId === sideId)

/** Deducted before, and income again as business use fell: it lowers what is written off, so the books take it off depreciation. */
const takenBackOf = ({ inventory }: Pick<Business, 'inventory'>): StatedDepreciation['takenBack'] =>
  inventory.rows.flatMap(({ holding, writeOff }) =>
    writeOff && writeOff.excessCents > 0 ? [{ name: holding.name, amountCents: writeOff.excessCents }] : [],
  )

/** To be booked so that the books have written off what the schedule has. */
const differenceOf = (of: Business): Cents => {
  const { bookedCents, scheduleCents } = of.form.depreciation
  if (scheduleCents === null) return zeroCents
  // What returns before these books have deducted came into them with the opening balances.
  const opened = of.inventory.rows.filter(({ returned }) => (returned?.through ?? 0) >= of.books.year)
  return cents(
    scheduleCents -
      sumCents(takenBackOf(of).map((one) => one.amountCents)) -
      sumCents(opened.map((row) => row.deductedThisYearCents)) -
      bookedCents,
  )
}

/** Open points: what is not booked, with what is income again named. */
export const depreciationGaps = (stated: StatedDepreciation): YearPackFigures['gaps'][number][] => {
  const { year, sideId, name, line, bookedCents, scheduleCents, takenBack, differenceCents, earlier } = stated
  const href = (of: number) => `/year-pack/depreciation?year=${of}&side=${sideId}`
  const again = takenBack
    .map(
      (one) =>
        ` ${formatCents(one.amountCents)} of ${one.name} is income again on the form (Form 4797, Part IV), and in the books less depreciation.`,
    )
    .join('')
  return [
    ...(differenceCents === 0
      ? []
      : [
          {
            says: `${name}: the depreciation schedule says ${formatCents(scheduleCents!)}, the books hold ${formatCents(bookedCents)}.${again} ${line} takes the schedule; book the difference so that the statements agree.`,
            href: href(year),
          },
        ]),
    ...earlier.map((before) => ({
      says: `${name}: ${formatCents(before.differenceCents)} of depreciation of ${before.year} is not booked, so that what things cost stands higher here than on the inventory by so much.`,
      href: href(before.year),
    })),
  ]
}
