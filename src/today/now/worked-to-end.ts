// Work that the plan lets nobody stop: what it brings is counted to the end, when its people are far beyond the age of work.
import { yearIn } from '#calendar/month.ts'
import { allOf } from '#money/lists.ts'
import type { Plan } from '#plan/plan.ts'

export interface WorkedToEnd {
  /** Of pay and side ventures. */
  names: string[]
  /** The farm goes on as it is: no slower year is entered. */
  farm: boolean
  says: string
}

/** By then most have stopped; Social Security adds nothing for waiting beyond it (20 CFR 404.313). */
const workedUntil = 70

/** Null where pay and side ventures have a last month, and the farm a slower year. */
export const workedToEnd = ({ household, farm }: Plan): WorkedToEnd | null => {
  const oldest = household.people.reduce((most, { planToAge }) => Math.max(most, planToAge), 0)
  const works = (id: string | undefined) =>
    household.people.some((one) => (id === undefined || one.id === id) && one.planToAge > workedUntil)
  const lines = [...household.pay.filter(({ kind }) => kind === 'wages'), ...household.sideVentures]
  const names = lines.filter(({ to, person }) => to === undefined && works(person)).map(({ name }) => name)
  const isFarm =
    oldest > workedUntil && farm.phases.length === 0 && farm.enterprises.length + farm.herds.length > 0
  if (names.length === 0 && !isFarm) return null
  const last = household.people.toSorted(
    (a, b) => yearIn(b.born) + b.planToAge - yearIn(a.born) - a.planToAge,
  )[0]!
  const what = [...names.map((name) => `“${name}”`), ...(isFarm ? ['farm work as it is'] : [])]
  const ways = [
    ...(names.length > 0 ? ['a last month under Household'] : []),
    ...(isFarm ? ['a slower year under Slower years'] : []),
  ]
  return {
    names,
    farm: isFarm,
    says: `Work goes on to the end of the plan, when ${last.name} is ${last.planToAge}: ${allOf(what)}. Enter ${allOf(ways)} to count less.`,
  }
}
