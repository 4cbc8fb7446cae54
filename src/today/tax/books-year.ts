// A calendar year of the books as the tax law asks for it: the sides, the farm's inventory and Schedule F, and the income of all.
import { lastDayOfYear } from '#calendar/day.ts'
import { month, parseMonth, yearIn, yearOf } from '#calendar/month.ts'
import { spanOfBooks } from '#db/ledger/balances.ts'
import { bookYears } from '#db/ledger/report-store.ts'
import type { Books } from '#db/open.ts'
import { listHoldings } from '#db/year-store.ts'
import { type BookYear, isResult } from '#ledger/reports/book-year.ts'
import { type DepreciationForm, depreciationForm } from '#ledger/reports/depreciation-form.ts'
import { incomeOfYear, withEarlier, type YearIncome } from '#ledger/reports/income-of-year.ts'
import { type ScheduleF, scheduleF } from '#ledger/reports/schedule-f.ts'
import { type StockInventory, stockInventory } from '#ledger/reports/stock-inventory.ts'
import { paysForWork } from '#ledger/schedule-lines.ts'
import { type PropertySales, propertySales } from '#ledger/tax/property-sales.ts'
import { type Cents, cents, centsToDollars, dollarsToCents, sumCents, zeroCents } from '#money/cents.ts'
import type { Plan } from '#plan/plan.ts'
import { estimatedTaxShares, isFarmersIncome } from '#rules/estimated-tax.ts'
import { keptThrough } from '#today/kept.ts'
import { grossSaidOfLastYear } from './paid-ahead.ts'

export interface BooksYear {
  sides: readonly BookYear[]
  /** Null before there are farm books. */
  farm: {
    books: BookYear
    inventory: StockInventory
    depreciation: DepreciationForm
    form: ScheduleF
    sales: PropertySales
    income: YearIncome
  } | null
}

export const booksYear = (books: Books, year: number): BooksYear =>
  keptThrough(books, lastDayOfYear(year), 'year', () => readYear(books, year))

const readYear = (books: Books, year: number): BooksYear => {
  const sides = bookYears(books, year)
  const farm = sides.find((side) => side.kind === 'farm')
  if (!farm) return { sides, farm: null }
  const inventory = stockInventory(listHoldings(books, farm.sideId, lastDayOfYear(year)), year)
  const isWrittenOff = inventory.rows.some((row) => row.convention !== null)
  const depreciation = depreciationForm(inventory, businessIncome(sides, farm, inventory))
  const form = scheduleF(farm, isWrittenOff ? depreciation.totalCents : null, inventory.resale)
  const sales = propertySales(inventory, form.capitalSalesCents)
  const income = {
    ...incomeOfYear(sides, form, sales),
    section179Left: centsToDollars(depreciation.section179.carriedCents),
  }
  return { sides, farm: { books: farm, inventory, depreciation, form, sales, income } }
}

/** What bounds the section 179 deduction: all businesses and pay of the household without it, and gains of business property. */
const businessIncome = (sides: readonly BookYear[], farm: BookYear, inventory: StockInventory): Cents => {
  const elected = sumCents(
    inventory.rows
      .filter(({ holding }) => yearIn(holding.inServiceDay ?? holding.acquiredDay) === inventory.year)
      .map(({ writeOff }) => writeOff?.section179Cents ?? zeroCents),
  )
  const form = scheduleF(farm, cents(inventory.depreciationCents - elected), inventory.resale)
  const sales = propertySales(inventory, form.capitalSalesCents)
  const { farmProfit, ventureProfit, pay } = incomeOfYear(sides, form, sales)
  return cents(
    dollarsToCents(farmProfit + ventureProfit + pay) +
      Math.max(0, sales.section1231Cents) +
      sales.ordinaryCents,
  )
}

/** Whether any side earned or spent in the year. */
export const hasResults = ({ sides }: BooksYear): boolean =>
  sides.some((side) => side.accounts.some((row) => isResult(row) && row.monthsCents.some((sum) => sum !== 0)))

/** Whether farm or ventures paid for work: hired labor and custom hire, wages and contract labor. */
export const paidForWork = (books: Books, year: number): boolean =>
  booksYear(books, year).sides.some((side) =>
    side.accounts.some((row) => paysForWork(row.account) && row.monthsCents.some((sum) => sum !== 0)),
  )

/** Whether the books begin before the year does and hold results of it: else it may have had income they do not know. */
export const holdsAllOf = (books: Books, year: number): boolean => {
  const span = spanOfBooks(books)
  return span !== null && span.first <= month(year, 1) && hasResults(booksYear(books, year))
}

/** The year's income by the books, and what the plan says came before them where both begin within the year. Null without farm books. */
export const yearIncome = (books: Books, plan: Plan | null, year: number): YearIncome | null => {
  const income = booksYear(books, year).farm?.income
  if (!income) return null
  const span = spanOfBooks(books)
  // A plan continued from this month has what the books hold in its own year so far.
  const saved = plan?.continuesFrom === undefined ? plan : null
  const start = saved && parseMonth(saved.startMonth)!
  const begins = start !== null && yearOf(start) === year && span !== null && span.first > month(year, 1)
  return saved && begins && span.first >= start ? withEarlier(income, saved.tax.soFar) : income
}

/**
 * Two thirds of gross income from farming, this year or the one before (26 USC 6654(i)(2)). The year before counts as the books
 * have it where they hold all of it, else as the plan that starts in this year says: by its last months alone a year of wages
 * would pass for a farmer's.
 */
export const isFarmer = (books: Books, plan: Plan | null, taxYear: number): boolean => {
  const lastYear = holdsAllOf(books, taxYear - 1)
    ? booksYear(books, taxYear - 1).farm?.income.gross
    : plan && grossSaidOfLastYear(plan, taxYear)
  const shares = estimatedTaxShares(taxYear)
  return [yearIncome(books, plan, taxYear)?.gross, lastYear].some(
    (gross) => gross && isFarmersIncome(shares, gross.farm, gross.total),
  )
}
