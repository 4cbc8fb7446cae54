// What the law lets a farm deduct of conservation work and of supplies paid ahead, and what it puts off to another year.
import { allocate } from '#money/allocate.ts'
import { type Cents, cents, sumCents, zeroCents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { conservationShare, prepaidSuppliesShare } from '#rules/data/business-deductions.ts'
import { inForce } from '#rules/in-force.ts'
import type { FormLine } from '../reports/form-lines.ts'
import {
  type FarmCarried,
  type FarmSaid,
  type PrepaidLine,
  prepaidLines,
  type WeatherSale,
} from './form-said.ts'

/** Income of the head sold beyond the usual, by the average of all of the kind sold in the year (26 CFR 1.451-7(e)). */
export const weatherPutOff = ({ sold, usual, incomeCents }: WeatherSale): Cents =>
  sold <= usual || sold <= 0 ? zeroCents : cents(Math.round((incomeCents * (sold - usual)) / sold))

/** Nothing where the area was not declared eligible for federal help (26 USC 451(g)(1)), as earlier books may hold both. */
export const weatherPutOffOf = (said: FarmSaid, origin: WeatherSale['origin']): Cents =>
  said.weatherArea === 'no'
    ? zeroCents
    : sumCents(said.weatherSales.filter((sale) => sale.origin === origin).map(weatherPutOff))

/** Line 12 held under its share of gross income from farming; the rest waits (26 USC 175(b)). */
export const withConservationLimit = (
  line: FormLine,
  year: number,
  grossFromFarming: Cents,
  waiting: Cents,
): { line: FormLine; leftCents: Cents } => {
  const wanted = cents(line.amountCents + waiting)
  if (wanted <= 0) return { line, leftCents: zeroCents }
  const most = Math.floor(Math.max(0, grossFromFarming) * inForce(conservationShare, year))
  const allowed = cents(Math.min(wanted, most))
  const leftCents = cents(wanted - allowed)
  if (waiting === 0 && leftCents === 0) return { line, leftCents }
  const note = `Booked ${formatCents(line.amountCents)}, ${formatCents(waiting)} left by earlier years; at most ${formatCents(cents(most))} this year, ${formatCents(leftCents)} left to later ones`
  return { line: { ...line, amountCents: allowed, note }, leftCents }
}

/**
 * Supplies paid ahead held under a share of the other deductible expenses; what is over is deducted in the next year, when they are
 * used (26 USC 464). `lines` are all expense lines, with what the year before left already on them.
 */
export const withPrepaidLimit = (
  lines: readonly FormLine[],
  year: number,
  said: FarmSaid,
): { lines: FormLine[]; left: Record<PrepaidLine, Cents> } => {
  const none = Object.fromEntries(prepaidLines.map((line) => [line, zeroCents])) as Record<PrepaidLine, Cents>
  const amounts = prepaidLines.map((line) => said.prepaid[line])
  const prepaid = sumCents(amounts)
  if (prepaid === 0 || said.prepaidExempt) return { lines: [...lines], left: none }
  const others = sumCents(lines.map((line) => line.amountCents)) - prepaid
  const most = Math.floor(Math.max(0, others) * inForce(prepaidSuppliesShare, year))
  if (prepaid <= most) return { lines: [...lines], left: none }
  const parts = allocate(cents(prepaid - most), amounts)
  const left = Object.fromEntries(prepaidLines.map((line, i) => [line, parts[i]!])) as typeof none
  return {
    left,
    lines: lines.map((line) => {
      const over = left[line.line as PrepaidLine] ?? zeroCents
      return over === 0
        ? line
        : {
            ...line,
            amountCents: cents(line.amountCents - over),
            note: `${line.note ? `${line.note}; ` : ''}without ${formatCents(over)} paid ahead, over the limit on supplies paid ahead, for next year`,
          }
    }),
  }
}

/** What the year before left of supplies is deducted now. */
export const withPrepaidBefore = (line: FormLine, before: FarmCarried): FormLine => {
  const more = before.prepaid[line.line as PrepaidLine] ?? zeroCents
  return more === 0
    ? line
    : {
        ...line,
        amountCents: cents(line.amountCents + more),
        note: `With ${formatCents(more)} of supplies paid ahead the year before`,
      }
}
