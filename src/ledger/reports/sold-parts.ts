// A thing of which parts were sold while the rest stayed: what each part takes of its amounts, and how it goes on being written off.
import { type Day, lastDayOfYear } from '#calendar/day.ts'
import { yearIn } from '#calendar/month.ts'
import { allocate } from '#money/allocate.ts'
import { type Cents, cents, centsToDollars, dollarsToCents, sumCents, zeroCents } from '#money/cents.ts'
import type { AssetSchedule } from '#rules/depreciation/schedule.ts'
import { type Holding, heldOn } from './holding.ts'
import type { DatedValue } from './market-values.ts'

/**
 * The thing as it stands on a day: parts that are gone by then, the first gone first, and the rest under the thing's own id. Amounts
 * follow the quantity (26 CFR 1.61-6(a): of a part sold, the basis is apportioned); all parts add to the whole, cent by cent, and a
 * part sold later leaves those of before as they were.
 */
export const inParts = (thing: Holding, by: Day): Holding[] => {
  const { parts = [], ...whole } = thing
  const gone = parts.filter(({ disposedDay }) => disposedDay <= by).toSorted(inOrder)
  if (gone.length === 0) return [whole]
  const quantities = [...gone.map(({ quantity }) => quantity), quantityLeft({ ...thing, parts: gone })]
  const { depreciation, writtenOffBefore } = whole
  const costs = amongParts(whole.costCents, quantities)
  const atOnce = amongParts(depreciation?.section179Cents ?? zeroCents, quantities)
  const returned = amongParts(writtenOffBefore?.amountCents ?? zeroCents, quantities)
  return quantities.map((quantity, i) => ({
    ...whole,
    quantity,
    costCents: costs[i]!,
    depreciation: depreciation && { ...depreciation, section179Cents: atOnce[i]! },
    writtenOffBefore: writtenOffBefore ? { ...writtenOffBefore, amountCents: returned[i]! } : null,
    partOf: { holdingId: whole.id, quantity: whole.quantity },
    ...(i < gone.length
      ? {
          id: gone[i]!.id,
          disposedDay: gone[i]!.disposedDay,
          disposedForCents: gone[i]!.disposedForCents,
        }
      : {}),
  }))
}

/** Of what a thing was, what no sold part has; to a millionth, for quantities like a tenth of an acre. */
export const quantityLeft = ({ quantity, parts = [] }: Pick<Holding, 'quantity' | 'parts'>): number =>
  Math.round((quantity - parts.reduce((sum, part) => sum + part.quantity, 0)) * 1e6) / 1e6

/** One after the other, so that what comes later moves nothing of what went before. */
export const amongParts = (total: Cents, quantities: readonly number[]): Cents[] => {
  let left = total
  return quantities.map((quantity, i) => {
    const rest = quantities.slice(i + 1).reduce((sum, one) => sum + one, 0)
    const part = allocate(left, [quantity, rest])[0]!
    left = cents(left - part)
    return part
  })
}

/** Values of the thing a day, as those of its parts: each value is of what was there on its day. By the part's id. */
export const valuesInParts = (
  members: readonly Holding[],
  values: readonly DatedValue[],
): Map<string, DatedValue[]> => {
  const found = new Map<string, DatedValue[]>(members.map(({ id }) => [id, []]))
  for (const value of values) {
    const there = members.filter((one) => value.day === null || heldOn(one, value.day))
    // Valued on a day on which nothing of it was there any more, it is of the rest.
    const of = there.length === 0 ? members.slice(-1) : there
    const parts = amongParts(
      value.amountCents,
      of.map(({ quantity }) => quantity),
    )
    of.forEach(({ id }, i) => {
      found.get(id)!.push({ ...value, amountCents: parts[i]! })
    })
  }
  return found
}

/** Things of which parts were sold later than in their first year of use, each as it was before, by its parts in order. */
export const dividedThings = (
  holdings: readonly Holding[],
): { whole: Holding; parts: readonly Holding[] }[] => {
  const families = new Map<string, Holding[]>()
  for (const one of holdings) {
    if (!one.partOf || isSoldInFirstYear(one)) continue
    const { holdingId } = one.partOf
    families.set(holdingId, [...(families.get(holdingId) ?? []), one])
  }
  return [...families.values()]
    .filter((parts) => parts.length > 1)
    .map((parts) => {
      const sorted = parts.toSorted(inOrderOfParts)
      return { whole: joined(sorted), parts: sorted }
    })
}

