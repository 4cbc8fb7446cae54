// Household lines to months: living costs by how they grow, what the farm replaces, loans, one-off items, pay and side ventures.
import { type Month, parseMonth } from '#calendar/month.ts'
import { loanMonths } from '#farm/loans.ts'
import type { LivingLine, Pay } from '#plan/household-plan.ts'
import type { Plan } from '#plan/plan.ts'
import { grownSince, isInSeason, monthsOf, type Span, sumOfMonths } from '#runway/span.ts'
import type { Weather } from '#runway/storms/weather.ts'
import { compileDependents } from './compile-dependents.ts'
import { addVentures, noVentures } from './compile-ventures.ts'
import { type CompiledHousehold, lineGrowths } from './compiled-plan.ts'

/** `opening` are prices as the plan begins, first prices = 1. */
export const compileHousehold = (
  plan: Plan,
  span: Span,
  weather: Weather,
  opening: number,
): CompiledHousehold => {
  const { household } = plan
  const row = () => new Float64Array(span.months)
  const growing = () => ({ inflation: row(), care: row(), fixed: row() })
  const loans = loanMonths(household.loans, span.firstMonth as Month, span.months)
  const out: CompiledHousehold = {
    livingLines: household.living.length,
    living: new Float64Array(household.living.length * span.months),
    livingGrowth: Uint8Array.from(household.living, (line) => lineGrowths.indexOf(line.growth)),
    livingOfAll: growing(),
    farmGoods: growing(),
    smooth: growing(),
    survivorShare: household.survivorShare,
    loanPayments: loans.payments,
    loanDrawn: loans.drawn,
    loanBalance: loans.balance,
    smoothLoans: row(),
    oneOffReal: row(),
    oneOffFixed: row(),
    payReal: new Float64Array(2 * span.months),
    payWithheldReal: new Float64Array(2 * span.months),
    hasPensions: household.pay.some((pay) => pay.kind !== 'wages'),
    pensionReal: new Float64Array(2 * span.months),
    pensionFixed: new Float64Array(2 * span.months),
    pensionWithheldReal: new Float64Array(2 * span.months),
    pensionWithheldFixed: new Float64Array(2 * span.months),
    survivorPension: noSurvivorPension(2 * span.months),
    sideNetReal: new Float64Array(3 * span.months),
    sideSetAsideReal: new Float64Array(2 * span.months),
    ventures: noVentures(),
    floorMonths: household.floor.kind === 'months' ? household.floor.months : 0,
    floorDollars: household.floor.kind === 'dollars' ? household.floor.dollars : 0,
    hasCareCosts: household.living.some((line) => line.careOfChildren),
    careCosts: growing(),
    livingFactor: weather.livingFactor,
    payFactor: weather.payFactor,
    ...compileDependents(plan, span),
  }
  household.living.forEach((line, place) => {
    addLivingLine(out, line, place, span)
  })
  addOneOffs(plan, span, out)
  addPay(plan, span, out)
  addVentures(plan, span, opening, out)
  smooth(out)
  return out
}

/** What the farm replaces of a line is worth what the line costs then. */
const addLivingLine = (out: CompiledHousehold, line: LivingLine, place: number, span: Span) => {
  const { first, end } = monthsOf(line, span)
  const grown = grownSince(span, line.from, line.extraGrowth)
  const replacedFrom =
    line.farmShareFrom === undefined ? 0 : parseMonth(line.farmShareFrom)! - span.firstMonth
  for (let m = first; m < end; m += 1) {
    if (!isInSeason(line, span.firstMonth + m)) continue
    const amount = line.perMonth * grown(m)
    const replaced = m >= replacedFrom ? line.farmShare : 0
    const paid = amount * (1 - replaced)
    out.living[place * span.months + m] = paid
    out.livingOfAll[line.growth][m]! += paid
    out.farmGoods[line.growth][m]! += amount * replaced
    if (line.careOfChildren) out.careCosts[line.growth][m]! += paid
  }
}

const addOneOffs = (plan: Plan, span: Span, out: CompiledHousehold) => {
  for (const item of plan.household.oneOffs) {
    const m = parseMonth(item.month)! - span.firstMonth
    if (m < 0 || m >= span.months) continue
    const into = item.todaysPrices ? out.oneOffReal : out.oneOffFixed
    into[m]! += item.cost
  }
}

const addPay = (plan: Plan, span: Span, out: CompiledHousehold) => {
  for (const pay of plan.household.pay) {
    const person = plan.household.people.findIndex((one) => one.id === pay.person)
    const [grossOf, withheldOf] = rowsOf(out, pay.kind)
    const { first, end } = monthsOf(pay, span)
    const grown = grownSince(span, pay.from, pay.extraGrowth)
    for (let m = first; m < end; m += 1) {
      if (!isInSeason(pay, span.firstMonth + m)) continue
      const gross = pay.perMonth * grown(m)
      grossOf[person * span.months + m]! += gross
      withheldOf[person * span.months + m]! += gross * pay.withheldShare
    }
    if (pay.kind !== 'wages' && pay.survivorShare) addSurvivorPension(out, pay, person, span)
  }
}

const noSurvivorPension = (cells: number): CompiledHousehold['survivorPension'] => ({
  real: new Float64Array(cells),
  fixed: new Float64Array(cells),
  withheldReal: new Float64Array(cells),
  withheldFixed: new Float64Array(cells),
})

/** To the other of a couple; of one alone there is nobody. */
const addSurvivorPension = (out: CompiledHousehold, pay: Pay, owner: number, span: Span) => {
  const { real, fixed, withheldReal, withheldFixed } = out.survivorPension
  const [grossOf, withheldOf] = pay.kind === 'pension' ? [real, withheldReal] : [fixed, withheldFixed]
  const other = (1 - owner) * span.months
  const { first, end } = monthsOf(pay, span)
  const grown = grownSince(span, pay.from, pay.extraGrowth)
  for (let m = first; m < end; m += 1) {
    if (!isInSeason(pay, span.firstMonth + m)) continue
    const gross = pay.perMonth * grown(m) * pay.survivorShare!
    grossOf[other + m]! += gross
    withheldOf[other + m]! += gross * pay.withheldShare
  }
}

const rowsOf = (out: CompiledHousehold, kind: Pay['kind']): [gross: Float64Array, withheld: Float64Array] => {
  if (kind === 'wages') return [out.payReal, out.payWithheldReal]
  if (kind === 'pension') return [out.pensionReal, out.pensionWithheldReal]
  return [out.pensionFixed, out.pensionWithheldFixed]
}

/** Twelve months' mean from each month on, so that property tax in April does not move the floor in March. */
const smooth = (out: CompiledHousehold) => {
  for (const growth of lineGrowths) out.smooth[growth] = yearsMean(out.livingOfAll[growth])
  out.smoothLoans = yearsMean(out.loanPayments)
}

const yearsMean = (values: Float64Array): Float64Array =>
  values.map((_, m) => {
    const end = Math.min(values.length, m + 12)
    return sumOfMonths(values, m, end) / (end - m)
  })
