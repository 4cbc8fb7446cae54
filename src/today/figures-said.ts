// How figures leave the program, as JSON and in tables: money to the cent, months as text like `2027-04`, shares and rates to a millionth.
import { type Month, monthText } from '#calendar/month.ts'
import { monthMoney, yearMoney } from '#runway/dollars/dollars.ts'

/** The same figures, ready to be written out; parts that are worked out when they are asked for are asked here. */
export const figuresSaid = (figures: unknown, name = ''): unknown => {
  if (typeof figures === 'number') return figureSaid(figures, name)
  if (Array.isArray(figures)) return figures.map((one) => figuresSaid(one, name))
  if (typeof figures !== 'object' || figures === null || 'toJSON' in figures) return figures
  return Object.fromEntries(Object.entries(figures).map(([key, value]) => [key, figuresSaid(value, key)]))
}

/** One figure by the name it stands under. */
export const figureSaid = (value: number, name: string): number | string => {
  if (Number.isInteger(value)) return isMonth(value, name) ? monthText(value as Month) : value
  const toTheCent = money.has(name) || (Math.abs(value) >= 1 && !measures.has(name))
  return rounded(value, toTheCent ? 100 : 1_000_000)
}

const rounded = (value: number, parts: number): number => {
  const near = Math.round(value * parts) / parts
  // Minus nothing is nothing.
  return near === 0 ? 0 : near
}

const money = new Set<string>([...monthMoney, ...yearMoney])

/** No money, and above one as well. */
const measures = new Set(['level', 'coverRatio', 'ratio', 'factor', 'followShare'])

/** Months as the program counts them lie in no range of dollars a month or of counts that a name like these could hold. */
const isMonth = (value: number, name: string): boolean =>
  value >= earliestMonth && value <= latestMonth && (monthNames.has(name) || namedMonth.test(name))

const [earliestMonth, latestMonth] = [1900 * 12, 2299 * 12]

/** `month`, `floorMonth`, and not `perMonth`. */
const namedMonth = /^month$|(?<![pP]er)Month$/

const monthNames = new Set([
  'floorMonthWithoutDraws',
  'carryJudgedTo',
  'runsShort',
  'since',
  'earliest',
  'bought',
  'paidBack',
  'signUpFrom',
  'signUpTo',
  'endsAfter',
  'closedThrough',
  'openBefore',
  'unreadBefore',
  'months',
])
