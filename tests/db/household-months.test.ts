// The household's months: that their figures add up to the change in savings, what loans and cards cost, and what opening balances are not.
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { lastDayOf } from '#calendar/day.ts'
import { month } from '#calendar/month.ts'
import { addAccount, addSide, listAccounts } from '#db/ledger/account-store.ts'
import { sayCardCredit } from '#db/ledger/card-credits.ts'
import { postCrossing } from '#db/ledger/crossing-store.ts'
import { householdMonths, spendableOn } from '#db/ledger/household-months.ts'
import { postEntry, voidEntry } from '#db/ledger/ledger-store.ts'
import type { HouseholdMonth } from '#ledger/household-month.ts'
import { coverByMonth } from '#ledger/pace.ts'
import { cents } from '#money/cents.ts'
import { planSchema } from '#plan/plan.ts'
import { varianceOf } from '#runway/against-books/variance.ts'
import { plannedMonths } from '#runway/against-books/variance-lines.ts'
import { project } from '#runway/project.ts'
import { actualMonths } from '#today/projection/months-left.ts'
import { assertFuzz, fuzzLimit } from '../fuzz/batches.ts'
import { anyCommandOrBulk, carryOut } from './commands.ts'
import { act, done, freshBooks, on, type TestBooks } from './fresh-books.ts'

const booked = (books: TestBooks, day: string, lines: readonly [string, number][]) =>
  done(
    postEntry(books, act(), {
      sideId: 'household',
      day: on(day),
      payee: '',
      memo: '',
      source: 'form',
      lines: lines.map(([name, amount]) => ({
        accountId: books.account('household', name).id,
        amountCents: cents(amount),
      })),
    }),
  )

/** What the lines of a month come to. */
const sumOf = (one: HouseholdMonth): number =>
  one.payCents +
  one.interestCents +
  one.benefitCents +
  one.otherIncomeCents +
  one.drawCents -
  one.contributionCents +
  one.reimbursementCents +
  one.ventureCents -
  one.lentCents +
  one.loanDrawnCents +
  one.otherCents -
  one.costCents -
  one.setAsideCents -
  one.owedCents -
  one.thingsCents

test('for any books the lines of each month add up to the change in savings, and those to the savings themselves', {
  timeout: fuzzLimit(60_000),
}, async () => {
  await assertFuzz(
    fc.property(fc.array(anyCommandOrBulk, { minLength: 5, maxLength: 60 }), (commands) => {
      const books = freshBooks()
      done(addSide(books, act(), { kind: 'venture', name: 'Fiddle lessons' }))
      carryOut(books, listAccounts(books), commands)
      const months = householdMonths(books, month(2024, 10), month(2027, 9))
      for (const one of months) expect(sumOf(one)).toBe(one.changeCents)
      for (const one of [months[8]!, months[20]!, months[35]!])
        expect(spendableOn(books, lastDayOf(one.month))).toBe(one.spendableCents)
      books.close()
    }),
    0.015,
    2000,
  )
})

test('for any books the lines of plan against books add up to the change in savings of the months compared', {
  timeout: fuzzLimit(60_000),
}, async () => {
  const plan = planSchema.parse({ startMonth: '2025-01', years: 3, tax: { method: 'none' } })
  const { months } = project(plan)
  await assertFuzz(
    fc.property(fc.array(anyCommandOrBulk, { minLength: 20, maxLength: 60 }), (commands) => {
      const books = freshBooks()
      done(addSide(books, act(), { kind: 'venture', name: 'Fiddle lessons' }))
      carryOut(books, listAccounts(books), commands)
      const variance = varianceOf(plannedMonths(plan, months), actualMonths(books, on('2027-12-31')), 0)
      if (variance !== null) {
        const sum = variance.lines.reduce((all, line) => all + (line.isCost ? -line.actual : line.actual), 0)
        expect(sum).toBeCloseTo(variance.change.actual, 4)
      }
      books.close()
    }),
    0.01,
    1000,
  )
})

test('a car payment of 300, 40 of it interest, costs 300; and what the bank lent for the next car is no income', () => {
  const books = freshBooks()
  booked(books, '2026-01-05', [
    ['Other loans', 26_000],
    ['Other loan interest', 4_000],
    ['Household checking', -30_000],
  ])
  booked(books, '2026-01-20', [
    ['Household checking', 900_000],
    ['Other loans', -900_000],
  ])
  const [january] = householdMonths(books, month(2026, 1), month(2026, 1))
  expect(january).toMatchObject({
    loanPaidCents: 30_000,
    loanDrawnCents: 900_000,
    livingCents: 0,
    costCents: 30_000,
    changeCents: 870_000,
  })
})

