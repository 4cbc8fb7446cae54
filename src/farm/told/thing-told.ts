// What a market or a herd of a form comes to in a usual year, by the months that the plan runs on.
import { monthNames } from '#calendar/month.ts'
import { type Herd, herdSchema } from '#farm/herd/herd-document.ts'
import { ratesOf } from '#farm/herd/herd-rates.ts'
import { lessKill } from '#farm/herd/meat.ts'
import { firstSales } from '#farm/herd/sale-age.ts'
import { inSpecies, speciesWords } from '#farm/herd/species-words.ts'
import { marketSchema } from '#farm/line-document.ts'
import { femaleYear, usualMarketYear } from './year-told.ts'

/** Null where nothing can be said: no limit, no hours. */
export interface ThingTold {
  label: string
  unit: 'dollars' | 'number' | 'months'
  value: number | null
}

/** Dollars at the plan's first prices, of a whole year as it runs: without growth, seat or steps. Null while a field is wrong. */
export const marketTold = (typed: unknown): ThingTold[] | null => {
  const read = marketSchema.safeParse(withName(typed))
  if (!read.success) return null
  const months = usualMarketYear(read.data)
  const isOpen = Math.max(...[read.data.salesPerTrip].flat()) >= noLimit
  const [trips, costs, hours] = [sum(months.trips), sum(months.costs), sum(months.hours)]
  const sells = isOpen ? null : sum(months.capacity)
  return [
    { label: 'Trips in a year', unit: 'number', value: trips },
    { label: 'They sell at most', unit: 'dollars', value: sells },
    { label: 'Fees and miles', unit: 'dollars', value: costs },
    { label: 'Hours', unit: 'number', value: hours },
    {
      label: 'An hour there leaves at most',
      unit: 'dollars',
      value: sells === null || hours === 0 ? null : (sells - costs) / hours,
    },
  ]
}

/** The schema's own default: no limit. */
const noLimit = 1_000_000

/** Of one breeding female once the herd stands at its limit. Null while a field is wrong, or of a herd that dies out. */
export const herdTold = (typed: unknown): ThingTold[] | null => {
  const read = herdSchema.safeParse(withName(typed))
  if (!read.success) return null
  const herd = read.data
  const limit = Math.max(herd.carryingLimit, 1)
  const one = femaleYear(herd, limit)
  if (one === null) return null
  const { ready, sales: brings, costs, hours } = one
  const young = youngOf(herd)
  const told: ThingTold[] = [
    { label: `${young} to sell, of a breeding female in a year`, unit: 'number', value: ready },
    { label: herd.meat ? `She brings, ${lessKill}` : 'She brings', unit: 'dollars', value: brings },
    { label: 'Costs, less culls', unit: 'dollars', value: costs },
    { label: 'Leaves', unit: 'dollars', value: brings - costs },
    {
      label: 'An hour leaves',
      unit: 'dollars',
      value: hours > 0 ? (brings - costs) / hours : null,
    },
    ...firstSales(ratesOf(herd)).map(
      ({ birth, sale, age }): ThingTold => ({
        label: `${young} of ${monthNames[birth - 1]} are first sold in ${monthNames[sale - 1]}, at an age of`,
        unit: 'months',
        value: age,
      }),
    ),
  ]
  return told.map((each) => ({ ...each, label: inSpecies(each.label, herd.kind) }))
}

const youngOf = ({ kind }: Herd): string =>
  speciesWords[kind].sold[1].replace(/^./, (letter) => letter.toUpperCase())

/** A new one may have neither name nor short name yet. */
const withName = (typed: unknown): object => {
  const value = typed as { id?: string; name?: string }
  return { ...value, id: value.id || 'new', name: value.name || 'new' }
}

const sum = (values: ArrayLike<number>): number => Array.from(values).reduce((a, b) => a + b, 0)
