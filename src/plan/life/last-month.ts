// The last month of a plan, and of each person in it.
import { type Day, monthOfDay } from '#calendar/day.ts'
import { type Month, parseMonth } from '#calendar/month.ts'
import type { Plan } from '../plan.ts'

/** That in which the last of its people reaches the planned age (or `untilAge`); a plan without people has its own number of years. */
export const lastMonthOf = ({ household, startMonth, years }: Plan, untilAge?: number): Month =>
  (household.people.length === 0
    ? parseMonth(startMonth)! + years * 12 - 1
    : Math.max(...household.people.map((one) => lastMonthOfPerson(one, untilAge)))) as Month

/** That of the birthday. */
export const lastMonthOfPerson = (
  { born, planToAge }: { born: string; planToAge: number },
  untilAge = planToAge,
): Month => (monthOfDay(born as Day) + untilAge * 12) as Month
