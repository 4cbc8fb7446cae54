// Payees over the year's line of whom nobody said who they are, forms that lack a number, and pay whose taxes are not as the rates give.
import { farmSide } from '#ledger/account.ts'
import { type Cents, cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import type { YearPackFigures } from './figures.ts'
import type { PeopleFigures } from './people-figures.ts'

type Gap = YearPackFigures['gaps'][number]

export const peopleGaps = ({
  year,
  payees,
  workers,
  papers,
  unnamed,
  namelessCents,
  namelessLaborCents,
}: PeopleFigures): Gap[] => {
  const href = `/year-pack/people?year=${year}`
  const unsaid = payees.filter(({ kind, forms }) => kind === null && forms.length > 0)
  const withoutForm = payees.filter(
    ({ kind, forms, formOnFile }) => kind !== null && forms.length > 0 && !formOnFile,
  )
  const differing = papers.filter(
    ({ paperCents, bookedCents }) => paperCents !== null && paperCents !== bookedCents,
  )
  return [
    ...one(
      unsaid.length > 0,
      `${counted(unsaid.length)} over the line for a Form 1099: say whether a company, a contractor or a worker of yours.`,
      href,
    ),
    ...(unnamed === null
      ? []
      : [
          {
            says: `${formatCents(unnamed.paidCents)} was paid for work or rent to payees that only the bank’s word names (${unnamed.names.join(', ')}): ${asked(unnamed.paidCents, unnamed.laborCents)}`,
            href: `/books/entries?payee=${encodeURIComponent(unnamed.names[0]!)}`,
          },
        ]),
    ...one(
      namelessCents > 0,
      `${formatCents(namelessCents)} of hired labor, custom hire or rent is booked without a payee: ${asked(namelessCents, namelessLaborCents)}`,
      '/books/entries',
    ),
    ...one(
      withoutForm.length > 0,
      `${namesOf(withoutForm)}: a Form 1099 is due, and no Form W-9 is in the folder.`,
      href,
    ),
    ...one(
      workers.some(isOff),
      `${namesOf(workers.filter(isOff))}: social security and Medicare booked are not what the rates give.`,
      `${href}#payroll`,
    ),
    ...differing.map(({ paper, account, paperCents, bookedCents }) => ({
      says: `${paper} of “${account}”: the paper says ${formatCents(paperCents!)}, the books ${formatCents(bookedCents)}.`,
      href: `${href}#papers`,
    })),
  ]
}

/** Hired labor is wages first: a contractor’s form would leave out what is kept back and owed on them. */
const asked = (paidCents: Cents, laborCents: Cents): string =>
  laborCents === 0
    ? 'name who got it, since a Form 1099 may be due.'
    : `name who got it, and say of ${laborCents === paidCents ? 'it' : `${formatCents(laborCents)} of it, hired labor,`} whether an employee got it, who gets a Form W-2 and is on payroll, or a contractor, who may get a Form 1099.`

const one = (is: boolean, says: string, href: string): Gap[] => (is ? [{ says, href }] : [])

const counted = (count: number): string => (count === 1 ? '1 payee is' : `${count} payees are`)

const namesOf = (rows: readonly { name: string }[]): string => rows.map(({ name }) => name).join(', ')

/** Off by more than rounding each pay to the cent could make. */
const isOff = ({
  due,
  payrollCents,
  employerCents,
  sideId,
  grossCents,
}: PeopleFigures['workers'][number]): boolean => {
  const byLaw = cents(due.socialSecurityCents + due.medicareCents)
  if (sideId === farmSide && !due.isDue) return payrollCents !== 0
  const slack = Math.max(100, Math.round(grossCents * 0.0005))
  return Math.abs(payrollCents - byLaw) > slack || Math.abs(employerCents - byLaw) > slack
}
