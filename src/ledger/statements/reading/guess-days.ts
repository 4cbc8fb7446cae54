// In which order a file writes day, month and year; where two orders fit, the likelier one and a question.

import { type Day, dayName, dayNumber } from '#calendar/day.ts'
import { fromTo } from '#calendar/spell.ts'
import { anyOf } from '#money/lists.ts'
import { type DayOrder, orderWritten, readDay } from './written-amount.ts'

/** Month first where nothing tells, as US banks write. */
const preferred: readonly DayOrder[] = ['month-day-year', 'day-month-year', 'year-month-day']

/** `isWritten`: the dates tell their order by themselves. */
export const guessDays = (
  texts: readonly string[],
): { order: DayOrder; doubt: string | null; isWritten: boolean } => {
  const filled = texts.filter((text) => text !== '')
  const written = orderOfAll(filled)
  return written === null
    ? { ...likeliest(filled), isWritten: false }
    : { order: written, doubt: null, isWritten: true }
}

const orderOfAll = (filled: readonly string[]): DayOrder | null => {
  const orders = new Set(filled.map(orderWritten))
  const [only] = orders
  return orders.size === 1 && only ? only : null
}

const likeliest = (filled: readonly string[]): { order: DayOrder; doubt: string | null } => {
  const fitting = preferred.flatMap((order) => {
    const days = filled.map((text) => readDay(text, order))
    return days.every((day) => day !== null) ? [{ order, days }] : []
  })
  const [first, ...others] = fitting
    // The same days in every order are one reading.
    .filter(({ days }, index) => fitting.findIndex((each) => same(each.days, days)) === index)
    .sort((one, other) => unlikely(one.days) - unlikely(other.days))
  if (!first) return { order: preferred[0]!, doubt: null }
  return {
    order: first.order,
    doubt:
      others.length === 0
        ? null
        : `Dates like ${filled[0]} can be read in more than one way. They are taken as ${spanSaid(first.days)}, not as ${anyOf(
            others.map((each) => spanSaid(each.days)),
          )}.`,
  }
}

const same = (some: readonly Day[], others: readonly Day[]): boolean =>
  some.every((day, index) => day === others[index])

/** Days over which the file would run; a file whose days would go back and forth counts ten times as much. */
const unlikely = (days: readonly Day[]): number => {
  const numbers = days.map(dayNumber)
  const steps = numbers.slice(1).map((number, index) => number - numbers[index]!)
  const runsOneWay = steps.every((step) => step >= 0) || steps.every((step) => step <= 0)
  return (Math.max(...numbers) - Math.min(...numbers)) * (runsOneWay ? 1 : 10)
}

const spanSaid = (days: readonly Day[]): string => {
  const sorted = [...days].sort()
  const [first, last] = [sorted[0]!, sorted.at(-1)!]
  return fromTo(dayName(first), dayName(last))
}
