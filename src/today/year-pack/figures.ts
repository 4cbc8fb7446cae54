// What the Year pack is given: the statements of each side, the farm's form and measures, crossings, inventory and tax worksheet.
import type { Day } from '#calendar/day.ts'
import type { PreparerNotes } from '#farm/notebook/preparer.ts'
import type { BandReading } from '#ledger/measures/bands.ts'
import type { Measure } from '#ledger/measures/finance-measures.ts'
import type { AccrualYear } from '#ledger/reports/accrual.ts'
import type { BalanceSheet } from '#ledger/reports/balance-sheet.ts'
import type { CashFlow } from '#ledger/reports/cash-flow.ts'
import type { CrossingMonths } from '#ledger/reports/crossings-by-month.ts'
import type { DepreciationForm } from '#ledger/reports/depreciation-form.ts'
import type { OwnerForm } from '#ledger/reports/form-lines.ts'
import type { IncomeStatement } from '#ledger/reports/income-statement.ts'
import type { OwnerEquity } from '#ledger/reports/owner-equity.ts'
import type { ScheduleC } from '#ledger/reports/schedule-c.ts'
import type { ScheduleF } from '#ledger/reports/schedule-f.ts'
import type { StockInventory } from '#ledger/reports/stock-inventory.ts'
import type { FarmSaid, VentureSaid } from '#ledger/tax/form-said.ts'
import type { IncomePlace } from '#ledger/tax/income-places.ts'
import type { PropertySale, PropertySales } from '#ledger/tax/property-sales.ts'
import type { Cents } from '#money/cents.ts'
import type { EstimatedTaxPlan } from '#rules/estimated-tax.ts'
import type { HouseholdTax } from '#rules/household-year.ts'
import type { TraceLine } from '#rules/return/trace.ts'
import type { StateEstimatedTax } from '#rules/states/state-dates.ts'
import type { StateReturn } from '#rules/states/state-return.ts'
import type { PaidOnce } from '#today/tax/paid-each.ts'
import type { OtherStatePaid } from '#today/tax/paid-for.ts'
import type { TaxPayments } from '#today/tax/tax-payments.ts'
import type { YearForms } from '#today/tax/year-forms.ts'
import type { PeopleFigures } from './people-figures.ts'

export type PackBasis = 'cash' | 'accrual'

export interface SideStatements {
  id: string
  kind: 'farm' | 'household' | 'venture' | 'together'
  name: string
  income: IncomeStatement
  /** What the cash books do not show at both ends; null on the cash basis. */
  items: AccrualYear | null
  begin: BalanceSheet
  end: BalanceSheet
  equity: OwnerEquity
  cash: CashFlow
  /** Which depreciation the statements take, and which the forms, of each business in these books. */
  depreciation: readonly StatedDepreciation[]
}

export interface StatedDepreciation {
  year: number
  sideId: string
  name: string
  /** Form and line that take the schedule. */
  line: string
  bookedCents: Cents
  /** Null where nothing is written off by a schedule. */
  scheduleCents: Cents | null
  /** Income again on the form, a thing each. */
  takenBack: readonly { name: string; amountCents: Cents }[]
  /** What the books lack: by the schedule, less what is income again. */
  differenceCents: Cents
  /** Years before of which the books lack some, oldest first. */
  earlier: readonly { year: number; differenceCents: Cents }[]
  /** What is gone and stands in the books still: `leftCents` of its cost is not taken off by depreciation either. */
  gone: readonly { name: string; leftCents: Cents }[]
}

export interface MeasureRow extends Measure {
  /** The same measure at market values; null where it does not differ. */
  marketValue: number | null
  bands: readonly BandReading[]
}

export interface TaxWorksheet extends YearForms {
  basis: 'enacted' | 'projected'
  inputs: readonly { label: string; dollars: number; says: string }[]
  figures: HouseholdTax
  state: StateReturn | null
  trace: readonly TraceLine[]
  cautions: readonly string[]
  assumed: readonly string[]
  tooMuchSaved: readonly string[]
  estimated: EstimatedTaxPlan
  stateEstimated: StateEstimatedTax | null
  payments: TaxPayments
  /** Null where no state tax counts. */
  statePayments: TaxPayments | null
  /** To a local office apart from the state's return; null where it asks for none. */
  localPayments: TaxPayments | null
  /** To other states than the household's, each by itself: what their returns ask is not worked out. */
  otherStates: readonly OtherStatePaid[]
  /** Each payment that counts for the year, in the order of days, but what was withheld. */
  paidEach: readonly PaidOnce[]
}

export interface FarmForm {
  said: FarmSaid
  /** Names of those it belongs to, as far as the plan knows them. */
  owners: readonly string[]
  /** The form of each, where two file one. */
  each: readonly [OwnerForm, OwnerForm] | null
}

export interface VentureForm {
  form: ScheduleC
  said: VentureSaid
  depreciation: DepreciationForm
  /** Null where nobody said who runs it. */
  person: string | null
}

export interface OpenPoint {
  says: string
  href: string
  /** What a press there does; without one the point itself leads there. */
  action?: string
}

export interface YearPackFigures {
  year: number
  years: readonly number[]
  basis: PackBasis
  /** Set where the books begin within the year: what is printed holds the days from this one on. */
  from: Day | null
  /** Set while the year still runs: what is printed goes up to this day. */
  through: Day | null
  /** Who was paid, what workers got, papers to come and premiums; null where the year has none of it. */
  payroll: PeopleFigures | null
  /** Whose papers these are, as the plan names them. */
  people: readonly string[]
  sides: readonly SideStatements[]
  together: SideStatements | null
  scheduleF: ScheduleF | null
  /** What Schedule F asks beside its lines; null before there are farm books. */
  farmForm: FarmForm | null
  /** Schedule C of each venture. */
  ventures: readonly VentureForm[]
  /** Every account of income with the line that takes it, or why none does. */
  places: readonly IncomePlace[]
  /** Form 4797 of farm and ventures; null before there are farm books. */
  sales: PropertySales<PropertySale & { business: string }> | null
  /** Form 4562; null before there are farm books. */
  depreciation: DepreciationForm | null
  measures: readonly MeasureRow[]
  inventory: StockInventory | null
  crossings: readonly CrossingMonths[]
  /** What the farm's notebook tells of the year; null where nothing of it was noted. */
  notebook: PreparerNotes | null
  tax: { status: 'worked'; worksheet: TaxWorksheet } | { status: 'cannot'; says: string }
  /** What is missing, with where to enter it. */
  gaps: readonly OpenPoint[]
  /** The newest link of the chain of changes, as `verify --end` takes it; null before anything was done. */
  chainEnd: string | null
}
