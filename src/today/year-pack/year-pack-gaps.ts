// What the pack lacks and where to enter it: unsorted money, part of a loan that falls due, tax rate, own work.
import type { LoanBook } from '#ledger/loan-payment.ts'
import { type BookYear, changeOf, closingOf } from '#ledger/reports/book-year.ts'
import { salesTaxOverpaid } from '#ledger/reports/overpaid.ts'
import type { ScheduleF } from '#ledger/reports/schedule-f.ts'
import type { StockInventory } from '#ledger/reports/stock-inventory.ts'
import { type Cents, cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { hasTerms } from '#today/loan-terms.ts'
import type { YearPackFigures } from './figures.ts'
import type { PackYear } from './year-pack-settings.ts'

type Gap = YearPackFigures['gaps'][number]

export const packGaps = (
  sides: readonly BookYear[],
  said: PackYear,
  inventory: StockInventory | null,
  form: ScheduleF | null,
  year: number,
  loans: LoanBook,
): Gap[] => {
  const inputs = `/year-pack/inputs?year=${year}`
  const gaps: Gap[] = [
    ...sides.flatMap(unsorted),
    ...sides.flatMap(taxBeyond),
    ...wholePayments(sides, loans),
  ]
  if (said.deferredTaxRate === null)
    gaps.push({
      says: 'No tax rate entered for unrealized gains: the market column leaves deferred tax out.',
      href: `${inputs}#said`,
    })
  if (said.unpaidLabourCents === null)
    gaps.push({
      says: 'Enter the value of your unpaid work to get rates of return and profit margin.',
      href: `${inputs}#said`,
    })
  if (inventory && inventory.rows.length === 0)
    gaps.push({
      says: 'No stock or equipment on the inventory yet.',
      href: `/year-pack/holdings/new?year=${year}`,
    })
  if (form) gaps.push(...strayLines(form))
  return gaps
}

const unsorted = (side: BookYear): Gap[] =>
  side.accounts
    .filter(({ account }) => account.systemRole === 'unsorted_in' || account.systemRole === 'unsorted_out')
    .filter((row) => changeOf(row) !== 0)
    .map((row) => ({
      says: `${side.name}: ${formatCents(positive(changeOf(row)))} under “${row.account.name}”. Sort it before you print.`,
      href: `/books/accounts/${row.account.id}`,
    }))

/** As the year ends, or as it stands. */
const taxBeyond = (side: BookYear): Gap[] =>
  side.accounts.flatMap((row) => {
    const says = salesTaxOverpaid(row.account, closingOf(row))
    return says === null ? [] : [{ says, href: `/books/entry?side=${side.sideId}&kind=journal` }]
  })

const positive = (amount: Cents): Cents => cents(Math.abs(amount))

/** Payments booked whole against a loan that bears interest: then no interest stands on the form and in the measures. */
const wholePayments = (sides: readonly BookYear[], loans: LoanBook): Gap[] =>
  sides
    .filter((side) => side.accounts.every((row) => !isInterest(row) || changeOf(row) === 0))
    .flatMap((side) => side.accounts)
    .filter((row) => hasTerms(row.account) && row.paidDownCents > 0)
    .filter((row) => loans.get(row.account.id)?.yearlyRate !== 0)
    .map(({ account, paidDownCents }) => ({
      says: `“${account.name}”: ${formatCents(paidDownCents)} was paid on it in the year, and no interest is booked. Say its rate and payment, so that payments are split from now on, and correct those that were booked whole.`,
      href: `/books/accounts/${account.id}/loan`,
    }))

const isInterest = ({ account }: BookYear['accounts'][number]): boolean =>
  account.kind === 'expense' &&
  (account.purpose === 'debt' || account.scheduleLine === '21a' || account.scheduleLine === '21b')

const strayLines = ({ strayAccounts }: ScheduleF): Gap[] =>
  strayAccounts.map((account) => ({
    says: `“${account.name}” has line ${account.scheduleLine} of Schedule F, which no such account can have. Until you choose another one it counts with other ${account.kind === 'income' ? 'income, line 8' : 'costs, line 32f'}.`,
    href: `/settings/accounts/${account.id}`,
  }))
