// Published time-value answers, by the few functions that loans, paybacks and plans are worked out with.
import { expect, test } from 'vitest'
import { loanRows } from '#farm/loans.ts'
import { internalRate, levelPayment, netPresentValue } from '#farm/time-value.ts'
import { type TimeValueCase, timeValueCases } from './time-value-cases.ts'

test('there are thirty-four published examples', () => {
  expect(timeValueCases).toHaveLength(34)
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
  const [rate, periods, payment, present, future] = ['rate', 'nper', 'pmt', 'pv', 'fv'].map(number) as [
    number,
    number,
    number,
    number,
    number,
  ]
  const flows = (given.cashflows ?? []) as number[]
  const payments = (last: number) =>
    Array.from({ length: periods }, (_, k) => payment + (k + 1 === periods ? last : 0))
  const loan = () => loanRows({ principal: present, yearlyRate: rate * 12, months: periods })
  const [first, last] = String(given.periods ?? '1')
    .split('..')
    .map(Number) as [number, number?]
  const sum = (part: 'interest' | 'principal') =>
    loan()
      .slice(first - 1, last ?? first)
      .reduce((total, row) => total + row[part], 0)
  const row = () => loan()[number('period') - 1]!
  const measures: Record<string, () => number | null> = {
    fv: () => -netPresentValue(rate, [present, ...payments(0)]) * (1 + rate) ** periods,
    pv: () => -netPresentValue(rate, [0, ...payments(future)]),
    pmt: () => levelPayment(rate, periods, present, future),
    ipmt: () => -row().interest,
    ppmt: () => -row().principal,
    'balance-after': () => row().balance,
    'cumulative-interest': () => -sum('interest'),
    'cumulative-principal': () => -sum('principal'),
    // Each payment is made in whole cents, as loan tables print it.
    'total-paid': () => (Math.round(loan()[0]!.payment * 100) * periods) / 100,
    rate: () => internalRate([present, ...payments(future)]),
    npv: () => netPresentValue(rate, flows),
    irr: () => internalRate(flows),
  }
  const found = measures[measure]?.() ?? Number.NaN
  if (!Number.isFinite(found)) throw new Error(`No answer for ${measure}`)
  return found
}
