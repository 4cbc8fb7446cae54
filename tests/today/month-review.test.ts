// What changed months left since last month: each part found by running the plan with that one thing as it was. Three houses of our
// own invention, worked by hand; in the first two nothing grows, so that every dollar can be counted.
import { afterEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { postCrossing } from '#db/ledger/crossing-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { cents, dollarsToCents } from '#money/cents.ts'
import type { PlanInput } from '#plan/plan.ts'
import { readPlan } from '#plan/upgrade.ts'
import { nowCommand } from '#src/cli/now.ts'
import { figuresSaid } from '#today/figures-said.ts'
import type { MonthReview, ReviewPartKind } from '#today/month-review/figures.ts'
import { monthReview } from '#today/month-review/month-review.ts'
import { act, done } from '../db/fresh-books.ts'
import { pastTheGuards } from '../db/past-the-guards.ts'
import { type TestApp, testApp } from '../web/test-app.ts'
import { accountIn, moveIn } from './moved.ts'

let app: TestApp
afterEach(() => app.close())

const accountId = (side: string, name: string) => accountIn(app.books, side, name)
const moved = (side: 'household' | 'farm', on: string, from: string, to: string, dollars: number) =>
  moveIn(app.books, side, on, from, to, dollars)

const drawn = (on: string, dollars: number) =>
  done(
    postCrossing(app.books, act(), {
      kind: 'draw',
      day: day(on),
      amountCents: dollarsToCents(dollars),
      fromAccountId: accountId('farm', 'Farm checking'),
      toAccountId: accountId('household', 'Savings'),
      memo: '',
    }),
  )

const planOf = (plan: PlanInput) => {
  const read = readPlan({ planVersion: 4, ...plan })
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  return read.plan
}

const opened = (today: string, plan: PlanInput) => {
  app = testApp({ today })
  app.openSides()
  app.savePlan(planOf(plan))
}

const reviewed = (today: string) => {
  const review = monthReview(app.books, day(today))
  if (review.status !== 'read') throw new Error(`No review: ${review.says}`)
  return review
}

const partOf = ({ parts }: Extract<MonthReview, { status: 'read' }>, kind: ReviewPartKind) =>
  parts.find((one) => one.kind === kind) ?? { savings: 0, yearAhead: 0, months: 0 }

/** Every review: its parts come to the whole, in savings, a year ahead and in months. */
const expectToAddUp = (review: Extract<MonthReview, { status: 'read' }>) => {
  const sum = (pick: (one: (typeof review.parts)[number]) => number) =>
    review.parts.reduce((all, one) => all + pick(one), 0)
  expect(sum((one) => one.savings)).toBeCloseTo(review.savings.now - review.savings.before, 2)
  expect(sum((one) => one.yearAhead)).toBeCloseTo(review.yearAhead.now - review.yearAhead.before, 2)
  if (review.monthsLeft.before !== null && review.monthsLeft.now !== null)
    expect(sum((one) => one.months ?? Number.NaN)).toBe(review.monthsLeft.now - review.monthsLeft.before)
}

/** A boatyard's couple: 2,000 a month, 500 drawn, a floor of 6,000. */
const boatyard: PlanInput = {
  startMonth: '2027-01',
  household: {
    living: [{ id: 'living', name: 'Living', perMonth: 2000 }],
    floor: { kind: 'dollars', dollars: 6000 },
  },
  savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 21_500 }] },
  draw: { policy: 'steps', steps: [{ from: '2027-01', perMonth: 500 }], growth: 0, withPrices: false },
  tax: { method: 'none' },
  assumptions: { inflation: 0, premiumGrowth: 0 },
}

