// How Medicaid's work requirement stands for an adult in a year: by the hours that the plan gives them on the farm and elsewhere.
import { month } from '#calendar/month.ts'
import { heldEachMonth } from '#farm/seasonal.ts'
import type { Plan } from '#plan/plan.ts'
import { type WorkRequirement, workRequirement } from '#rules/coverage/work-requirement.ts'
import { medicaidByWork, workHoursMonthly, workIncomeMonthly } from '#rules/data/work-requirement.ts'
import { yearsOf } from '#rules/dated.ts'
import { inForce } from '#rules/in-force.ts'
import { isIn, isInSeason } from '#runway/span.ts'
import { type CoveredPerson, type CoverYear, monthsUnder } from './cover-year.ts'

const weeksInMonth = 52 / 12

export interface Work {
  stands: WorkRequirement
  hoursMonthly: number
  /** What is asked where neither age nor a child leaves one out: so many hours, or a household income in dollars. */
  asks: { hoursMonthly: number; incomeMonthly: number }
}

/** Null where Medicaid does not cover this adult in the year by the plan, or asks nothing yet. */
export const workOf = (plan: Plan, cover: CoverYear, person: CoveredPerson): Work | null =>
  person.isChild || monthsUnder(person.cover, 'Medicaid') === 0
    ? null
    : workAt(plan, cover, person, cover.projected.householdIncome)

/** How it would stand for an adult at a household income, dollars a year. */
export const workAt = (
  plan: Plan,
  { year, people }: CoverYear,
  person: CoveredPerson,
  householdIncome: number,
): Work | null => {
  const children = people.filter((one) => one.isChild).map((one) => one.age)
  const hoursMonthly = hoursIn(plan, person.id, year)
  const stands = workRequirement(year, {
    age: person.age,
    hoursMonthly,
    householdIncomeMonthly: householdIncome / 12,
    youngestChild: children.length === 0 ? null : Math.min(...children),
  })
  return (
    stands && {
      stands,
      hoursMonthly,
      asks: {
        hoursMonthly: inForce(workHoursMonthly, year),
        incomeMonthly: inForce(workIncomeMonthly, year),
      },
    }
  )
}

/** Of the adults whom Medicaid would cover at some income of the year. */
export const workInSight = (plan: Plan, cover: CoverYear, householdIncome: number): WorkInSight | null => {
  const asked = cover.people.filter(
    ({ isChild, name }) =>
      !isChild &&
      cover.steps.some((step) => step.people.some((one) => one.name === name && one.kind === 'Medicaid')),
  )
  const people = asked.flatMap((person) => {
    const work = workAt(plan, cover, person, householdIncome)
    return work ? [{ name: person.name, ...work }] : []
  })
  return people.length === 0 ? null : { incomeMonthly: householdIncome / 12, people }
}

export interface WorkInSight {
  incomeMonthly: number
  people: (Work & { name: string })[]
}

/** A state's Medicaid for adults who work, which no income of the plan brings: who could ask for it, and with how many hours. */
export interface MedicaidByWork {
  percent: number
  hours: number
  source: string
  note: string
  people: { name: string; hoursMonthly: number }[]
}

/** Null where the state has none, nobody is of its ages without Medicaid, or the household's income is above it. */
export const medicaidByWorkOf = (
  plan: Plan,
  { year, people }: CoverYear,
  povertyPercent: number,
): MedicaidByWork | null => {
  const law = medicaidByWork[plan.household.place.state ?? '']
  if (law === undefined || year < yearsOf(law).first) return null
  const { from, to, percent, hours } = inForce(law, year)
  const asked = people.filter(
    ({ id, age, cover }) =>
      plan.household.people.some((one) => one.id === id) &&
      age >= from &&
      age <= to &&
      monthsUnder(cover, 'Medicaid') === 0,
  )
  return asked.length === 0 || povertyPercent > percent
    ? null
    : {
        percent,
        hours,
        source: law.source,
        note: law.note ?? '',
        people: asked.map(({ id, name }) => ({ name, hoursMonthly: hoursIn(plan, id, year) })),
      }
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
      months?: readonly number[]
    }[],
  ) =>
    lines
      .filter((line) => line.person === id)
      .reduce((sum, line) => {
        const season = { months: line.months ?? [] }
        const worked = months.filter((at) => isIn(line, at) && isInSeason(season, at))
        return sum + (line.hoursPerWeek * worked.length) / 12
      }, 0)
  const farm = plan.farm.crew
    .filter(({ who }) => who === id)
    .reduce(
      (sum, { weeklyHours }) => sum + heldEachMonth(weeklyHours).reduce((all, one) => all + one, 0) / 12,
      0,
    )
  const { pay, sideVentures } = plan.household
  return (farm + weekly(pay) + weekly(sideVentures)) * weeksInMonth
}
