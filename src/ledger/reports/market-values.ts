// Market values with the day each was found, at the level that was valued: an account as a whole, or one thing kept under it.
import type { Day } from '#calendar/day.ts'
import { isCash } from '#ledger/account.ts'
import { allocate } from '#money/allocate.ts'
import { type Cents, cents, sumCents, zeroCents } from '#money/cents.ts'
import type { AccountYear } from './book-year.ts'

export interface DatedValue {
  /** Null for a value of earlier books, which did not ask for its day: it counts until there is one with a day. */
  day: Day | null
  amountCents: Cents
}

/** A thing of the inventory on the day of a balance sheet, or one that is gone by then and stands in its account still. */
export interface HeldThing {
  id: string
  name: string
  accountId: number | null
  costCents: Cents
  /** Depreciation by the schedule up to that day. */
  deductedCents: Cents
  /** Can wear out, and nobody said yet how it is written off: booked depreciation that no schedule explains may be of it. */
  isUntold: boolean
  /** All of its values, those of later days too. */
  values: readonly DatedValue[]
  /** The day it went: its value is then nothing. */
  goneOn: Day | null
}

/** The newest value on or before a day, one without a day last; null when there is none. */
export const valueOn = (values: readonly DatedValue[], on: Day): DatedValue | null =>
  values.reduce<DatedValue | null>(
    (newest, value) =>
      (value.day ?? '') <= on && (newest === null || (value.day ?? '') > (newest.day ?? '')) ? value : newest,
    null,
  )

export interface ValuedAccount {
  marketCents: Cents
  /** Day of the newest value in it; null where the books’ own value stands, or no day is known. */
  valuedOn: Day | null
}

/** What the asset accounts of a side are worth at market on a day, by account id. */
export const marketOfAccounts = (
  rows: readonly { row: AccountYear; balanceCents: Cents }[],
  recorded: ReadonlyMap<number, DatedValue>,
  things: readonly HeldThing[],
  on: Day,
): Map<number, ValuedAccount> => {
  const worth = new Map(
    rows.map(({ row, balanceCents }) => {
      const { id } = row.account
      const under = things.filter(({ accountId }) => accountId === id)
      return [id, accountMarket(balanceCents, recorded.get(id) ?? null, under, on)] as const
    }),
  )
  const contras = rows.filter(
    ({ row, balanceCents }) => balanceCents < 0 && !isCash(row.account) && !recorded.has(row.account.id),
  )
  const back = releasedDepreciation(contras, recorded, things, on)
  contras.forEach(({ row, balanceCents }, at) => {
    worth.set(row.account.id, { marketCents: cents(balanceCents + (back[at] ?? 0)), valuedOn: null })
  })
  return worth
}

/** A value of the whole account goes before those of its things, unless one of these is newer: then it takes its thing's place in it. */
const accountMarket = (
  balanceCents: Cents,
  own: DatedValue | null,
  under: readonly HeldThing[],
  on: Day,
): ValuedAccount => {
  const valued = under.flatMap((thing) => {
    const value = valueOn(thing.values, on)
    return value && (own === null || (value.day ?? '') > (own.day ?? '')) ? [{ thing, value }] : []
  })
  const days = [
    ...valued.filter(({ thing }) => thing.goneOn === null).map(({ value }) => value.day),
    own?.day ?? null,
  ].filter((day) => day !== null)
  const valuedOn = days.toSorted().at(-1) ?? null
  if (valued.length === 0) return { marketCents: own?.amountCents ?? balanceCents, valuedOn }
  const then = ({ thing }: (typeof valued)[number]) =>
    own?.day ? (valueOn(thing.values, own.day)?.amountCents ?? thing.costCents) : thing.costCents
  const rest = Math.max(0, (own?.amountCents ?? balanceCents) - sumCents(valued.map(then)))
  return { marketCents: cents(rest + sumCents(valued.map(({ value }) => value.amountCents))), valuedOn }
}

/**
 * A market value is what a thing would fetch as it is, so the depreciation of what was valued, and of nothing else, no longer counts.
 * How much of the booked depreciation that is, the schedule says; where the books hold less than the schedule, in that proportion.
 * What they hold beyond it is of the things whose writing off is not told yet, by their cost.
 */
const releasedDepreciation = (
  contras: readonly { balanceCents: Cents }[],
  recorded: ReadonlyMap<number, DatedValue>,
  things: readonly HeldThing[],
  on: Day,
): Cents[] => {
  const bookedCents = -sumCents(contras.map(({ balanceCents }) => balanceCents))
  const scheduled = sumCents(things.map(({ deductedCents }) => deductedCents))
  const isValued = ({ accountId, values }: HeldThing) =>
    accountId !== null && (recorded.has(accountId) || valueOn(values, on) !== null)
  const ofValued = sumCents(things.filter(isValued).map(({ deductedCents }) => deductedCents))
  const ofSchedule = bookedCents < scheduled ? Math.round((bookedCents * ofValued) / scheduled) : ofValued
  const share = ofSchedule + ofUntold(things, cents(Math.max(0, bookedCents - scheduled)), isValued)
  if (bookedCents === 0 || share === 0) return contras.map(() => zeroCents)
  return allocate(
    cents(Math.min(share, bookedCents)),
    contras.map(({ balanceCents }) => -balanceCents),
  )
}

const ofUntold = (
  things: readonly HeldThing[],
  beyondCents: Cents,
  isValued: (thing: HeldThing) => boolean,
): Cents => {
  const untold = things.filter((thing) => thing.isUntold)
  const cost = (of: readonly HeldThing[]) => sumCents(of.map(({ costCents }) => costCents))
  const all = cost(untold)
  const ofAll = Math.min(beyondCents, all)
  return all === 0 ? zeroCents : cents(Math.round((ofAll * cost(untold.filter(isValued))) / all))
}
