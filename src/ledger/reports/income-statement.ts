// The income statement of one side or of all together, on the cash basis, with accrual adjustments on request.
import { type Cents, cents, negateCents, sumCents } from '#money/cents.ts'
import { lineRole, sellsAssets } from '../schedule-lines.ts'
import { type AccrualYear, accrualDefinitions, accrualKinds } from './accrual.ts'
import {
  type AccountYear,
  accountLine,
  type BookYear,
  changeOf,
  filled,
  netIncomeOf,
  plainLine,
  type ReportLine,
  type ReportSection,
  section,
} from './book-year.ts'

export interface IncomeStatement {
  name: string
  year: number
  basis: 'cash' | 'accrual adjusted'
  revenue: ReportSection
  /** Without interest and depreciation. */
  expenses: ReportSection
  depreciation: ReportSection
  interest: ReportSection
  /** Breeding stock and equipment sold, as the books hold them. */
  capital: ReportSection
  netIncomeCents: Cents
  /** Net income of the books before adjustments. */
  cashNetIncomeCents: Cents
}

type Part = 'revenue' | 'expenses' | 'depreciation' | 'interest' | 'capital'

/** Throws when the books do not balance. `accrual` null keeps the cash basis. */
export const incomeStatement = (books: BookYear, accrual: AccrualYear | null = null): IncomeStatement => {
  const of = (part: Part) => books.accounts.filter((row) => partOf(row) === part)
  const income = (rows: readonly AccountYear[]) =>
    rows.map((row) => accountLine(row, changeOf(row), row.account.kind === 'income' ? -1 : 1))
  const costs = (rows: readonly AccountYear[]) => rows.map((row) => accountLine(row, changeOf(row)))
  // Cost of things bought for resale stands against their sale.
  const revenueLines = of('revenue').map((row) => accountLine(row, changeOf(row), -1))
  const revenue = section('Revenue', 'Gross revenue', [
    ...filled(revenueLines),
    ...changeLines(accrual, 'revenue'),
  ])
  const expenses = section('Operating costs', 'Operating costs', [
    ...filled(costs(of('expenses'))),
    ...changeLines(accrual, 'cost'),
  ])
  const interest = section('Interest', 'Interest', [
    ...filled(costs(of('interest'))),
    ...changeLines(accrual, 'interest'),
  ])
  const depreciation = section('Depreciation', 'Depreciation', filled(costs(of('depreciation'))))
  const capital = section(
    books.kind === 'venture' ? 'Equipment and buildings sold' : 'Breeding stock and equipment sold',
    'From capital sales',
    filled(income(of('capital'))),
  )
  const netIncomeCents = cents(
    revenue.totalCents -
      expenses.totalCents -
      interest.totalCents -
      depreciation.totalCents +
      capital.totalCents,
  )
  return {
    name: books.name,
    year: books.year,
    basis: accrual ? 'accrual adjusted' : 'cash',
    revenue,
    expenses,
    depreciation,
    interest,
    capital,
    netIncomeCents,
    cashNetIncomeCents: netIncomeOf(books),
  }
}

/** More of what is owned raises revenue or lowers a cost; more of what is owed the other way round. */
const changeLines = (accrual: AccrualYear | null, where: 'revenue' | 'cost' | 'interest'): ReportLine[] =>
  accrual === null
    ? []
    : filled(
        accrualKinds
          .filter((kind) => accrualDefinitions[kind].where === where)
          .map((kind) => {
            const { change, isOwned } = accrualDefinitions[kind]
            const raises = isOwned === (where === 'revenue')
            return plainLine(change, raises ? accrual.changes[kind] : negateCents(accrual.changes[kind]))
          }),
      )

const partOf = ({ account }: AccountYear): Part | null => {
  if (account.kind === 'income') {
    return sellsAssets(account) ? 'capital' : 'revenue'
  }
  if (account.kind !== 'expense') return null
  const role = lineRole(account)
  if (role === 'against sales') return 'revenue'
  if (role !== null) return role
  // Only the household’s accounts have purposes: its interest stays interest when all sides are put together.
  return account.purpose === 'debt' ? 'interest' : 'expenses'
}

/** The sum of some household purposes: living costs, premiums, taxes, pay. */
export const sumOfPurposes = (
  books: BookYear,
  purposes: readonly string[],
  kind: 'income' | 'expense',
): Cents =>
  sumCents(
    books.accounts
      .filter(({ account }) => account.kind === kind && purposes.includes(account.purpose ?? 'none'))
      .map((row) => (kind === 'income' ? negateCents(changeOf(row)) : changeOf(row))),
  )