test('spending, a draw left out and a dearer plan each say what they did to months left', () => {
  opened('2027-01-10', boatyard)
  moved('household', '2027-01-31', 'Opening balances', 'Savings', 20_000)
  moved('farm', '2027-01-31', 'Opening balances', 'Farm checking', 3000)
  // As February began: 20,000 less 1,500 a month is below 6,000 after ten months, in November: nine months left.
  moved('household', '2027-02-12', 'Savings', 'Groceries', 2600)
  app.setToday('2027-03-02')
  const [line] = planOf(boatyard).household.living
  app.savePlan(
    {
      ...planOf(boatyard),
      household: { ...planOf(boatyard).household, living: [{ ...line!, perMonth: 2300 }] },
    },
    { basedOn: 1 },
  )
  const review = reviewed('2027-03-05')
  expectToAddUp(review)
  expect(review).toMatchObject({
    monthsLeft: { before: 9, now: 6 },
    savings: { before: 20_000, expected: 18_500, now: 17_400 },
  })
  // A month as planned: 18,500 less 1,500 a month is below the floor in November still, eight months from March.
  expect(partOf(review, 'time')).toMatchObject({ savings: -1500, yearAhead: 0, months: -1 })
  // 600 more spent: 17,900 lasts to October. By February 2028 the 500 that were left are gone and 100 are missing.
  expect(partOf(review, 'spending')).toMatchObject({ savings: -600, yearAhead: -600, months: -1 })
  // No draw: 500 less, 17,400 is below 6,000 after eight months, in October as well.
  expect(partOf(review, 'farm')).toMatchObject({ savings: -500, yearAhead: -500, months: 0 })
  // 300 a month dearer: 17,400 less 1,800 a month, below 6,000 after seven months, in September; 3,600 in twelve months.
  expect(partOf(review, 'plan')).toMatchObject({ savings: 0, yearAhead: -3600, months: -1 })
  expect(partOf(review, 'rest')).toMatchObject({ savings: 0, yearAhead: 0, months: 0 })
})

/**
 * A weaver and a wheelwright with 30,000 in cash, 20,000 invested and a loan on the truck; no months are left out of the plan.
 * 2,500 a month and 300 for the truck, premium 400, 700 of off-farm pay without tax.
 */
const weavers: PlanInput = {
  startMonth: '2026-06',
  household: {
    people: [{ id: 'una', name: 'Una', born: '1984-02-20', planToAge: 60 }],
    living: [{ id: 'living', name: 'Living', perMonth: 2500 }],
    pay: [{ id: 'school', name: 'School', person: 'una', perMonth: 700 }],
    loans: [
      {
        id: 'truck',
        name: 'Truck',
        principal: 9000,
        yearlyRate: 0,
        start: '2026-05',
        drawn: false,
        paymentPerMonth: 300,
        bookAccount: 2200,
      },
    ],
    floor: { kind: 'dollars', dollars: 10_000 },
  },
  health: { premiums: [{ id: 'premium', name: 'Premium', perMonth: 400 }] },
  savings: {
    accounts: [
      { id: 'cash', name: 'Cash', kind: 'cash', balance: 30_000 },
      { id: 'fund', name: 'Fund', kind: 'taxable', balance: 20_000 },
    ],
  },
  tax: { method: 'none' },
  assumptions: { inflation: 0, premiumGrowth: 0, careGrowth: 0, stocks: 0, bonds: 0, bills: 0 },
}

