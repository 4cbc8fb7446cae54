// What the plan's state takes in its first whole year, and what has to be said beside that figure.

import { monthOfYear } from '#calendar/month.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import type { Plan } from '#plan/plan.ts'
import { stateLawOf } from '#plan/state-law.ts'
import { stateNames } from '#rules/places/state-names.ts'
import { stateCautions } from '#rules/states/state-return.ts'
import { projectionOf } from '#today/projection/courses.ts'

export interface StateTaxFigures {
  /** Null where somebody typed the rates. */
  name: string | null
  year: number
  /** Net of refundable credits: below zero the state pays. */
  dollars: number
  notes: readonly string[]
}

/** Null where the plan counts no state tax. */
export const stateTaxFigures = (plan: Plan): StateTaxFigures | null => {
  const { years } = projectionOf(plan)
  const first = years[monthOfYear(firstMonthOf(plan)) === 1 ? 0 : 1] ?? years[0]
  if (first === undefined) return null
  const law = stateLawOf(plan, first.year)
  if (law === null || plan.tax.method !== 'law') return null
  return {
    name: law.state === null ? null : stateNames[law.state],
    year: first.year,
    dollars: first.stateTax,
    notes: stateCautions(law, {
      propertyTax: plan.household.place.propertyTax ?? 0,
      rent: plan.household.place.rent ?? 0,
    }),
  }
}
