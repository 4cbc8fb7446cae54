// Puts the year pack together: each side's statements, the farm's form, measures and inventory, crossings, and the tax worksheet.
import { type Day, lastDayOfYear } from '#calendar/day.ts'
import { chainEnd, endInWords } from '#db/chain/chain.ts'
import { yearsOfBooks } from '#db/ledger/report-store.ts'
import type { Books } from '#db/open.ts'
import { listAccruals, listHoldings, marketValuesOn } from '#db/year-store.ts'
import { bandReadings } from '#ledger/measures/bands.ts'
import { type AccrualItem, accrualYear } from '#ledger/reports/accrual.ts'
import { type BalanceExtras, balanceSheet } from '#ledger/reports/balance-sheet.ts'
import type { BookYear } from '#ledger/reports/book-year.ts'
import { cashFlow } from '#ledger/reports/cash-flow.ts'
import { crossingsByMonth } from '#ledger/reports/crossings-by-month.ts'
import { incomeStatement } from '#ledger/reports/income-statement.ts'
import { measuresOfYear } from '#ledger/reports/measures-of-year.ts'
import { ownerEquity } from '#ledger/reports/owner-equity.ts'
import { type Holding, heldAtYearEnd } from '#ledger/reports/stock-inventory.ts'
import { together } from '#ledger/reports/together.ts'
import { incomePlaces } from '#ledger/tax/income-places.ts'
import { type Cents, sumCents, zeroCents } from '#money/cents.ts'
import { byPart, lazily } from '#today/by-part.ts'
import { currentPlan } from '#today/current-plan.ts'
import { carriedBatches } from '#today/farm/batch-figures.ts'
import { preparerFigures } from '#today/farm/preparer-figures.ts'
import { loanBook } from '#today/loan-terms.ts'
import { type BooksYear, booksYear } from '#today/tax/books-year.ts'
import { worksheetAfterPayments } from '#today/tax/tax-payments.ts'
import { booksGaps } from './books-gaps.ts'
import type { MeasureRow, SideStatements, YearPackFigures } from './figures.ts'
import { incomeGaps } from './income-gaps.ts'
import { isEmpty, notebookGaps } from './notebook-gaps.ts'
import { packGaps } from './year-pack-gaps.ts'
import { type PackYear, packYear } from './year-pack-settings.ts'

export type PackBasis = 'cash' | 'accrual'

/** Everything in the pack of a year. */
export const yearPackFigures = (
  books: Books,
  year: number,
  basis: PackBasis,
  today: Day,
): YearPackFigures => {
  const ground = packGround(books, year)
  const sides = lazily(() => ground.sides.map((side) => statementsOf(ground, side, basis)))
  const notes = lazily(() => preparerFigures(books, year, today))
  const { farm } = ground.read
  return byPart<YearPackFigures>({
    year: () => year,
    years: () => yearsOfBooks(books),
    basis: () => basis,
    through: () => (today < lastDayOfYear(year) ? today : null),
    sides,
    together: () => (ground.sides.length > 1 ? togetherOf(ground, basis) : null),
    scheduleF: () => farm?.form ?? null,
    places: () => incomePlaces(ground.sides),
    sales: () => farm?.sales ?? null,
    depreciation: () => farm?.depreciation ?? null,
    measures: () => (farm ? measureRows(ground, farm.books, sides(), basis) : []),
    inventory: () => farm?.inventory ?? null,
    crossings: () => crossingsByMonth(ground.sides),
    notebook: () => (isEmpty(notes()) ? null : notes()),
    tax: () => worksheetOf(books, year),
    chainEnd: () => {
      const end = chainEnd(books.sqlite)
      return end && endInWords(end)
    },
    gaps: () => [
      ...booksGaps(books, year, currentPlan(books)),
      ...incomeGaps(ground.sides, farm?.sales ?? null),
      ...notebookGaps(notes(), year),
      ...packGaps(
        ground.sides,
        ground.said,
        farm?.inventory ?? null,
        farm?.form ?? null,
        year,
        loanBook(books),
      ),
    ],
  })
}

const worksheetOf = (books: Books, year: number): YearPackFigures['tax'] => {
  const current = currentPlan(books)
  const plan = current.status === 'read' ? current.plan : null
  const { worked, payments, statePayments } = worksheetAfterPayments(books, plan, year)
  if (worked.status === 'cannot') return worked
  const { figures, trace, cautions, state } = worked.tax.return
  return {
    status: 'worked',
    worksheet: { ...worked.tax, figures, trace, cautions, state, payments, statePayments },
  }
}

interface PackGround {
  year: number
  read: BooksYear
  sides: readonly BookYear[]
  said: PackYear
  holdings: ReadonlyMap<string, readonly Holding[]>
  market: { begin: ReadonlyMap<number, Cents>; end: ReadonlyMap<number, Cents> }
  accrualsOf(sideId: string, year: number): readonly AccrualItem[]
}

