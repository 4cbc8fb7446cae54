// Who does the farm's hours in each month, against what each can give.

import { addMonths, type Month } from '#calendar/month.ts'
import type { CourseRow } from './course-row.ts'
import { runsAt } from './enterprise-months.ts'
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
  /** What comes of the hours with everyone well and nothing bought, and the hired ones at their hourly cost, dollars at plan prices (Schedule F line 22). */
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
    work: emptyWorkDone(monthCount),
    hiredCosts: new Float64Array(monthCount),
  }
  const crew = new Float64Array(monthCount)
  const overheads = farm.overheads.map((one) => ({ one, hours: spreadOverYear(one.hours) }))
  const assigned = [...farm.enterprises.map((one) => one.hoursBy), ...farm.herds.map(() => ({}))]
  for (let m = 0; m < monthCount; m += 1) {
    const at = addMonths(course.firstMonth, m)
    const available = weeklyHoursAt(farm, at).map((hours) => hours * weeksPerMonth)
    const worked = new Array<number>(workers.length).fill(0)
    let open = 0
    const give = (hours: number, weights: Record<string, number>) => {
      const whole = workers.reduce((sum, who) => sum + weightOf(weights, who), 0)
      if (whole <= 0) open += hours
      else
        workers.forEach((who, k) => {
          worked[k]! += (hours * weightOf(weights, who)) / whole
        })
    }
    assigned.forEach((weights, row) => {
      give(course.hours[row * monthCount + m]!, weights)
    })
    farm.markets.forEach((market, k) => {
      give(course.marketHours[k * monthCount + m]!, market.hoursBy)
    })
    for (const { one, hours } of overheads) {
      if (!runsAt(one, at)) continue
      out.overheadHours[m]! += hours[seasonIndex(at)]!
      give(hours[seasonIndex(at)]!, {})
    }
    out.hiredByPlan[m] = worked[workers.length - 1]!
    out.hoursNeeded[m] = shareOpenHours(open, worked, available)
    crew[m] = available.slice(0, -1).reduce((sum, hours) => sum + hours, 0)
    worked.forEach((hours, k) => {
      out.hoursByWorker[k * monthCount + m] = hours
      out.hoursAvailable[k * monthCount + m] = available[k]!
      out.hoursNeeded[m]! += hours
    })
    if (farm.crew.length === 0) crew[m] = out.hoursNeeded[m]!
  }
  const work = {
    firstMonth: course.firstMonth,
    hours: out.hoursNeeded,
    hiredByPlan: out.hiredByPlan,
    hires: hiresHelp(farm),
  }
  shareWork(work, { kept: 1, crew, saved: new Float64Array(monthCount) }, 0, monthCount, out.work)
  out.hiredCosts = out.work.hired.map((hours) => hours * costOfHour(farm.hired))
  return out
}

/** A plan that hires in any month hires whatever its crew cannot do. */
export const hiresHelp = (farm: Farm): boolean =>
  heldEachMonth(farm.hired.weeklyHours).some((hours) => hours > 0)

/** What a name stands for in a record of weights; 0 for a name it does not hold, whatever the name. */
export const weightOf = (weights: Record<string, number>, who: string): number =>
  Object.hasOwn(weights, who) ? weights[who]! : 0

/** Hours a week each worker can give, hired last; a phase's caps replace the crew's from its month on. */
export const weeklyHoursAt = (farm: Farm, at: Month): number[] => {
  const season = seasonIndex(at)
  const caps = new Map<string, number>()
  for (const phase of [...farm.phases].sort((a, b) => (a.from < b.from ? -1 : 1))) {
    if (monthFromText(phase.from) > at) continue
    for (const one of phase.weeklyHours) caps.set(one.who, one.hours)
  }
  return [
    ...farm.crew.map((one) => caps.get(one.who) ?? heldEachMonth(one.weeklyHours)[season]!),
    heldEachMonth(farm.hired.weeklyHours)[season]!,
  ]
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
