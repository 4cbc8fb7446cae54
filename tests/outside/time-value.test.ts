import { expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import {
  balanceAfter,
  datedInternalRate,
  datedPresentValue,
  futureValue,
  interestBetween,
  interestPart,
  internalRate,
  levelPayment,
  modifiedRate,
  netPresentValue,
  type PaymentTime,
  periodsNeeded,
  presentValue,
  principalBetween,
  principalPart,
  rateOf,
  totalPaid,
} from '#farm/time-value.ts'
import { type TimeValueCase, timeValueCases } from './time-value-cases.ts'

test('there are fifty published examples', () => {
  expect(timeValueCases).toHaveLength(50)
})

test.for(timeValueCases)('$id: $measure is the published $published', (one) => {
  expect(Math.abs(answer(one) - one.published)).toBeLessThanOrEqual(one.within)
})

const answer = ({ measure, given }: TimeValueCase): number => {
  const number = (key: string): number => {
    const value = given[key] ?? 0
    if (typeof value === 'number') return value
    const [yearly, parts] = String(value).split('/').map(Number)
    return yearly! / parts!
  }
  const when = (given.when ?? 'end') as PaymentTime
  const flows = (given.cashflows ?? []) as number[]
  const days = ((given.dates ?? []) as string[]).map(day)
  const [first, last] = String(given.periods ?? '1').split('..')
  const span = [Number(first), Number(last ?? first)] as const
  const [rate, nper, pmt, pv, fv] = ['rate', 'nper', 'pmt', 'pv', 'fv'].map(number) as [
    number,
    number,
    number,
    number,
    number,
  ]
  const measures: Record<string, () => number | null> = {
    fv: () => futureValue(rate, nper, pmt, pv, when),
    pv: () => presentValue(rate, nper, pmt, fv, when),
    pmt: () => levelPayment(rate, nper, pv, fv, when),
    nper: () => periodsNeeded(rate, pmt, pv, fv, when),
    ipmt: () => interestPart(rate, number('period'), nper, pv, fv, when),
    ppmt: () => principalPart(rate, number('period'), nper, pv, fv, when),
    'balance-after': () => balanceAfter(rate, number('period'), nper, pv),
    'cumulative-interest': () => interestBetween(rate, nper, pv, ...span, when),
    'cumulative-principal': () => principalBetween(rate, nper, pv, ...span, when),
    'total-paid': () => totalPaid(rate, nper, pv),
    rate: () => rateOf(nper, pmt, pv, fv, when),
    npv: () => netPresentValue(rate, flows),
    irr: () => internalRate(flows),
    mirr: () => modifiedRate(flows, number('finance_rate'), number('reinvest_rate')),
    xnpv: () => datedPresentValue(rate, flows, days),
    xirr: () => datedInternalRate(flows, days),
  }
  const found = measures[measure]?.() ?? Number.NaN
  if (!Number.isFinite(found)) throw new Error(`No answer for ${measure}`)
  return found
}
