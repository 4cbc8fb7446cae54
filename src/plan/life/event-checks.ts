// What cannot be of a life event, said at its field.
import type { LifeEvent } from './life-events.ts'

interface Born {
  id: string
  name: string
  born: string
}

/** Of a plan, what life events speak of. */
interface Lives {
  household: { people: readonly Born[]; dependents: readonly Born[] }
  events: readonly LifeEvent[]
}

interface Finding {
  path: (string | number)[]
  message: string
}

export const eventFindings = (plan: Lives): Finding[] =>
  plan.events.flatMap((event, place) => {
    const at = (field: string, message: string | null): Finding[] =>
      message === null ? [] : [{ path: ['events', place, field], message }]
    if (event.kind === 'birth') return at('mother', motherFault(plan, event.mother))
    if (event.kind === 'leaving')
      return at('child', childFault(plan, place)).concat(
        at('month', beforeBirth(plan, event.child, event.month)),
      )
    return at('person', adultFault(plan, place)).concat(
      at('month', beforeBirth(plan, event.person, event.month)),
    )
  })

function adultFault({ household, events }: Lives, place: number): string | null {
  const event = events[place]!
  if (!('person' in event)) return null
  const { people } = household
  const one = people.find(({ id }) => id === event.person)
  if (!one) return `No adult of the plan is called ${event.person}. Choose one of: ${listed(people)}`
  if (people.length < 2)
    return `${one.name} is the only adult of the plan, which ends with that age. Change “Plan to age” in its place`
  const before = events.slice(0, place).filter((other) => 'person' in other)
  if (before.some((other) => other.person === event.person))
    return `${one.name} is gone by another event already. Change that one, or remove it`
  return before.some((other) => !canBoth(other, event))
    ? 'Nobody is left to part from in that month: the other one is gone by another event. Change the months, or take one out'
    : null
}

type OfAdult = Extract<LifeEvent, { person: string }>

/** A death may follow on a death or a separation; nobody parts from someone who has died or left. */
const canBoth = (one: OfAdult, other: OfAdult): boolean => {
  if (one.kind === 'death' && other.kind === 'death') return true
  if (one.kind === other.kind) return false
  const [death, separation] = one.kind === 'death' ? [one, other] : [other, one]
  return separation.month <= death.month
}

const motherFault = ({ household: { people } }: Lives, mother: string | undefined): string | null =>
  mother === undefined || people.some(({ id }) => id === mother)
    ? null
    : `No adult of the plan is called ${mother}. Choose one of: ${listed(people)}`

function childFault({ household, events }: Lives, place: number): string | null {
  const event = events[place]!
  if (event.kind !== 'leaving') return null
  const one = household.dependents.find(({ id }) => id === event.child)
  if (!one)
    return `No child of the plan is called ${event.child}. Choose one of: ${listed(household.dependents)}`
  const isSecond =
    events.findIndex((other) => other.kind === 'leaving' && other.child === event.child) < place
  return isSecond ? `${one.name} leaves home by another event already. Change that one` : null
}

const beforeBirth = ({ household }: Lives, id: string, month: string): string | null => {
  const one = [...household.people, ...household.dependents].find((person) => person.id === id)
  return one && month < one.born.slice(0, 7) ? `${one.name} was not born yet. Enter a later month` : null
}

const listed = (people: readonly { id: string }[]): string =>
  people.map(({ id }) => id).join(', ') || 'enter them under Household first'
