// Stock in the place of stock sold because of weather: the gain put off then lowers what it counts for, by cost where it is several.
import { yearIn } from '#calendar/month.ts'
import { allocate } from '#money/allocate.ts'
import { type Cents, sumCents, zeroCents } from '#money/cents.ts'
import { amongParts } from '../reports/sold-parts.ts'
import { type Holding, stockInventory } from '../reports/stock-inventory.ts'
import type { FarmSaid } from './form-said.ts'
import { propertySales } from './property-sales.ts'

/** `saidOf` tells what was said of a year: what stock in the place of a sold one costs. */
export const withGainsPutOff = (
  holdings: readonly Holding[],
  saidOf: (year: number) => Pick<FarmSaid, 'replaced'>,
): Holding[] => {
  const named = new Set(holdings.flatMap(({ depreciation }) => depreciation?.takesPlaceOf ?? []))
  const years = holdings
    .filter(({ id, disposedDay }) => named.has(id) && disposedDay !== null)
    .map(({ disposedDay }) => yearIn(disposedDay!))
  // What was sold may itself have stood in the place of another: year after year, so that each gain is by the cost lowered before.
  return [...new Set(years)]
    .sort((a, b) => a - b)
    .reduce<Holding[]>(
      (known, year) => {
        const { replaced } = saidOf(year)
        const { sales } = propertySales(stockInventory(known, year), zeroCents, replaced)
        return sales.reduce(
          (all, { holdingId, putOffCents }) =>
            putOffCents > 0 && holdingId !== null ? lowered(all, holdingId, putOffCents) : all,
          known,
        )
      },
      [...holdings],
    )
}

const lowered = (holdings: Holding[], soldId: string, putOffCents: Cents): Holding[] => {
  const isIn = (one: Holding) => one.depreciation?.takesPlaceOf === soldId && one.costCents > 0
  const things = new Map<string, Holding[]>()
  for (const one of holdings.filter(isIn)) {
    const id = one.partOf?.holdingId ?? one.id
    things.set(id, [...(things.get(id) ?? []), one])
  }
  const costs = [...things.values()].map((parts) => sumCents(parts.map(({ costCents }) => costCents)))
  const all = sumCents(costs)
  if (all === 0) return holdings
  // Bought for less than the gain put off: no cost goes below nothing, and the rest waits for more stock.
  const ofThings = allocate(Math.min(putOffCents, all) as Cents, costs)
  // Of what was sold in part, by its parts: one sold later leaves those of before as they were.
  const ofParts = new Map(
    [...things.values()].flatMap((parts, i) =>
      amongParts(
        ofThings[i]!,
        parts.map(({ quantity }) => quantity),
      ).map((cents, k) => [parts[k]!.id, cents] as const),
    ),
  )
  return holdings.map((one) => (isIn(one) ? { ...one, loweredCents: ofParts.get(one.id)! } : one))
}
