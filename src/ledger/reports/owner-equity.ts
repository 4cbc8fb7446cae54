// The statement of owner's equity: what the owners had in a side at the start, what the year and the crossings did to it, what they have now.
import { type Cents, cents, negateCents, sumCents } from '#money/cents.ts'
import type { CrossingRole } from '../account.ts'
import type { BalanceSheet } from './balance-sheet.ts'
import { type BookYear, changeOf, filled, plainLine, type ReportLine } from './book-year.ts'
import type { IncomeStatement } from './income-statement.ts'

export interface OwnerEquity {
  name: string
  year: number
  beginCents: Cents
  netIncomeCents: Cents
  /** Signed as they move this side's equity: a draw lowers the farm's and raises the household's. */
  crossings: readonly ReportLine[]
  /** Opening balances entered in the year, gifts, and other equity postings. */
  other: readonly ReportLine[]
  endCents: Cents
  /** What market values, less the tax on them, stand above or below the books. */
  valuation: { beginCents: Cents; endCents: Cents }
}

/**
 * On the basis of the statements it is made from: their equity, and the one net income. Throws when the end is not the beginning with
 * net income, crossings and other equity postings.
 */
export const ownerEquity = (
  books: BookYear,
  statements: { begin: BalanceSheet; end: BalanceSheet; income: IncomeStatement },
): OwnerEquity => {
  const { begin, end, income } = statements
  const equityRows = books.accounts.filter(({ account }) => account.kind === 'equity')
  const beginCents = begin.equity.costCents
  const endCents = end.equity.costCents
  const roles: CrossingRole[] = ['contributions', 'draws', 'reimbursements', 'goods']
  const crossings = roles.map((role) =>
    plainLine(
      namesOf(books)[role] ?? role,
      negateCents(sumCents(equityRows.filter(({ account }) => account.crossingRole === role).map(changeOf))),
    ),
  )
  const other = equityRows
    .filter(({ account }) => account.crossingRole === null)
    .map((row) => plainLine(row.account.name, negateCents(changeOf(row))))
  const moved = [...crossings, ...other].reduce((sum, line) => sum + line.amountCents, 0)
  if (beginCents + income.netIncomeCents + moved !== endCents)
    throw new Error(
      `Equity of ${books.name} ${books.year} does not close: ${beginCents} + ${income.netIncomeCents} + ${moved} ≠ ${endCents}`,
    )
  const aboveBooks = ({ equity }: BalanceSheet) => cents(equity.marketCents - equity.costCents)
  return {
    name: books.name,
    year: books.year,
    beginCents,
    netIncomeCents: income.netIncomeCents,
    crossings: filled(crossings),
    other: filled(other),
    endCents,
    valuation: { beginCents: aboveBooks(begin), endCents: aboveBooks(end) },
  }
}

const namesOf = (books: BookYear): Partial<Record<CrossingRole, string>> =>
  books.kind === 'household'
    ? {
        contributions: 'Put into the farm and ventures',
        draws: 'Drawn from them',
        reimbursements: 'Reimbursed by them',
        goods: 'Farm goods used at home',
      }
    : {
        contributions: 'Owner’s contributions',
        draws: 'Owner’s draws',
        reimbursements: 'Reimbursements to the owners',
        goods: 'Farm goods used at home',
      }
