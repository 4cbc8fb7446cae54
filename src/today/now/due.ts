// What is due: standing transfers, lines to sort, notes of the farm to book, statements to reconcile, and the next tax dates.

import { addDays, type Day, dayName } from '#calendar/day.ts'
import { monthName } from '#calendar/month.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { waitingNotes } from '#db/notebook/settle-notes.ts'
import type { Books } from '#db/open.ts'
import { brokenReconciliation } from '#db/reconcile/changed-since.ts'
import { countWaiting } from '#db/statements/waiting-lines.ts'
import { dueTransfers } from '#db/transfers/standing-store.ts'
import { notesWait } from '#farm/notebook/words.ts'
import { isReconcilable } from '#ledger/account.ts'
import { cents } from '#money/cents.ts'
import { formatCents, formatDollars } from '#money/format.ts'
import type { Plan } from '#plan/plan.ts'
import { aheadByBooks } from '#rules/due/ahead-words.ts'
import { besideReturn, rentForms, salesTaxDates, workForms } from '#rules/due/business-dates.ts'
import { payrollDates } from '#rules/due/payroll-dates.ts'
import type { DueDate, DueKind } from '#rules/due-date.ts'
import type { Projection } from '#runway/project.ts'
import type { CurrentPlan } from '#today/current-plan.ts'
import { oneSided } from '#today/one-sided/one-sided.ts'
import { payrollGround } from '#today/tax/payroll-ground.ts'
import { nearDays, type TaxDay, taxDays } from '#today/tax/tax-days.ts'
import { saves, taxedByState } from './calendar-dates.ts'
import type { DueItem } from './figures.ts'
import { rentFormsAsked, workFormsAsked } from './forms-asked.ts'
import { salesTaxSaid } from './sales-tax.ts'

/** Oldest first within its kind: what waits longest stands on top. */
export const dueItems = (
  books: Books,
  current: CurrentPlan,
  today: Day,
  planned: Planned | null,
): DueItem[] => [
  ...standingDue(books, today),
  ...waitingLines(books),
  ...notesOfFarm(books, today),
  ...brokenStatements(books),
  ...dueTax(books, current, today, planned),
  ...standsAlone(books, current, today),
]

/** The plan and its expected course. */
interface Planned {
  plan: Plan
  projection: Projection
}

const standingDue = (books: Books, today: Day): DueItem[] =>
  dueTransfers(books, today).map((due) => ({
    says: `${due.transfer.name}, ${formatCents(due.transfer.amountCents)}, for ${monthName(due.month)}`,
    href: '/crossings#due-title',
    day: due.day,
    standing: {
      id: due.transfer.id,
      month: due.month,
      name: due.transfer.name,
      wasTakenBack: due.wasTakenBack,
      alikeOn: due.alikeOn,
    },
  }))

function waitingLines(books: Books): DueItem[] {
  const { waiting, doubtful } = countWaiting(books)
  if (waiting === 0) return []
  const lines = waiting === 1 ? '1 transaction waits' : `${waiting} transactions wait`
  return [
    {
      says: `${lines} to be sorted${doubtful > 0 ? `, ${doubtful} of them doubtful` : ''}`,
      href: '/books/sorting',
      day: null,
    },
  ]
}

/** Goods and cash that were noted in the field and stand in no books yet. */
const notesOfFarm = (books: Books, today: Day): DueItem[] => {
  const count = waitingNotes(books, today)
  return count === 0 ? [] : [{ says: notesWait(count), href: '/farm/notebook/table', day: null }]
}

/** What was reconciled and no longer is, account by account. */
const brokenStatements = (books: Books): DueItem[] =>
  listAccounts(books)
    .filter(isReconcilable)
    .flatMap((account) => {
      const broken = brokenReconciliation(books, account.id)
      if (!broken) return []
      const { id, statementDay } = broken.reconciliation
      const apart = formatCents(cents(Math.abs(broken.changed.cents)))
      return [
        {
          says: `${account.name} no longer meets its statement of ${dayName(statementDay)}: ${apart} apart since it was reconciled`,
          href: `/books/reconcile/${id}`,
          day: statementDay,
        },
      ]
    })

/** Tax dates of the coming weeks. A farmer has one installment in January, or none when filing by March 1. */
function dueTax(books: Books, current: CurrentPlan, today: Day, planned: Planned | null): DueItem[] {
  const year = Number.parseInt(today.slice(0, 4), 10)
  const until = addDays(today, nearDays)
  // By the plan as saved, as wherever else they are listed: continued, it no longer tells what came before the books.
  const plan = current.status === 'read' ? current.plan : null
  return [year - 1, year].flatMap((taxYear) => {
    const expected = expectedOf(planned, taxYear)
    const state = plan && taxedByState(plan)
    const days = taxDays(books, plan, taxYear, state, today)
    return [...days, ...ofBusiness(books, taxYear, plan).map((date) => ({ date, stillAhead: null }))]
      .filter(({ date }) => date.day >= today && date.day <= until)
      .filter((one) => !asksNothing(one, expected))
      .map(({ date, stillAhead }) => ({
        says: `${date.title}${aboutTax(date.kind, expected)}${aheadByBooks(stillAhead)}${missedBefore(days, date, today)}: ${dayName(date.day)}`,
        href: date.id.includes('-forms-')
          ? `/year-pack/people?year=${taxYear}`
          : (placeOfKind[date.kind] ?? '/cover/tax'),
        day: date.day,
      }))
  })
}

