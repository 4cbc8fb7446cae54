// Start-up costs: what was paid before the farm began is no farm expense, but deducted from the year it begins on (26 USC 195).
import { type Day, dayName, monthOfDay } from '#calendar/day.ts'
import { monthOfYear, yearIn } from '#calendar/month.ts'
import { type Cents, cents, dollarsToCents, sumCents, zeroCents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { startUpDeduction } from '#rules/data/business-deductions.ts'
import { inForce } from '#rules/in-force.ts'
import { changedBy, type FormLine } from '../reports/form-lines.ts'

export interface StartUp {
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

/** Line 32 of Schedule F has its costs by letter; this one is worked out. */
export const startUpLine = '32(195)'

/** Interest and taxes are no start-up costs (26 USC 195(c)(1)); depreciation, and conservation work of land that is farmed, have rules of their own. */
const notStartUp: readonly string[] = ['12', '14', '21a', '21b', '29']

/** Without what was paid before the day; `bookedBefore` by account, in the ledger's sign. `businessPart`: of a car, what is the farm's. */
export const withoutStartUp = (
  lines: readonly FormLine[],
  beganOn: Day,
  bookedBefore: ReadonlyMap<number, Cents>,
  businessPart: (line: FormLine) => Cents,
): { lines: FormLine[]; movedCents: Cents } => {
  const moved = lines.map((line): Cents => {
    if (notStartUp.includes(line.line)) return zeroCents
    const before = sumCents(line.accounts.map(({ id }) => bookedBefore.get(id) ?? zeroCents))
    return before <= 0 ? zeroCents : before
  })
  return {
    lines: lines.map((line, i) =>
      changedBy(
        line,
        -moved[i]!,
        `without ${formatCents(moved[i]!)} paid before the farm began on ${dayName(beganOn)} (26 USC 195)`,
      ),
    ),
    movedCents: sumCents(lines.map((line, i) => businessPart({ ...line, amountCents: moved[i]! }))),
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

/** The line of the form; none where nothing is deducted in the year. */
export const startUpRow = (one: StartUp): FormLine[] => {
  const { atOnceCents, byMonthsCents, costsCents, beganOn } = one
  const amountCents = cents(atOnceCents + byMonthsCents)
  if (amountCents === 0) return []
  const parts = [
    ...(atOnceCents === 0 ? [] : [`${formatCents(atOnceCents)} at once`]),
    ...(byMonthsCents === 0 ? [] : [`${formatCents(byMonthsCents)} by months (Form 4562, Part VI)`]),
  ]
  return [
    {
      line: startUpLine,
      label: 'Start-up costs',
      amountCents,
      accounts: [],
      note: `${formatCents(costsCents)} paid before the farm began on ${dayName(beganOn)}: ${parts.join(', ')} (26 USC 195)`,
    },
  ]
}
