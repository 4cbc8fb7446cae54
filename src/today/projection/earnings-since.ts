// The Social Security record goes on while a plan is under way: covered earnings of the years between its start and now.
import { firstDayOf } from '#calendar/day.ts'
import { type Month, month as monthOf, yearOf } from '#calendar/month.ts'
import { spanOfBooks } from '#db/ledger/balances.ts'
import type { Books } from '#db/open.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import type { Person } from '#plan/household-plan.ts'
import type { Plan } from '#plan/plan.ts'
import { selfEmploymentFactor } from '#rules/data/self-employment.ts'
import { inForce } from '#rules/in-force.ts'
import type { ProjectedYear, Projection } from '#runway/project.ts'
import { holdsAllOf, yearIncome } from '#today/tax/books-year.ts'
import { nothingPutIn, putInBetween } from '#today/tax/saved-for.ts'

/** A year that the person's record has already stays as it is there. By the books where they hold the year, else as planned. */
export const peopleNow = (books: Books, saved: Plan, month: Month, baseline: Projection | null): Person[] => {
  const years = baseline?.years.filter(({ year }) => year < yearOf(month)) ?? []
  const earned = years.map((planned) => earnedIn(books, saved, planned))
  const putIn = putInNow(books, saved, month)
  return saved.household.people.map((person, place) => {
    const added = earned.filter(({ year }) => !person.earnings.some((one) => one.year === year))
    return {
      ...person,
      putInSoFar: putIn(person),
      earnings: [
        ...person.earnings,
        ...added.map(({ year, ofEach }) => ({ year, amount: ofEach[place] ?? 0 })),
      ],
    }
  })
}

/** For the year under way by the books; where they begin within the year in which the plan does, with what it says came before. */
const putInNow = (books: Books, saved: Plan, month: Month): ((person: Person) => Person['putInSoFar']) => {
  const year = yearOf(month)
  const january = monthOf(year, 1)
  const start = firstMonthOf(saved)
  const isSaid = yearOf(start) === year && (spanOfBooks(books)?.first ?? month) > january
  const from = firstDayOf((isSaid ? Math.max(start, january) : january) as Month)
  const booked = putInBetween(books, saved, year, from, firstDayOf(month))
  return ({ id, putInSoFar }) => {
    const said = isSaid ? putInSoFar : nothingPutIn
    const since = booked.get(id) ?? nothingPutIn
    return {
      traditional: said.traditional + since.traditional,
      roth: said.roth + since.roth,
      ownPlan: said.ownPlan + since.ownPlan,
      health: said.health + since.health,
    }
  }
}

function earnedIn(books: Books, saved: Plan, planned: ProjectedYear): { year: number; ofEach: number[] } {
  const { year } = planned
  const startsWithin = yearOf(firstMonthOf(saved)) === year && !planned.complete
  const income = holdsAllOf(books, year) || startsWithin ? yearIncome(books, saved, year) : null
  const ofFirst = (part: number, whole: number) => (whole > 0 ? part / whole : 1)
  const wages = income ? income.pay + income.beforeTax.deferred : planned.wages
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
