// The pace of the books: what trailing months cost and drew, how long savings last at it, and how far draws cover the costs.
import type { Month } from '#calendar/month.ts'
import { type Cents, cents, centsToDollars, sumCents } from '#money/cents.ts'
import type { HouseholdMonth } from './household-month.ts'

export interface Pace {
  /** How many months trail. */
  months: number
  costCents: Cents
  drawCents: Cents
  /** A month, on average: draws and what the farm gave back, less what was put into it; and pay, interest, benefits, ventures and the rest. */
  fromFarmCents: Cents
  otherCents: Cents
  /** Savings above the floor, which these months draw down. */
  aboveFloorCents: Cents
  /** What of it the plan ends: so many cents a month less after so many months from now, each beside the ones before it. */
  ends: readonly { inMonths: number; cents: Cents }[]
  /** Months until the floor at this pace; null when savings do not fall. */
  leftWithDraws: number | null
  leftWithoutDraws: number | null
}

/** After so many months from now only these shares of today's pay and of what side ventures bring go on; soonest first. */
export interface IncomeEnd {
  inMonths: number
  payShare: number
  ventureShare: number
}

/**
 * The last 3, 6 and 12 months; a pace that the books are too short for is left out. `floorCents`: the floor as it stands this month.
 * `ends`: income that is known to end goes on no longer than it does.
 */
export const pacesOf = (
  full: readonly HouseholdMonth[],
  spendableCents: Cents,
  floorCents: Cents,
  ends: readonly IncomeEnd[] = [],
): Pace[] =>
  [3, 6, 12].flatMap((months) => {
    const trailing = full.slice(-months)
    return trailing.length < months ? [] : [paceOf(trailing, cents(spendableCents - floorCents), ends)]
  })

const paceOf = (
  trailing: readonly HouseholdMonth[],
  above: Cents,
  incomeEnds: readonly IncomeEnd[],
): Pace => {
  const mean = (pick: (one: HouseholdMonth) => number) =>
    cents(Math.round(trailing.reduce((total, one) => total + pick(one), 0) / trailing.length))
  const costCents = mean((one) => one.costCents)
  const fromFarm = mean((one) => one.drawCents + one.reimbursementCents - one.contributionCents)
  const other = mean(
    (one) => one.payCents + one.interestCents + one.benefitCents + one.otherIncomeCents + one.ventureCents,
  )
  const [pay, ventures] = [mean((one) => one.payCents), mean((one) => one.ventureCents)]
  const ends = endsOf(incomeEnds, Math.max(0, pay), Math.max(0, ventures))
  return {
    months: trailing.length,
    costCents,
    drawCents: mean((one) => one.drawCents),
    fromFarmCents: fromFarm,
    otherCents: other,
    aboveFloorCents: above,
    ends,
    leftWithDraws: monthsUntilGone(above, costCents - fromFarm - other, ends),
    leftWithoutDraws: monthsUntilGone(above, costCents - other, ends),
  }
}

const endsOf = (incomeEnds: readonly IncomeEnd[], pay: number, ventures: number): Pace['ends'] => {
  let goesOn = pay + ventures
  return incomeEnds.flatMap(({ inMonths, payShare, ventureShare }) => {
    const left = Math.round(pay * payShare + ventures * ventureShare)
    const lost = cents(goesOn - left)
    goesOn = left
    return lost === 0 ? [] : [{ inMonths, cents: lost }]
  })
}

/** Whole months that savings last which lose `shortfall` each month, and more after each end; null when they do not fall. */
const monthsUntilGone = (above: number, shortfall: number, ends: Pace['ends']): number | null => {
  let [left, taken, from] = [above, shortfall, 0]
  for (const end of ends) {
    const lasts = taken > 0 ? Math.max(0, Math.floor(left / taken)) : Number.POSITIVE_INFINITY
    if (lasts < end.inMonths - from) return from + lasts
    left -= taken * (end.inMonths - from)
    from = end.inMonths
    taken += end.cents
  }
  return taken <= 0 ? null : from + Math.max(0, Math.floor(left / taken))
}

export interface CoverMonth {
  month: Month
  /** How many months trail: twelve, or as many as the books hold. */
  months: number
  /** Draws less what went back into the farm, over costs; null when nothing was spent. */
  ratio: number | null
  /** What the farm paid, less what the household put into it. */
  drawCents: Cents
  costCents: Cents
}

/**
 * The cover ratio, net of what the household puts back, over the trailing twelve months, for each of the last twelve months given. A month
 * left out, since the books pass it over, is no month of it.
 */
export const coverByMonth = (months: readonly HouseholdMonth[]): CoverMonth[] =>
  months.slice(-12).map((one) => {
    const trailing = months.filter(({ month }) => month > one.month - 12 && month <= one.month)
    const drawCents = cents(
      trailing.reduce((sum, month) => sum + month.drawCents - month.contributionCents, 0),
    )
    const costCents = sumCents(trailing.map((month) => month.costCents))
    const ratio = costCents > 0 ? centsToDollars(drawCents) / centsToDollars(costCents) : null
    return { month: one.month, months: trailing.length, ratio, drawCents, costCents }
  })
