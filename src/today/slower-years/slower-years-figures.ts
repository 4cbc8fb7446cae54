// Works out the Slower years page: phases beside the farm before them, the plan's years, people's ages of change, the split of side income.
import type { Day } from '#calendar/day.ts'
import { addMonths, monthName, monthText } from '#calendar/month.ts'
import { phasesBeside } from '#farm/phase-years.ts'
import type { Plan } from '#plan/plan.ts'
import { birthMonthByLaw, medicareStart } from '#rules/age-by-law.ts'
import { requiredDistributionOf } from '#rules/required-distributions.ts'
import { sideIncomeSplit } from '#runway/side-income-split.ts'
import { savingsAtEnd, slowerYears } from '#solve/slower-years.ts'
import { projectionOf } from '#today/projection/courses.ts'
import type { PersonFigures, SlowerFigures } from './figures.ts'

export const slowerFigures = (
  plan: Plan,
  revision: { planId: string; name: string; revisionNo: number },
  today: Day,
): SlowerFigures => {
  const projection = projectionOf(plan)
  return {
    planName: revision.name,
    planId: revision.planId,
    revisionNo: revision.revisionNo,
    years: slowerYears(plan, projection),
    phases: phasesBeside(
      plan.farm,
      (who) => plan.household.people.find((one) => one.id === who)?.name ?? who,
    ),
    people: plan.household.people.map((person) => personFigures(person)),
    split: sideIncomeSplit(plan, projection.months, Number(today.slice(0, 4))),
    firstSlower: projection.milestones.firstSlowerMonth,
    reserveMonths: plan.savings.reserveMonths,
    savingsAtEnd: savingsAtEnd(projection.months),
  }
}

const personFigures = (person: Plan['household']['people'][number]): PersonFigures => {
  const born = birthMonthByLaw(person.born)
  const bornYear = Number(person.born.slice(0, 4))
  const distributions = requiredDistributionOf(bornYear, bornYear + 60, 0)
  const claimed = addMonths(born, person.claimAge.years * 12 + person.claimAge.months)
  return {
    name: person.name,
    born: person.born,
    claim: `${monthName(claimed)}, at ${person.claimAge.years}${person.claimAge.months ? ` and ${person.claimAge.months} months` : ''}`,
    medicareFrom: monthText(medicareStart(person.born)),
    distributionsFrom: `${distributions.firstYear}, at ${distributions.startAge}`,
  }
}