test('a fall of markets, a dearer premium, tax, pay and money borrowed have a row each', () => {
  opened('2026-06-02', weavers)
  moved('household', '2026-06-30', 'Opening balances', 'Household checking', 30_000)
  moved('household', '2026-06-30', 'Opening balances', 'Taxable investments', 20_000)
  moved('household', '2026-06-30', 'Other loans', 'Opening balances', 8700)
  const july = (from: string, to: string, dollars: number) =>
    moved('household', '2026-07-15', from, to, dollars)
  july('Household checking', 'Groceries', 2500)
  july('Household checking', 'Other loans', 300)
  july('Household checking', 'Health premiums', 650)
  july('Household checking', 'Federal taxes', 120)
  july('Off-farm pay', 'Household checking', 900)
  july('Change in value of investments', 'Taxable investments', -4000)
  july('Mortgage', 'Household checking', 1000)
  const review = reviewed('2026-08-09')
  expectToAddUp(review)
  // Planned: −2,500 − 300 − 400 + 700 a month.
  expect(review.savings).toMatchObject({ before: 50_000, expected: 47_500, now: 44_330 })
  expect(partOf(review, 'market').savings).toBe(-4000)
  expect(partOf(review, 'spending').savings).toBe(0)
  expect(partOf(review, 'premiums').savings).toBe(-250)
  expect(partOf(review, 'tax').savings).toBe(-120)
  // No pay is planned free of Social Security tax: without tax the plan pays all of it out.
  expect(partOf(review, 'income').savings).toBe(200)
  expect(partOf(review, 'moved').savings).toBe(1000)
  expect(partOf(review, 'rest')).toMatchObject({ savings: 0, yearAhead: 0, months: 0 })
  // 47,500 less 2,500 a month falls below 10,000 in its sixteenth month from August, November 2027; 44,330 in its fourteenth.
  expect(review.monthsLeft).toEqual({ before: 16, now: 13 })
  // 43,500 falls below in its fourteenth month too (43,500 − 35,000 = 8,500).
  expect(partOf(review, 'market').months).toBe(-2)
  expect(partOf(review, 'time').months).toBe(-1)
})

/** An orchard with its own money, tax by law and prices that rise: nothing is round, and still nothing stays unexplained. */
const orchard: PlanInput = {
  startMonth: '2026-01',
  household: {
    people: [
      { id: 'ivo', name: 'Ivo', born: '1979-11-03' },
      { id: 'bea', name: 'Bea', born: '1982-05-14' },
    ],
    living: [{ id: 'living', name: 'Living', perMonth: 3100 }],
  },
  savings: {
    accounts: [
      { id: 'cash', name: 'Cash', kind: 'cash', balance: 45_000, mix: { bills: 1 } },
      { id: 'ira', name: 'IRA', kind: 'traditional', balance: 60_000, mix: { stocks: 0.6, bonds: 0.4 } },
    ],
  },
  farm: {
    cash: 12_000,
    reserve: 5000,
    enterprises: [
      {
        id: 'apples',
        name: 'Apples',

        unit: 'tree',

        salesPerUnit: [1500, 1500, 1500, 1500, 1500, 2500, 4000, 6000, 8000, 9000, 6000, 3000],
        costsPerUnit: 16_000,
      },
    ],
  },
  draw: { policy: 'sweep', from: '2026-01' },
}

test('a plan that stands in for the one of then is named', async () => {
  opened('2027-01-10', boatyard)
  moved('household', '2027-01-31', 'Opening balances', 'Savings', 20_000)
  moved('household', '2027-02-12', 'Savings', 'Groceries', 1500)
  expect(reviewed('2027-03-05').standsIn).toBeNull()
  // Saved on March 2: as February began, the first version stood, and it can no longer be read.
  app.setToday('2027-03-02')
  app.savePlan({ ...planOf(boatyard), years: 12 }, { basedOn: 1 })
  pastTheGuards(app.books.sqlite, "UPDATE plan_revisions SET document = '{}' WHERE revision_no = 1")
  const review = reviewed('2027-03-05')
  expect(review.standsIn).toBe('The plan of then, version 1, cannot be read any more: today’s plan is used.')
  expect(review.revisions).toEqual({ before: 2, now: 2 })
  app.setToday('2027-03-05')
  expect(await (await app.get('/now?review=yes')).text()).toContain(review.standsIn!)
})

test('a plan saved only later is said to stand in for the one of then', () => {
  opened('2027-03-02', boatyard)
  moved('household', '2027-01-31', 'Opening balances', 'Savings', 20_000)
  moved('household', '2027-02-12', 'Savings', 'Groceries', 1500)
  expect(reviewed('2027-03-05').standsIn).toContain('saved only after February 2027 had begun')
})