test('400 lent to a neighbor and 150 of it paid back are no spending and no lasting thing', () => {
  const books = freshBooks()
  done(
    addAccount(books, act(), {
      sideId: 'household',
      name: 'Lent to a neighbor',
      kind: 'asset',
      cashRole: 'none',
      currentKind: 'receivable',
    }),
  )
  booked(books, '2026-01-05', [
    ['Lent to a neighbor', 40_000],
    ['Household checking', -40_000],
  ])
  booked(books, '2026-02-05', [
    ['Household checking', 15_000],
    ['Lent to a neighbor', -15_000],
  ])
  const months = householdMonths(books, month(2026, 1), month(2026, 2))
  expect(months.map(sumOf)).toEqual([-40_000, 15_000])
  expect(months.map((one) => [one.owedCents, one.thingsCents, one.costCents, one.changeCents])).toEqual([
    [40_000, 0, 0, -40_000],
    [-15_000, 0, 0, 15_000],
  ])
  const plan = planSchema.parse({ startMonth: '2026-01', years: 3, tax: { method: 'none' } })
  const { lines } = varianceOf(
    plannedMonths(plan, project(plan).months),
    actualMonths(books, on('2026-03-20')),
    0,
  )!
  const actual = new Map(lines.map((line) => [line.name, line.actual]))
  expect(actual.get('Lent to others, less paid back')).toBe(250)
  expect(lines.filter((line) => line.about === 'spending').every((line) => line.actual === 0)).toBe(true)
})

test('a payment reversed was not paid, and its reversing is no new loan', () => {
  const books = freshBooks()
  const paid = booked(books, '2026-01-05', [
    ['Mortgage', 50_000],
    ['Household checking', -50_000],
  ])
  done(voidEntry(books, act(), paid.entryId, on('2026-01-06')))
  expect(householdMonths(books, month(2026, 1), month(2026, 1))[0]).toMatchObject({
    loanPaidCents: 0,
    loanDrawnCents: 0,
  })
})

test('draws of 1,000 cover 15.8 % of living 4,500 and loan payments 1,830; without the loans it would be said to be 22 %', () => {
  const books = freshBooks()
  done(
    postCrossing(books, act(), {
      kind: 'draw',
      day: on('2026-01-03'),
      amountCents: cents(100_000),
      fromAccountId: books.account('farm', 'Farm checking').id,
      toAccountId: books.account('household', 'Household checking').id,
      memo: '',
    }),
  )
  booked(books, '2026-01-10', [
    ['Groceries', 450_000],
    ['Household checking', -450_000],
  ])
  booked(books, '2026-01-11', [
    ['Mortgage', 103_000],
    ['Mortgage interest', 80_000],
    ['Household checking', -183_000],
  ])
  const [cover] = coverByMonth(householdMonths(books, month(2026, 1), month(2026, 1)))
  expect(cover!.ratio).toBeCloseTo(1000 / 6330, 10)
})

test('opening balances are in no line: a mortgage owed on the first day was not taken in that month', () => {
  const books = freshBooks()
  booked(books, '2026-01-01', [
    ['Savings', 2_000_000],
    ['Mortgage', -9_000_000],
    ['Retirement, Roth', 500_000],
    ['Opening balances', 6_500_000],
  ])
  booked(books, '2026-01-09', [
    ['Groceries', 10_000],
    ['Savings', -10_000],
  ])
  expect(householdMonths(books, month(2026, 1), month(2026, 1))[0]).toMatchObject({
    loanDrawnCents: 0,
    setAsideCents: 0,
    livingCents: 10_000,
    spendableCents: 1_990_000,
    changeCents: -10_000,
  })
})

test('940 paid on a card whose charges are not read is gone, not saved; read later it is not spent twice; said to be owed back it counts', () => {
  const books = freshBooks()
  booked(books, '2026-01-15', [
    ['Household card', 94_000],
    ['Household checking', -94_000],
  ])
  const before = householdMonths(books, month(2026, 1), month(2026, 1))[0]!
  expect(before).toMatchObject({ cardUnreadCents: 94_000, costCents: 94_000, spendableCents: -94_000 })
  const card = books.account('household', 'Household card').id
  expect(sayCardCredit(books, act(), card, cents(90_000)).ok).toBe(true)
  expect(spendableOn(books, on('2026-01-31'))).toBe(-4_000)
  expect(sayCardCredit(books, act(), card, cents(0)).ok).toBe(true)
  booked(books, '2026-02-02', [
    ['Groceries', 120_000],
    ['Household card', -120_000],
  ])
  const months = householdMonths(books, month(2026, 1), month(2026, 2))
  expect(months.map((one) => one.costCents)).toEqual([94_000, 26_000])
  expect(months[1]!.spendableCents).toBe(-120_000)
})
