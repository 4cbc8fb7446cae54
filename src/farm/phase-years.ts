// The phases of the slower years beside the farm before them: hours, net, scales, trips, what is leased out and what is sold.
import { addMonths, type Month, month, monthName, monthOfYear, parseMonth, yearOf } from '#calendar/month.ts'
import { type FarmCourse, farmCourse } from './course.ts'
import type { Farm, Phase } from './farm-document.ts'
import { type FarmYear, yearOfCourse } from './farm-year.ts'
import { unitOfRow } from './herd/unit-of-row.ts'
import { weeksPerMonth } from './work-months.ts'

export interface PhaseBeside {
  index: number
  from: string
  name: string
  weeklyHours: { name: string; hours: number }[]
  /** Hours a week the phase's farm asks for in its busiest month, and what its people can give then. */
  busiest: { month: string; needed: number | null; available: number }
  /** The settled year that is told of it, and the last whole one before it. */
  year: number
  yearBefore: number
  /** Net farm cash of these years with what land leased out brings, and that by itself. */
  net: number
  netBefore: number
  lease: number
  leaseBefore: number
  /** Hours worked. Null where work runs and none of it says its hours: they are not known, and not none. */
  hours: number | null
  hoursBefore: number | null
  /** Names of what runs before or in it and says no hours. */
  withoutHours: string[]
  scales: { name: string; unit: string; before: number; value: number }[]
  trips: { name: string; before: number; value: number }[]
  landLeasedOut: number
  leaseAYear: number
  sales: { name: string; price: number; basis: number }[]
  /** Breeding stock sold as it begins, and what that brings: no part of a settled year. */
  wound: { name: string; heads: number; brings: number }[]
}

/**
 * Every phase in order, its first settled year beside the last whole year before it. A year is settled when it is whole and what the phase
 * sells of its stock lies behind it, unless the next phase has begun by then. `nameOf` names the people, `asGrown` is what a plan makes of a course. */
export const phasesBeside = (
  farm: Farm,
  nameOf: (who: string) => string,
  asGrown: (course: FarmCourse) => FarmCourse = (course) => course,
): PhaseBeside[] => {
  const sorted = [...farm.phases].sort((a, b) => (a.from < b.from ? -1 : 1))
  if (sorted.length === 0) return []
  const firstYear = yearOf(parseMonth(sorted[0]!.from)!) - 1
  const lastYear = yearOf(parseMonth(sorted.at(-1)!.from)!) + 2
  const course = asGrown(farmCourse(farm, month(firstYear, 1), (lastYear - firstYear + 1) * 12))
  return sorted.map((phase, k) => besideBefore(farm, phase, sorted[k + 1], course, nameOf))
}

const besideBefore = (
  farm: Farm,
  phase: Phase,
  next: Phase | undefined,
  course: FarmCourse,
  nameOf: (who: string) => string,
): PhaseBeside => {
  const from = parseMonth(phase.from)!
  const wound = woundDown(farm, phase, course)
  const year = settledYear(
    from,
    wound.some(({ heads }) => heads >= 0.5),
    next,
  )
  const [now, before] = [yearOfCourse(course, year), yearOfCourse(course, yearOf(from) - 1)]
  const at = month(year, 7) - course.firstMonth
  const wasAt = month(yearOf(from) - 1, 7) - course.firstMonth
  const silent = (of: number) =>
    course.rows.filter(
      (_, row) => ranIn(course, row, of, course.units) && !ranIn(course, row, of, course.hours),
    )
  const hoursOf = (of: FarmYear) => (of.hours > 0 || silent(of.year).length === 0 ? of.worked : null)
  const withoutHours = new Set([...silent(before.year), ...silent(year)].map(({ name }) => name))
  return {
    index: farm.phases.indexOf(phase),
    from: phase.from,
    name: phase.name,
    weeklyHours: phase.weeklyHours.map(({ who, hours }) => ({ name: nameOf(who), hours })),
    busiest: {
      ...busiestMonth(course, month(year, 1)),
      ...(hoursOf(now) === null ? { needed: null } : {}),
    },
    year,
    yearBefore: before.year,
    lease: now.leaseIncome,
    leaseBefore: before.leaseIncome,
    net: now.net + now.leaseIncome,
    netBefore: before.net + before.leaseIncome,
    hours: hoursOf(now),
    hoursBefore: hoursOf(before),
    withoutHours: [...withoutHours],
    scales: course.rows.map((row, r) => ({
      name: row.name,
      unit: unitOfRow(farm, r),
      before: course.units[r * course.monthCount + wasAt]!,
      value: course.units[r * course.monthCount + at]!,
    })),
    trips: course.markets.map((market, k) => ({
      name: market.name,
      before: tripsIn(course, k, yearOf(from) - 1),
      value: tripsIn(course, k, year),
    })),
    landLeasedOut: phase.landLeasedOut,
    leaseAYear: phase.landLeasedOut * phase.leasePerAcreAndYear,
    sales: phase.sales,
    wound,
  }
}

/** Sold within its first months, for herds whose limit it sets. */
const woundDown = (farm: Farm, phase: Phase, course: FarmCourse): PhaseBeside['wound'] =>
  farm.herds.flatMap((herd, h) => {
    if (!phase.herdLimits.some((limit) => limit.herd === herd.id)) return []
    const start = parseMonth(phase.from)! - course.firstMonth
    const row = course.rows.findIndex(({ id, kind }) => kind === 'herd' && id === herd.id)
    const overFirst = (months: Float64Array) =>
      months.subarray(start, start + monthsOfSale).reduce((a, b) => a + b, 0)
    const culls = course.culls.subarray(row * course.monthCount, (row + 1) * course.monthCount)
    return [{ name: herd.name, heads: overFirst(course.herds[h]!.culledHeads), brings: overFirst(culls) }]
  })

const monthsOfSale = 3

const settledYear = (from: Month, sellsStock: boolean, next: Phase | undefined): number => {
  const whole = monthOfYear(from) === 1 ? yearOf(from) : yearOf(from) + 1
  const settled = sellsStock ? Math.max(whole, yearOf(addMonths(from, monthsOfSale - 1)) + 1) : whole
  const isNext = next !== undefined && parseMonth(next.from)! < month(settled + 1, 1)
  return isNext ? whole : settled
}

/** Whether a row has any of it in a calendar year: units, or hours. */
const ranIn = (course: FarmCourse, row: number, year: number, values: Float64Array): boolean => {
  const from = row * course.monthCount + (month(year, 1) - course.firstMonth)
  return values.subarray(from, from + 12).some((value) => value > 0)
}

const tripsIn = (course: FarmCourse, market: number, year: number): number => {
  const from = market * course.monthCount + (month(year, 1) - course.firstMonth)
  return course.marketTrips.subarray(from, from + 12).reduce((a, b) => a + b, 0)
}

const busiestMonth = (course: FarmCourse, from: Month): PhaseBeside['busiest'] => {
  const start = from - course.firstMonth
  const available = (m: number) =>
    course.workers.reduce((sum, _, worker) => sum + course.hoursAvailable[worker * course.monthCount + m]!, 0)
  const over = (m: number) => course.hoursNeeded[m]! - available(m)
  let found = start
  for (let m = start; m < start + 12; m += 1) if (over(m) > over(found)) found = m
  return {
    month: monthName(addMonths(course.firstMonth, found)),
    needed: course.hoursNeeded[found]! / weeksPerMonth,
    available: available(found) / weeksPerMonth,
  }
}