const joined = (parts: readonly Holding[]): Holding => {
  const last = parts.at(-1)!
  const sumOf = (of: (part: Holding) => Cents) => sumCents(parts.map(of))
  return {
    ...last,
    id: last.partOf!.holdingId,
    quantity: parts.reduce((sum, { quantity }) => sum + quantity, 0),
    costCents: sumOf(({ costCents }) => costCents),
    loweredCents: sumOf(({ loweredCents }) => loweredCents ?? zeroCents),
    depreciation: {
      ...last.depreciation!,
      section179Cents: sumOf(({ depreciation }) => depreciation?.section179Cents ?? zeroCents),
    },
    writtenOffBefore: last.writtenOffBefore
      ? {
          ...last.writtenOffBefore,
          amountCents: sumOf(({ writtenOffBefore }) => writtenOffBefore?.amountCents ?? zeroCents),
        }
      : null,
    disposedDay: null,
    disposedForCents: null,
  }
}

/**
 * How the parts are written off: until a part is sold, as its share of what the whole was, so that no year of before changes by a cent;
 * in the year of its sale as a thing of its own cost would be. `alone`: each part's schedule by itself. By the part's id.
 */
export const partSchedules = (
  { whole, parts }: { whole: AssetSchedule; parts: readonly Holding[] },
  alone: (id: string) => AssetSchedule,
  years: readonly number[],
): Map<string, AssetSchedule> => {
  const quantities = parts.map(({ quantity }) => quantity)
  const shared = (dollars: number) => amongParts(dollarsToCents(dollars), quantities)
  let sum = zeroCents
  const upTo = whole.deductions.map((amount) => {
    sum = cents(sum + dollarsToCents(amount))
    return amongParts(sum, quantities)
  })
  const atOnce = shared(whole.section179)
  const bonus = shared(whole.bonus)
  const byTable = shared(whole.returned?.byTable ?? 0)
  const returned = shared(whole.returned?.amount ?? 0)
  return new Map(
    parts.map((part, i) => {
      const own = alone(part.id)
      const soldIn = part.disposedDay === null ? Number.POSITIVE_INFINITY : yearIn(part.disposedDay)
      const deductions = years.map((year, k) => {
        const before = k === 0 ? zeroCents : upTo[k - 1]![i]!
        if (year < soldIn) return centsToDollars(cents(upTo[k]![i]! - before))
        if (year > soldIn) return 0
        const left = Math.max(0, dollarsToCents(own.cost) - before)
        return centsToDollars(cents(Math.min(left, dollarsToCents(own.deductions[k]!))))
      })
      return [
        part.id,
        {
          ...whole,
          name: own.name,
          cost: own.cost,
          section179: centsToDollars(atOnce[i]!),
          bonus: centsToDollars(bonus[i]!),
          deductions,
          returned: whole.returned && {
            ...whole.returned,
            amount: centsToDollars(returned[i]!),
            byTable: centsToDollars(byTable[i]!),
          },
        },
      ]
    }),
  )
}

const isSoldInFirstYear = ({ disposedDay, inServiceDay, acquiredDay }: Holding): boolean =>
  disposedDay !== null && yearIn(disposedDay) === yearIn(inServiceDay ?? acquiredDay)

const inOrder = (a: { disposedDay: Day; id: string }, b: { disposedDay: Day; id: string }): number =>
  a.disposedDay < b.disposedDay || (a.disposedDay === b.disposedDay && a.id < b.id) ? -1 : 1

/** The rest comes last, whenever it was sold. */
const inOrderOfParts = (a: Holding, b: Holding): number => {
  const isRest = ({ id, partOf }: Holding) => partOf?.holdingId === id
  if (isRest(a) !== isRest(b)) return isRest(a) ? 1 : -1
  const dayOf = (one: Holding) => ({ id: one.id, disposedDay: one.disposedDay ?? lastDayOfYear(9999) })
  return inOrder(dayOf(a), dayOf(b))
}
