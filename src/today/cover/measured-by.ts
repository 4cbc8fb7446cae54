// How Medicaid measures a year's household: by which poverty level, how many people, and what of its income ended before the plan.
import type { Plan } from '#plan/plan.ts'
import { measureFor, plainMeasure } from '#rules/coverage/measure.ts'
import { householdSize } from '#rules/household-year.ts'
import type { LawYear } from '#rules/law.ts'
import { programPovertyLine } from '#rules/marketplace/premium-credit.ts'
import type { ProjectedYear, Projection } from '#runway/project.ts'
import type { RunwayRules } from '#runway/runway-rules.ts'
import { peopleOfYear } from './cover-household.ts'
import type { YearMonths } from './cover-steps.ts'

type Measured = Pick<
  YearMonths,
  'measure' | 'householdSize' | 'behindPercent' | 'childrenBehindPercent' | 'yearBehindPercent'
>
type Behind = Pick<Projection, 'incomeBehind' | 'premiumsAdded'>
export const nothingBehind: Behind = { incomeBehind: 0, premiumsAdded: 0 }

export const measuredBy = (
  plan: Plan,
  rules: RunwayRules,
  { year, signers }: ProjectedYear,
  { incomeBehind, premiumsAdded }: Behind,
): Measured => {
  const household = { ...peopleOfYear(plan, year), people: signers }
  const size = householdSize(household)
  if (year < rules.firstYear)
    return {
      measure: plainMeasure,
      householdSize: size,
      behindPercent: 0,
      childrenBehindPercent: 0,
      yearBehindPercent: 0,
    }
  const law = rules.lawFor(year)
  const percentOf = (dollars: number) => percentOfLevel(plan, law, { year, signers }, dollars)
  // The year's income has premiums of those months taken off, that of a month ahead has not.
  const behindPercent = percentOf(incomeBehind - premiumsAdded)
  return {
    measure: measureFor(law, household.region, size, plan.household.place.state ?? ''),
    householdSize: size,
    behindPercent,
    childrenBehindPercent: behindPercent,
    yearBehindPercent: 0,
  }
}

/** In percent of the level by which Medicaid measures the household of the year's return. */
export const percentOfLevel = (
  plan: Plan,
  law: LawYear | null,
  { year, signers }: Pick<ProjectedYear, 'year' | 'signers'>,
  dollars: number,
): number => {
  if (law === null) return 0
  const household = { ...peopleOfYear(plan, year), people: signers }
  return (dollars * 100) / programPovertyLine(law, household.region, householdSize(household))
}
