// The Schedule F summary: the farm's income and cost accounts by line, cash method, with what stands beside the form.
import { type Cents, cents, sumCents, zeroCents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import type { Account } from '../account.ts'
import { besideScheduleF, scheduleFExpenses, scheduleFIncome, taxedLineOf } from '../schedule-f-lines.ts'
import { lineFault, sellsAssets } from '../schedule-lines.ts'
import { homeDeduction, homeNote, homeUnused, milesDeduction } from '../tax/deducted-by-rate.ts'
import {
  weatherPutOffOf,
  withConservationLimit,
  withPrepaidBefore,
  withPrepaidLimit,
} from '../tax/farm-limits.ts'
import {
  type FarmCarried,
  type FarmSaid,
  noFarmCarried,
  nothingOfFarm,
  type PartlyUntaxed,
} from '../tax/form-said.ts'
import { fuelCredit } from '../tax/fuel-credit.ts'
import {
  type BeforeBeginning,
  farmStartUp,
  nothingBefore,
  type StartUp,
  startUpApart,
  startUpRow,
} from '../tax/start-up.ts'
import { businessPartOf, carPart } from '../tax/vehicle-share.ts'
import { type AccountYear, type BookYear, filled, type ReportLine, takenIn } from './book-year.ts'
import { bridged, type ChangedLine, changedLines, type FormBridge, formBridge } from './form-bridge.ts'
import {
  asPaid,
  besideLine,
  changedBy,
  countedOf,
  type FormLine,
  fallsBackWhy,
  filledLines,
  inPlaceOf,
  linesOf,
  rowsByLine,
  vehicleBeside,
} from './form-lines.ts'
import type { StockInventory } from './stock-inventory.ts'

export type ScheduleFLine = FormLine

export interface ScheduleF {
  year: number
  income: readonly ScheduleFLine[]
  /** Line 9. */
  grossIncomeCents: Cents
  expenses: readonly ScheduleFLine[]
  /** Line 33. */
  totalExpensesCents: Cents
  /** Line 34: goes to Schedule 1 line 6 and Schedule SE line 1a. */
  netProfitCents: Cents
  /** In the books, but not on this form: sales of breeding stock and equipment (Form 4797), goods used at home, unsorted money. */
  beside: readonly ReportLine[]
  /** Why an area of the home that was said is not deducted; empty where it is, or none was said. */
  homeUnused: string
  /** Of what stands beside, the sales of breeding stock and equipment. */
  capitalSalesCents: Cents
  depreciation: { bookedCents: Cents; scheduleCents: Cents | null }
  /** Accounts with a line that no account of their kind can have, as older books may hold them. */
  strayAccounts: readonly Account[]
  /** What lies between income in the books and on the form: not taxed, put off, or from the year before. */
  between: readonly ChangedLine[]
  bridge: FormBridge
  /** Null where no day is said on which the farm began. */
  startUp: StartUp | null
  /** What this year leaves to the next. */
  carried: FarmCarried
}

/** What the form takes beside the books. */
export interface FarmChoices {
  said: FarmSaid
  /** Left by the year before. */
  before: FarmCarried
  /** Gains on breeding stock, which count as gross income from farming for the limit of line 12. */
  stockGainsCents: Cents
  /** Deducted before on things whose business use fell to half or less: income again (26 USC 280F(b)(2)). */
  fallsBackCents: Cents
  /** Business shares of cars and trucks on the inventory, each once. */
  vehicleShares: readonly number[]
  beforeBeginning: BeforeBeginning
}

export const noFarmChoices: FarmChoices = {
  said: nothingOfFarm,
  before: noFarmCarried,
  stockGainsCents: zeroCents,
  fallsBackCents: zeroCents,
  vehicleShares: [],
  beforeBeginning: nothingBefore,
}

/**
 * `resale` is the cost of bought stock on hand. Line 14 is the depreciation schedule's total when there is one (`scheduleCents`), else
 * what the books hold. Lines 3a, 4a, 5b and 6a are taxed in full but for what was said not to be.
 */
export const scheduleF = (
  farm: BookYear,
  scheduleCents: Cents | null = null,
  resale: StockInventory['resale'] = { beginCents: zeroCents, endCents: zeroCents },
  choices: FarmChoices = noFarmChoices,
): ScheduleF => {
  const rows = farm.accounts.filter(({ account }) => account.kind === 'income' || account.kind === 'expense')
  const byLine = rowsByLine(rows, countedOn)
  const booked = linesOf(scheduleFIncome, byLine, ({ isCost }) => (isCost ? 1 : -1), isListed)
  const income = booked.map((line) => incomeLine(line, farm.year, resale, choices))
  const gross = cents(income.reduce((sum, line) => sum + signOf(line.line) * countedOf(line), 0))
  const spent = linesOf(scheduleFExpenses, byLine, () => 1, isListed)
  const costs = spent.map((line) => asPaid(line, byLine.get(line.line)))
  const onForm = rows.filter((row) => row.account.kind === 'income' && !isBeside(row))
  const { expenses, carried, startUp } = expensesOf(costs, onForm, farm.year, gross, scheduleCents, choices)
  const totalExpensesCents = sumCents(expenses.map((line) => line.amountCents))
  const netProfitCents = cents(gross - totalExpensesCents)
  const taken = bridged(income, booked, signOf)
  return {
    year: farm.year,
    income: filledLines(income),
    grossIncomeCents: gross,
    expenses: filledLines(expenses),
    totalExpensesCents,
    netProfitCents,
    beside: [...filled(rows.filter(isBeside).map(besideLine)), ...vehicleBeside('10', costs, expenses)],
    homeUnused: homeUnused(choices.said, farm.year, homeOf(expenses)),
    capitalSalesCents: sumCents(rows.filter(({ account }) => sellsAssets(account)).map(takenIn)),
    depreciation: {
      bookedCents: costs.find(({ line }) => line === '14')!.amountCents,
      scheduleCents,
    },
    strayAccounts: rows.map(({ account }) => account).filter(isStray),
    between: changedLines(taken.filter(({ sign }) => sign === 1)),
    bridge: formBridge(
      farm,
      rows.filter(isBeside),
      [...taken, ...bridged(expenses, spent, () => -1)],
      netProfitCents,
    ),
    startUp,
    carried,
  }
}

/** Stands among the other costs, without an account. */
export const homeLine = '32'

const isListed = (line: string): boolean => line.startsWith('32')

const signOf = (line: string): 1 | -1 => (line === '1b' ? -1 : 1)

/** An account with a line it cannot have, and income without one, count among the form's other lines until they are put right. */
const countedOn = ({ account }: AccountYear): string | null => {
  const isIncome = account.kind === 'income'
  if (isIncome && account.systemRole !== null) return null
  if (isStray(account)) return isIncome ? '8' : '32f'
  return isIncome ? (account.scheduleLine ?? '8') : account.scheduleLine
}

const isBeside = (row: AccountYear): boolean => {
  const line = countedOn(row)
  return line === null || besideScheduleF.some((one) => one.line === line)
}

const isStray = (account: Account): boolean => lineFault('farm', account) !== null

const incomeLine = (
  line: FormLine,
  year: number,
  resale: StockInventory['resale'],
  { said, before, fallsBackCents }: FarmChoices,
): FormLine => {
  const next = year + 1
  const weather = (origin: 'raised' | 'bought') => {
    const off = weatherPutOffOf(said, origin)
    const later = changedBy(
      line,
      -off,
      `${formatCents(off)} of weather sales put off to ${next} (26 USC 451(g))`,
    )
    const from = before.weatherSalesCents[origin]
    return changedBy(later, from, `with ${formatCents(from)} of weather sales put off in ${year - 1}`)
  }
  if (line.line === '1a') return weather('bought')
  if (line.line === '2') return weather('raised')
  if (line.line === '1b') return withStockOnHand(line, resale)
  if (line.line === '8') {
    const credit = before.fuelCreditCents
    const why = `with ${formatCents(credit)} of credit for tax on fuel, claimed for ${year - 1}`
    return changedBy(changedBy(line, fallsBackCents, fallsBackWhy(fallsBackCents)), credit, why)
  }
  if (line.line === '5a' && said.loansAsIncome === 'yes')
    return changedBy(
      line,
      said.loansReceivedCents,
      `with ${formatCents(said.loansReceivedCents)} of loans received`,
    )
  if (line.line === '6d')
    return changedBy(
      line,
      before.cropInsuranceCents,
      `with ${formatCents(before.cropInsuranceCents)} put off in ${year - 1}`,
    )
  return withTaxedPart(line, said)
}

const withTaxedPart = (line: FormLine, said: FarmSaid): FormLine => {
  const taxedLine = taxedLineOf[line.line]
  if (taxedLine === undefined) return line
  const off = line.line === '6a' ? said.cropPutOffCents : 0
  const untaxed = said.untaxed[line.line as PartlyUntaxed]
  return { ...line, taxed: { line: taxedLine, amountCents: cents(line.amountCents - untaxed - off) } }
}

const expensesOf = (
  booked: readonly FormLine[],
  income: readonly AccountYear[],
  year: number,
  gross: Cents,
  scheduleCents: Cents | null,
  { said, before, stockGainsCents, vehicleShares, beforeBeginning }: FarmChoices,
): { expenses: FormLine[]; carried: FarmCarried; startUp: StartUp | null } => {
  const miles = milesDeduction(said.vehicle, year)
  const waiting = cents(before.conservationCents + said.conservationBeforeCents)
  let conservationCents = zeroCents
  const businessPart = carPart('10', said.vehicle, year, vehicleShares)
  const own = { lines: booked, businessPart }
  const { lines: begun, startUp } = startUpApart(farmStartUp, own, year, said, beforeBeginning, income)
  const lines = begun.map((line): FormLine => {
    if (line.line === '14' && scheduleCents !== null)
      return inPlaceOf(line, scheduleCents, 'From the depreciation schedule')
    if (line.line === '10' && miles !== null)
      return inPlaceOf(line, miles, `${said.vehicle.businessMiles} miles at the year’s rate`)
    if (line.line === '10') return businessPartOf(line, said.vehicle, vehicleShares)
    if (line.line !== '12') return withPrepaidBefore(line, before)
    const limited = withConservationLimit(line, year, cents(gross + Math.max(0, stockGainsCents)), waiting)
    conservationCents = limited.leftCents
    return limited.line
  })
  const limited = withPrepaidLimit(lines, year, said)
  const counted = [...limited.lines, ...startUpRow(farmStartUp, startUp)]
  const home = homeDeduction(said, year, cents(gross - sumCents(counted.map(countedOf))))
  const ofHome: FormLine = {
    line: homeLine,
    label: 'Business use of the home',
    amountCents: home,
    accounts: [],
    note: homeNote(said, year),
  }
  return {
    expenses: home === 0 ? counted : [...counted, ofHome],
    startUp,
    carried: {
      cropInsuranceCents: said.cropPutOffCents,
      weatherSalesCents: { raised: weatherPutOffOf(said, 'raised'), bought: weatherPutOffOf(said, 'bought') },
      conservationCents,
      fuelCreditCents: fuelCredit(said.fuel, year),
      prepaid: limited.left,
    },
  }
}

const homeOf = (expenses: readonly FormLine[]): Cents =>
  expenses.find(({ line }) => line === homeLine)?.amountCents ?? zeroCents

/** What was on hand when the year began is deducted as it is sold, what is on hand at its end is not yet. */
const withStockOnHand = (line: FormLine, { beginCents, endCents }: StockInventory['resale']): FormLine =>
  beginCents === 0 && endCents === 0
    ? line
    : {
        ...line,
        amountCents: cents(line.amountCents + beginCents - endCents),
        note: `Booked ${formatCents(line.amountCents)}, with ${formatCents(beginCents)} on hand at the beginning and without ${formatCents(endCents)} on hand at the end`,
      }

/** Gross income from farming for the two-thirds test: line 9 with gains on breeding stock (IRS Pub. 225), never below zero. */
export const grossFarmIncome = (form: ScheduleF, breedingStockGain: Cents = zeroCents): Cents =>
  cents(Math.max(0, form.grossIncomeCents) + Math.max(0, breedingStockGain))
