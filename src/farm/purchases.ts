// Purchases out of the farm's own cash, bought when the plan's course buys them: what waiting costs, and which draws each takes the
// place of.
import { addMonths, type Month } from '#calendar/month.ts'
import type { Purchase } from './farm-document.ts'
import { worksFrom, worksUntil } from './purchase-document.ts'
import { monthFromText, seasonIndex, spreadOverYear } from './seasonal.ts'

/** The months ahead as the plan expects them, in the dollars of each month. */
export interface CashAhead {
  firstMonth: Month
  opening: number
  reserve: number
  /** Net farm cash by month before purchases and draws; the draws the plan asks for; and what is called on beyond them. */
  netCash: Float64Array
  draws: Float64Array
  calledOn?: Float64Array
  /** Price level by month, 1 in the plan's first prices. */
  level: Float64Array
  /** What an hour of hired help costs, at first prices. */
  hourCost: number
  /** When the plan's course buys each; what it never buys is missing. */
  bought: ReadonlyMap<string, Month>
}

export interface QueuedPurchase {
  id: string
  name: string
  timing: Purchase['timing']
  /** Earliest month (or the date), the month in which it is bought, and how long it waits. */
  earliest: Month
  bought: Month | null
  waitMonths: number | null
  /** In the dollars of the month it is bought (or of its earliest month). */
  cost: number
  /** Cash the farm holds just after, and the least it then holds in the next twelve months, both above the reserve. */
  spareAfter: number | null
  /** What is lost while it waits, over no more years than it lasts: cash it would have added and hours it would have saved. */
  waitingCosts: number
  /** Level extra draw a month, over the twelve months from its purchase, that the farm could have borne without it. */
  drawDisplaced: number | null
  /** Its cost in months of the draws that the plan asks for in the year from its purchase; null where it asks for none. */
  monthsOfDraws: number | null
  because: string
}

export interface PurchaseQueue {
  queue: QueuedPurchase[]
  /** Farm cash at each month's end with purchases made and draws taken. */
  cash: Float64Array
  /** Most that could be spent in the first month with the reserve intact through the next twelve. */
  affordableNow: number
  /** The reserve as the first month's prices have it. */
  reserveNow: number
}

/** Farm cash month by month: trade, then what is bought, then the draw as far as the farm can spare it over twelve months. */
export const queuePurchases = (purchases: readonly Purchase[], ahead: CashAhead): PurchaseQueue => {
  const walk = walkMonths(purchases, ahead)
  const queue = purchases
    .filter((one) => one.timing === 'when cash allows' || monthFromText(one.month) >= ahead.firstMonth)
    .map((one) => describe(one, purchases, ahead, walk))
  return {
    queue,
    cash: walk.cash,
    affordableNow: Math.max(0, walk.spareAtStart),
    reserveNow: ahead.reserve * (ahead.level[0] ?? 1),
  }
}

interface Walk {
  cash: Float64Array
  /** Cash above reserve and needs after the month's purchases, before the draw. */
  spare: Float64Array
  spareAtStart: number
}

const walkMonths = (purchases: readonly Purchase[], ahead: CashAhead, without?: string): Walk => {
  const months = ahead.netCash.length
  const { flows, putToWork } = expectedFlows(purchases, ahead, without)
  const walk: Walk = {
    cash: new Float64Array(months),
    spare: new Float64Array(months),
    spareAtStart: 0,
  }
  let cash = ahead.opening
  for (let m = 0; m < months; m += 1) {
    const reserve = ahead.reserve * ahead.level[m]!
    const leastWithDraws = () => leastAhead(flows, cash, m, m + 12, ahead.draws) - reserve
    cash += flows[m]!
    const due = purchases.filter((one) => one.id !== without && boughtAt(one, ahead) === m)
    // Dated ones are paid in the flows, which the walk looks ahead at.
    for (const one of due.filter((each) => each.timing === 'dated')) putToWork(one, m)
    if (m === 0) walk.spareAtStart = leastWithDraws()
    for (const one of due.filter((each) => each.timing !== 'dated')) {
      cash -= one.cost * ahead.level[m]!
      putToWork(one, m)
    }
    walk.spare[m] = leastWithDraws()
    cash = Math.max(0, cash)
    const spare = Math.max(0, leastAhead(flows, cash, m, m + 11, null) - reserve)
    cash -= Math.min(ahead.draws[m]!, spare) + (ahead.calledOn?.[m] ?? 0)
    walk.cash[m] = cash
  }
  return walk
}

/** The place among the months in which it is bought; a dated one may lie before them. */
const boughtAt = (one: Purchase, ahead: CashAhead): number | undefined => {
  const at = one.timing === 'dated' ? monthFromText(one.month) : ahead.bought.get(one.id)
  return at === undefined ? at : at - ahead.firstMonth
}

