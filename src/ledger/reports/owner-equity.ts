// The statement of owner's equity: what the owners had in a side at the start, what the year and the crossings did to it, what they have now.
import { type Cents, negateCents, sumCents } from '#money/cents.ts'
import type { CrossingRole } from '../account.ts'
import {
  type BookYear,
  changeOf,
  closingOf,
  filled,
  netIncomeOf,
  plainLine,
  type ReportLine,
} from './book-year.ts'

export interface OwnerEquity {
  name: string
  year: number
  beginCents: Cents
  netIncomeCents: Cents
  /** Signed as they move this side's equity: a draw lowers the farm's and raises the household's. */
  crossings: readonly ReportLine[]
  /** Opening balances entered in the year, and other equity postings. */
  other: readonly ReportLine[]
  endCents: Cents
}

/** At the books' own values. Throws when the end does not equal what is owned less what is owed. */
export const ownerEquity = (books: BookYear): OwnerEquity => {
  const equityRows = books.accounts.filter(({ account }) => account.kind === 'equity')
  const owned = books.accounts.filter(
    ({ account }) => account.kind === 'asset' || account.kind === 'liability',
  )
  const beginCents = sumCents(owned.map((row) => row.openingCents))
  const endCents = sumCents(owned.map(closingOf))
  const netIncomeCents = netIncomeOf(books)
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
  if (beginCents + netIncomeCents + moved !== endCents)
    throw new Error(
      `Equity of ${books.name} ${books.year} does not close: ${beginCents} + ${netIncomeCents} + ${moved} ≠ ${endCents}`,
    )
  return {
    name: books.name,
    year: books.year,
    beginCents,
    netIncomeCents,
    crossings: filled(crossings),
    other: filled(other),
    endCents,
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
