// The farm as the mix sees it: one mature year of each line of work, markets by whole trips, hours by period.

import { type Month, month, yearOf } from '#calendar/month.ts'
import { farmCourse } from '#farm/course.ts'
import { enterpriseMonths, runsIn } from '#farm/enterprise-months.ts'
import type { Enterprise, Farm, Market } from '#farm/farm-document.ts'
import type { Herd } from '#farm/herd/herd-document.ts'
import { herdMonths } from '#farm/herd/herd-months.ts'
import { steadyFemale } from '#farm/herd/herd-steady.ts'
import { speciesWords } from '#farm/herd/species-words.ts'
import { costOfHour } from '#farm/hired-help.ts'
import { worksFrom } from '#farm/purchase-document.ts'
import { heldEachMonth, type Level, monthFromText, spreadOverYear, stepInForce } from '#farm/seasonal.ts'
import { withEveryTrip } from '#farm/selling/followers.ts'
import { growthAt, seatAt } from '#farm/selling/market-months.ts'
import { weeklyHoursAt, weeksPerMonth } from '#farm/work-months.ts'
import { type MixStock, soldFreely, stockOf } from './mix-stock.ts'

/** Calendar months as 0 (January) to 11. */
export type Period = readonly number[]

export const everyMonth: readonly Period[] = Array.from({ length: 12 }, (_, k) => [k])
export const fourSeasons: readonly Period[] = [
  [11, 0, 1],
  [2, 3, 4],
  [5, 6, 7],
  [8, 9, 10],
]
export const seasonNames = ['winter', 'spring', 'summer', 'fall'] as const

/** A line of work: an enterprise by its unit, or a herd by a breeding female that is carried. Twelve-month figures are per unit. */
export interface MixLine {
  id: string
  name: string
  unit: string
  isHerd: boolean
  today: number
  least: number
  most: number
  whole: boolean
  pinned: boolean
  /** Sold in its month or not at all. */
  sales: number[]
  /** What can wait for a market; null for what cannot. */
  stock: MixStock | null
  costs: number[]
  hours: number[]
  /** Hours that fall as soon as there is any. */
  hoursFixed: number[]
  land: number
  winterFeed: number
  /** Units that stand there by month, for one of the scale. */
  standing: number[]
  markets: string[]
  hoursBy: Record<string, number>
}

export interface MixMarket {
  id: string
  name: string
  /** Most trips and today's trips in each calendar month. */
  full: number[]
  today: number[]
  /** The chance that it is had, by month. */
  seats: number[]
  salesPerTrip: number[]
  /** Dollars that it sells in each month with every trip: of these, customers of dropped trips follow. */
  sold: number[]
  costPerTrip: number[]
  feePerMonth: number[]
  hoursPerTrip: number
  followShare: number
  hoursBy: Record<string, number>
  pinned: boolean
  leastShareWhenRun: number
}

export interface MixFrame {
  year: number
  lines: MixLine[]
  markets: MixMarket[]
  workers: { who: string; hours: number[] }[]
  /** `isPromised`: the hours are help for the season, paid whether or not all of it is needed. */
  hired: { hours: number[]; hourlyCost: number; isPromised: boolean }
  /** Overheads: costs of the year, and hours by month. */
  overheads: number
  overheadHours: number[]
  land: number
  winterFeed: number | undefined
  facilities: { name: string; unit: string; capacity: number[]; perUnit: Map<string, number[]> }[]
  leasePerAcre: number
}

/** Reads the farm as it stands in a year: steps, phases and dates in force in its July. */
export const mixFrame = (farm: Farm, year: number, weeklyHours: Record<string, number> = {}): MixFrame => {
  const months = Array.from({ length: 12 }, (_, k) => month(year, k + 1))
  const july = months[6]!
  const caps = months.map((at) => weeklyHoursAt(farm, at))
  const overheads = farm.overheads.filter((one) => runsIn(one)(july))
  const phase = farm.phases
    .filter((one) => monthFromText(one.from) <= july)
    .sort((a, b) => (a.from < b.from ? 1 : -1))[0]
  return {
    year,
    lines: [
      ...farm.enterprises.filter((one) => runsIn(one)(july)).map((one) => enterpriseLine(farm, one, july)),
      ...farm.herds.filter((one) => runsIn(one)(july)).flatMap((one) => herdLine(farm, one, year)),
    ],
    markets: readMarkets(farm, months).filter(({ id }) =>
      runsIn(farm.markets.find((one) => one.id === id)!)(july),
    ),
    workers: farm.crew.map(({ who }, k) => ({
      who,
      hours: caps.map(
        (hours) => (Object.hasOwn(weeklyHours, who) ? weeklyHours[who]! : hours[k]!) * weeksPerMonth,
      ),
    })),
    hired: {
      hours: caps.map((hours) => hours.at(-1)! * weeksPerMonth),
      hourlyCost: costOfHour(farm.hired),
      isPromised: farm.hired.paid === 'all hours',
    },
    overheads: overheads.reduce((sum, one) => sum + spreadOverYear(one.costs).reduce((a, b) => a + b, 0), 0),
    overheadHours: months.map((_, k) =>
      overheads.reduce((sum, one) => sum + spreadOverYear(one.hours)[k]!, 0),
    ),
    land: farm.land - (phase?.landLeasedOut ?? 0),
    winterFeed: farm.winterFeed,
    facilities: farm.facilities.map((one) => ({
      name: one.name,
      unit: one.unit,
      capacity: heldEachMonth(one.capacity).map((held) => held + addedCapacity(farm, one.id, july)),
      perUnit: new Map(one.uses.map((use) => [use.by, heldEachMonth(use.perUnit)])),
    })),
    leasePerAcre: phase?.leasePerAcreAndYear ?? 0,
  }
}

