// A life event in a line, as the plan lists it.
import { type Day, dayName } from '#calendar/day.ts'
import { nameOfMonth } from '#calendar/month.ts'
import type { Plan } from '../plan.ts'
import type { LifeEvent } from './life-events.ts'

export const eventWords = ({ household }: Plan, event: LifeEvent): string => {
  const nameOf = (id: string) =>
    [...household.people, ...household.dependents].find((one) => one.id === id)?.name ?? id
  switch (event.kind) {
    case 'death':
      return `Death of ${nameOf(event.person)}, ${nameOfMonth(event.month)}`
    case 'separation':
      return `Separation from ${nameOf(event.person)}, ${nameOfMonth(event.month)}`
    case 'birth':
      return `Birth of ${event.name}, ${dayName(event.born as Day)}`
    case 'leaving':
      return `${nameOf(event.child)} leaves home after ${nameOfMonth(event.month)}`
  }
}
