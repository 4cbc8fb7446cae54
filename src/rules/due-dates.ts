// The dates a household must not miss: estimated tax and returns, marketplace and Medicare windows, required distributions.
import { addDays, type Day, dayInMonth, monthOfDay } from '#calendar/day.ts'
import { addMonths, month, yearOf } from '#calendar/month.ts'
import { medicareStart } from './age-by-law.ts'
import { medicareWindows, openEnrollment } from './data/enrollment.ts'
import { type Indexing, lookUp, yearsOf } from './dated.ts'
import { distributionDates, type InheritedOf, inheritedDates } from './distribution-dates.ts'
import { besideReturn, rentForms, type SalesTaxDue, salesTaxDates, workForms } from './due/business-dates.ts'
import { type PayrollGround, payrollDates } from './due/payroll-dates.ts'
import type { DueDate, DueKind } from './due-date.ts'
import {
  estimatedTaxSource,
  farmerFilingDue,
  farmerInstallmentDue,
  quarterlyInstallmentsDue,
  returnDue,
} from './estimated-tax.ts'
import { inForce } from './in-force.ts'
import { type StateCode, stateNames } from './places/state-names.ts'
import { stateData } from './states/state-data.ts'
import { asksAhead, stateDatesOf, stateInstallmentsDue, stateReturnDue } from './states/state-dates.ts'

export interface DueGround {
  people: readonly {
    id: string
    name: string
    born: Day
    hasTraditionalAccount: boolean
    /** From this day on no longer in the household: no date is that person's then. */
    goneFrom?: Day
  }[]
  /** Accounts that were inherited, with whose they are now. */
  inherited?: readonly InheritedOf[]
  /** The state whose income tax counts; null where none does. */
  state: StateCode | null
  /** Whether a tax year counts as a farmer's year. */
  isFarmerYear(taxYear: number): boolean
  /** Whether the state asks for nothing more on a day of payment ahead, as far as is known. */
  asksStateNothing?(taxYear: number, due: Day): boolean
  /** Whether the books paid for work in a tax year: to workers or to others. */
  paidForWork(taxYear: number): boolean
  paidRent(taxYear: number): boolean
  /** What the books tell of workers, and whether the farm is a partnership. */
  payroll(taxYear: number): PayrollGround
  /** When the state wants its sales tax; null where none is collected, or nobody said. */
  salesTax: SalesTaxDue | null
  /** Someone has an account into which a year's savings may be paid until the return is due. */
  saves: boolean
  /** Someone is, or plans to be, on a marketplace plan. */
  usesMarketplace: boolean
}

/** All dates from `from` to `to`, both included, in order. */
export const dueDates = (ground: DueGround, from: Day, to: Day): DueDate[] => {
  const years = Array.from(
    { length: yearOf(monthOfDay(to)) - yearOf(monthOfDay(from)) + 3 },
    (_, i) => yearOf(monthOfDay(from)) - 1 + i,
  )
  return years
    .flatMap((year) => [
      ...taxDates(year, ground.isFarmerYear(year)),
      ...(ground.paidForWork(year) ? workForms(year) : []),
      ...(ground.paidRent(year) ? rentForms(year) : []),
      ...payrollDates(ground.payroll(year), year),
      ...(ground.salesTax ? salesTaxDates(ground.salesTax, year) : []),
      ...besideReturn(year, ground.saves),
      ...(ground.state
        ? stateTaxDates(ground.state, year, ground.isFarmerYear(year)).filter(
            (date) => date.kind !== 'state-estimated-tax' || !ground.asksStateNothing?.(year, date.day),
          )
        : []),
      ...(ground.usesMarketplace ? enrollmentDates(year) : []),
      ...ground.people.flatMap((person) =>
        [
          ...medicareDates(person, year),
          ...(person.hasTraditionalAccount ? distributionDates(person, year) : []),
        ].filter(({ day }) => person.goneFrom === undefined || day < person.goneFrom),
      ),
      ...(ground.inherited ?? []).flatMap((one) => inheritedDates(one, year)),
    ])
    .filter((due) => due.day >= from && due.day <= to)
    .sort((a, b) => (a.day === b.day ? a.id.localeCompare(b.id) : a.day < b.day ? -1 : 1))
}

/** A farmer has one installment, or none when the return is filed by March 1; all others four. */
export const taxDates = (taxYear: number, farmer: boolean): DueDate[] => {
  const installments = farmer ? [farmerInstallmentDue(taxYear)] : quarterlyInstallmentsDue(taxYear)
  const filing: DueDate[] = farmer
    ? [
        {
          id: `file-early-${taxYear}`,
          day: farmerFilingDue(taxYear),
          kind: 'return',
          title: `File and pay for ${taxYear} if no installment was paid`,
          says: 'A farmer who files and pays everything by this day needs no estimated payment.',
          source: estimatedTaxSource,
        },
      ]
    : []
  return [
    ...installments.map(
      (due, i): DueDate => ({
        id: `estimated-tax-${taxYear}-${i + 1}`,
        day: due,
        kind: 'estimated-tax',
        title: farmer ? `Estimated tax for ${taxYear}` : `Estimated tax for ${taxYear}, ${i + 1} of 4`,
        says: farmer
          ? 'A farmer’s one payment: two thirds of the year’s tax, or all of last year’s when that is less, after what was withheld and paid ahead.'
          : 'A quarter of the year’s required payment, after what was withheld and paid ahead.',
        source: estimatedTaxSource,
      }),
    ),
    ...filing,
    {
      id: `return-${taxYear}`,
      day: returnDue(taxYear),
      kind: 'return',
      title: `Tax return for ${taxYear}`,
      says: 'What is owed is due by this day too, also where more time to file was asked for.',
      source: '26 USC 6072(a), 7503',
    },
  ]
}

