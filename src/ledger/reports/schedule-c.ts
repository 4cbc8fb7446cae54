// The Schedule C summary of a side venture: its income and cost accounts by line, with goods sold, miles and the part of the home.
import { type Cents, cents, sumCents, zeroCents } from '#money/cents.ts'
import type { Account } from '../account.ts'
import { besideScheduleC, goodsSoldLines, scheduleCExpenses, scheduleCIncome } from '../schedule-c-lines.ts'
import { lineFault, sellsAssets } from '../schedule-lines.ts'
import {
  type HomeArea,
  homeDeduction,
  homeNote,
  homeUnused,
  milesDeduction,
} from '../tax/deducted-by-rate.ts'
import { nothingOfVenture, type VentureSaid } from '../tax/form-said.ts'
import {
  type BeforeBeginning,
  nothingBefore,
  type StartUp,
  startUpApart,
  startUpRow,
  ventureStartUp,
} from '../tax/start-up.ts'
import { businessPartOf, carPart } from '../tax/vehicle-share.ts'
import {
  type AccountYear,
  type BookYear,
  changeOf,
  filled,
  isResult,
  type ReportLine,
  takenIn,
} from './book-year.ts'
import { type BridgedLine, bridged, type FormBridge, formBridge } from './form-bridge.ts'
import {
  asPaid,
  besideLine,
  changedBy,
  type FormLine,
  fallsBackWhy,
  filledLines,
  inPlaceOf,
  linesOf,
  rowsByLine,
  vehicleBeside,
} from './form-lines.ts'
import type { StockInventory } from './stock-inventory.ts'

export interface ScheduleC {
  year: number
  sideId: string
  name: string
  /** Lines 1, 2 and 6. */
  income: readonly FormLine[]
  /** Part III, lines 35 to 41, and line 42 as their sum, which is line 4. */
  goodsSold: readonly FormLine[]
  goodsSoldCents: Cents
  /** Line 7. */
  grossIncomeCents: Cents
  /** Lines 8 to 26, and each other cost of Part V. */
  expenses: readonly FormLine[]
  /** Line 28. */
  totalExpensesCents: Cents
  /** Line 30. */
  homeCents: Cents
  homeNote: string
  /** Line 31: goes to Schedule 1 line 3 and Schedule SE line 2. */
  netProfitCents: Cents
  beside: readonly ReportLine[]
  /** Why an area of the home that was said is not deducted; empty where it is, or none was said. */
  homeUnused: string
  /** Of what stands beside, the sales of equipment, buildings and land (Form 4797). */
  capitalSalesCents: Cents
  depreciation: { bookedCents: Cents; scheduleCents: Cents | null }
  bridge: FormBridge
  /** Null where no day is said on which it began. */
  startUp: StartUp | null
  /** Accounts without a line, or with one they cannot have: they count with other income and other costs. */
  withoutLine: readonly Account[]
}

/** What the form takes beside the books. */
export interface VentureChoices {
  said: VentureSaid
  /** Income again on line 6 (26 USC 280F(b)(2)). */
  fallsBackCents: Cents
  /** Business shares of cars and trucks on the inventory, each once. */
  vehicleShares: readonly number[]
  beforeBeginning: BeforeBeginning
  /** Of the home, what other businesses have taken. */
  homeTaken?: HomeArea | undefined
}

export const noVentureChoices: VentureChoices = {
  said: nothingOfVenture,
  fallsBackCents: zeroCents,
  vehicleShares: [],
  beforeBeginning: nothingBefore,
}

/** Line 13 is the depreciation schedule's total where there is one, else what the books hold. `resale` is the stock of lines 35 and 41. */
export const scheduleC = (
  venture: BookYear,
  scheduleCents: Cents | null = null,
  resale: StockInventory['resale'] = { beginCents: zeroCents, endCents: zeroCents },
  choices: VentureChoices = noVentureChoices,
): ScheduleC => {
  const { said, fallsBackCents, homeTaken } = choices
  const { year, sideId, name } = venture
  const rows = venture.accounts.filter((row) => isResult(row) && row.account.systemRole !== 'goods_value')
  const byLine = rowsByLine(rows, countedOn)
  const earned = linesOf(scheduleCIncome, byLine, ({ isCost }) => (isCost ? 1 : -1), never)
  const income = earned.map((line) =>
    line.line === '6' ? changedBy(line, fallsBackCents, fallsBackWhy(fallsBackCents)) : line,
  )
  const spent = linesOf(
    scheduleCExpenses,
    byLine,
    () => 1,
    (line) => line === otherCosts,
  )
  const booked = spent.map((line) => asPaid(line, byLine.get(line.line)))
  const goods = goodsSold(booked, resale)
  const goodsSoldCents = sumCents(
    goods.map(({ line, amountCents }) => cents(line === '41' ? -amountCents : amountCents)),
  )
  const { expenses, startUp } = expensesOf(booked, rows, venture, scheduleCents, choices)
  const grossIncomeCents = cents(takenOf(income) - goodsSoldCents)
  const totalExpensesCents = sumCents(expenses.map((line) => line.amountCents))
  const homeCents = homeDeduction(said, year, cents(grossIncomeCents - totalExpensesCents), homeTaken)
  const netProfitCents = cents(grossIncomeCents - totalExpensesCents - homeCents)
  return {
    year,
    sideId,
    name,
    income: filledLines(income),
    goodsSold: filledLines(goods),
    goodsSoldCents,
    grossIncomeCents,
    expenses: filledLines(expenses),
    totalExpensesCents,
    homeCents,
    homeNote: homeNote(said, year, homeTaken),
    netProfitCents,
    beside: [...filled(rows.filter(isBeside).map(besideLine)), ...vehicleBeside('9', booked, expenses)],
    homeUnused: homeUnused(said, year, homeCents, homeTaken),
    capitalSalesCents: sumCents(rows.filter(({ account }) => sellsAssets(account)).map(takenIn)),
    depreciation: { bookedCents: booked.find(({ line }) => line === '13')!.amountCents, scheduleCents },
    bridge: formBridge(
      venture,
      venture.accounts.filter((row) => isResult(row) && (!rows.includes(row) || isBeside(row))),
      bridgedLines({ earned, spent }, { income, goods, expenses, homeCents }),
      netProfitCents,
    ),
    startUp,
    withoutLine: rows.filter((row) => isUnclear(row) && changeOf(row) !== 0).map(({ account }) => account),
  }
}

