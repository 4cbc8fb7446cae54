// The Social Security record goes on while a plan is under way: covered earnings of the years between its start and now.
import { type Month, parseMonth, yearOf } from '#calendar/month.ts'
import type { Books } from '#db/open.ts'
import type { Person } from '#plan/household-plan.ts'
import type { Plan } from '#plan/plan.ts'
import { selfEmploymentFactor } from '#rules/data/self-employment.ts'
import { inForce } from '#rules/in-force.ts'
import type { ProjectedYear, Projection } from '#runway/project.ts'
import { holdsAllOf, yearIncome } from '#today/tax/books-year.ts'

/** A year that the person's record has already stays as it is there. By the books where they hold the year, else as planned. */
export const peopleNow = (books: Books, saved: Plan, month: Month, baseline: Projection | null): Person[] => {
  const years = baseline?.years.filter(({ year }) => year < yearOf(month)) ?? []
  const earned = years.map((planned) => earnedIn(books, saved, planned))
  return saved.household.people.map((person, place) => {
    const added = earned.filter(({ year }) => !person.earnings.some((one) => one.year === year))
    return {
      ...person,
      earnings: [
        ...person.earnings,
        ...added.map(({ year, ofEach }) => ({ year, amount: ofEach[place] ?? 0 })),
      ],
    }
  })
}

function earnedIn(books: Books, saved: Plan, planned: ProjectedYear): { year: number; ofEach: number[] } {
  const { year } = planned
  const startsWithin = yearOf(parseMonth(saved.startMonth)!) === year && !planned.complete
  const income = holdsAllOf(books, year) || startsWithin ? yearIncome(books, saved, year) : null
  const ofFirst = (part: number, whole: number) => (whole > 0 ? part / whole : 1)
  const wages = income?.pay ?? planned.wages
  const side = income?.ventureProfit ?? planned.sideProfit
  const farm = income?.farmProfit ?? planned.farmProfit
  const shares = saved.household.people.map((person) => person.farmWorkShare)
  const whole = shares.reduce((a, b) => a + b, 0)
  const factor = inForce(selfEmploymentFactor, year)
  const ofEach = saved.household.people.map((_, place) => {
    const part = (first: number) => (place === 0 ? first : 1 - first)
    const wagesPart = part(ofFirst(planned.wagesOfFirst, planned.wages))
    const sidePart = part(ofFirst(planned.sideProfitOfFirst, planned.sideProfit))
    const farmPart = whole > 0 ? shares[place]! / whole : 1 / shares.length
    return wages * wagesPart + Math.max(0, farm * farmPart + side * sidePart) * factor
  })
  return { year, ofEach }
}