const packGround = (books: Books, year: number): PackGround => {
  const read = booksYear(books, year)
  const { sides } = read
  return {
    year,
    read,
    sides,
    said: packYear(books, year).saved,
    holdings: new Map(sides.map((side) => [side.sideId, listHoldings(books, side.sideId)])),
    market: {
      begin: marketValuesOn(books, lastDayOfYear(year - 1)),
      end: marketValuesOn(books, lastDayOfYear(year)),
    },
    accrualsOf: (sideId, of) => [
      ...listAccruals(books, sideId, of),
      ...(sideId === 'farm' ? carriedBatches(books, of) : []),
    ],
  }
}

const statementsOf = (ground: PackGround, side: BookYear, basis: PackBasis): SideStatements =>
  statementsFrom(ground, side, [side], basis)

const togetherOf = (ground: PackGround, basis: PackBasis): SideStatements =>
  statementsFrom(ground, together(ground.sides), ground.sides, basis)

/** `parts` are the sides whose inventories and year-end items belong to the books. */
const statementsFrom = (
  ground: PackGround,
  side: BookYear,
  parts: readonly BookYear[],
  basis: PackBasis,
): SideStatements => {
  const at = (year: number) => parts.flatMap((part) => ground.accrualsOf(part.sideId, year))
  const accrual = basis === 'accrual' ? accrualYear(at(ground.year - 1), at(ground.year)) : null
  const extras = (end: 'begin' | 'end') => extrasOf(ground, parts, end, accrual ? accrual[end] : [])
  return byPart<SideStatements>({
    id: () => side.sideId,
    kind: () => side.kind,
    name: () => side.name,
    income: () => incomeStatement(side, accrual),
    begin: () => balanceSheet(side, 'begin', extras('begin')),
    end: () => balanceSheet(side, 'end', extras('end')),
    equity: () => ownerEquity(side),
    cash: () => cashFlow(side),
  })
}

const extrasOf = (
  ground: PackGround,
  parts: readonly BookYear[],
  end: 'begin' | 'end',
  accruals: BalanceExtras['accruals'],
): BalanceExtras => {
  const year = end === 'end' ? ground.year : ground.year - 1
  const held = parts
    .flatMap((part) => ground.holdings.get(part.sideId) ?? [])
    .filter((holding) => heldAtYearEnd(holding, year) && holding.marketValueCents !== null)
  return {
    marketByAccount: marketByAccount(ground.market[end], held, parts),
    unbooked: held.filter(isUnbooked).map((holding) => ({
      name: holding.name,
      costCents: zeroCents,
      marketCents: holding.marketValueCents!,
      current: ['market_stock', 'produce', 'supplies'].includes(holding.kind),
    })),
    accruals,
    dueWithinYear:
      end === 'end'
        ? new Map(Object.entries(ground.said.dueWithinYear).map(([id, due]) => [Number(id), due]))
        : new Map(),
    deferredTaxRate: ground.said.deferredTaxRate,
  }
}

/** A value recorded for the account itself goes before the sum of the things kept under it. */
const marketByAccount = (
  recorded: ReadonlyMap<number, Cents>,
  held: readonly Holding[],
  parts: readonly BookYear[],
): Map<number, Cents> => {
  const own = new Set(parts.flatMap((part) => part.accounts.map(({ account }) => account.id)))
  const values = new Map([...recorded].filter(([id]) => own.has(id)))
  const linked = new Set(held.flatMap((holding) => holding.accountId ?? []))
  for (const id of linked) {
    if (values.has(id)) continue
    values.set(
      id,
      sumCents(
        held.filter((holding) => holding.accountId === id).map((holding) => holding.marketValueCents!),
      ),
    )
  }
  return values
}

/** Raised stock, produce and supplies have no account that holds them; bought things are in one already. */
const isUnbooked = (holding: Holding): boolean =>
  holding.accountId === null &&
  (holding.raised || ['market_stock', 'produce', 'supplies'].includes(holding.kind))

const measureRows = (
  ground: PackGround,
  farm: BookYear,
  sides: readonly SideStatements[],
  basis: PackBasis,
): MeasureRow[] => {
  const statements = sides.find((side) => side.id === farm.sideId)
  if (!statements) return []
  const { cost, market } = measuresOfYear({
    begin: statements.begin,
    end: statements.end,
    income: basis === 'accrual' ? statements.income : incomeStatement(farm),
    farm,
    household: ground.sides.find((side) => side.kind === 'household') ?? null,
    unpaidLaborCents: ground.said.unpaidLabourCents,
    replacementCents: ground.said.replacementCents,
  })
  return cost.map((measure, i) => {
    const atMarket = market[i]!.value
    return {
      ...measure,
      marketValue: atMarket === measure.value ? null : atMarket,
      bands: measure.value === null ? [] : bandReadings(measure.id, measure.value),
    }
  })
}
