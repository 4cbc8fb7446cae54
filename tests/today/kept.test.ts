// What is kept of the books: past years outlive what is booked after them, and nothing outlives its cause.
import fc from 'fast-check'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { month } from '#calendar/month.ts'
import { standingOf } from '#db/change-log.ts'
import { changeAccount } from '#db/ledger/account-change.ts'
import { sayCardCredit } from '#db/ledger/card-credits.ts'
import { postCrossing } from '#db/ledger/crossing-store.ts'
import { correctEntry, postEntry, voidEntry } from '#db/ledger/ledger-store.ts'
import { changeSide } from '#db/ledger/side-change.ts'
import { atomically } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { lastUndoable, undoChange } from '#db/undo.ts'
import { saveHolding } from '#db/year-store.ts'
import { cents } from '#money/cents.ts'
import { planSchema } from '#plan/plan.ts'
import { keptUntilChange } from '#today/kept.ts'
import { bookFacts } from '#today/projection/book-facts.ts'
import { startIn } from '#today/projection/continued-plan.ts'
import { actualMonths } from '#today/projection/months-left.ts'
import { booksYear } from '#today/tax/books-year.ts'
import { lastYearOf, taxPayments, workedYear } from '#today/tax/tax-payments.ts'
import { act, done, freshBooks, on, type TestBooks, withAccounts } from '../db/fresh-books.ts'

let books: TestBooks
beforeEach(() => {
  books = freshBooks()
})
afterEach(() => books.close())

const today = on('2027-04-20')

/** Ann and Bo, whose farming losses are carried back: a year rests on the ones before it. */
const plan = planSchema.parse({
  startMonth: '2025-03',
  household: {
    people: [
      { id: 'ann', name: 'Ann', born: '1985-03-10', planToAge: 50 },
      { id: 'bo', name: 'Bo', born: '1983-07-02', planToAge: 50 },
    ],
    living: [{ id: 'living', name: 'Living', perMonth: 2000 }],
  },
  savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 60_000 }] },
  farm: { cash: 4000, enterprises: [{ id: 'beds', name: 'Beds', salesPerUnit: 30_000 }] },
  tax: { farmLosses: 'back' },
})

interface Line {
  side: 'farm' | 'household'
  money: string
  other: string
}

const lines: readonly Line[] = [
  { side: 'farm', money: 'Farm checking', other: 'Vegetables and fruit sold' },
  { side: 'farm', money: 'Farm checking', other: 'Feed' },
  { side: 'farm', money: 'Farm checking', other: 'Term loan' },
  { side: 'household', money: 'Household checking', other: 'Groceries' },
  { side: 'household', money: 'Household card', other: 'Groceries' },
  { side: 'household', money: 'Household checking', other: 'Federal taxes' },
  { side: 'household', money: 'Household checking', other: 'Opening balances' },
]

const draft = (line: Line, dated: string, dollars: number) => ({
  sideId: line.side,
  day: day(dated),
  payee: '',
  memo: '',
  source: 'form' as const,
  lines: [
    { accountId: books.account(line.side, line.other).id, amountCents: cents(dollars * 100) },
    { accountId: books.account(line.side, line.money).id, amountCents: cents(-dollars * 100) },
  ],
})

const post = (line: Line, dated: string, dollars: number) =>
  done(postEntry(books, act(), draft(line, dated, dollars)))

const drawing = (dated: string, dollars: number) => ({
  kind: 'draw' as const,
  day: day(dated),
  amountCents: cents(dollars * 100),
  fromAccountId: books.account('farm', 'Farm checking').id,
  toAccountId: books.account('household', 'Household checking').id,
  memo: '',
})

const years = [2024, 2025, 2026, 2027]

