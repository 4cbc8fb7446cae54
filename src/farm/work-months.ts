// Who does the farm's hours in each month, against what each can give.

import { addMonths, type Month } from '#calendar/month.ts'
import type { CourseRow } from './course-row.ts'
import { runsIn } from './enterprise-months.ts'
import type { Farm } from './farm-document.ts'
import { costOfHour } from './hired-help.ts'
import { heldEachMonth, monthFromText, seasonIndex, spreadOverYear } from './seasonal.ts'
import { emptyWorkDone, shareWork, type WorkDone } from './work-done.ts'

/** Weeks in a mean month: hours a week × this = hours a month. */
export const weeksPerMonth = 365.25 / 12 / 7

interface Worked {
  firstMonth: Month
  monthCount: number
  rows: CourseRow[]
  hours: Float64Array
  marketHours: Float64Array
}

export interface CrewMonths {
  workers: string[]
  hoursNeeded: Float64Array
  /** Of them, the overheads'. */
  overheadHours: Float64Array
  /** Worker-major. Work the plan assigns to someone is theirs; the rest is shared by what each still can give, the overrun with it. */
  hoursByWorker: Float64Array
  hoursAvailable: Float64Array
  /** Hours that the plan gives to hired help by name. */
  hiredByPlan: Float64Array
  /** Hours of help for the season that are paid whatever is needed of them. */
  hiredPromised: Float64Array
  /** What comes of the hours with everyone well and nothing bought, and what is paid for hired ones at their hourly cost, dollars at plan prices (Schedule F line 22). */
  work: WorkDone
  hiredCosts: Float64Array
}

export const crewMonths = (farm: Farm, course: Worked): CrewMonths => {
  const { monthCount } = course
  const workers = [...farm.crew.map((one) => one.who), 'hired']
  const out: CrewMonths = {
    workers,
    hoursNeeded: new Float64Array(monthCount),
    overheadHours: new Float64Array(monthCount),
    hoursByWorker: new Float64Array(workers.length * monthCount),
    hoursAvailable: new Float64Array(workers.length * monthCount),
    hiredByPlan: new Float64Array(monthCount),
    hiredPromised: new Float64Array(monthCount),
    work: emptyWorkDone(monthCount),
    hiredCosts: new Float64Array(monthCount),
  }
  const crew = new Float64Array(monthCount)
  const overheads = farm.overheads.map((one) => ({ runs: runsIn(one), hours: spreadOverYear(one.hours) }))
  const rows = [...farm.enterprises.map((one) => one.hoursBy), ...farm.herds.map(() => ({}))]
  const assigned = rows.map((weights) => shareOf(workers, weights))
  const atMarkets = farm.markets.map(({ hoursBy }) => shareOf(workers, hoursBy))
  const hoursAt = weeklyHours(farm)
  for (let m = 0; m < monthCount; m += 1) {
    const at = addMonths(course.firstMonth, m)
    const available = hoursAt(at).map((hours) => hours * weeksPerMonth)
    const worked = new Array<number>(workers.length).fill(0)
    let open = 0
    for (let row = 0; row < assigned.length; row += 1)
      open += give(course.hours[row * monthCount + m]!, assigned[row]!, worked)
    for (let k = 0; k < atMarkets.length; k += 1)
      open += give(course.marketHours[k * monthCount + m]!, atMarkets[k]!, worked)
    for (const { runs, hours } of overheads) {
      if (!runs(at)) continue
      out.overheadHours[m]! += hours[seasonIndex(at)]!
      open += hours[seasonIndex(at)]!
    }
    out.hiredByPlan[m] = worked[workers.length - 1]!
    if (farm.hired.paid === 'all hours') out.hiredPromised[m] = available[workers.length - 1]!
    out.hoursNeeded[m] = shareOpenHours(open, worked, available)
    for (let k = 0; k < workers.length; k += 1) {
      if (k < workers.length - 1) crew[m]! += available[k]!
      out.hoursByWorker[k * monthCount + m] = worked[k]!
      out.hoursAvailable[k * monthCount + m] = available[k]!
      out.hoursNeeded[m]! += worked[k]!
    }
    if (farm.crew.length === 0) crew[m] = out.hoursNeeded[m]!
  }
  const work = {
    firstMonth: course.firstMonth,
    hours: out.hoursNeeded,
    hiredByPlan: out.hiredByPlan,
    promised: out.hiredPromised,
    hires: hiresHelp(farm),
  }
  shareWork(work, { kept: 1, crew, saved: new Float64Array(monthCount) }, 0, monthCount, out.work)
  out.hiredCosts = out.work.paid.map((hours) => hours * costOfHour(farm.hired))
  return out
}