/** What dated purchases have added by then; ones that wait for cash are not counted on. */
export const addedCapacity = (farm: Farm, facility: string, at: Month): number =>
  farm.purchases
    .filter((one) => one.timing === 'dated' && one.addsCapacity?.facility === facility)
    .filter((one) => monthFromText(one.month) + worksFrom(one) <= at)
    .reduce((sum, one) => sum + one.addsCapacity!.amount, 0)

const enterpriseLine = (farm: Farm, one: Enterprise, at: Month): MixLine => {
  const steps = [
    ...one.scaleSteps,
    ...farm.phases.flatMap((phase) =>
      phase.scales
        .filter((scale) => scale.enterprise === one.id)
        .map((scale) => ({ from: phase.from, value: scale.value })),
    ),
  ]
  const unit = enterpriseMonths(
    { ...farm, phases: [] },
    { ...one, scale: 1, scaleSteps: [] },
    month(yearOf(at), 1),
    12,
  )
  return {
    id: one.id,
    name: one.name,
    unit: one.unit,
    isHerd: false,
    today: stepInForce(one.scale, steps, at),
    least: one.minimumScale,
    most: one.maximumScale ?? Number.POSITIVE_INFINITY,
    whole: one.wholeUnits,
    pinned: one.pinned,
    sales: Array.from(unit.offered),
    stock: null,
    costs: Array.from(unit.costs),
    hours: Array.from(unit.hours),
    hoursFixed: new Array(12).fill(0),
    standing: Array.from(unit.units),
    land: one.landPerUnit,
    winterFeed: 0,
    markets: one.markets.filter((id) => farm.markets.some((market) => market.id === id)),
    hoursBy: one.hoursBy,
  }
}

const herdLine = (farm: Farm, herd: Herd, year: number): MixLine[] => {
  const limits = farm.phases.flatMap((phase) =>
    phase.herdLimits
      .filter((limit) => limit.herd === herd.id)
      .map((limit) => ({ from: phase.from, value: limit.value })),
  )
  const limit = stepInForce(herd.carryingLimit, limits, month(year, 7))
  const female = steadyFemale(herd, Math.max(limit, 1))
  if (!female) return []
  const now = herdMonths(herd, month(year, 1), 12, limits)
  const { stock, processing } = stockOf(herd, female.ready)
  const own = herd.markets.filter((id) => farm.markets.some((market) => market.id === id))
  const freely = own.length === 0 ? soldFreely(stock) : null
  const most = Math.max(...female.standing)
  return [
    {
      id: herd.id,
      name: herd.name,
      unit: speciesWords[herd.kind].female[0],
      isHerd: true,
      today: Math.min(limit, Math.max(...now.breedingFemales) / most),
      least: 0,
      most: limit,
      whole: false,
      pinned: false,
      sales: female.product.map((dollars, k) => dollars + (freely?.sales[k] ?? 0)),
      stock: freely ? null : stock,
      costs: female.costs.map((dollars, k) => dollars + processing[k]! + (freely?.costs[k] ?? 0)),
      hours: female.hours,
      hoursFixed: female.hoursFixed,
      land: herd.landPerFemale * most,
      winterFeed: herd.winterFeedPerFemale * Math.max(...[0, 1, 11].map((k) => female.standing[k]!)),
      standing: female.standing,
      markets: own,
      hoursBy: {},
    },
  ]
}

const readMarkets = (farm: Farm, months: readonly Month[]): MixMarket[] => {
  const follows = farm.markets.some((one) => one.followShare > 0)
  const before = follows ? farmCourse(withEveryTrip(farm), months[0]!, 12).marketSales : null
  return farm.markets.map((one, k) =>
    readMarket(farm, one, months, Array.from(before?.subarray(k * 12, k * 12 + 12) ?? new Float64Array(12))),
  )
}

const readMarket = (farm: Farm, market: Market, months: readonly Month[], sold: number[]): MixMarket => {
  const steps = [
    ...market.tripsSteps,
    ...farm.phases.flatMap((phase) =>
      phase.trips
        .filter((one) => one.market === market.id)
        .map((one) => ({ from: phase.from, value: one.value })),
    ),
  ]
  const base = heldEachMonth(market.trips)
  const seats = months.map((at) => seatAt(market, at))
  const today = months.map((at, k) => heldEachMonth(stepInForce<Level>(base, steps, at))[k]! * seats[k]!)
  const fees = heldEachMonth(market.feePerTrip)
  return {
    id: market.id,
    name: market.name,
    full: base.map((trips, k) => Math.max(trips * seats[k]!, today[k]!)),
    today,
    seats,
    salesPerTrip: heldEachMonth(market.salesPerTrip).map(
      (dollars, k) => dollars * growthAt(market, months[k]!),
    ),
    sold,
    costPerTrip: fees.map((fee) => fee + market.milesPerTrip * market.costPerMile),
    feePerMonth: heldEachMonth(market.feePerMonth).map((dollars, k) => dollars * seats[k]!),
    hoursPerTrip: market.hoursPerTrip,
    followShare: today.some((trips, k) => trips > base[k]! * seats[k]!) ? 0 : market.followShare,
    hoursBy: market.hoursBy,
    pinned: market.pinned,
    leastShareWhenRun: market.leastShareWhenRun,
  }
}