const saidBy = (of: Books) => ({
  years: years.map((year) => booksYear(of, year)),
  lastYears: years.map((year) => lastYearOf(of, plan, year)),
  worked: years.map((year) => workedYear(of, plan, year)),
  payments: years.flatMap((year) => [taxPayments(of, plan, year), taxPayments(of, plan, year, 'state')]),
  facts: [month(2025, 1), month(2026, 6), month(2027, 4)].map((one) => bookFacts(of, one)),
  months: actualMonths(of, today),
  start: startIn(of, plan, month(2027, 4)),
})

/** The same file, of which nothing was kept yet. */
const saidAnew = () => saidBy(withAccounts(books))

test('what is booked this year leaves the years before as they were read', () => {
  post(lines[0]!, '2025-06-01', -30_000)
  post(lines[1]!, '2026-06-01', 2000)
  done(postCrossing(books, act(), drawing('2026-07-01', 400)))
  const [year, last, worked] = [
    booksYear(books, 2026),
    lastYearOf(books, plan, 2026),
    workedYear(books, plan, 2026),
  ]
  post(lines[1]!, '2027-01-01', 50)
  done(postCrossing(books, act(), drawing('2027-02-01', 900)))
  expect(booksYear(books, 2026)).toBe(year)
  expect(lastYearOf(books, plan, 2026)).toBe(last)
  expect(workedYear(books, plan, 2026)).toBe(worked)
  post(lines[1]!, '2026-12-31', 50)
  expect(booksYear(books, 2026)).not.toBe(year)
  expect(booksYear(books, 2025)).toBe(booksYear(books, 2025))
})

const buy = (bought: string) =>
  saveHolding(books, act(), 'farm', {
    kind: 'equipment',
    name: 'Walking tractor',
    quantity: 1,
    unit: '',
    accountId: null,
    acquiredDay: day(bought),
    inServiceDay: day(bought),
    raised: false,
    costCents: cents(420_000),
    depreciation: null,
    marketValueCents: null,
  })

test.each<[string, () => unknown]>([
  ['a back-dated entry', () => post(lines[1]!, '2025-05-02', 7)],
  ['a back-dated crossing', () => done(postCrossing(books, act(), drawing('2025-05-02', 7)))],
  ['a reversal', () => done(voidEntry(books, act(), 'feed', on('2027-03-01')))],
  ['a correction', () => done(correctEntry(books, act(), 'feed', draft(lines[1]!, '2025-05-01', 60)))],
  [
    'another line of the tax form',
    () => done(changeAccount(books, act(), books.account('farm', 'Feed'), { scheduleLine: '32a' })),
  ],
  ['another name', () => done(changeAccount(books, act(), books.account('farm', 'Feed'), { name: 'Hay' }))],
  ['a thing of the inventory', () => done(buy('2025-04-01'))],
  ['a side renamed', () => done(changeSide(books, act(), 'farm', { name: 'Thistle Field' }))],
  [
    'an account that a crossing of this year brings',
    () => done(postCrossing(books, act(), drawing('2027-02-01', 9))),
  ],
  ['an undo', () => done(undoChange(books, act(), lastUndoable(books, 'test')!.id, today))],
])('%s renews the year it touches', (_, change) => {
  done(postEntry(books, act('feed'), draft(lines[1]!, '2025-05-01', 50)))
  const before = booksYear(books, 2025)
  change()
  expect(booksYear(books, 2025)).not.toEqual(before)
  expect(saidBy(books)).toEqual(saidAnew())
})

test('what was read in a transaction that came to nothing is not found under the change that takes its id', () => {
  post(lines[1]!, '2025-05-01', 50)
  const cash = () => bookFacts(books, month(2026, 6))!.farmCash
  expect(cash()).toBe(-50)
  const refused = atomically<{ ok: boolean }>(books, () => {
    post(lines[1]!, '2025-05-02', 9)
    expect(cash()).toBe(-59)
    return { ok: false }
  })
  expect(refused).toEqual({ ok: false })
  // The change of this entry has the id of the one that was rolled back.
  post(lines[1]!, '2025-05-03', 200)
  expect(cash()).toBe(-250)
  const standing = standingOf(books)
  expect(() =>
    atomically(books, () => {
      post(lines[1]!, '2025-05-04', 9)
      expect(keptUntilChange(books, 'cash', cash)).toBe(-259)
      throw new Error('the disk is full')
    }),
  ).toThrow('the disk is full')
  expect(standingOf(books)).not.toBe(standing)
  post(lines[1]!, '2025-05-04', 1)
  expect(keptUntilChange(books, 'cash', cash)).toBe(-251)
})

