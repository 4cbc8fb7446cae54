// The Schedule F summary: the farm's income and cost accounts by line, cash method, with what stands beside the form.
import { type Cents, cents, negateCents, sumCents, zeroCents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import type { Account } from '../account.ts'
import { besideScheduleF, type LineCaption, scheduleFExpenses, scheduleFIncome } from '../schedule-f-lines.ts'
import { lineFault, sellsAssets } from '../schedule-lines.ts'
import {
  type AccountYear,
  accountLine,
  type BookYear,
  changeOf,
  filled,
  type ReportLine,
} from './book-year.ts'
import type { StockInventory } from './stock-inventory.ts'

export interface ScheduleFLine extends ReportLine {
  line: string
}

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
  /** Of what stands beside, the sales of breeding stock and equipment. */
  capitalSalesCents: Cents
  depreciation: { bookedCents: Cents; scheduleCents: Cents | null }
  /** Accounts with a line that no account of their kind can have, as older books may hold them. */
  strayAccounts: readonly Account[]
}

/**
 * `resale` is the cost of bought stock on hand. Line 14 is the depreciation schedule's total when there is one (`scheduleCents`), else what the books hold. Gross
 * amounts of lines 3a, 4a and 6a are taken as taxable in full; a preparer may leave a part out.
 */
export const scheduleF = (
  farm: BookYear,
  scheduleCents: Cents | null = null,
  resale: StockInventory['resale'] = { beginCents: zeroCents, endCents: zeroCents },
): ScheduleF => {
  const rows = farm.accounts.filter(({ account }) => account.kind === 'income' || account.kind === 'expense')
  const byLine = new Map<string, AccountYear[]>()
  for (const row of rows) {
    const line = countedOn(row)
    if (line !== null) byLine.set(line, [...(byLine.get(line) ?? []), row])
  }
  const bookedCents = sumCents((byLine.get('14') ?? []).map(changeOf))
  const income = linesOf(scheduleFIncome, byLine, (line) => (line === '1b' ? 1 : -1)).map((line) =>
    line.line === '1b' ? withStockOnHand(line, resale) : line,
  )
  const expenses = linesOf(scheduleFExpenses, byLine, () => 1).map((line) =>
    line.line === '14' && scheduleCents !== null ? withSchedule(line, scheduleCents) : line,
  )
  const grossIncomeCents = cents(
    income.reduce((sum, line) => sum + (line.line === '1b' ? -line.amountCents : line.amountCents), 0),
  )
  const totalExpensesCents = sumCents(expenses.map((line) => line.amountCents))
  return {
    year: farm.year,
    income: income.filter((line) => line.amountCents !== 0),
    grossIncomeCents,
    expenses: expenses.filter((line) => line.amountCents !== 0),
    totalExpensesCents,
    netProfitCents: cents(grossIncomeCents - totalExpensesCents),
    beside: filled(rows.filter(isBeside).map(besideLine)),
    capitalSalesCents: negateCents(
      sumCents(rows.filter(({ account }) => sellsAssets(account)).map(changeOf)),
    ),
    depreciation: { bookedCents, scheduleCents },
    strayAccounts: rows.map(({ account }) => account).filter(isStray),
  }
}

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

const linesOf = (
  captions: readonly LineCaption[],
  byLine: ReadonlyMap<string, readonly AccountYear[]>,
  signOf: (line: string) => 1 | -1,
): ScheduleFLine[] =>
  captions.map(({ line, says }) => {
    const parts = (byLine.get(line) ?? []).map((row) => accountLine(row, changeOf(row), signOf(line)))
    return {
      line,
      label: line.startsWith('32') && parts[0] ? parts.map((part) => part.label).join(', ') : says,
      amountCents: sumCents(parts.map((part) => part.amountCents)),
      accounts: parts.flatMap((part) => part.accounts).filter((part) => part.amountCents !== 0),
    }
  })

/** What was on hand when the year began is deducted as it is sold, what is on hand at its end is not yet. */
const withStockOnHand = (
  line: ScheduleFLine,
  { beginCents, endCents }: StockInventory['resale'],
): ScheduleFLine =>
  beginCents === 0 && endCents === 0
    ? line
    : {
        ...line,
        amountCents: cents(line.amountCents + beginCents - endCents),
        note: `Booked ${formatCents(line.amountCents)}, with ${formatCents(beginCents)} on hand at the beginning and without ${formatCents(endCents)} on hand at the end`,
      }

const withSchedule = (line: ScheduleFLine, scheduleCents: Cents): ScheduleFLine => ({
  ...line,
  amountCents: scheduleCents,
  accounts: [],
  note: 'From the depreciation schedule',
})

const besideLine = (row: AccountYear): ReportLine =>
  accountLine(row, changeOf(row), row.account.kind === 'income' ? -1 : 1)

/** Gross income from farming for the two-thirds test: line 9 with gains on breeding stock (IRS Pub. 225), never below zero. */
export const grossFarmIncome = (form: ScheduleF, breedingStockGain: Cents = zeroCents): Cents =>
  cents(Math.max(0, form.grossIncomeCents) + Math.max(0, breedingStockGain))