/** What days that are over still ask for, at the next one of their kind. */
const missedBefore = (days: readonly TaxDay[], next: DueDate, today: Day): string => {
  const ofKind = days.filter(({ date }) => date.kind === next.kind)
  if (ofKind.find(({ date }) => date.day >= today)?.date !== next) return ''
  const missed = ofKind
    .filter(({ date }) => date.day < today)
    .reduce((sum, { stillAhead }) => sum + (stillAhead ?? 0), 0)
  return missed < 1 ? '' : `, and ${formatDollars(missed)} of days that are over`
}

/** Forms for others, sales tax, more time to file, and savings that may be paid in until the return is due. */
const ofBusiness = (books: Books, taxYear: number, plan: Plan | null): DueDate[] => {
  const { due } = salesTaxSaid(books)
  return [
    ...(workFormsAsked(books, taxYear) ? workForms(taxYear) : []),
    ...(rentFormsAsked(books, taxYear) ? rentForms(taxYear) : []),
    ...payrollDates(payrollGround(books, taxYear), taxYear),
    ...(due ? salesTaxDates(due, taxYear) : []),
    ...besideReturn(taxYear, saves(books, plan)).filter(({ id }) => !id.startsWith('return-extended')),
  ]
}

/** What the plan expects of a year's tax, and what of it was paid before the projection's first month: withheld too, by the first steps. */
interface Expected {
  tax: Partial<Record<DueKind, number>>
  paid: Partial<Record<DueKind, number>>
  /** To a local office, beside the state’s, and what of it was paid. */
  localTax: number
  localPaid: number
}

const expectedOf = (planned: Planned | null, taxYear: number): Expected | null => {
  const year = planned?.projection.years.find((one) => one.year === taxYear)
  if (!planned || !year) return null
  const { paid, statePaid, localPaid } = planned.plan.tax.soFar
  const isFirst = planned.projection.years[0] === year
  const { tax, stateTax, localTax } = year
  // Where local tax goes with the state’s return, no part of it stands apart.
  const local = localTax > 0 ? localPaid : 0
  return {
    tax: { 'estimated-tax': tax - stateTax, 'state-estimated-tax': stateTax - localTax },
    paid: isFirst ? { 'estimated-tax': paid, 'state-estimated-tax': statePaid - local } : {},
    localTax,
    localPaid: isFirst ? local : 0,
  }
}

/** A day of payments ahead on which neither the books nor the plan's whole year expect any tax: the year brings a refund. */
const asksNothing = ({ date, stillAhead }: TaxDay, expected: Expected | null): boolean => {
  const tax = expected?.tax[date.kind]
  return tax !== undefined && tax - (expected?.paid[date.kind] ?? 0) <= 0 && (stillAhead ?? 0) <= 0
}

/** Where it is done; of all else the page of tax tells. */
const placeOfKind: Partial<Record<DueKind, string>> = {
  'sales-tax': '/settings/calendar',
  payroll: '/year-pack/people#payroll',
}

/** For those of money. */
const aboutTax = (kind: DueKind, expected: Expected | null): string => {
  const tax = expected?.tax[kind] ?? 0
  const paid = expected?.paid[kind] ?? 0
  if (tax <= 0) return ''
  const local =
    kind === 'state-estimated-tax' && expected && expected.localTax >= 1
      ? `; and about ${formatDollars(expected.localTax)} to your local office, which has its own due dates${paidOf(expected.localPaid)}`
      : ''
  return `, about ${formatDollars(tax)} for the year by the plan${paidOf(paid)}${local}`
}

const paidOf = (paid: number): string => (paid >= 1 ? `, ${formatDollars(paid)} of it paid` : '')

/** What stands in the books alone or in the plan alone and waits for a word. */
const standsAlone = (books: Books, current: CurrentPlan, today: Day): DueItem[] => {
  if (current.status !== 'read') return []
  const waiting = oneSided(books, current, today).filter(({ waits }) => waits)
  const href = '/runway/actual#one-sided-title'
  const asked = waiting.flatMap(({ other }) => (other ? [{ says: other.asks, href, day: null }] : []))
  const count = waiting.length - asked.length
  if (count === 0) return asked
  const things = count === 1 ? 'One thing stands' : `${count} things stand`
  return [...asked, { says: `${things} in the books alone or in the plan alone`, href, day: null }]
}