test('opening balances, which say when the books begin, renew the months before them', () => {
  post(lines[1]!, '2025-05-01', 50)
  expect(bookFacts(books, month(2026, 6))!.farmCash).toBe(-50)
  post(lines[6]!, '2027-01-05', -800)
  expect(bookFacts(books, month(2026, 6))).toBeNull()
})

test('whatever is done, what was kept says what is read anew', () => {
  const line = fc.constantFrom(...lines)
  const dated = fc
    .tuple(
      fc.integer({ min: 2024, max: 2027 }),
      fc.integer({ min: 1, max: 12 }),
      fc.integer({ min: 1, max: 28 }),
    )
    .map((parts) => parts.map((part) => String(part).padStart(2, '0')).join('-'))
  const dollars = fc.integer({ min: -9000, max: 9000 }).filter((one) => one !== 0)
  const place = fc.nat(20)
  const posted: string[] = []
  const pick = (at: number) => posted[at % posted.length] ?? ''
  // What is refused, like taking back what was taken back, changes nothing: it is an act like any other.
  const acts = fc.oneof(
    {
      weight: 5,
      arbitrary: fc.tuple(line, dated, dollars).map(([of, at, sum]) => () => {
        const one = postEntry(books, act(), draft(of, at, sum))
        if (one.ok) posted.push(one.result.entryId)
      }),
    },
    fc.tuple(dated, dollars).map(
      ([at, sum]) =>
        () =>
          postCrossing(books, act(), drawing(at, Math.abs(sum))),
    ),
    dated.map((bought) => () => buy(bought)),
    fc.tuple(place, dated).map(
      ([at, later]) =>
        () =>
          voidEntry(books, act(), pick(at), day(later)),
    ),
    fc.tuple(place, line, dated, dollars).map(([at, one, to, sum]) => () => {
      const corrected = correctEntry(books, act(), pick(at), draft(one, to, sum))
      if (corrected.ok) posted.push(corrected.result.entryId)
    }),
    fc
      .constantFrom('12', '32a', '16')
      .map(
        (scheduleLine) => () => changeAccount(books, act(), books.account('farm', 'Feed'), { scheduleLine }),
      ),
    fc.constantFrom('living', 'care', 'premium' as const).map(
      (purpose) => () =>
        changeAccount(books, act(), books.account('household', 'Groceries'), {
          purpose: purpose as 'living',
        }),
    ),
    fc.constantFrom('federal', 'state').map(
      (taxKind) => () =>
        changeAccount(books, act(), books.account('household', 'Federal taxes'), {
          taxKind: taxKind as 'federal',
        }),
    ),
    fc
      .nat(900)
      .map(
        (owed) => () =>
          sayCardCredit(books, act(), books.account('household', 'Household card').id, cents(owed * 100)),
      ),
    fc.string({ minLength: 1 }).map((name) => () => changeSide(books, act(), 'farm', { name })),
    fc.constant(() => undoChange(books, act(), lastUndoable(books, 'test')?.id ?? 0, today)),
  )
  fc.assert(
    fc.property(fc.array(acts, { minLength: 4, maxLength: 8 }), (chosen) => {
      books.close()
      books = freshBooks()
      posted.length = 0
      for (const carryOut of chosen) {
        carryOut()
        expect(saidBy(books)).toEqual(saidAnew())
      }
    }),
    { numRuns: 8, endOnFailure: true },
  )
})
