// Time value of money: level payments, present worth, rates of return. Money paid out is negative, money received positive.
import { type Day, dayNumber } from '#calendar/day.ts'
import { dollarsToCents } from '#money/cents.ts'

/** When in each period a payment falls. */
export type PaymentTime = 'end' | 'begin'

const atBegin = (when: PaymentTime) => (when === 'begin' ? 1 : 0)

/** What stands at the end of `periods` after a start of `present` and a payment each period. */
export const futureValue = (
  rate: number,
  periods: number,
  payment: number,
  present: number,
  when: PaymentTime = 'end',
): number => {
  if (rate === 0) return -(present + payment * periods)
  const growth = (1 + rate) ** periods
  return -(present * growth + (payment * (1 + rate * atBegin(when)) * (growth - 1)) / rate)
}

export const presentValue = (
  rate: number,
  periods: number,
  payment: number,
  future = 0,
  when: PaymentTime = 'end',
): number => {
  if (rate === 0) return -(future + payment * periods)
  const growth = (1 + rate) ** periods
  return -(future + (payment * (1 + rate * atBegin(when)) * (growth - 1)) / rate) / growth
}

/** The level payment that turns `present` into `future` over the periods. */
export const levelPayment = (
  rate: number,
  periods: number,
  present: number,
  future = 0,
  when: PaymentTime = 'end',
): number => {
  if (rate === 0) return -(future + present) / periods
  const growth = (1 + rate) ** periods
  return (-(future + present * growth) * rate) / ((1 + rate * atBegin(when)) * (growth - 1))
}

/** All payments of a loan together; each is paid in whole cents, as loan tables print it. Positive. */
export const totalPaid = (rate: number, periods: number, principal: number): number =>
  (dollarsToCents(-levelPayment(rate, periods, principal)) * periods) / 100

/** Periods until `future` is reached, as a fraction; `NaN` when it never is. */
export const periodsNeeded = (
  rate: number,
  payment: number,
  present: number,
  future = 0,
  when: PaymentTime = 'end',
): number => {
  if (rate === 0) return -(future + present) / payment
  const perPeriod = (payment * (1 + rate * atBegin(when))) / rate
  return Math.log((perPeriod - future) / (perPeriod + present)) / Math.log1p(rate)
}

/** Interest part of payment number `period` (1 for the first). */
export const interestPart = (
  rate: number,
  period: number,
  periods: number,
  present: number,
  future = 0,
  when: PaymentTime = 'end',
): number => {
  if (when === 'begin' && period === 1) return 0
  const payment = levelPayment(rate, periods, present, future, when)
  const interest = futureValue(rate, period - 1, payment, present, when) * rate
  return when === 'begin' ? interest / (1 + rate) : interest
}

/** Principal part of payment number `period`. */
export const principalPart = (
  rate: number,
  period: number,
  periods: number,
  present: number,
  future = 0,
  when: PaymentTime = 'end',
): number =>
  levelPayment(rate, periods, present, future, when) -
  interestPart(rate, period, periods, present, future, when)

/** Interest paid in payments `first` to `last`, both counted. */
export const interestBetween = (
  rate: number,
  periods: number,
  present: number,
  first: number,
  last: number,
  when: PaymentTime = 'end',
): number => {
  let sum = 0
  for (let period = first; period <= last; period += 1)
    sum += interestPart(rate, period, periods, present, 0, when)
  return sum
}

/** Principal paid in payments `first` to `last`, both counted. */
export const principalBetween = (
  rate: number,
  periods: number,
  present: number,
  first: number,
  last: number,
  when: PaymentTime = 'end',
): number =>
  levelPayment(rate, periods, present, 0, when) * (last - first + 1) -
  interestBetween(rate, periods, present, first, last, when)

/** What is still owed after a number of level payments, as a positive amount. */
export const balanceAfter = (rate: number, paid: number, periods: number, present: number): number =>
  -futureValue(rate, paid, levelPayment(rate, periods, present), present)

