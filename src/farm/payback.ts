// Payback of what an enterprise, a herd or one purchase took: all money in against all money out, month by month.
import { addMonths, type Month } from '#calendar/month.ts'
import { type FarmCourse, farmCourse } from './course.ts'
import type { Farm, Purchase } from './farm-document.ts'
import { worksFrom, worksUntil } from './purchase-document.ts'
import { monthFromText, seasonIndex, spreadOverYear } from './seasonal.ts'
import { internalRate, monthlyRate, netPresentValue, yearlyRate } from './time-value.ts'

export interface Payback {
  firstMonth: Month
  /** Net money by month and its running sum, dollars at plan prices. */
  flows: Float64Array
  running: Float64Array
  moneyIn: number
  /** Whether the running sum is ever below zero: else nothing was put in that could come back. */
  isPutIn: boolean
  /** Deepest the running sum ever is, and when. */
  deepest: number
  deepestMonth: Month
  /** First month from which the running sum stays at or above zero; `null` when it does not within the months looked at. */
  paidBack: Month | null
  monthsToPayBack: number | null
  /** With what stands at the end (stock, value left of purchases) counted in. Yearly rates. */
  presentWorth: number
  yearlyReturn: number | null
  worthAtEnd: number
  hours: number
}

/**
 * Weighs flows that start in `firstMonth`. `worthAtEnd` counts for worth and return, not for the payback month. `there`: what stood there
 * already as a month began, by its place, before anything came in.
 */
export const payback = (
  firstMonth: Month,
  flows: Float64Array,
  discountYearly: number,
  worthAtEnd = 0,
  hours = 0,
  there = { at: 0, worth: 0 },
): Payback => {
  const running = new Float64Array(flows.length)
  let sum = 0
  let moneyIn = there.worth
  let deepest = 0
  let deepestAt = 0
  let lastBelow = -1
  flows.forEach((flow, m) => {
    if (m === there.at) sum -= there.worth
    if (sum < deepest) [deepest, deepestAt] = [sum, m]
    sum += flow
    running[m] = sum
    if (flow < 0) moneyIn -= flow
    if (sum < deepest) [deepest, deepestAt] = [sum, m]
    if (sum < -0.005) lastBelow = m
  })
  const isPutIn = deepest < -0.005
  const isBack = isPutIn && lastBelow < flows.length - 1
  const withEnd = Array.from(flows)
  if (there.at < withEnd.length) withEnd[there.at]! -= there.worth
  if (withEnd.length > 0) withEnd[withEnd.length - 1]! += worthAtEnd
  const rate = isPutIn ? internalRate(withEnd) : null
  return {
    firstMonth,
    flows,
    running,
    moneyIn,
    isPutIn,
    deepest,
    deepestMonth: addMonths(firstMonth, deepestAt),
    paidBack: isBack ? addMonths(firstMonth, lastBelow + 1) : null,
    monthsToPayBack: isBack ? lastBelow + 1 : null,
    presentWorth: netPresentValue(monthlyRate(discountYearly), withEnd),
    yearlyReturn: rate === null ? null : yearlyRate(rate),
    worthAtEnd,
    hours,
  }
}

/**
 * Payback of an enterprise or herd with the purchases made for it. Money out: its sales and culls, and the cash that those
 * purchases add. Money in: direct costs, stock, the purchases; hours at `wage` when it is not zero. Purchases that wait for
 * cash are taken in their earliest month unless `bought` says when. Market and overhead costs are not split upon it. Its first
 * heads, bought or there already at what such stock costs, are in it as its month begins, before anything is sold. Null for an
 * enterprise that runs already: what went into it before is in no plan, so that nothing says when it came back.
 */
