// Conversions of the plan to arrays: between which accounts, in which Decembers, up to which line.
import { parseMonth } from '#calendar/month.ts'
import type { Plan } from '#plan/plan.ts'
import { type Conversion, conversionFaults, conversionLines } from '#plan/savings/conversions.ts'
import type { Account } from '#plan/savings-plan.ts'
import type { Span } from '#runway/span.ts'
import type { CompiledConversions } from './compiled-conversions.ts'
import type { CompiledPerson } from './compiled-person.ts'

/** What cannot be is never begun. `owner`: by account the place of its owner, below 0 for nobody. */
export const compileConversions = (
  { household, savings: { accounts, conversions } }: Plan,
  span: Span,
  people: readonly CompiledPerson[],
  owner: Int32Array,
): CompiledConversions => {
  const placeOf = (id: string) => accounts.findIndex((account) => account.id === id)
  const monthOf = (year: number) => year * 12 - span.firstMonth
  return {
    count: conversions.length,
    from: Int32Array.from(conversions, ({ from }) => placeOf(from)),
    into: Int32Array.from(conversions, ({ into }) => placeOf(into)),
    fromMonth: Float64Array.from(conversions, ({ from, into, fromYear }) => {
      if (conversionFaults({ from, into }, accounts, household.people[0]?.id).length > 0)
        return Number.POSITIVE_INFINITY
      const source = placeOf(from)
      const open = openFrom(accounts[source]!, people[owner[source]!], span)
      return fromYear === undefined ? open : Math.max(open, monthOf(fromYear))
    }),
    endMonth: Float64Array.from(conversions, ({ toYear }) =>
      toYear === undefined ? Number.POSITIVE_INFINITY : monthOf(toYear + 1),
    ),
    upTo: Uint8Array.from(conversions, ({ upTo }) => conversionLines.indexOf(upTo)),
    line: Float64Array.from(conversions, lineOf),
  }
}

const lineOf = ({ upTo, perYear, percent, rate }: Conversion): number =>
  ({ amount: perYear, poverty: percent, bracket: rate })[upTo]

/**
 * An IRA and a SEP at any time; a plan at work once that employer is left, a solo 401(k) at 59½: before, plans let money out for few
 * reasons (26 USC 401(k)(2)(B)). The two years of a SIMPLE are taken to be over.
 */
const openFrom = ({ heldAs, leftWork }: Account, person: CompiledPerson | undefined, span: Span): number => {
  if (person === undefined) return Number.POSITIVE_INFINITY
  if (heldAs === 'solo401k') return person.month59Half
  if (heldAs !== 'workPlan') return Number.NEGATIVE_INFINITY
  return leftWork === undefined ? Number.POSITIVE_INFINITY : parseMonth(leftWork)! - span.firstMonth
}
