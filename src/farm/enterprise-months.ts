// One enterprise month by month: units in force, what it offers for sale, what it costs and how long it takes.
import { addMonths, type Month } from '#calendar/month.ts'
import type { Enterprise, Farm } from './farm-document.ts'
import { monthFromText, seasonIndex, spreadOverYear, stepInForce } from './seasonal.ts'

export interface EnterpriseMonths {
  units: Float64Array
  /** Dollars at plan prices before any market's capacity. */
  offered: Float64Array
  costs: Float64Array
  hours: Float64Array
}

export const enterpriseMonths = (
  farm: Farm,
  enterprise: Enterprise,
  firstMonth: Month,
  monthCount: number,
): EnterpriseMonths => {
  const steps = [...enterprise.scaleSteps, ...phaseScales(farm, enterprise.id)]
  const sales = spreadOverYear(enterprise.salesPerUnit)
  const costs = spreadOverYear(enterprise.costsPerUnit)
  const hours = spreadOverYear(enterprise.hoursPerUnit)
  const row = () => new Float64Array(monthCount)
  const out = { units: row(), offered: row(), costs: row(), hours: row() }
  const runs = runsIn(enterprise)
  const shareAt = shareOfFullSales(enterprise)
  for (let m = 0; m < monthCount; m += 1) {
    const at = addMonths(firstMonth, m)
    if (!runs(at)) continue
    const units = steps.length === 0 ? enterprise.scale : stepInForce(enterprise.scale, steps, at)
    const season = seasonIndex(at)
    out.units[m] = units
    out.offered[m] = units * sales[season]! * shareAt(at)
    out.costs[m] = units * costs[season]!
    out.hours[m] = units * hours[season]!
  }
  return out
}

const phaseScales = (farm: Farm, id: string) =>
  farm.phases.flatMap((phase) =>
    phase.scales
      .filter((one) => one.enterprise === id)
      .map((one) => ({ from: phase.from, value: one.value })),
  )

/** Whether a thing with a first and a last month runs in one. */
export const runsIn = (thing: {
  start?: string | undefined
  end?: string | undefined
}): ((at: Month) => boolean) => {
  const start = thing.start === undefined ? Number.NEGATIVE_INFINITY : monthFromText(thing.start)
  const end = thing.end === undefined ? Number.POSITIVE_INFINITY : monthFromText(thing.end)
  return (at) => at >= start && at <= end
}

/** Nothing while it starts up, then the build-up's share by year, then all. */
const shareOfFullSales = ({ start, startUpMonths, buildUp }: Enterprise): ((at: Month) => number) => {
  if (start === undefined) return () => 1
  const sells = monthFromText(start) + startUpMonths
  return (at) => (at < sells ? 0 : (buildUp[Math.floor((at - sells) / 12)] ?? 1))
}