/** The state's own dates, apart from the federal ones; a farmer's one payment and early return are taken as the federal ones are. */
export const stateTaxDates = (state: StateCode, taxYear: number, farmer: boolean): DueDate[] => {
  if (!stateData(state).hasIncomeTax) return []
  const dates = stateDatesOf(state)
  const name = stateNames[state]
  const asFederal = 'By the federal dates: the data here have none of its own. Check with the state.'
  const own = 'By the state’s own dates. Check with the state.'
  const says = dates.source === null ? asFederal : own
  const source = dates.source ?? estimatedTaxSource
  const date = (id: string, due: Day, kind: DueKind, title: string, said: string): DueDate => ({
    id: `${id}-${state}-${taxYear}`,
    day: due,
    kind,
    title,
    says: said,
    source,
  })
  const all = stateInstallmentsDue(dates, taxYear)
  const due = farmer && asksAhead(dates) ? [all.at(-1)!] : all.filter((_, k) => dates.shares[k]! > 0)
  return [
    ...due.map((when, k) =>
      date(
        `state-estimated-tax-${k + 1}`,
        when,
        'state-estimated-tax',
        farmer
          ? `${name} estimated tax for ${taxYear}`
          : `${name} estimated tax for ${taxYear}, ${k + 1} of ${due.length}`,
        farmer ? `A farmer’s one payment, where the state follows the federal rule. ${says}` : says,
      ),
    ),
    date('state-return', stateReturnDue(dates, taxYear), 'return', `${name} tax return for ${taxYear}`, says),
  ]
}

const noIndexing: Indexing = { prices: () => 1 }

/** The window of the federal marketplace for cover in `planYear`. */
const enrollmentDates = (planYear: number): DueDate[] => {
  if (planYear < yearsOf(openEnrollment).first) return []
  const window = lookUp(openEnrollment, planYear, noIndexing).value
  const at = (monthDay: number) => dayOf(monthDay < 1000 ? planYear : planYear - 1, monthDay)
  const { source } = openEnrollment
  const date = (what: string, monthDay: number, title: string, says: string): DueDate => ({
    id: `open-enrollment-${planYear}-${what}`,
    day: at(monthDay),
    kind: 'open-enrollment',
    title,
    says: `${says} States with their own marketplace set their own dates: check yours.`,
    source,
  })
  return [
    date(
      'opens',
      window.opens,
      `Open enrollment for ${planYear} begins`,
      'Compare plans, and set the year’s expected income.',
    ),
    date(
      'january',
      window.forJanuary,
      `Choose ${planYear} health coverage by today`,
      'Last day for coverage from January 1.',
    ),
    date(
      'closes',
      window.closes,
      `Last day to choose ${planYear} health coverage`,
      'Open enrollment ends: what is chosen now begins on February 1.',
    ),
  ]
}

/** The seven months around 65, and each autumn's change of plans after it. */
const medicareDates = (person: DueGround['people'][number], year: number): DueDate[] => {
  const windows = inForce(medicareWindows, Number.POSITIVE_INFINITY)
  const at65 = medicareStart(person.born)
  const { source } = medicareWindows
  const date = (what: string, day: Day, title: string, says: string): DueDate => ({
    id: `medicare-${person.id}-${what}`,
    day,
    kind: 'medicare',
    title,
    says,
    source,
  })
  const opens = dayInMonth(addMonths(at65, -windows.monthsBefore!), 1)
  const closes = dayInMonth(addMonths(at65, windows.monthsAfter!), 31)
  const once = [
    date(
      'opens',
      opens,
      `${person.name}: Medicare enrollment begins`,
      'Enroll before the month of 65, so that cover starts with it.',
    ),
    date(
      'before',
      addDays(dayInMonth(at65, 1), -1),
      `${person.name}: enroll in Medicare by today`,
      'Last day for Part B from the month of 65. Marketplace credit ends with Medicare.',
    ),
    date(
      'closes',
      closes,
      `${person.name}: Medicare enrollment ends`,
      'Enrolling later raises the premium for life.',
    ),
  ].filter((due) => yearOf(monthOfDay(due.day)) === year)
  const yearly =
    year > yearOf(at65)
      ? [
          date(
            `plans-${year}`,
            dayOf(year, windows.planChangeCloses!),
            `${person.name}: last day to change Medicare plans`,
            'Drug and Advantage plans for next year, open since October 15.',
          ),
        ]
      : []
  return [...once, ...yearly]
}

const dayOf = (year: number, monthDay: number): Day =>
  dayInMonth(month(year, Math.floor(monthDay / 100)), monthDay % 100)
