// Who is in a plan, and when they were born: adults of an age to plan, children younger than their parents and still at home.
import { ageOn, type Day, firstDayOf } from '#calendar/day.ts'
import { monthName, parseMonth, yearIn } from '#calendar/month.ts'
import { formatDollars } from '#money/format.ts'
import { earnedCreditChildBelow } from '#rules/data/credits.ts'
import { inForce } from '#rules/in-force.ts'
import {
  benefitBirthYear,
  earliestClaimAgeMonths,
  fullRetirementAgeMonths,
} from '#rules/social-security/claim-factors.ts'
import { mostMonthlyBenefit } from '#rules/social-security/most-benefit.ts'
import type { Doubt } from '../doubt.ts'
import type { Path } from '../form/shape.ts'
import { atHomeUntilAge, isRelative } from '../life/lived.ts'
import type { Plan } from '../plan.ts'

export const peopleDoubts = (plan: Plan, today: string): Doubt[] => [
  ...outlived(plan),
  ...adults(plan, today),
  ...children(plan, today),
  ...statements(plan),
]

const beginsOn = ({ startMonth }: Plan): Day => firstDayOf(parseMonth(startMonth)!)

/** A plan runs until the last of its people reaches the age it is made to: nobody has that behind them as it begins. */
const outlived = (plan: Plan): Doubt[] => {
  const begins = beginsOn(plan)
  const { people } = plan.household
  const isOver = people.every(({ born, planToAge }) => ageOn(born as Day, begins) > planToAge)
  return isOver
    ? people.map(({ name, planToAge }, place) => ({
        path: ['household', 'people', place, 'planToAge'],
        message: `${name} is past ${planToAge} when the plan begins. Plan to a higher age, or correct the date of birth`,
      }))
    : []
}

const youngestAdult = 16
const oldestAdult = 110

const adults = (plan: Plan, today: string): Doubt[] =>
  plan.household.people.flatMap(({ name, born }, place): Doubt[] => {
    const path = ['household', 'people', place, 'born']
    const year = born.slice(0, 4)
    if (born > today)
      return [
        {
          path,
          message: `${name} is an adult of the plan and cannot be born in ${year}. Children have their own list`,
        },
      ]
    const age = ageOn(born as Day, beginsOn(plan))
    return age > oldestAdult || age < youngestAdult
      ? [
          {
            path,
            message: `${name}, born in ${year}, would be ${age} as the plan begins. Is that so?`,
            asks: true,
          },
        ]
      : []
  })

/** More than who earned the whole taxable base of every year is paid: a yearly amount, or a slip of the hand. */
const statements = ({ household, startMonth }: Plan): Doubt[] =>
  household.people.flatMap(({ name, born, statementBenefit, statementAt }, place): Doubt[] => {
    if (statementBenefit === undefined) return []
    const bornYear = benefitBirthYear(born as Day)
    const age =
      statementAt === 'full'
        ? fullRetirementAgeMonths(bornYear)
        : statementAt === '62'
          ? earliestClaimAgeMonths(born as Day)
          : Number(statementAt) * 12
    const most = mostMonthlyBenefit(bornYear, age, yearIn(startMonth))
    return most === null || statementBenefit <= most
      ? []
      : [
          {
            path: ['household', 'people', place, 'statementBenefit'],
            message: `${name}: at most about ${formatDollars(most)} a month can be paid to one worker at that age. Is it a month’s amount, in today’s dollars?`,
            asks: true,
          },
        ]
  })

/** Years from a parent's birth to a child's, below which a date is more likely a slip. */
const youngestParent = 12
/** Years from today within which a child to come can be planned. */
const birthToCome = 10

const studentBelow = inForce(earnedCreditChildBelow, Number.POSITIVE_INFINITY).student

/** Past it nobody can be at home as a child: `untilAge` goes no further. */
const oldestChild = 30

type Dependent = Plan['household']['dependents'][number]

const relative = (one: Dependent, age: number, at: (field: string) => Path): Doubt[] => {
  if (age < grownAt)
    return [
      {
        path: at('born'),
        message: `${one.name}, born in ${one.born.slice(0, 4)}, is ${age < 0 ? 'not yet born' : age} as the plan begins. A child at home is entered as a child; is this an adult relative?`,
        asks: true,
      },
    ]
  const last = atHomeUntilAge(one)
  return age >= last
    ? [
        {
          path: at('planToAge'),
          message: `${one.name} is ${age} when the plan begins. Plan to a higher age than ${last}, or correct the date of birth`,
        },
      ]
    : []
}

const grownAt = inForce(earnedCreditChildBelow, Number.POSITIVE_INFINITY).child

const children = (plan: Plan, today: string): Doubt[] => {
  const { people, dependents } = plan.household
  const begins = beginsOn(plan)
  const oldest = people.map(({ born }) => born).toSorted()[0]
  return dependents.flatMap((one, place): Doubt[] => {
    const { name, born, untilAge } = one
    const at = (field: string): Path => ['household', 'dependents', place, field]
    if (isRelative(one)) return relative(one, ageOn(born as Day, begins), at)
    if (ageOn(born as Day, begins) > oldestChild)
      return [
        {
          path: at('born'),
          message: `${name}, born in ${born.slice(0, 4)}, is no child and would count nowhere. Correct the date, or enter a relative whom you support, like a parent, as an adult relative`,
        },
      ]
    if (oldest !== undefined && ageOn(oldest as Day, born as Day) < youngestParent)
      return [
        {
          path: at('born'),
          message: `${name}, born in ${born.slice(0, 4)}, is hardly younger than the adults of the plan. Is that the date?`,
          asks: true,
        },
      ]
    if (ageOn(born as Day, begins) >= untilAge)
      return [
        {
          path: at('untilAge'),
          message: `${name} is ${untilAge} or older when the plan begins (${monthName(parseMonth(plan.startMonth)!)}), so counts nowhere in it.${ageOn(born as Day, begins) < studentBelow ? ' A full-time student whom you support counts until 24: say so instead.' : ''} Is that so?`,
          asks: true,
        },
      ]
    return ageOn(today as Day, born as Day) >= birthToCome
      ? [
          {
            path: at('born'),
            message: `${born.slice(0, 4)} is a long time ahead. Is that the year?`,
            asks: true,
          },
        ]
      : []
  })
}
