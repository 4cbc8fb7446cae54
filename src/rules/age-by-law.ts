// Ages as the law of Social Security and Medicare counts them: an age is reached on the day before the birthday.
import { type Day, day, monthOfDay } from '#calendar/day.ts'
import { addMonths, type Month } from '#calendar/month.ts'
import { medicareAge } from './data/medicare.ts'
import { inForce } from './in-force.ts'

/** The month from which ages are counted: someone born on the first of a month is a month ahead (42 USC 1395o). */
export const birthMonthByLaw = (born: Day | string): Month =>
  addMonths(monthOfDay(day(born)), born.endsWith('-01') ? -1 : 0)

/** First month of Medicare: the month in which 65 is reached by law. */
export const medicareStart = (born: Day | string): Month =>
  addMonths(birthMonthByLaw(born), inForce(medicareAge, Number.POSITIVE_INFINITY) * 12)