/** By worker the weight of their share, and all of them together. */
interface Shared {
  weights: number[]
  whole: number
}

const shareOf = (workers: readonly string[], weights: Record<string, number>): Shared => {
  const own = workers.map((who) => weightOf(weights, who))
  return { weights: own, whole: own.reduce((sum, weight) => sum + weight, 0) }
}

/** Adds hours to those whose they are; returns what is nobody's by name. */
const give = (hours: number, { weights, whole }: Shared, worked: number[]): number => {
  if (whole <= 0) return hours
  for (let k = 0; k < worked.length; k += 1) worked[k]! += (hours * weights[k]!) / whole
  return 0
}

/** A plan that hires in any month hires whatever its crew cannot do. */
export const hiresHelp = (farm: Farm): boolean =>
  heldEachMonth(farm.hired.weeklyHours).some((hours) => hours > 0)

/** What a name stands for in a record of weights; 0 for a name it does not hold, whatever the name. */
export const weightOf = (weights: Record<string, number>, who: string): number =>
  Object.hasOwn(weights, who) ? weights[who]! : 0

/** Hours a week each worker can give, hired last; a phase's caps replace the crew's from its month on. */
export const weeklyHoursAt = (farm: Farm, at: Month): number[] => weeklyHours(farm)(at)

/** The same for many months: phases are read once. */
const weeklyHours = (farm: Farm): ((at: Month) => number[]) => {
  const phases = [...farm.phases]
    .sort((a, b) => (a.from < b.from ? -1 : 1))
    .map(({ from, weeklyHours }) => ({ from: monthFromText(from), caps: weeklyHours }))
  const crew = farm.crew.map(({ who, weeklyHours }) => ({ who, hours: heldEachMonth(weeklyHours) }))
  const hired = heldEachMonth(farm.hired.weeklyHours)
  return (at) => {
    const season = seasonIndex(at)
    const cap = (who: string) =>
      phases
        .filter(({ from }) => from <= at)
        .flatMap(({ caps }) => caps.filter((one) => one.who === who))
        .at(-1)?.hours
    return [...crew.map(({ who, hours }) => cap(who) ?? hours[season]!), hired[season]!]
  }
}

/**
 * Crew first, in proportion to free hours; then hired help as far as the plan hires; what is over everyone's hours stays on the
 * crew. With no crew named it is nobody's, and given back: work is never hired that the plan does not hire.
 */
const shareOpenHours = (open: number, worked: number[], available: readonly number[]): number => {
  const crew = worked.length - 1
  const free = available.map((hours, k) => Math.max(0, hours - worked[k]!))
  const freeCrew = free.slice(0, crew).reduce((a, b) => a + b, 0)
  const byCrew = Math.min(open, freeCrew)
  const byHired = Math.min(open - byCrew, free[crew]!)
  const over = open - byCrew - byHired
  for (let k = 0; k < crew; k += 1) {
    worked[k]! += freeCrew > 0 ? (byCrew * free[k]!) / freeCrew : 0
    worked[k]! += over / crew
  }
  worked[crew]! += byHired
  return crew === 0 ? over : 0
}
