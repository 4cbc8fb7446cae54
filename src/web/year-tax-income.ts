// The year's income as the return takes it, read from the books: farm, pay, ventures, interest, and sales of breeding stock and equipment.
import { type AccountYear, type BookYear, changeOf } from '#ledger/reports/book-year.ts'
import { sumOfPurposes } from '#ledger/reports/income-statement.ts'
import type { ScheduleF } from '#ledger/reports/schedule-f.ts'
import { gainOnSale, type InventoryRow, type StockInventory } from '#ledger/reports/stock-inventory.ts'
import { type Cents, cents, centsToDollars, sumCents, zeroCents } from '#money/cents.ts'
import type { Plan } from '#plan/plan.ts'
import { type StockSpecies, stockSale } from '#rules/breeding-stock.ts'
import type { HouseholdYear } from '#rules/fast/household-year.ts'
import { farmShareOfFirst } from '#runway/cover-household.ts'

export interface TaxInput {
  label: string
  dollars: number
  /** Where it comes from. */
  says: string
}

/** Writes the year's income into `household`, adds what was assumed, and returns what went in. */
export const incomeFromBooks = (
  household: HouseholdYear,
  sides: readonly BookYear[],
  form: ScheduleF,
  inventory: StockInventory,
  plan: Plan,
  assumed: string[],
): TaxInput[] => {
  const home = sides.find((side) => side.kind === 'household')
  const farmProfit = centsToDollars(form.netProfitCents)
  const first = household.people === 2 ? farmShareOfFirst(plan) : 1
  const shares = [first, 1 - first]
  household.farmProfit = shares.map((share) => farmProfit * share)
  household.farmGross = shares.map((share) => centsToDollars(form.grossIncomeCents) * share)
  if (plan.tax.optionalSelfEmployment) household.farmOptional = shares.map((share) => (share > 0 ? 1 : 0))
  const wages = home ? centsToDollars(sumOfPurposes(home, ['pay'], 'income')) : 0
  household.wages = split(wages, placeOf(plan, plan.household.pay[0]?.person))
  if (wages > 0)
    assumed.push(
      'Pay is taken as booked. Book gross pay, with the tax withheld as a cost, to make this exact.',
    )
  const ventureProfit = venturesOf(sides)
  household.otherSelfEmployment = split(ventureProfit, placeOf(plan, plan.household.sideVentures[0]?.person))
  household.interest = home ? centsToDollars(interestOf(home)) : 0
  if (household.interest > 0)
    assumed.push('Dividends are taken as interest: the books do not tell them apart.')
  const sales = salesOf(inventory, form, assumed)
  household.longTermGains = sales.section1231
  household.otherIncome = sales.ordinary
  assumed.push(
    'Retirement distributions, Social Security, contributions to accounts and gains outside the farm are not read from the books.',
  )
  return [
    {
      label: 'Farm profit, Schedule F line 34',
      dollars: farmProfit,
      says: household.people > 1 ? 'split between you as the plan says' : 'from the farm’s books',
    },
    { label: 'Pay', dollars: wages, says: 'from the household’s books' },
    { label: 'Side ventures', dollars: ventureProfit, says: 'income less costs of their books' },
    {
      label: 'Interest and dividends',
      dollars: household.interest,
      says: 'from the household’s books, changes in value left out',
    },
    {
      label: 'Breeding stock and equipment sold, section 1231 gain',
      dollars: sales.section1231,
      says: 'held long enough; no self-employment tax',
    },
    {
      label: 'Breeding stock and equipment sold, ordinary part',
      dollars: sales.ordinary,
      says: 'depreciation taken back, or held too short',
    },
  ]
}

const placeOf = (plan: Plan, person: string | undefined): number =>
  Math.max(
    0,
    plan.household.people.findIndex((one) => one.id === person),
  )

const split = (amount: number, place: number): number[] => (place === 1 ? [0, amount] : [amount, 0])

const venturesOf = (sides: readonly BookYear[]): number =>
  centsToDollars(
    sumCents(
      sides
        .filter((side) => side.kind === 'venture')
        .flatMap((side) => side.accounts)
        .filter(isVentureResult)
        .map((row) => cents(-changeOf(row))),
    ),
  )

const isVentureResult = ({ account }: AccountYear): boolean =>
  (account.kind === 'income' || account.kind === 'expense') && account.systemRole !== 'goods_value'

/** A change in the value of investments is no income until it is sold; the start accounts keep it under this number. */
const valueChangeNumber = 4110

const interestOf = (home: BookYear): Cents =>
  sumCents(
    home.accounts
      .filter(
        ({ account }) =>
          account.kind === 'income' && account.purpose === 'interest' && account.number !== valueChangeNumber,
      )
      .map((row) => cents(-changeOf(row))),
  )

/** Farm income off Schedule F that the code itself does not fill: the sales of Form 4797. */
const bookedSales = (form: ScheduleF): number => centsToDollars(form.capitalSalesCents)

/** Sales recorded on the inventory; else what the books hold as such sales, taken as held long enough. */
const salesOf = (inventory: StockInventory, form: ScheduleF, assumed: string[]) => {
  const sold = inventory.rows.filter(({ holding }) => holding.disposedDay?.startsWith(String(inventory.year)))
  if (sold.length === 0) {
    const booked = bookedSales(form)
    if (booked !== 0)
      assumed.push(
        'Breeding stock and equipment sold are taken as held long enough and without basis. Record the sales on the inventory to tell them apart.',
      )
    return { section1231: booked, ordinary: 0 }
  }
  const parts = sold.map(saleOf)
  return {
    section1231: parts.reduce((sum, part) => sum + part.section1231, 0),
    ordinary: parts.reduce((sum, part) => sum + part.ordinary, 0),
  }
}

const saleOf = (row: InventoryRow): { section1231: number; ordinary: number } => {
  const { holding } = row
  const deducted = centsToDollars(cents(row.deductedBeforeCents + row.deductedThisYearCents))
  if (holding.kind === 'breeding_stock') {
    return stockSale({
      year: Number(holding.disposedDay!.slice(0, 4)),
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
  const count = (text: string) => Number(text.slice(0, 4)) * 12 + Number(text.slice(5, 7))
  return count(to) - count(from) - (to.slice(8) < from.slice(8) ? 1 : 0)
}
