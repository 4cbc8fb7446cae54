// Premium lines and what care is expected to cost, to months. Who is covered by what is made ready in compile-coverage.ts.
import type { Plan } from '#plan/plan.ts'
import { bronzeAllowsHsa } from '#rules/data/retirement-accounts.ts'
import { inForce } from '#rules/in-force.ts'
import { monthsAtHome } from '#runway/children-of-year.ts'
import { monthsOf, type Span } from '#runway/span.ts'
import type { Weather } from '#runway/storms/weather.ts'
import { savingsCoverCode } from './codes.ts'
import type { CompiledHealth } from './compiled-plan.ts'

export const compileHealth = (plan: Plan, span: Span, weather: Weather): CompiledHealth => {
  const { health } = plan
  const row = () => new Float64Array(span.months)
  const out: CompiledHealth = {
    premiumsDeductible: row(),
    premiumsOther: row(),
    advanceCredit: health.marketplace.advanceCredit,
    medicareFrom65: health.medicareFrom65,
    partDPlan: health.medicare.partDPlan ?? -1,
    supplement: health.medicare.supplement,
    careBefore65: health.careBefore65,
    careFrom65: health.careFrom65,
    dependentCare: row(),
    premiumFactor: weather.premiumFactor,
    savingsCover: savingsCoverOf(plan, span),
  }
  for (const line of health.premiums) {
    const into = line.deductible ? out.premiumsDeductible : out.premiumsOther
    const { first, end } = monthsOf(line, span)
    for (let m = first; m < end; m += 1) into[m]! += line.perMonth
  }
  addDependentCare(plan, span, out)
  return out
}

/** By year: an empty choice is the marketplace plan as far as the law takes any bronze one (26 USC 223(c)(2)(H)). */
const savingsCoverOf = ({ health }: Plan, span: Span): Uint8Array =>
  Uint8Array.from({ length: span.years }, (_, y) => {
    if (health.savingsCover !== undefined) return savingsCoverCode[health.savingsCover]
    const isBronze = health.marketplace.planAt21 === 0 && health.marketplace.countyPlan === 'bronze'
    return isBronze && inForce(bronzeAllowsHsa, span.firstYear + y) === 1
      ? savingsCoverCode.marketplace
      : savingsCoverCode.none
  })

const addDependentCare = (plan: Plan, span: Span, out: CompiledHealth) => {
  for (const child of plan.household.dependents) {
    const { first, end } = monthsAtHome(child, span)
    for (let m = first; m < end; m += 1) out.dependentCare[m]! += plan.health.careEachDependent
  }
}
