// A calendar year of the books as the tax law asks for it: the sides, the farm's inventory and Schedule F, and the income of all.
import { lastDayOfYear } from '#calendar/day.ts'
import { month, parseMonth, yearOf } from '#calendar/month.ts'
import { spanOfBooks } from '#db/ledger/balances.ts'
import { bookYears } from '#db/ledger/report-store.ts'
import type { Books } from '#db/open.ts'
import { type BookYear, isResult } from '#ledger/reports/book-year.ts'
import {
  type DepreciationForm,
  depreciationForm,
  electedOf,
  section179Left,
} from '#ledger/reports/depreciation-form.ts'
import {
  type EarlierIncome,
  incomeOfYear,
  withEarlier,
  type YearIncome,
} from '#ledger/reports/income-of-year.ts'
import { type ScheduleC, scheduleC, type VentureChoices } from '#ledger/reports/schedule-c.ts'
import { type FarmChoices, type ScheduleF, scheduleF } from '#ledger/reports/schedule-f.ts'
import { type StockInventory, stockInventory } from '#ledger/reports/stock-inventory.ts'
import { paysForWork } from '#ledger/schedule-lines.ts'
import { coverByMonth } from '#ledger/tax/cover-papers.ts'
import { areaTogether, type HomeArea, homeArea, noHomeArea } from '#ledger/tax/deducted-by-rate.ts'
import { type FarmCarried, type FarmSaid, noFarmCarried, type VentureSaid } from '#ledger/tax/form-said.ts'
import { fuelCredit } from '#ledger/tax/fuel-credit.ts'
import { paidFor } from '#ledger/tax/payee-totals.ts'
import { type PropertySales, propertySales, salesTogether } from '#ledger/tax/property-sales.ts'
import { startUpDeducted } from '#ledger/tax/start-up.ts'
import { listedShares } from '#ledger/tax/vehicle-share.ts'
import { type Cents, cents, centsToDollars, dollarsToCents, sumCents, zeroCents } from '#money/cents.ts'
import type { Plan } from '#plan/plan.ts'
import { estimatedTaxShares, isFarmersIncome } from '#rules/estimated-tax.ts'
import { isLocalWithState } from '#rules/states/state-law.ts'
import { keptThrough } from '#today/kept.ts'
import { beforeBeginning } from './before-beginning.ts'
import { coverPapers } from './cover-papers.ts'
import { grossSaidOfLastYear } from './paid-ahead.ts'
import { farmSaid, isSaidBefore, ventureSaid } from './said-of-year.ts'
import { yearHoldings } from './year-holdings.ts'

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
    said: FarmSaid
    choices: FarmChoices
  } | null
  ventures: readonly VentureYear[]
}

export interface VentureYear {
  books: BookYear
  inventory: StockInventory
  depreciation: DepreciationForm
  form: ScheduleC
  /** Its lines of Form 4797. */
  sales: PropertySales
  said: VentureSaid
  choices: VentureChoices
}

export const booksYear = (books: Books, year: number): BooksYear =>
  keptThrough(books, lastDayOfYear(year), 'year', () => readYear(books, year))

const readYear = (books: Books, year: number): BooksYear => {
  const sides = bookYears(books, year)
  const farm = sides.find((side) => side.kind === 'farm')
  if (!farm) return { sides, farm: null, ventures: [] }
  const inventory = stockInventory(yearHoldings(books, farm.sideId, lastDayOfYear(year)), year)
  const { said } = farmSaid(books, year)
  const ground: Ground = {
    sides,
    farm,
    inventory,
    choices: {
      said,
      before: carriedInto(books, farm, year),
      stockGainsCents: stockGains(inventory),
      fallsBackCents: inventory.fallsBackCents,
      vehicleShares: listedShares(inventory),
      beforeBeginning: beforeBeginning(
        books,
        farm.sideId,
        year,
        said.beganOn,
        () => yearBefore(books, year)?.farm?.form.startUp,
      ),
    },
    ventures: sides.filter((side) => side.kind === 'venture').map((side) => ventureGround(books, side, year)),
  }
  const inventories = [inventory, ...ground.ventures.map((one) => one.inventory)]
  const limit = businessIncome(formsWith(ground, withoutElected(inventories)))
  const left = section179Left(inventories, limit)
  const forms = inventories.map((one, i) => depreciationForm(one, limit, left[i]!))
  const totals = forms.map(({ totalCents }) => totalCents)
  const worked = formsWith(ground, totals)
  return {
    sides,
    farm: {
      books: farm,
      inventory,
      depreciation: { ...forms[0]!, startUp: startUpDeducted(worked.form.startUp) },
      form: worked.form,
      sales: worked.sales,
      income: {
        ...worked.income,
        owners: said,
        fuelTaxCredit: centsToDollars(fuelCredit(said.fuel, year)),
        coverMonths: coverByMonth(coverPapers(books, year).papers),
        section179Left: centsToDollars(sumCents(left)),
      },
      said,
      choices: ground.choices,
    },
    ventures: ventureYears(ground, worked, forms),
  }
}

const ventureYears = (
  { ventures }: Ground,
  worked: ReturnType<typeof formsWith>,
  forms: readonly DepreciationForm[],
): VentureYear[] =>
  ventures.map(({ books, inventory }, i) => {
    const { form, sales, choices } = worked.ventures[i]!
    const depreciation = { ...forms[i + 1]!, startUp: startUpDeducted(form.startUp) }
    return { books, inventory, said: choices.said, choices, depreciation, form, sales }
  })

const withoutElected = (inventories: readonly StockInventory[]): Cents[] =>
  inventories.map((one) => cents(one.depreciationCents - electedOf(one)))