test('under tax by law and rising prices the rest is small', () => {
  opened('2026-04-20', orchard)
  moved('household', '2026-04-30', 'Opening balances', 'Savings', 38_000)
  moved('household', '2026-04-30', 'Opening balances', 'Retirement, traditional', 61_000)
  moved('farm', '2026-04-30', 'Opening balances', 'Farm checking', 9000)
  moved('household', '2026-05-20', 'Savings', 'Groceries', 3400)
  moved('farm', '2026-05-21', 'Vegetables and fruit sold', 'Farm checking', 2100)
  moved('farm', '2026-05-22', 'Farm checking', 'Supplies', 1900)
  drawn('2026-05-25', 200)
  const review = reviewed('2026-06-10')
  expectToAddUp(review)
  expect(partOf(review, 'spending').savings).toBeLessThan(-200)
  expect(Math.abs(partOf(review, 'rest').yearAhead)).toBeLessThan(100)
  expect(partOf(review, 'rest').months).toBe(0)
})

/**
 * A quarry's couple of 63 on the marketplace that lives from an IRA and pays 4,000 of property tax each December: what December left
 * uncovered says nothing of the year to come.
 */
const quarry: PlanInput = {
  ...orchard,
  household: {
    people: [
      { id: 'ana', name: 'Ana', born: '1963-03-03' },
      { id: 'rue', name: 'Rue', born: '1963-05-14' },
    ],
    living: [
      { id: 'living', name: 'Living', perMonth: 3900 },
      { id: 'land', name: 'Property tax', perMonth: 4000, months: [12] },
    ],
  },
  savings: {
    accounts: [
      { id: 'ira', name: 'IRA', kind: 'traditional', balance: 700_000, mix: { bonds: 1 } },
      { id: 'cash', name: 'Cash', kind: 'cash', balance: 70_000, mix: { bills: 1 } },
    ],
    spendOrder: ['ira', 'cash'],
  },
  health: {
    marketplace: {
      members: [{ person: 'ana' }, { person: 'rue' }],
      benchmarkAt21: 420,
      planAt21: 420,
    },
  },
}

test('at a year’s turn the rest is small too: January expects of its year what a plan begun in it expects', () => {
  opened('2026-10-20', quarry)
  moved('household', '2026-11-30', 'Opening balances', 'Savings', 70_000)
  moved('household', '2026-11-30', 'Opening balances', 'Retirement, traditional', 690_000)
  moved('farm', '2026-11-30', 'Opening balances', 'Farm checking', 9000)
  moved('household', '2026-12-20', 'Savings', 'Groceries', 3900)
  const review = reviewed('2027-01-10')
  expectToAddUp(review)
  expect(Math.abs(partOf(review, 'rest').yearAhead)).toBeLessThan(100)
  expect(partOf(review, 'rest').months).toBe(0)
})

test('Now asks for it after the page; its JSON, its table and the terminal say the same', async () => {
  app = testApp({ today: '2027-01-10', onDisk: true })
  app.openSides()
  app.savePlan(planOf(boatyard))
  moved('household', '2027-01-31', 'Opening balances', 'Savings', 20_000)
  moved('household', '2027-02-12', 'Savings', 'Groceries', 2600)
  app.setToday('2027-03-05')
  const page = await (await app.get('/now')).text()
  expect(page).toContain('hx-get="/now?review=yes"')
  expect(page).not.toContain('Since last month')
  const asked = await (await app.get('/now?review=yes')).text()
  expect(asked).toContain('As February 2027 began, 9 months were left; now 7 are left.')
  expect(asked).toContain('Household spending: $2,600 of $2,000 planned.')
  expect(await (await app.get('/now')).text()).toContain('Since last month')
  const { review } = (await (await app.get('/now.json')).json()) as { review: MonthReview }
  expect(review).toEqual(figuresSaid(monthReview(app.books, day('2027-03-05'))))
  const csv = await (await app.get('/now.csv?table=review')).text()
  expect(csv).toContain('Spending,-600.00,-600.00,-1')
  const said: string[] = []
  const io = {
    out: (text: string) => void said.push(text),
    err: (text: string) => void said.push(text),
    readInput: async () => '',
    env: {},
    now: () => new Date('2027-03-05T12:00:00'),
  }
  expect(await nowCommand.run(['--data', app.books.path], io)).toBe(0)
  expect(said).toContain('Since February 2027 began: months left were 9, and are 7.')
  expect(said).toContain('  Spending: savings −$600, months −1')
})

