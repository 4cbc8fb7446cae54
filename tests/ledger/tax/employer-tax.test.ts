// The employer's part of payroll taxes by the day it is paid, worked by hand (cash method: 26 CFR 1.461-1(a)(1)).
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { type PayrollPosting, unpaidEmployerTax } from '#ledger/tax/employer-tax.ts'
import { cents } from '#money/cents.ts'

const owing = 1
const cost = 2
const posting = (
  entryNo: number,
  accountId: number,
  amount: number,
  sideId: PayrollPosting['sideId'] = 'farm',
): PayrollPosting => ({
  entryNo,
  sideId,
  accountId,
  kind: accountId === owing ? 'liability' : 'expense',
  amountCents: cents(amount),
})
/** Both parts owed, the employer's as a cost. */
const pay = (no: number, each: number) => [posting(no, owing, -2 * each), posting(no, cost, each)]
const deposit = (no: number, amount: number) => [posting(no, owing, amount)]
const unpaid = (...postings: PayrollPosting[][]) => unpaidEmployerTax(postings.flat()).get(cost) ?? 0

test('half of what is owed, the oldest paid first', () => {
  expect(unpaid(pay(1, 18_207))).toBe(18_207)
  expect(unpaid(pay(1, 18_207), deposit(2, 36_414))).toBe(0)
  // 7,650 of 15,300 paid: the half of the first pay, 3,825, and the second pay whole.
  expect(unpaid(pay(1, 7650), pay(2, 1000), deposit(3, 7650))).toBe(3825 + 1000)
})

test('a pay reversed takes its own off, a deposit ahead pays what comes next', () => {
  const back = [posting(3, owing, 2000), posting(3, cost, -1000)]
  expect(unpaid(pay(1, 7650), pay(2, 1000), back)).toBe(7650)
  expect(unpaid(deposit(1, 1500), pay(2, 1000))).toBe(250)
})

test('a cost that was booked with its payment is never unpaid, nor is what opened the books', () => {
  // Only the worker's part was owed; the employer's came with the deposit.
  expect(unpaid([posting(1, owing, -1000)], [posting(2, owing, 1000), posting(2, cost, 1000)])).toBe(0)
  expect(unpaid([posting(1, owing, -5000)])).toBe(0)
})

test('each side pays its own', () => {
  const other = [posting(2, owing, 9000, 'venture-a')]
  expect(unpaid(pay(1, 4000), other)).toBe(4000)
})

test('what is unpaid is never more than was booked, and nothing once all is paid', () => {
  const steps = fc.array(fc.tuple(fc.boolean(), fc.integer({ min: 1, max: 90_000 })), { maxLength: 20 })
  fc.assert(
    fc.property(steps, (drawn) => {
      const made = drawn.map(([isPay, amount], i) => (isPay ? pay(i, amount) : deposit(i, amount)))
      const booked = drawn.reduce((sum, [isPay, amount]) => sum + (isPay ? amount : 0), 0)
      const left = unpaid(...made)
      expect(left).toBeGreaterThanOrEqual(0)
      expect(left).toBeLessThanOrEqual(booked)
      expect(unpaid(...made, deposit(99, 2 * booked))).toBe(0)
    }),
  )
})
