// A return by the books rests on the plan, and on none of what its levers move: pulled, it is not worked again.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import fc from 'fast-check'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { type Books, openBooks } from '#db/open.ts'
import type { Plan } from '#plan/plan.ts'
import { currentPlan } from '#today/current-plan.ts'
import { continuedPlan } from '#today/projection/continued-plan.ts'
import { booksYear, yearIncome } from '#today/tax/books-year.ts'
import { nothingPaid } from '#today/tax/paid-for.ts'
import { planForReturns } from '#today/tax/plan-for-returns.ts'
import { savedFor } from '#today/tax/saved-for.ts'
import { lastYearOf, workedYear } from '#today/tax/tax-payments.ts'
import { yearTax } from '#today/tax/tax-worksheet.ts'
import { on } from '../db/fresh-books.ts'
import { randomPlan } from '../runway/random-plan.ts'
import { copySample } from '../sample/built-sample.ts'

let folder: string
let books: Books
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'dooryard-returns-'))
  const opened = openBooks(await copySample(folder), { now: new Date('2026-11-25T12:00:00') })
  if (!opened.ok) throw new Error(opened.problem.message)
  books = opened.books
}, 60_000)
afterAll(() => {
  books.close()
  rmSync(folder, { recursive: true, force: true })
})

/** All that a worksheet by the books says, with the plan just as it is given. */
const worksheet = (plan: Plan, year: number) => {
  const income = yearIncome(books, plan, year)!
  const paid = { federal: nothingPaid, state: nothingPaid }
  const { sides } = booksYear(books, year)
  return yearTax(sides, income, paid, lastYearOf(books, plan, year - 1), plan, savedFor(books, plan, year))
}

test('no line of a return asks for draws, for what living costs or for what markets bring', () => {
  let worked = 0
  for (const plan of fc.sample(randomPlan(), { numRuns: 60, seed: 1040 }))
    for (const year of [2025, 2026]) {
      const whole = worksheet(plan, year)
      expect(worksheet(planForReturns(plan), year)).toEqual(whole)
      if (whole.status === 'worked') worked += 1
    }
  expect(worked).toBeGreaterThan(40)
})

test('what people, taxes or prices of the plan say is asked: plans that differ there are told apart', () => {
  const plan = samplePlan()
  const others: Plan[] = [
    { ...plan, tax: { ...plan.tax, itemized: 30_000 } },
    { ...plan, assumptions: { ...plan.assumptions, inflation: 0.07 } },
    { ...plan, household: { ...plan.household, people: plan.household.people.slice(0, 1) } },
    { ...plan, startMonth: '2026-02' },
  ]
  for (const other of others) expect(planForReturns(other)).not.toBe(planForReturns(plan))
  expect(worksheet(planForReturns(others[0]!), 2026)).not.toEqual(worksheet(planForReturns(plan), 2026))
})

test('a pulled lever goes on from the same return, not from another like it', () => {
  const plan = samplePlan()
  const living = plan.household.living.map((line) => ({ ...line, perMonth: line.perMonth * 0.9 }))
  const pulled = { ...plan, household: { ...plan.household, living }, draw: { ...plan.draw } }
  const first = workedYear(books, plan, 2025)
  expect(workedYear(books, pulled, 2025)).toBe(first)
  expect(workedYear(books, planForReturns(pulled), 2025)).toBe(first)
  const today = on('2026-11-25')
  const { tax } = continuedPlan(books, plan, today).plan
  expect(continuedPlan(books, pulled, today).plan.tax.lastYear).toEqual(tax.lastYear)
})

const samplePlan = (): Plan => {
  const current = currentPlan(books)
  if (current.status !== 'read') throw new Error('The sample has a plan')
  return current.plan
}