/** A cooper's couple of whom one earns 3,400 a month before tax, 9 % of it withheld: 3,400 − 306 − 260.10 (7.65 %, 26 USC 3101) come. */
const coopers: PlanInput = {
  startMonth: '2026-05',
  household: {
    people: [
      { id: 'kit', name: 'Kit', born: '1986-08-09', planToAge: 60 },
      { id: 'sol', name: 'Sol', born: '1984-02-20', planToAge: 60 },
    ],
    living: [{ id: 'living', name: 'Living', perMonth: 3000 }],
    pay: [{ id: 'mill', name: 'Mill', person: 'sol', perMonth: 3400, withheldShare: 0.09 }],
    floor: { kind: 'dollars', dollars: 6000 },
  },
  savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 40_000, mix: { bills: 1 } }] },
  assumptions: { inflation: 0, bills: 0 },
}

test.each(['before tax', 'as it came'])(
  'pay booked %s is held against take-home pay, and tax against what was paid beside it',
  async (how) => {
    opened('2026-04-02', coopers)
    moved('household', '2026-04-30', 'Opening balances', 'Household checking', 40_000)
    moved('household', '2026-05-20', 'Household checking', 'Groceries', 3000)
    moved('household', '2026-05-21', 'Household checking', 'Federal taxes', 500)
    const pay = accountId('household', 'Off-farm pay')
    for (const on of ['2026-05-08', '2026-05-22'])
      if (how === 'as it came') moved('household', on, 'Off-farm pay', 'Household checking', 1416.95)
      else
        done(
          postEntry(app.books, act(), {
            ...{ sideId: 'household', payee: 'Mill', memo: '', source: 'form', day: day(on) },
            lines: [
              { accountId: accountId('household', 'Household checking'), amountCents: cents(141_695) },
              { accountId: accountId('household', 'Federal taxes'), amountCents: cents(15_300) },
              {
                accountId: accountId('household', 'Social Security and Medicare from pay'),
                amountCents: cents(13_005),
              },
              { accountId: pay, amountCents: cents(-170_000) },
            ],
          }),
        )
    const review = reviewed('2026-06-04')
    expectToAddUp(review)
    // 40,000 + 2,833.90 − 3,000 were expected; an estimated payment of 500 went beside it.
    expect(review.savings.expected).toBeCloseTo(39_833.9, 2)
    expect(review.savings.now).toBeCloseTo(39_333.9, 2)
    expect(partOf(review, 'income').savings).toBeCloseTo(0, 2)
    expect(partOf(review, 'tax').savings).toBeCloseTo(-500, 2)
    app.setToday('2026-06-04')
    const { variance } = (await (await app.get('/runway/actual.json')).json()) as {
      variance: { lines: { name: string; planned: number; actual: number }[] }
    }
    const line = (name: string) => variance.lines.find((one) => one.name.startsWith(name))!
    expect(line('Pay').actual).toBeCloseTo(2833.9, 2)
    expect(line('Pay').planned).toBeCloseTo(2833.9, 2)
    expect(line('Taxes')).toMatchObject({ planned: 0, actual: 500 })
    // The costs of the month are what was paid out of the house, however the pay was booked.
    const spent = (await (
      await app.get('/books/spending.json?side=household&months=1&until=2026-05')
    ).json()) as {
      rows: { name: string; totalCents: number }[]
    }
    const taxes = spent.rows.filter(({ name }) => /tax|Social security/i.test(name))
    expect(taxes.map(({ name, totalCents }) => [name, totalCents])).toEqual([
      ['Taxes', 50_000],
      ['Federal taxes', 50_000],
    ])
  },
)

test('opened on the first of a month, that month is whole: its review counts from what was there', () => {
  opened('2027-01-10', boatyard)
  moved('household', '2027-02-01', 'Opening balances', 'Savings', 20_000)
  moved('household', '2027-02-12', 'Savings', 'Groceries', 2600)
  const review = reviewed('2027-03-05')
  expectToAddUp(review)
  expect(review.savings).toEqual({ before: 20_000, expected: 18_500, now: 17_400 })
})

