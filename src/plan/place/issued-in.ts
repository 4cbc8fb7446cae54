// When a marketplace policy is issued to someone in a year: premiums follow the age of that day.
import { type Month, month, parseMonth } from '#calendar/month.ts'
import type { Plan } from '../plan.ts'

/** January, or the month of the year in which the plan lists the person first; January too where it lists them only later, or never. */
export const issuedIn = ({ health }: Pick<Plan, 'health'>, person: string, year: number): Month => {
  const january = month(year, 1)
  const begins = health.marketplace.members
    .filter((one) => one.person === person)
    .map(({ from }) => (from === undefined ? january : Math.max(january, parseMonth(from)!)))
  const first = Math.min(...begins) as Month
  return first <= month(year, 12) ? first : january
}
