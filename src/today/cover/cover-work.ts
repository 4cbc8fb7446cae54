// How Medicaid's work requirement stands for an adult in a year: by the hours that the plan gives them on the farm and elsewhere.
import { month } from '#calendar/month.ts'
import { heldEachMonth } from '#farm/seasonal.ts'
import type { Plan } from '#plan/plan.ts'
import { type WorkRequirement, workRequirement } from '#rules/coverage/work-requirement.ts'
import { isIn } from '#runway/span.ts'
import type { CoveredPerson, CoverYear } from './cover-years.ts'

const weeksInMonth = 52 / 12

export const workOf = (
  plan: Plan,
  { year, people, projected }: CoverYear,
  person: CoveredPerson,
): { stands: WorkRequirement; hoursMonthly: number } | null => {
  if (person.isChild || (person.months.Medicaid ?? 0) === 0) return null
  const children = people.filter((one) => one.isChild).map((one) => one.age)
  const hoursMonthly = hoursIn(plan, person.id, year)
  const stands = workRequirement(year, {
    age: person.age,
    hoursMonthly,
    householdIncomeMonthly: projected.householdIncome / 12,
    youngestChild: children.length === 0 ? null : Math.min(...children),
  })
  return stands && { stands, hoursMonthly }
}

/** Hours a month of the year’s mean: the farm’s, pay’s and those of side ventures. */
const hoursIn = (plan: Plan, id: string, year: number): number => {
  const months = Array.from({ length: 12 }, (_, k) => month(year, k + 1))
  const weekly = (
    lines: readonly {
      person?: string | undefined
      hoursPerWeek: number
      from?: string | undefined
      to?: string | undefined
    }[],
  ) =>
    lines
      .filter((line) => line.person === id)
      .reduce((sum, line) => sum + (line.hoursPerWeek * months.filter((at) => isIn(line, at)).length) / 12, 0)
  const farm = plan.farm.crew
    .filter(({ who }) => who === id)
    .reduce(
      (sum, { weeklyHours }) => sum + heldEachMonth(weeklyHours).reduce((all, one) => all + one, 0) / 12,
      0,
    )
  const { pay, sideVentures } = plan.household
  return (farm + weekly(pay) + weekly(sideVentures)) * weeksInMonth
}