const expensesOf = (
  booked: readonly FormLine[],
  rows: readonly AccountYear[],
  { year, name }: BookYear,
  scheduleCents: Cents | null,
  { said, vehicleShares, beforeBeginning }: VentureChoices,
): { expenses: FormLine[]; startUp: StartUp | null } => {
  const begins = ventureStartUp(name)
  const { lines, startUp } = startUpApart(
    begins,
    { lines: booked, businessPart: carPart('9', said.vehicle, year, vehicleShares) },
    year,
    said,
    beforeBeginning,
    rows.filter((row) => row.account.kind === 'income' && !isBeside(row)),
  )
  const counted = lines
    .filter(({ line }) => !goodsSoldLines.includes(line))
    .map((line) => expenseLine(line, year, scheduleCents, said, vehicleShares))
  return { expenses: [...counted, ...startUpRow(begins, startUp)], startUp }
}

/** What was sold, less what was given back (line 2). */
const takenOf = (income: readonly FormLine[]): Cents =>
  sumCents(income.map(({ line, amountCents }) => cents(line === '2' ? -amountCents : amountCents)))

const bridgedLines = (
  booked: { earned: readonly FormLine[]; spent: readonly FormLine[] },
  counted: {
    income: readonly FormLine[]
    goods: readonly FormLine[]
    expenses: readonly FormLine[]
    homeCents: Cents
  },
): BridgedLine[] => {
  const { income, goods, expenses, homeCents } = counted
  const home = { line: '30', label: 'Business use of the home', amountCents: homeCents, accounts: [] }
  return [
    ...bridged(income, booked.earned, (line) => (line === '2' ? -1 : 1)),
    ...bridged(goods, booked.spent, (line) => (line === '41' ? 1 : -1)),
    ...bridged([...expenses, home], booked.spent, () => -1),
  ]
}

const never = (): boolean => false

const otherCosts = '48'

/** Money in that waits to be sorted counts: rather too much is set aside than too little. Money out that waits does not. */
const countedOn = (row: AccountYear): string | null => {
  const { kind, scheduleLine, systemRole } = row.account
  if (systemRole === 'unsorted_out') return null
  if (systemRole === 'unsorted_in') return '6'
  if (isUnclear(row)) return kind === 'income' ? '6' : otherCosts
  return scheduleLine
}

const isBeside = (row: AccountYear): boolean => {
  const line = countedOn(row)
  return line === null || besideScheduleC.some((one) => one.line === line)
}

const isUnclear = ({ account }: AccountYear): boolean =>
  account.systemRole !== 'unsorted_out' &&
  (account.scheduleLine === null || lineFault('venture', account) !== null)

const goodsSold = (
  booked: readonly FormLine[],
  { beginCents, endCents }: StockInventory['resale'],
): FormLine[] => [
  { line: '35', label: 'Stock to sell on hand at the beginning', amountCents: beginCents, accounts: [] },
  ...booked.filter(({ line }) => goodsSoldLines.includes(line)),
  { line: '41', label: 'Stock to sell on hand at the end', amountCents: endCents, accounts: [] },
]

const expenseLine = (
  line: FormLine,
  year: number,
  scheduleCents: Cents | null,
  said: VentureSaid,
  vehicleShares: readonly number[],
): FormLine => {
  const miles = milesDeduction(said.vehicle, year)
  if (line.line === '13' && scheduleCents !== null)
    return inPlaceOf(line, scheduleCents, 'From the depreciation schedule')
  if (line.line === '9' && miles !== null)
    return inPlaceOf(line, miles, `${said.vehicle.businessMiles} miles at the year’s rate`)
  if (line.line === '9') return businessPartOf(line, said.vehicle, vehicleShares)
  return line
}
