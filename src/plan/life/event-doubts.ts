// What a life event can hold and a life cannot, or hardly: outside the plan's months, of a name that is taken, or of a sum beyond
// all that is paid.
import { type Month, monthName, parseMonth } from '#calendar/month.ts'
import { formatDollars } from '#money/format.ts'
import type { Doubt } from '../doubt.ts'
import type { Plan } from '../plan.ts'
import { lastMonthOf, lastMonthOfPerson } from './last-month.ts'
import type { LifeEvent } from './life-events.ts'
import { atHomeUntilAge, departureOf, lastMonthAtHome, lived } from './lived.ts'

export const eventDoubts = (plan: Plan): Doubt[] =>
  plan.events.flatMap((event, place) => [
    ...outsidePlan(plan, event, place),
    ...takenName(plan, event, place),
    ...motherGone(plan, event, place),
    ...beyondAllPaid(plan, event, place),
    ...beyondAllSaved(plan, event, place),
  ])

const nameOf = ({ household }: Plan, event: LifeEvent): string => {
  if (event.kind === 'birth') return event.name
  const id = event.kind === 'leaving' ? event.child : event.person
  return [...household.people, ...household.dependents].find((one) => one.id === id)?.name ?? id
}

const outsidePlan = (plan: Plan, event: LifeEvent, place: number): Doubt[] => {
  const isBirth = event.kind === 'birth'
  const at = parseMonth(isBirth ? event.born.slice(0, 7) : event.month)!
  const first = parseMonth(plan.startMonth)!
  const last = lastOf(plan, event)
  const refused = (why: string): Doubt[] => [
    {
      path: ['events', place, isBirth ? 'born' : 'month'],
      message: `${nameOf(plan, event)}, ${monthName(at)}: ${why}`,
    },
  ]
  if (at < first)
    return refused(
      `before the plan begins (${monthName(first)}). ${isBirth ? 'Enter the child under Household' : 'Choose a later month'}`,
    )
  return at > last.month
    ? refused(`${last.says} ${monthName(last.month)}. Choose that month or an earlier one`)
    : []
}

/** The last month in which the event means anything, and why. */
const lastOf = (plan: Plan, event: LifeEvent): { month: Month; says: string } => {
  const { people, dependents } = plan.household
  const end = { month: lastMonthOf(plan), says: 'the plan ends with' }
  if (event.kind === 'birth') return end
  if (event.kind === 'leaving') {
    const child = dependents.find(({ id }) => id === event.child)
    const home = child ? lastMonthAtHome(child) : end.month
    return home < end.month
      ? { month: home, says: `at home until age ${atHomeUntilAge(child!)} in any case, so until` }
      : end
  }
  const person = people.find(({ id }) => id === event.person)
  return person
    ? { month: lastMonthOfPerson(person), says: `in the plan to age ${person.planToAge}, so until` }
    : end
}

/** Pages call children by their names alone. */
const takenName = ({ household, events }: Plan, event: LifeEvent, place: number): Doubt[] => {
  if (event.kind !== 'birth') return []
  const others = [
    ...household.people,
    ...household.dependents,
    ...events.slice(0, place).filter((other) => other.kind === 'birth'),
  ]
  return others.some(({ name }) => plain(name) === plain(event.name))
    ? [
        {
          path: ['events', place, 'name'],
          message: `“${event.name}” is in the plan already. Choose another name, or change that one`,
        },
      ]
    : []
}

/** A child is in this household's costs, coverage and taxes only where it lives here. */
const motherGone = (plan: Plan, event: LifeEvent, place: number): Doubt[] => {
  if (event.kind !== 'birth' || event.mother === undefined) return []
  const gone = departureOf(plan, event.mother)
  const at = parseMonth(event.born.slice(0, 7))!
  if (gone === null || gone.month > at) return []
  const mother = plan.household.people.find(({ id }) => id === event.mother)?.name ?? event.mother
  const path = ['events', place, 'mother']
  const left = `${event.name}, ${monthName(at)}: ${mother} is no longer in the household from ${monthName(gone.month)} on`
  return gone.kind === 'death'
    ? [{ path, message: `${left}. Choose another day, or for an adoption name no mother` }]
    : [
        {
          path,
          message: `${left}. Does the child live in this home? If it lives in the other one, remove the birth`,
          asks: true,
        },
      ]
}

const plain = (name: string): string => name.trim().toLowerCase()

/** Dollars a month for one child that are asked about in no house, whatever else it pays. */
const ordinary = 1000

const beyondAllPaid = (plan: Plan, event: LifeEvent, place: number): Doubt[] => {
  const before = lived({ ...plan, events: plan.events.slice(0, place) })
  const living = monthly(before.household.living)
  const ask = (field: string, amount: number, most: number, all: string): Doubt[] =>
    amount <= most
      ? []
      : [
          {
            path: ['events', place, field],
            message: `${nameOf(plan, event)}: ${formatDollars(amount)} a month is more than ${all}, ${formatDollars(most)}. Is that so?`,
            asks: true,
          },
        ]
  if (event.kind === 'birth')
    return living >= ordinary
      ? ask('perMonth', event.perMonth, living, 'all living costs so far')
      : ask('perMonth', event.perMonth, ordinary, 'a child costs in most houses')
  if (event.kind === 'leaving') return ask('lessPerMonth', event.lessPerMonth, living, 'all living costs')
  return ask(
    'lessPremium',
    event.lessPremium,
    monthly(before.health.premiums),
    'all premiums outside the marketplace',
  )
}

/** What is paid at once comes out of savings; what leaves with whoever goes is no part of them. */
const beyondAllSaved = ({ household, savings }: Plan, event: LifeEvent, place: number): Doubt[] => {
  if (event.kind !== 'death' && event.kind !== 'separation') return []
  const isApart = event.kind === 'separation'
  const [field, amount] = isApart ? ['takes', event.takes] : ['cost', event.cost]
  const name = household.people.find(({ id }) => id === event.person)?.name ?? event.person
  const held = savings.accounts
    .filter(({ owner }) => !isApart || owner !== event.person)
    .reduce((sum, { balance }) => sum + balance, 0)
  const all = isApart
    ? `all that the plan begins with beside ${name}’s own accounts`
    : 'all savings that the plan begins with'
  return amount <= held
    ? []
    : [
        {
          path: ['events', place, field],
          message: `${name}: ${formatDollars(amount)} is more than ${all}, ${formatDollars(held)}. Is that so?`,
          asks: true,
        },
      ]
}

const monthly = (lines: readonly { perMonth: number }[]): number =>
  lines.reduce((sum, { perMonth }) => sum + perMonth, 0)