export const linePayback = (
  farm: Farm,
  id: string,
  years: number,
  options: PaybackOptions = {},
): Payback | null => {
  const rowOf = [...farm.enterprises, ...farm.herds].findIndex((one) => one.id === id)
  const line = farm.enterprises.find((one) => one.id === id) ?? farm.herds.find((one) => one.id === id)
  if (!line?.start) return null
  const purchases = farm.purchases.filter((one) => one.for === id)
  const when = (one: Purchase) =>
    options.bought?.has(one.id) ? options.bought.get(one.id)! : monthFromText(one.month)
  const dates = purchases.flatMap((one) => when(one) ?? [])
  const firstMonth = Math.min(monthFromText(line.start), ...dates) as Month
  const months = years * 12
  const course = (options.grown ?? ((same: FarmCourse) => same))(farmCourse(farm, firstMonth, months))
  const flows = new Float64Array(months)
  const begins = monthFromText(line.start) - firstMonth
  let hours = 0
  for (let m = 0; m < months; m += 1) {
    const cell = rowOf * months + m
    const bought = m === begins ? 0 : course.stockBought[cell]!
    const worked = course.hours[cell]! * course.work.share[m]!
    flows[m] = course.sales[cell]! + course.culls[cell]! - course.spent[cell]! - bought
    flows[m]! -= worked * (options.wage ?? 0)
    hours += worked
  }
  const isOwned = 'ownedAlready' in line && line.ownedAlready
  const firstHeads = isOwned ? ownedWorth(line) : course.stockBought[rowOf * months + begins]!
  // Beyond the years looked at no heads come in.
  const there = { at: begins, worth: begins < months ? firstHeads : 0 }
  let worthAtEnd = course.stockCapital[rowOf * months + months - 1]!
  for (const one of purchases) {
    const at = when(one)
    if (at === null) continue
    addPurchase(flows, one, at - firstMonth, firstMonth)
    worthAtEnd += worthLeft(one, months - (at - firstMonth))
  }
  return payback(firstMonth, flows, options.discountYearly ?? 0.04, worthAtEnd, hours, there)
}

interface PaybackOptions {
  wage?: number
  discountYearly?: number
  bought?: ReadonlyMap<string, Month | null>
  /** The course with what the plan lets prices and costs grow. */
  grown?: (course: FarmCourse) => FarmCourse
}

/** What its first heads would have cost. */
const ownedWorth = ({ breedingFemales, replacements, males, carryingLimit, prices }: Farm['herds'][number]) =>
  (Math.min(breedingFemales, carryingLimit) + replacements) * prices.breedingFemale + males * prices.male

/** Payback of one purchase by the cash it adds (and, at `wage`, the hours it saves). */
export const purchasePayback = (one: Purchase, at: Month, wage: number, discountYearly: number): Payback => {
  const ends = worksUntil(one)
  const flows = new Float64Array(ends + 1)
  addPurchase(flows, one, 0, at)
  const saved = spreadOverYear(one.savesHours)
  for (let m = worksFrom(one); m < ends; m += 1) flows[m]! += saved[seasonIndex(addMonths(at, m))]! * wage
  return payback(at, flows, discountYearly)
}

const addPurchase = (flows: Float64Array, one: Purchase, at: number, firstMonth: Month) => {
  const adds = spreadOverYear(one.addsCash)
  if (at >= 0 && at < flows.length) flows[at]! -= one.cost
  const ends = at + worksUntil(one)
  for (let m = Math.max(0, at + worksFrom(one)); m < Math.min(flows.length, ends); m += 1)
    flows[m]! += adds[seasonIndex(addMonths(firstMonth, m))]!
  if (ends < flows.length) flows[ends]! += one.valueAtEnd
}

/** Straight line from the cost to the value at the end of its use; then it is sold. Before it is bought it is worth nothing. */
const worthLeft = (one: Purchase, ageMonths: number): number => {
  if (ageMonths <= 0 || ageMonths > worksUntil(one)) return 0
  const used = Math.min(1, ageMonths / (one.usefulYears * 12))
  return one.cost - (one.cost - one.valueAtEnd) * used
}
