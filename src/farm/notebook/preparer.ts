// What the notebook tells the preparer of a year: miles by trip and odometer, hired hours and pay, goods used at home and bartered.
import type { Day } from '#calendar/day.ts'
import type { HerdKind } from '#farm/herd/herd-document.ts'
import { type Cents, cents, sumCents } from '#money/cents.ts'
import { Decimal } from '#money/decimal.ts'
import type { GoodsKind, GoodsState, HeadClass, TripKind } from './kinds.ts'

export interface YearNotes {
  trips: readonly {
    day: Day
    kind: TripKind
    vehicle: string
    miles: number | null
    odometer: number | null
    purpose: string
  }[]
  marketDays: readonly { day: Day; market: string; miles: number | null }[]
  hired: readonly { person: string; minutes: number; payCents: Cents | null }[]
  herds: readonly HerdHeads[]
  goods: readonly {
    day: Day
    kind: GoodsKind
    what: string
    quantity: number
    unit: string
    unitPriceCents: Cents | null
    tradedFor: string
    state: GoodsState
  }[]
}

/** Heads of a herd at the end of the year before and of this one (or today), by class. */
export interface HerdHeads {
  herd: string
  kind: HerdKind
  began: Partial<Record<HeadClass, number>> | null
  ended: Partial<Record<HeadClass, number>> | null
  /** When heads of it were counted last, by the end; null where they only came and went. */
  countedOn: Day | null
}

/** What a head is to tax: breeding stock goes to Form 4797, what is raised or bought for sale to Schedule F (IRS Pub. 225). */
export const isBreedingStock = (headClass: HeadClass): boolean => headClass !== 'young'

export interface PreparerNotes {
  herds: readonly HerdHeads[]

  /** Trips for the farm, market days among them, oldest first. */
  trips: { day: Day; where: string; vehicle: string; miles: number }[]
  farmMiles: number
  /** What each odometer showed first and last in the year: all miles of the vehicle, the family's with them. */
  odometers: { vehicle: string; first: number; last: number; driven: number }[]
  hired: { person: string; minutes: number; payCents: Cents; hasUnpaid: boolean }[]
  goods: { kind: GoodsKind; day: Day; says: string; valueCents: Cents | null; isBooked: boolean }[]
  kitchenCents: Cents
  barteredCents: Cents
  /** Goods whose value nobody has said yet. */
  unpriced: number
}

export const preparerNotes = ({ trips, marketDays, hired, herds, goods }: YearNotes): PreparerNotes => {
  const driven = [
    ...trips.flatMap(({ day, kind, vehicle, miles, purpose }) =>
      kind === 'farm' && miles !== null ? [{ day, where: purpose, vehicle, miles }] : [],
    ),
    ...marketDays.flatMap(({ day, market, miles }) =>
      miles ? [{ day, where: market, vehicle: '', miles }] : [],
    ),
  ].sort((a, b) => (a.day < b.day ? -1 : 1))
  const told = goods
    .filter(({ state }) => state !== 'set_aside')
    .map((one) => ({
      kind: one.kind,
      day: one.day,
      says: `${one.quantity} ${one.unit ? `${one.unit} ` : ''}${one.what}${one.tradedFor ? `, for ${one.tradedFor}` : ''}`,
      valueCents: one.unitPriceCents === null ? null : worthOf(one.unitPriceCents, one.quantity),
      isBooked: one.state === 'booked',
    }))
  const worth = (kind: GoodsKind) =>
    sumCents(told.filter((one) => one.kind === kind).flatMap(({ valueCents }) => valueCents ?? []))
  return {
    trips: driven,
    farmMiles: Number(driven.reduce((sum, { miles }) => sum + miles, 0).toFixed(1)),
    odometers: odometersOf(trips),
    hired: hiredOf(hired),
    herds: herds.filter(({ began, ended }) => began !== null || ended !== null),
    goods: told,
    kitchenCents: worth('kitchen'),
    barteredCents: worth('bartered'),
    unpriced: told.filter(({ valueCents }) => valueCents === null).length,
  }
}

const worthOf = (price: Cents, quantity: number): Cents =>
  cents(new Decimal(price).times(quantity).toDecimalPlaces(0).toNumber())

const odometersOf = (trips: YearNotes['trips']): PreparerNotes['odometers'] => {
  const readings = trips.filter(({ kind, odometer }) => kind === 'reading' && odometer !== null)
  return [...new Set(readings.map(({ vehicle }) => vehicle))].map((vehicle) => {
    const shown = readings
      .filter((one) => one.vehicle === vehicle)
      .sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0))
      .map(({ odometer }) => odometer!)
    const [first, last] = [shown[0]!, shown.at(-1)!]
    return { vehicle, first, last, driven: last - first }
  })
}

const hiredOf = (hired: YearNotes['hired']): PreparerNotes['hired'] =>
  [...new Set(hired.map(({ person }) => person))].map((person) => {
    const mine = hired.filter((one) => one.person === person)
    return {
      person,
      minutes: mine.reduce((sum, { minutes }) => sum + minutes, 0),
      payCents: sumCents(mine.flatMap(({ payCents }) => payCents ?? [])),
      hasUnpaid: mine.some(({ payCents }) => payCents === null),
    }
  })