interface Ground {
  sides: readonly BookYear[]
  farm: BookYear
  inventory: StockInventory
  choices: FarmChoices
  ventures: readonly VentureGround[]
}

interface VentureGround {
  books: BookYear
  inventory: StockInventory
  choices: VentureChoices
}

const ventureGround = (books: Books, side: BookYear, year: number): VentureGround => {
  const { sideId } = side
  const inventory = stockInventory(yearHoldings(books, sideId, lastDayOfYear(year)), year)
  const { said } = ventureSaid(books, sideId, year)
  const startUpBefore = () =>
    yearBefore(books, year)?.ventures.find((one) => one.books.sideId === sideId)?.form.startUp
  return {
    books: side,
    inventory,
    choices: {
      said,
      fallsBackCents: inventory.fallsBackCents,
      vehicleShares: listedShares(inventory),
      beforeBeginning: beforeBeginning(books, sideId, year, said.beganOn, startUpBefore),
    },
  }
}

/** The year's forms with so much depreciation of the farm and of each venture. */
const formsWith = ({ sides, farm, inventory, choices, ventures }: Ground, depreciation: readonly Cents[]) => {
  const scheduled = (of: StockInventory, i: number) =>
    of.rows.some((row) => row.convention !== null) ? depreciation[i]! : null
  const form = scheduleF(farm, scheduled(inventory, 0), inventory.resale, choices)
  const homes = homesTaken(choices.said, ventures, farm.year)
  const runs = ventures.map(({ books, inventory: things, choices: own }, i) => {
    const choices: VentureChoices = { ...own, homeTaken: homes[i] }
    const form = scheduleC(books, scheduled(things, i + 1), things.resale, choices)
    const sales = propertySales(things, form.capitalSalesCents)
    return { form, person: own.said.person, sales, choices }
  })
  const sales = propertySales(inventory, form.capitalSalesCents, choices.said.replaced)
  return { form, sales, ventures: runs, income: incomeOfYear(sides, form, sales, runs) }
}

/** Of the area of a home that counts, what the businesses before each venture have taken, the farm first: all but those said to be another person's. */
const homesTaken = (farm: FarmSaid, ventures: Ground['ventures'], year: number): HomeArea[] => {
  const before: { person: string | null; area: HomeArea }[] = [
    { person: farm.ownership === 'one' ? farm.owner : null, area: homeArea(farm, year) },
  ]
  return ventures.map(({ choices: { said } }) => {
    const { person } = said
    const taken = before
      .filter((one) => person === null || one.person === null || one.person === person)
      .reduce<HomeArea>((sum, { area }) => areaTogether(sum, area), noHomeArea)
    before.push({ person, area: homeArea(said, year, taken) })
    return taken
  })
}

/** What bounds the section 179 deduction: all businesses and pay of the household without it, and gains of business property. */
const businessIncome = ({ income }: ReturnType<typeof formsWith>): Cents =>
  dollarsToCents(
    income.farmProfit +
      income.ventureProfit +
      income.pay +
      Math.max(0, income.sold.section1231) +
      income.sold.ordinary,
  )

/** Form 4797 of all businesses. Null before there are farm books. */
export const salesOfYear = ({ farm, ventures }: BooksYear): ReturnType<typeof salesTogether> | null =>
  farm && salesTogether([farm, ...ventures].map(({ books: { name }, sales }) => ({ name, sales })))

const stockGains = (inventory: StockInventory): Cents => {
  const stock = inventory.rows.filter(({ holding }) => holding.kind === 'breeding_stock')
  const { section1231Cents, ordinaryCents } = propertySales({ ...inventory, rows: stock }, zeroCents)
  return cents(section1231Cents + ordinaryCents)
}

/** The year before is read only where something of it can carry over: what was said of it, or conservation work. */
const carriedInto = (books: Books, farm: BookYear, year: number): FarmCarried => {
  const conserved = farm.accounts.some(
    ({ account, openingCents }) => account.scheduleLine === '12' && openingCents !== 0,
  )
  const before = conserved || isSaidBefore(books, farm.sideId, year) ? yearBefore(books, year) : null
  return before?.farm?.form.carried ?? noFarmCarried
}

const yearBefore = (books: Books, year: number): BooksYear | null => {
  const span = spanOfBooks(books)
  return span !== null && span.first <= month(year - 1, 12) ? booksYear(books, year - 1) : null
}

/** Whether any side earned or spent in the year. */
export const hasResults = ({ sides }: BooksYear): boolean =>
  sides.some((side) => side.accounts.some((row) => isResult(row) && row.monthsCents.some((sum) => sum !== 0)))

/** Whether farm or ventures paid for work: hired labor and custom hire, wages and contract labor. */
export const paidForWork = (books: Books, year: number): boolean =>
  booksYear(books, year).sides.some((side) =>
    side.accounts.some((row) => paysForWork(row.account) && row.monthsCents.some((sum) => sum !== 0)),
  )

/** Whether farm or ventures paid rent under a line for it. */
export const paidRent = (books: Books, year: number): boolean =>
  booksYear(books, year).sides.some((side) =>
    side.accounts.some((row) => paidFor(row.account) === 'rent' && row.monthsCents.some((sum) => sum !== 0)),
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
  return saved && begins && span.first >= start ? withEarlier(income, earlierOf(saved)) : income
}

/** Where local tax goes with the state’s return, all that was paid is the state’s. */
const earlierOf = ({ household, tax: { soFar } }: Plan): EarlierIncome => ({
  ...soFar,
  localPaid: isLocalWithState(household.place.state ?? null) ? 0 : Math.min(soFar.localPaid, soFar.statePaid),
})

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
