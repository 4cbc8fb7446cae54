// What cannot be of a life event, said at its field.
import type { LifeEvent } from './life-events.ts'

interface Born {
  id: string
  name: string
  born: string
}

/** Of a plan, what life events speak of. */
interface Lives {
  household: { people: readonly Born[]; dependants: readonly Born[] }
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
  const gone = events.findIndex((other) => 'person' in other)
  if (gone < place)
    return 'One of the two is gone already by another event. Take that one out first, or change it'
  return null
}

const motherFault = ({ household: { people } }: Lives, mother: string | undefined): string | null =>
  mother === undefined || people.some(({ id }) => id === mother)
    ? null
    : `No adult of the plan is called ${mother}. Choose one of: ${listed(people)}`

function childFault({ household, events }: Lives, place: number): string | null {
  const event = events[place]!
  if (event.kind !== 'leaving') return null
  const one = household.dependants.find(({ id }) => id === event.child)
  if (!one)
    return `No child of the plan is called ${event.child}. Choose one of: ${listed(household.dependants)}`
  const isSecond =
    events.findIndex((other) => other.kind === 'leaving' && other.child === event.child) < place
  return isSecond ? `${one.name} leaves home by another event already. Change that one` : null
}

const beforeBirth = ({ household }: Lives, id: string, month: string): string | null => {
  const one = [...household.people, ...household.dependants].find((person) => person.id === id)
  return one && month < one.born.slice(0, 7) ? `${one.name} was not born yet. Enter a later month` : null
}

const listed = (people: readonly { id: string }[]): string =>
  people.map(({ id }) => id).join(', ') || 'enter them under Household first'
