// Whether all of the farm fits as it grows: stock, markets, places, land, feed and hours, season by season over the years of the plan.
import { type Month, monthText } from '#calendar/month.ts'
import type { Farm } from '#farm/farm-document.ts'
import { inStepCheck, type StepDollars, type StepMeasure } from '#farm/in-step.ts'

export interface FitRow {
  measure: StepMeasure
  name: string
  unit: string
  /** Four to a year, winter first. */
  seasons: { year: number; season: string; needed: number; room: number; isOver: boolean }[]
  /** The first season in which more is needed than there is. */
  firstOver: { year: number; season: string } | null
}

/** `bought`: the months in which the plan buys what waits for cash; null where it never does. */
export const fitYears = (
  farm: Farm,
  firstYear: number,
  years: number,
  bought: ReadonlyMap<string, Month | null>,
  dollarsOf?: (year: number) => StepDollars,
): FitRow[] => {
  const asBought = withPurchases(farm, bought)
  const rows = new Map<string, FitRow>()
  for (let year = firstYear; year < firstYear + years; year += 1)
    for (const { measure, name, unit, seasons } of inStepCheck(asBought, year, dollarsOf?.(year))) {
      const key = `${measure} ${name}`
      const row = rows.get(key) ?? { measure, name, unit, seasons: [], firstOver: null }
      rows.set(key, row)
      for (const { season, needed, room, over } of seasons) {
        const isOver = over > 0.005 * Math.max(1, room)
        row.seasons.push({ year, season, needed, room, isOver })
        if (isOver) row.firstOver ??= { year, season }
      }
    }
  return [...rows.values()]
}

/** What waits for cash is bought, and gives its room, when the plan’s cash allows. */
const withPurchases = (farm: Farm, bought: ReadonlyMap<string, Month | null>): Farm => ({
  ...farm,
  purchases: farm.purchases.flatMap((one) => {
    const at = bought.get(one.id)
    if (one.timing === 'dated' || at === undefined) return [one]
    return at === null ? [] : [{ ...one, timing: 'dated' as const, month: monthText(at) }]
  }),
})
