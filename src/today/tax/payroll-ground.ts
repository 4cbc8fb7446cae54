// What the dates of payroll tax rest on: the farm's wages by month of this year and two before, a venture's wages, whose farm it is.
import { lastDayOfYear } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'
import { listPayees, paidInYear } from '#db/tax/payees.ts'
import { form943 } from '#ledger/tax/payroll-forms.ts'
import { workersPaid } from '#ledger/tax/wages.ts'
import { centsToDollars } from '#money/cents.ts'
import type { PayrollGround } from '#rules/due/payroll-dates.ts'
import { firstLawYear } from '#rules/law.ts'
import { keptThrough } from '#today/kept.ts'
import { booksYear, paidForWork } from './books-year.ts'
import { farmSaid } from './said-of-year.ts'

export const payrollGround = (books: Books, year: number): PayrollGround =>
  keptThrough(books, lastDayOfYear(year), 'payroll dates', () => {
    const form = formOf(books, year)
    return {
      farm: form && {
        byMonth: form.monthsCents.map(centsToDollars),
        yearBefore: totalOf(books, year - 1),
        twoYearsBefore: totalOf(books, year - 2),
      },
      othersWages: booksYear(books, year).ventures.some(({ books: { accounts } }) =>
        accounts.some(
          ({ account, monthsCents }) =>
            account.kind === 'expense' &&
            account.scheduleLine === wagesLine &&
            monthsCents.some((sum) => sum !== 0),
        ),
      ),
      partnership:
        farmSaid(books, year).said.ownership === 'partnership' && booksYear(books, year).farm !== null,
    }
  })

/** Of Schedule C; work of others who are no workers has lines of its own. */
const wagesLine = '26'

const formOf = (books: Books, year: number) => {
  if (year < firstLawYear || !paidForWork(books, year)) return null
  const form = form943(workersPaid(paidInYear(books, year), listPayees(books), year), year)
  return form.workers === 0 ? null : form
}

const totalOf = (books: Books, year: number): number => {
  const form = formOf(books, year)
  return form ? centsToDollars(form.totalCents) : 0
}
