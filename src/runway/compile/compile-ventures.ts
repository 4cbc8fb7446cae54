// Side ventures to months: what they take in less their costs, what is set aside of it, and the cash that they keep themselves.
import { parseMonth } from '#calendar/month.ts'
import type { SideVenture } from '#plan/household-plan.ts'
import type { Plan } from '#plan/plan.ts'
import { byYear, monthsOf, type Span } from '#runway/span.ts'
import type { CompiledHousehold } from './compiled-plan.ts'
import type { CompiledVentures } from './compiled-ventures.ts'
import type { PlanOfDay } from './plan-of-day.ts'

const nobodys = 2

/** `opening` are prices as the plan begins, first prices = 1. */
export const addVentures = (plan: PlanOfDay, span: Span, opening: number, out: CompiledHousehold): void => {
  const { people, sideVentures } = plan.household
  const holds = sideVentures.some(({ cash, keeps }) => cash !== 0 || (keeps ?? 0) > 0)
  out.ventures = emptyVentures(holds ? sideVentures.length : 0, span.months, span.years)
  addWrittenOff(plan, span, out.ventures.writtenOff)
  sideVentures.forEach((venture, v) => {
    const owner = ownerOf(people, venture.person)
    const net = netOf(venture, span)
    addTo(out.sideNetReal, owner, net)
    if (owner < nobodys)
      addTo(
        out.sideSetAsideReal,
        owner,
        net.map((one) => Math.max(0, one) * venture.setAsideShare),
      )
    if (!holds) return
    const { ventures } = out
    ventures.owner[v] = owner
    ventures.netReal.set(net, v * span.months)
    ventures.opening[v] = venture.cash
    ventures.keepsReal[v] = venture.keeps ?? Math.max(0, venture.cash) / opening
    ventures.overFrom[v] =
      venture.to === undefined ? Number.POSITIVE_INFINITY : parseMonth(venture.to)! + 1 - span.firstMonth
  })
}

const ownerOf = (people: Plan['household']['people'], id: string | null | undefined): number => {
  const person = people.findIndex((one) => one.id === id)
  return person < 0 ? nobodys : person
}

const addWrittenOff = ({ household, writtenOff }: PlanOfDay, span: Span, out: Float64Array) => {
  for (const { person, byYear: told } of writtenOff?.ventures ?? []) {
    const row = ownerOf(household.people, person) * span.years
    byYear(told, span).forEach((dollars, y) => {
      out[row + y]! += dollars
    })
  }
}

export const noVentures = (): CompiledVentures => emptyVentures(0, 0, 0)

const emptyVentures = (count: number, months: number, years: number): CompiledVentures => ({
  count,
  owner: new Int32Array(count),
  netReal: new Float64Array(count * months),
  opening: new Float64Array(count),
  keepsReal: new Float64Array(count),
  overFrom: new Float64Array(count),
  writtenOff: new Float64Array(3 * years),
})

const addTo = (rows: Float64Array, row: number, values: Float64Array) => {
  for (let m = 0; m < values.length; m += 1) rows[row * values.length + m]! += values[m]!
}

/** By month, at first prices. */
const netOf = (venture: SideVenture, span: Span): Float64Array => {
  const { pricesOf } = span
  const begins = venture.from === undefined ? pricesOf : Math.max(pricesOf, parseMonth(venture.from)!)
  const growsUntil =
    venture.growsUntil === undefined ? Number.POSITIVE_INFINITY : parseMonth(venture.growsUntil)!
  const fadesFrom =
    venture.fadesFrom === undefined ? Number.POSITIVE_INFINITY : parseMonth(venture.fadesFrom)!
  const out = new Float64Array(span.months)
  const { first, end } = monthsOf(venture, span)
  for (let m = first; m < end; m += 1) {
    const at = span.firstMonth + m
    const growing = Math.max(0, Math.min(at, growsUntil, fadesFrom) - begins)
    const faded = Math.max(0, at - fadesFrom)
    const takings =
      venture.perMonth * (1 + venture.growth) ** (growing / 12) * (1 - venture.fade) ** (faded / 12)
    out[m] = takings * (1 - venture.costShare) - venture.costPerMonth
  }
  return out
}
