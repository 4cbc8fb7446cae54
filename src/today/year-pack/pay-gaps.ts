// Pay that names nobody where two sign the return: self-employment tax and Form W-2 go by person.
import { householdForm } from '#ledger/tax/household-lines.ts'
import { onLine } from '#ledger/tax/income-places.ts'
import { wagesOf } from '#ledger/tax/pay-before-tax.ts'
import { formatCents } from '#money/format.ts'
import { firstLawYear } from '#rules/law.ts'
import { peopleOfYear } from '#today/cover/cover-household.ts'
import type { CurrentPlan } from '#today/current-plan.ts'
import type { BooksYear } from '#today/tax/books-year.ts'
import { wageEarner } from '#today/tax/earners.ts'
import type { YearPackFigures } from './figures.ts'

/** Where the plan has wages of one alone, it is theirs. Of a year whose law is not known no return is worked. */
export const payGaps = (
  { sides }: BooksYear,
  current: CurrentPlan,
  year: number,
): YearPackFigures['gaps'][number][] => {
  if (current.status !== 'read' || year < firstLawYear) return []
  const { plan } = current
  const { people, pay } = plan.household
  const earners = new Set(pay.filter(({ kind }) => kind === 'wages').map(({ person }) => person))
  if (people.length < 2 || earners.size === 1 || peopleOfYear(plan, year).people < 2) return []
  const counts = people.find(({ id }) => id === wageEarner(plan)) ?? people[0]!
  return onLine(
    sides.flatMap(({ accounts }) => accounts),
    householdForm,
    '1a',
  )
    .filter((row) => row.account.personId === null && wagesOf(row) !== 0)
    .map((row) => ({
      says: `${formatCents(wagesOf(row))} of pay under “${row.account.name}” names nobody, and counts as ${counts.name}’s. Say whose it is: self-employment tax goes by each one’s wages. Where both were paid into it, move the entries of one to an account of their own.`,
      href: `/settings/accounts/${row.account.id}`,
    }))
}
