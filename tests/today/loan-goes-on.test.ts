// Loans that a plan continued from the books goes on with, worked by hand: a last payment of all that is left, and a loan for the season.
import { expect, test } from 'vitest'
import { month } from '#calendar/month.ts'
import type { Loan } from '#farm/loan-document.ts'
import { loanMonths } from '#farm/loans.ts'
import { loanGoesOn } from '#today/projection/start-of-month.ts'

const loan = (more: Partial<Loan>): Loan => ({
  id: 'loan',
  name: 'Loan',
  principal: 20_000,
  yearlyRate: 0.06,
  start: '2027-01',
  drawn: false,
  onRealEstate: false,
  ...more,
})
const round = (list: Iterable<number>) => [...list].map((one) => Math.round(one * 100) / 100)
const paidFrom = (of: Loan, first: number, count: number) =>
  round(loanMonths([of], month(2027, first), count).payments)

// 20,000 at 6 percent, 150 a month, all that is left with the fifth: interest 100.00, 99.75, 99.50, 99.25, 98.99.
const land = loan({ paymentPerMonth: 150, months: 5 })

test('the last payment of a loan still pays all that is left once the plan goes on from the books', () => {
  expect(paidFrom(land, 2, 6)).toEqual([150, 150, 150, 150, 19_897.49, 0])
  // After two payments 20,000 − 50.00 − 50.25 is owed.
  expect(paidFrom(loanGoesOn(land, month(2027, 4), 19_899.75), 4, 4)).toEqual([150, 150, 19_897.49, 0])
  // 500 more was paid beside: 19,399.75 + 97.00 − 150, + 96.73 − 150, and with the last 96.47.
  expect(paidFrom(loanGoesOn(land, month(2027, 4), 19_399.75), 4, 4)).toEqual([150, 150, 19_389.95, 0])
})

test('a payment without a number of payments goes on until nothing is owed, level ones to their own last', () => {
  const car = loan({ principal: 1000, yearlyRate: 0.12, paymentPerMonth: 400 })
  // 610 after one: + 6.10 − 400 = 216.10, + 2.16.
  expect(paidFrom(loanGoesOn(car, month(2027, 3), 610), 3, 3)).toEqual([400, 218.26, 0])
  const level = loan({ principal: 1200, yearlyRate: 0, months: 12 })
  expect(paidFrom(loanGoesOn(level, month(2027, 10), 400), 10, 6)).toEqual([100, 100, 100, 100, 0, 0])
})

// 12,000 for seed and feed in April at 8 percent, paid in October: simple interest of six months, 480 (common practice of such notes).
const season = loan({
  principal: 12_000,
  yearlyRate: 0.08,
  months: 6,
  paymentPerMonth: 0,
  start: '2027-04',
  drawn: true,
})

test('a loan for the season is paid back in one sum at harvest, with the interest of all its months, whenever the plan goes on', () => {
  const whole = loanMonths([season], month(2027, 4), 8)
  expect(round(whole.drawn)).toEqual([12_000, 0, 0, 0, 0, 0, 0, 0])
  expect(round(whole.payments)).toEqual([0, 0, 0, 0, 0, 0, 12_480, 0])
  // Deducted as it is paid (26 CFR 1.461-1(a)(1), the cash method).
  expect(round(whole.interest)).toEqual([0, 0, 0, 0, 0, 0, 480, 0])
  expect(round(whole.balance)).toEqual([12_000, 12_000, 12_000, 12_000, 12_000, 12_000, 0, 0])
  const inJuly = loanMonths([loanGoesOn(season, month(2027, 7), 12_000)], month(2027, 7), 5)
  expect(round(inJuly.payments)).toEqual([0, 0, 0, 12_480, 0])
  expect(round(inJuly.drawn)).toEqual([0, 0, 0, 0, 0])
  // 2,000 was paid early: the rest bears 400.
  expect(paidFrom(loanGoesOn(season, month(2027, 7), 10_000), 7, 5)).toEqual([0, 0, 0, 10_400, 0])
  // Not paid in October: it is due in November, with a month more.
  expect(paidFrom(loanGoesOn(season, month(2027, 11), 12_000), 11, 2)).toEqual([12_560, 0])
})
