// A year's income as the tax law asks for it, read from the books of all sides: farm, pay, ventures, interest, stock and equipment sold.
import { yearIn } from '#calendar/month.ts'
import { cents, centsToDollars, sumCents, zeroCents } from '#money/cents.ts'
import { type StockSpecies, stockSale } from '#rules/breeding-stock.ts'
import type { GrossIncome } from '#rules/estimated-tax.ts'
import { type AccountYear, type BookYear, changeOf, isResult } from './book-year.ts'
import { sumOfPurposes } from './income-statement.ts'
import { grossFarmIncome, type ScheduleF } from './schedule-f.ts'
import { gainOnSale, type InventoryRow, type StockInventory } from './stock-inventory.ts'

/** Dollars, of one calendar year as far as it is booked. */
export interface YearIncome {
  year: number
  /** Schedule F line 9, line 33 and line 34. */
  farmGross: number
  farmExpenses: number
  farmProfit: number
  pay: number
  /** Income less costs of the side ventures. */
  ventureProfit: number
  /** Interest and dividends; a change in what investments are worth is no income until they are sold. */
  interest: number
  /** Breeding stock and equipment sold: the gain of section 1231, and what is taxed as ordinary income. */
  sold: { section1231: number; ordinary: number; isRecorded: boolean }
  /** For the two-thirds test of farmers. */
  gross: GrossIncome
  /** Of all this, what was said to have come before books that begin within the year; with what was paid for it then. */
  earlier?: EarlierIncome
}

/** Dollars. */
export interface EarlierIncome {
  farmGross: number
  farmProfit: number
  wages: number
  otherSelfEmployment: number
  otherIncome: number
  healthPremiums: number
  paid: number
}

/** The year's income with what came before the books began in it. */
export const withEarlier = (income: YearIncome, earlier: EarlierIncome): YearIncome => ({
  ...income,
  farmGross: income.farmGross + earlier.farmGross,
  farmExpenses: income.farmExpenses + earlier.farmGross - earlier.farmProfit,
  farmProfit: income.farmProfit + earlier.farmProfit,
  pay: income.pay + earlier.wages,
  ventureProfit: income.ventureProfit + earlier.otherSelfEmployment,
  interest: income.interest + earlier.otherIncome,
  gross: {
    farm: income.gross.farm + earlier.farmGross,
    total:
      income.gross.total +
      [earlier.farmGross, earlier.wages, earlier.otherSelfEmployment, earlier.otherIncome].reduce(
        addAbove0,
        0,
      ),
  },
  earlier,
})

/** `form` is the farm's Schedule F with line 14 as it will be filed. */
export const incomeOfYear = (
  sides: readonly BookYear[],
  form: ScheduleF,
  inventory: StockInventory,
): YearIncome => {
  const home = sides.find((side) => side.kind === 'household')
  const ventures = sides.filter((side) => side.kind === 'venture')
  const sold = soldIn(inventory, form)
  const pay = home ? centsToDollars(sumOfPurposes(home, ['pay'], 'income')) : 0
  const interest = home ? inDollars(home.accounts.filter(isInterest)) : 0
  const ventureIncome = inDollars(ventures.flatMap(resultsOf).filter(isIncome))
  const gains = cents(Math.round(sold.section1231 * 100))
  const farm = centsToDollars(grossFarmIncome(form, gains))
  return {
    year: form.year,
    farmGross: centsToDollars(form.grossIncomeCents),
    farmExpenses: centsToDollars(form.totalExpensesCents),
    farmProfit: centsToDollars(form.netProfitCents),
    pay,
    ventureProfit: inDollars(ventures.flatMap(resultsOf)),
    interest,
    sold,
    gross: { farm, total: farm + [pay, ventureIncome, interest, sold.ordinary].reduce(addAbove0, 0) },
  }
}

const addAbove0 = (sum: number, amount: number): number => sum + Math.max(0, amount)

/** Credits count up: income is positive, costs are negative. */
const inDollars = (rows: readonly AccountYear[]): number => -centsToDollars(sumCents(rows.map(changeOf)))

const resultsOf = (side: BookYear): AccountYear[] =>
  side.accounts.filter((row) => isResult(row) && row.account.systemRole !== 'goods_value')

const isIncome = ({ account }: AccountYear): boolean => account.kind === 'income'

const isInterest = ({ account }: AccountYear): boolean =>
  account.kind === 'income' && account.purpose === 'interest' && account.taxKind !== 'unrealized'

/** Sales recorded on the inventory; else what the books hold as such sales, taken as held long enough and without basis. */
const soldIn = (inventory: StockInventory, form: ScheduleF): YearIncome['sold'] => {
  const rows = inventory.rows.filter(({ holding }) => holding.disposedDay?.startsWith(String(inventory.year)))
  if (rows.length === 0)
    return { section1231: centsToDollars(form.capitalSalesCents), ordinary: 0, isRecorded: false }
  const parts = rows.map(saleOf)
  return {
    section1231: parts.reduce((sum, part) => sum + part.section1231, 0),
    ordinary: parts.reduce((sum, part) => sum + part.ordinary, 0),
    isRecorded: true,
  }
}

const saleOf = (row: InventoryRow): { section1231: number; ordinary: number } => {
  const { holding } = row
  const deducted = centsToDollars(cents(row.deductedBeforeCents + row.deductedThisYearCents))
  if (holding.kind === 'breeding_stock') {
    return stockSale({
      year: yearIn(holding.disposedDay!),
      species: speciesOf[holding.depreciation?.assetClass ?? ''] ?? 'cattle',
      origin: holding.raised ? 'raised' : 'purchased',
      heldForUse: true,
      monthsHeld: wholeMonths(holding.acquiredDay, holding.disposedDay!),
      netPrice: centsToDollars(holding.disposedForCents ?? zeroCents),
      cost: centsToDollars(holding.costCents),
      depreciationAllowed: deducted,
    })
  }
  const gain = centsToDollars(gainOnSale(row) ?? zeroCents)
  const takenBack = Math.max(0, Math.min(gain, deducted))
  return { section1231: gain - takenBack, ordinary: takenBack }
}

/** Species by class of property; without a class the longest holding period counts. */
const speciesOf: Record<string, StockSpecies> = {
  cattle: 'cattle',
  hogs: 'hogs',
  'sheep-or-goats': 'sheep',
  'horses-to-12-years': 'horses',
  'horses-over-12-years': 'horses',
}

const wholeMonths = (from: string, to: string): number => {
  const count = (text: string) => yearIn(text) * 12 + Number(text.slice(5, 7))
  return count(to) - count(from) - (to.slice(8) < from.slice(8) ? 1 : 0)
}