/** Net cash of each month with dated purchases paid, to which a purchase made adds what it brings in. */
const expectedFlows = (purchases: readonly Purchase[], ahead: CashAhead, without: string | undefined) => {
  const flows = ahead.netCash.slice()
  const months = flows.length
  for (const one of purchases) {
    const m = monthFromText(one.month) - ahead.firstMonth
    if (one.timing === 'dated' && one.id !== without && m >= 0 && m < months)
      flows[m]! -= one.cost * ahead.level[m]!
  }
  const putToWork = (one: Purchase, bought: number) => {
    const adds = spreadOverYear(one.addsCash)
    const ends = bought + worksUntil(one)
    for (let m = Math.max(0, bought + worksFrom(one)); m < Math.min(months, ends); m += 1)
      flows[m]! += adds[seasonIndex(addMonths(ahead.firstMonth, m))]! * ahead.level[m]!
    if (ends >= 0 && ends < months) flows[ends]! += one.valueAtEnd * ahead.level[ends]!
  }
  for (const one of purchases) {
    const at = boughtAt(one, ahead)
    if (at !== undefined && at < 0) putToWork(one, at)
  }
  return { flows, putToWork }
}

/** The least that cash comes down to from month `from` to month `to`, draws taken out where given; past the end as in the last year. */
const leastAhead = (
  flows: Float64Array,
  cash: number,
  from: number,
  to: number,
  draws: Float64Array | null,
): number => {
  const at = (k: number) => (k < flows.length ? k : Math.max(0, k - 12))
  let running = cash - (draws?.[from] ?? 0)
  let least = running
  for (let k = from + 1; k <= to; k += 1) {
    running += flows[at(k)]! - (draws?.[at(k)] ?? 0)
    least = Math.min(least, running)
  }
  return least
}

const describe = (one: Purchase, all: readonly Purchase[], ahead: CashAhead, walk: Walk): QueuedPurchase => {
  const earliest = monthFromText(one.month)
  const place = boughtAt(one, ahead)
  const at = place !== undefined && place < ahead.netCash.length ? place : undefined
  const atLevel = ahead.level[Math.max(0, at ?? earliest - ahead.firstMonth)] ?? ahead.level.at(-1) ?? 1
  const bought = at === undefined ? null : addMonths(ahead.firstMonth, at)
  const waited = at === undefined ? ahead.netCash.length : at
  const from = Math.max(0, earliest - ahead.firstMonth)
  return {
    id: one.id,
    name: one.name,
    timing: one.timing,
    earliest,
    bought,
    waitMonths: at === undefined ? null : at - from,
    cost: one.cost * atLevel,
    spareAfter: at === undefined ? null : walk.spare[at]!,
    waitingCosts: lostWhileWaiting(one, ahead, from, waited),
    monthsOfDraws: at === undefined ? null : inDraws(one.cost * atLevel, ahead.draws, at),
    drawDisplaced: at === undefined ? null : displaced(one, all, ahead, walk, at),
    because: reason(one, at, from, walk, ahead),
  }
}

const inDraws = (cost: number, draws: Float64Array, from: number): number | null => {
  const year = draws.subarray(from, from + 12)
  const asked = year.reduce((a, b) => a + b, 0)
  return asked > 0 ? (cost / asked) * year.length : null
}

const lostWhileWaiting = (one: Purchase, ahead: CashAhead, from: number, until: number): number => {
  const adds = spreadOverYear(one.addsCash)
  const saves = spreadOverYear(one.savesHours)
  let lost = 0
  // Bought late it serves as long as bought early: no more is lost than one such thing gives in all its years.
  const last = Math.min(until, from + Math.round(one.usefulYears * 12))
  for (let m = from; m < last; m += 1) {
    const works = m + worksFrom(one)
    if (works >= ahead.level.length) break
    const season = seasonIndex(addMonths(ahead.firstMonth, works))
    lost += (adds[season]! + saves[season]! * ahead.hourCost) * ahead.level[works]!
  }
  return lost
}

const displaced = (
  one: Purchase,
  all: readonly Purchase[],
  ahead: CashAhead,
  walk: Walk,
  at: number,
): number => {
  const without = walkMonths(all, ahead, one.id)
  return Math.max(0, levelDraw(without.cash, ahead.reserve, at) - levelDraw(walk.cash, ahead.reserve, at))
}

/** Level amount a month that could still be taken over twelve months with the reserve intact. */
const levelDraw = (cash: Float64Array, reserve: number, from: number): number => {
  let most = Number.POSITIVE_INFINITY
  for (let k = 0; k < 12 && from + k < cash.length; k += 1)
    most = Math.min(most, (cash[from + k]! - reserve) / (k + 1))
  return Number.isFinite(most) ? Math.max(0, most) : 0
}

const reason = (
  one: Purchase,
  at: number | undefined,
  from: number,
  walk: Walk,
  ahead: CashAhead,
): string => {
  if (at === undefined)
    return one.timing === 'dated'
      ? 'its date lies after the months looked at'
      : 'farm cash never stays above the reserve with it, in the months looked at'
  if (one.timing === 'dated')
    return walk.spare[at]! < 0
      ? 'bought on its date, though cash then falls below the reserve within a year'
      : 'bought on its date, reserve intact'
  return at === from
    ? 'cash allows it as soon as it is wanted'
    : `until then cash would fall below the reserve of $${Math.round(ahead.reserve * (ahead.level[0] ?? 1)).toLocaleString('en-US')} within a year`
}

/** Purchases named in `order` change places among each other, others stay; null when one is named twice. Names unknown are passed over. */
export function inOrder(purchases: readonly Purchase[], order: readonly string[]): Purchase[] | null {
  const named = order.flatMap((id) => purchases.find((one) => one.id === id) ?? [])
  if (new Set(named).size !== named.length) return null
  let next = 0
  return purchases.map((one) => (named.includes(one) ? named[next++]! : one))
}