/** The rate per period at which the payments are worth the present amount; `null` when there is none in −99.99 % to 1,000 %. */
export const rateOf = (
  periods: number,
  payment: number,
  present: number,
  future = 0,
  when: PaymentTime = 'end',
): number | null => rootNearestZero((rate) => -futureValue(rate, periods, payment, present, when) + future)

/** Worth today of flows one period apart; the first falls now. */
export const netPresentValue = (rate: number, flows: ArrayLike<number>): number => {
  let worth = 0
  for (let i = flows.length - 1; i >= 0; i -= 1) worth = flows[i]! + worth / (1 + rate)
  return worth
}

/**
 * The rate per period that makes the flows worth nothing. Of several, the one nearest to zero; `null` when there is none
 * (flows that never change sign, or that never come back).
 */
export const internalRate = (flows: ArrayLike<number>): number | null =>
  rootNearestZero((rate) => netPresentValue(rate, flows))

/** Internal rate with money borrowed at one rate and reinvested at another. `null` without both a payment and a receipt. */
export const modifiedRate = (
  flows: ArrayLike<number>,
  financeRate: number,
  reinvestRate: number,
): number | null => {
  const paid = netPresentValue(
    financeRate,
    mapFlows(flows, (flow) => Math.min(flow, 0)),
  )
  const received = netPresentValue(
    reinvestRate,
    mapFlows(flows, (flow) => Math.max(flow, 0)),
  )
  if (paid >= 0 || received <= 0) return null
  return (received / -paid) ** (1 / (flows.length - 1)) * (1 + reinvestRate) - 1
}

const mapFlows = (flows: ArrayLike<number>, change: (flow: number) => number) => Array.from(flows, change)

/** Worth on the first day of dated flows, at a yearly rate on a 365-day year. */
export const datedPresentValue = (rate: number, flows: readonly number[], days: readonly Day[]): number => {
  const first = dayNumber(days[0]!)
  return flows.reduce(
    (worth, flow, i) => worth + flow / (1 + rate) ** ((dayNumber(days[i]!) - first) / 365),
    0,
  )
}

/** Yearly internal rate of dated flows. */
export const datedInternalRate = (flows: readonly number[], days: readonly Day[]): number | null =>
  rootNearestZero((rate) => datedPresentValue(rate, flows, days))

/** Level yearly amount that an outlay costs over its life, interest counted: capital recovery with a value left at the end. */
export const capitalRecovery = (rate: number, years: number, cost: number, valueAtEnd: number): number =>
  -levelPayment(rate, years, cost - valueAtEnd) + valueAtEnd * rate

/** Monthly rate that compounds to a yearly one. */
export const monthlyRate = (yearly: number): number => (1 + yearly) ** (1 / 12) - 1
export const yearlyRate = (monthly: number): number => (1 + monthly) ** 12 - 1

/** Looks outwards from zero in growing steps for a change of sign, then bisects. */
const rootNearestZero = (value: (rate: number) => number): number | null => {
  const atZero = value(0)
  if (atZero === 0) return 0
  let [up, down] = [0, 0]
  let [atUp, atDown] = [atZero, atZero]
  for (let step = 1; step <= 400; step += 1) {
    const [nextUp, nextDown] = [1.0234 ** step - 1, 1.0234 ** -step - 1]
    const [nextAtUp, nextAtDown] = [value(nextUp), value(nextDown)]
    const found = [
      nextAtUp * atUp <= 0 ? bisect(value, up, nextUp) : null,
      nextAtDown * atDown <= 0 ? bisect(value, down, nextDown) : null,
    ].filter((rate) => rate !== null)
    if (found.length > 0) return found.reduce((a, b) => (Math.abs(a) <= Math.abs(b) ? a : b))
    ;[up, down, atUp, atDown] = [nextUp, nextDown, nextAtUp, nextAtDown]
  }
  return null
}

const bisect = (value: (rate: number) => number, from: number, to: number): number => {
  let [low, high] = [from, to]
  const sign = Math.sign(value(low))
  for (let i = 0; i < 200 && Math.abs(high - low) > 1e-15; i += 1) {
    const middle = (low + high) / 2
    if (Math.sign(value(middle)) === sign) low = middle
    else high = middle
  }
  return (low + high) / 2
}
