// What the forms for the year pack begin with: loans, accounts and things that can be valued, and items of both ends of the year.
import { lastDayOfYear } from '#calendar/day.ts'
import { bookYears } from '#db/ledger/report-store.ts'
import type { Books } from '#db/open.ts'
import { listHoldings, storedHoldings, thingValues } from '#db/year/holding-list.ts'
import { listAccruals } from '#db/year-store.ts'
import { isLasting, isTermLoan } from '#ledger/account.ts'
import { closingOf } from '#ledger/reports/book-year.ts'
import { valueOn } from '#ledger/reports/market-values.ts'
import { heldAtYearEnd } from '#ledger/reports/stock-inventory.ts'
import { cents } from '#money/cents.ts'
import { dueWithinYear } from '#today/loan-terms.ts'
import { packYear } from '#today/year-pack/year-pack-settings.ts'
import type { PackInputs } from '#views/year-pack/inputs-shape.ts'

export const inputsOf = (books: Books, year: number): PackInputs => {
  const sides = bookYears(books, year)
  const rows = sides.flatMap((side) => side.accounts.map((row) => ({ row, side })))
  const on = lastDayOfYear(year)
  const values = new Map(sides.flatMap((side) => [...thingValues(books, side.sideId, on)]))
  return {
    year,
    revision: packYear(books, year).revision,
    loans: rows
      .filter(({ row }) => isTermLoan(row.account) && closingOf(row) !== 0)
      .map(({ row, side }) => ({
        id: row.account.id,
        name: row.account.name,
        side: side.name,
        owedCents: cents(-closingOf(row)),
        byTermsCents: dueWithinYear(books, row.account, cents(-closingOf(row))),
      })),
    lasting: rows
      .filter(({ row }) => isLasting(row.account) && closingOf(row) !== 0)
      .map(({ row, side }) => ({
        id: row.account.id,
        name: row.account.name,
        side: side.name,
        booksCents: closingOf(row),
      })),
    sides: sides.map((side) => ({ id: side.sideId, name: side.name })),
    accruals: sides.flatMap((side) =>
      [year - 1, year].flatMap((of) =>
        listAccruals(books, side.sideId, of).map((item) => ({
          ...item,
          at: of === year ? ('end' as const) : ('begin' as const),
          sideId: side.sideId,
          side: side.name,
        })),
      ),
    ),
    holdings: sides.flatMap((side) => storedHoldings(books, side.sideId)),
    things: sides
      .flatMap((side) => listHoldings(books, side.sideId, on))
      .filter((holding) => heldAtYearEnd(holding, year))
      .map(({ id, name, costCents }) => {
        const of = values.get(id) ?? []
        const newest = valueOn(of, on)
        return {
          id,
          name,
          costCents,
          valueCents: of.find(({ day }) => day === on)?.amountCents ?? null,
          before: newest && newest.day !== on ? newest : null,
        }
      }),
  }
}