test('without a last month the review says why, in words', () => {
  opened('2027-01-10', boatyard)
  expect(monthReview(app.books, day('2027-03-05'))).toMatchObject({ status: 'none' })
  // Books that begin in February cannot say how February began.
  moved('household', '2027-02-03', 'Opening balances', 'Savings', 20_000)
  expect(monthReview(app.books, day('2027-03-05'))).toMatchObject({
    status: 'none',
    says: 'The books begin in February 2027. You see what changed after the first full month.',
  })
  // Books that end in February say nothing of March.
  expect(monthReview(app.books, day('2027-04-05'))).toMatchObject({
    status: 'none',
    says: 'The books do not hold March 2027 yet. Read in the bank’s files, and this says what the month changed.',
  })
})

test('in random books each part is its own difference to the dollar, gains that were expected too', () => {
  const seeds = [3, 41, 977]
  for (const seed of seeds) {
    let x = seed
    const upTo = (most: number) => {
      x = (x * 48271) % 2147483647
      return Math.round((x / 2147483647) * most * 100) / 100
    }
    opened('2026-06-02', {
      ...weavers,
      savings: {
        accounts: weavers.savings!.accounts!.map((one) => ({
          ...one,
          mix: { stocks: 0.5, bonds: 0.2, bills: 0.3 },
        })),
      },
      assumptions: { ...weavers.assumptions, stocks: 0.08, bonds: 0.04, bills: 0.03 },
    })
    const [cash, fund] = [20_000 + upTo(20_000), 5000 + upTo(40_000)]
    moved('household', '2026-06-30', 'Opening balances', 'Household checking', cash)
    moved('household', '2026-06-30', 'Opening balances', 'Taxable investments', fund)
    moved('household', '2026-06-30', 'Other loans', 'Opening balances', 8700)
    const july = (from: string, to: string, dollars: number) =>
      moved('household', `2026-07-${10 + (x % 18)}`, from, to, dollars)
    const [spent, premium, tax, pay, gain, lent] = [4000, 700, 500, 1500, 900, 2000].map(
      (most) => upTo(most) + 1,
    )
    const isLoss = x % 2 === 0
    july('Household checking', 'Groceries', spent!)
    july('Household checking', 'Other loans', 300)
    july('Household checking', 'Health premiums', premium!)
    july('Household checking', 'Federal taxes', tax!)
    july('Off-farm pay', 'Household checking', pay!)
    if (isLoss) july('Change in value of investments', 'Taxable investments', -gain!)
    else july('Change in value of investments', 'Taxable investments', gain!)
    july('Mortgage', 'Household checking', lent!)
    const review = reviewed('2026-08-09')
    expectToAddUp(review)
    // Premiums and tax are spent too: 2,500, 300 of the loan and 400 were planned, and no tax.
    expect(review.spending.planned, `seed ${seed}`).toBeCloseTo(3200, 2)
    expect(review.spending.actual, `seed ${seed}`).toBeCloseTo(spent! + 300 + premium! + tax!, 2)
    expect(review.things).toEqual({ planned: 0, actual: 0 })
    // Planned: −2,500 − 300 − 400 + 700 a month, and what the accounts were to earn.
    const expected = review.savings.expected - review.savings.before + 2500
    expect(expected, `seed ${seed}`).toBeGreaterThan(50)
    const parts = {
      time: expected - 2500,
      market: (isLoss ? -gain! : gain!) - expected,
      spending: 2500 - spent!,
      premiums: 400 - premium!,
      tax: -tax!,
      income: pay! - 700,
      moved: lent!,
      rest: 0,
    }
    for (const [kind, dollars] of Object.entries(parts))
      expect(partOf(review, kind as ReviewPartKind).savings, `seed ${seed}, ${kind}`).toBeCloseTo(dollars, 1)
    app.close()
  }
  app = testApp({ today: '2026-06-02' })
})
