// Start-up costs: what was paid before a business began is no expense of it, but deducted from the year it begins on (26 USC 195).
import { type Day, dayName, monthOfDay } from '#calendar/day.ts'
import { monthOfYear, yearIn } from '#calendar/month.ts'
import { type Cents, cents, dollarsToCents, sumCents, zeroCents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { startUpDeduction } from '#rules/data/business-deductions.ts'
import { inForce } from '#rules/in-force.ts'
import type { AccountYear } from '../reports/book-year.ts'
import { changedBy, type FormLine } from '../reports/form-lines.ts'
import type { BusinessSaid } from './form-said.ts'

/** How the form of a business takes them. */
export interface StartUpForm {
  /** What began, as sentences say it. */
  what: string
  /** Among its other costs; worked out, without an account. */
  line: string
  /** The same as Form 4562 refers to it. */
  place: string
  /** Its lines that hold none: interest and taxes (26 USC 195(c)(1)), and what has rules of its own. */
  without: readonly string[]
}

/** Depreciation, and conservation work of land that is farmed, have rules of their own. */
export const farmStartUp: StartUpForm = {
  what: 'the farm',
  line: '32(195)',
  place: 'Schedule F line 32',
  without: ['12', '14', '21a', '21b', '29'],
}

/** Depletion and depreciation have rules of their own, and goods to sell are deducted as they are sold (Part III). */
export const ventureStartUp = (name: string): StartUpForm => ({
  what: name,
  line: '48(195)',
  place: 'Schedule C, Part V',
  without: ['12', '13', '16a', '16b', '23', '36', '37', '38', '39'],
})

export interface StartUp {
  what: string
  /** The form and line on which it is deducted. */
  place: string
  beganOn: Day
  /** Of the year, paid before that day and taken off the lines of the form. */
  movedCents: Cents
  /** Of all years up to this one. */
  costsCents: Cents
  /** Deducted at once, in the year it began alone. */
  atOnceCents: Cents
  /** To be deducted by months in all, and of this year (Form 4562, Part VI). */
  spreadCents: Cents
  byMonthsCents: Cents
  isFirstYear: boolean
  /** Taken in before that day: the business may have begun earlier. */
  takenInBeforeCents: Cents
}

/** What lies before the day. */
export interface BeforeBeginning {
  /** Start-up costs of the years before. */
  costsCents: Cents
  /** Of this year, by account, in the ledger's sign. */
  booked: ReadonlyMap<number, Cents>
}

export const nothingBefore: BeforeBeginning = { costsCents: zeroCents, booked: new Map() }

interface Costs {
  lines: readonly FormLine[]
  /** Of a line's costs, like those of a car, what is the business's. */
  businessPart: (line: FormLine) => Cents
}

/** The form's costs without what was paid before the day; `startUp` is null where no day is said. `income` are the rows on the form. */
export const startUpApart = (
  form: StartUpForm,
  { lines, businessPart }: Costs,
  year: number,
  said: Pick<BusinessSaid, 'beganOn' | 'startUpBeforeCents'>,
  before: BeforeBeginning,
  income: readonly AccountYear[],
): { lines: readonly FormLine[]; startUp: StartUp | null } => {
  const { beganOn } = said
  if (beganOn === null) return { lines, startUp: null }
  const moved = lines.map((line): Cents => {
    if (form.without.includes(line.line)) return zeroCents
    const paid = sumCents(line.accounts.map(({ id }) => before.booked.get(id) ?? zeroCents))
    return paid <= 0 ? zeroCents : paid
  })
  const movedCents = sumCents(lines.map((line, i) => businessPart({ ...line, amountCents: moved[i]! })))
  const costsCents = cents(before.costsCents + said.startUpBeforeCents + movedCents)
  return {
    lines: lines.map((line, i) =>
      changedBy(
        line,
        -moved[i]!,
        `without ${formatCents(moved[i]!)} paid before ${form.what} began on ${dayName(beganOn)} (26 USC 195)`,
      ),
    ),
    startUp: {
      what: form.what,
      place: form.place,
      beganOn,
      movedCents,
      costsCents,
      ...startUpOf(costsCents, beganOn, year),
      takenInBeforeCents: sumCents(income.map(({ account }) => cents(-(before.booked.get(account.id) ?? 0)))),
    },
  }
}

/** At most so much at once, less what the costs are over the limit; the rest in equal months from the one in which the business begins. */
export const startUpOf = (
  costsCents: Cents,
  beganOn: Day,
  year: number,
): Pick<StartUp, 'atOnceCents' | 'spreadCents' | 'byMonthsCents' | 'isFirstYear'> => {
  const first = yearIn(beganOn)
  const law = inForce(startUpDeduction, first)
  const over = Math.max(0, costsCents - dollarsToCents(law.over))
  const atOnce = Math.min(costsCents, Math.max(0, dollarsToCents(law.atOnce) - over))
  const spread = costsCents - atOnce
  const through = (last: number): number => {
    const months = Math.min(
      law.months,
      Math.max(0, (last - first) * 12 + 13 - monthOfYear(monthOfDay(beganOn))),
    )
    return last < first ? 0 : Math.round((spread * months) / law.months)
  }
  return {
    atOnceCents: year === first ? cents(atOnce) : zeroCents,
    spreadCents: cents(spread),
    byMonthsCents: cents(through(year) - through(year - 1)),
    isFirstYear: year === first,
  }
}

/** Of the year, on the form and on Form 4562; null where nothing is deducted. */
export const startUpDeducted = (one: StartUp | null): StartUp | null =>
  one && one.atOnceCents + one.byMonthsCents !== 0 ? one : null

/** The line of the form; none where nothing is deducted in the year. */
export const startUpRow = ({ line }: StartUpForm, startUp: StartUp | null): FormLine[] => {
  const one = startUpDeducted(startUp)
  if (one === null) return []
  const { what, atOnceCents, byMonthsCents, costsCents, beganOn } = one
  const parts = [
    ...(atOnceCents === 0 ? [] : [`${formatCents(atOnceCents)} at once`]),
    ...(byMonthsCents === 0 ? [] : [`${formatCents(byMonthsCents)} by months (Form 4562, Part VI)`]),
  ]
  return [
    {
      line,
      label: 'Start-up costs',
      amountCents: cents(atOnceCents + byMonthsCents),
      accounts: [],
      note: `${formatCents(costsCents)} paid before ${what} began on ${dayName(beganOn)}: ${parts.join(', ')} (26 USC 195)`,
    },
  ]
}
