// Works out the Slower years page: phases beside the farm before them, the plan's years, people's ages of change, the split of side income.

import { type Day, monthOfDay } from '#calendar/day.ts'
import { addMonths, monthName, monthOfYear, monthText, yearIn, yearOf } from '#calendar/month.ts'
import { ageInWords } from '#calendar/spell.ts'
import { keptWith } from '#kept/keeper.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import { isGone } from '#plan/life/lived.ts'
import type { Plan } from '#plan/plan.ts'
import { birthMonthByLaw, medicareStart } from '#rules/age-by-law.ts'
import { requiredDistributionOf } from '#rules/required-distributions.ts'
import { type InsuredYear, insuredYears } from '#runway/benefits/insured-years.ts'
import { type Dollars, pricesIn, todaysDollars } from '#runway/dollars/dollars.ts'
import { sideIncomeSplit } from '#runway/side-income-split.ts'
import { savingsAtEnd, slowerYears } from '#solve/slower-years.ts'
import { projectionIn, projectionOf, rulesOf } from '#today/projection/courses.ts'
import type { PersonFigures, SlowerFigures } from './figures.ts'
import { inheritedPayouts } from './inherited-payouts.ts'
import { phasesIn } from './phases-in.ts'

export const slowerFigures = (
  plan: Plan,
  revision: { planId: string; name: string; revisionNo: number },
  today: Day,
  dollars: Dollars,
): SlowerFigures => {
  const projection = projectionIn(plan, dollars)
  const prices = pricesIn(projectionOf(plan), dollars)
  const thisYear = todaysDollars(today)
  const insured = keptWith(plan, 'insured years', () => insuredYears(plan, rulesOf(plan)))
  return {
    planName: revision.name,
    planId: revision.planId,
    revisionNo: revision.revisionNo,
    years: slowerYears(plan, projection),
    phases: phasesIn(plan, prices),
    people: plan.household.people.flatMap((person, place) =>
      isGone(plan, person.id, monthOfDay(today)) ? [] : [personFigures(plan, place, insured[place] ?? null)],
    ),
    inherited: inheritedPayouts(plan),
    // Beside the limits of this year's law, and so in its dollars whichever are shown elsewhere.
    split: sideIncomeSplit(
      plan,
      projectionIn(plan, thisYear).months,
      yearIn(today),
      pricesIn(projectionOf(plan), thisYear).ofFirst(thisYear.month),
    ),
    firstSlower: projection.milestones.firstSlowerMonth,
    reserveMonths: plan.savings.reserveMonths,
    savingsAtEnd: savingsAtEnd(projection.months),
  }
}

const personFigures = (plan: Plan, place: number, insured: InsuredYear | null): PersonFigures => {
  const person = plan.household.people[place]!
  const born = birthMonthByLaw(person.born)
  const bornYear = yearIn(person.born)
  const distributions = requiredDistributionOf(bornYear, bornYear + 60, 0)
  const claimed = addMonths(born, person.claimAge.years * 12 + person.claimAge.months)
  return {
    place,
    name: person.name,
    born: person.born,
    claim: `${monthName(claimed)}, at ${ageInWords(person.claimAge)}`,
    lacksQuarters:
      insured === null || insured.quarters >= insured.needed
        ? null
        : { claims: monthName(claimed), ...insured },
    medicareFrom: monthText(medicareStart(person.born)),
    distributionsFrom: `${distributions.firstYear}, at ${distributions.startAge}${takenBefore(plan, person.id, distributions.firstYear)}`,
  }
}

/** A projection that begins within a year does not take what that year requires: the balance it goes by was last year's. */
const takenBefore = (plan: Plan, owner: string, firstYear: number): string => {
  const first = firstMonthOf(plan)
  const year = yearOf(first)
  if (monthOfYear(first) === 1 || year < firstYear) return ''
  const holds = plan.savings.accounts.some(
    (one) =>
      one.kind === 'traditional' &&
      one.inherited === undefined &&
      one.balance > 0 &&
      (one.owner ?? plan.household.people[0]?.id) === owner,
  )
  return holds
    ? `. What ${year} requires counts as taken before ${monthName(first)}: take it by the end of the year if it was not`
    : ''
}
