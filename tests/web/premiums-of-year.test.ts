// A year under way in which premiums were paid before the plan was made: what a month costs after the credit, what is paid each month, and
// what the return settles are the same figures on all pages. Invented households that sell bread and mushrooms.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { listAccounts } from '#db/ledger/account-store.ts'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import type { CoverFigures } from '#today/cover/figures.ts'
import { postByName } from './post-by-name.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp

const months = ['03', '04', '05', '06', '07', '08', '09', '10']

beforeEach(() => {
  app = testApp({ today: '2026-11-02' })
  app.openSides()
  post('household', '2026-03-01', { Savings: 50_000, 'Opening balances': -50_000 })
})

afterEach(() => app.close())

const post = (side: string, on: string, amounts: Record<string, number>) =>
  postByName(app.books, side, on, amounts)

const pay = (premium: number, wages: number) => {
  const name = listAccounts(app.books).find(({ purpose }) => purpose === 'premium')!.name
  for (const month of months) {
    post('household', `2026-${month}-04`, { [name]: premium, Savings: -premium })
    post('household', `2026-${month}-28`, { Savings: wages, 'Off-farm pay': -wages })
  }
}

interface Household {
  state: 'NC' | 'KS'
  perMonth: number
  withChild: boolean
  advanceCredit?: boolean
  startMonth?: string
}

const planOf = ({ state, perMonth, withChild, advanceCredit = true, startMonth = '2026-11' }: Household) =>
  planSchema.parse({
    startMonth,
    household: {
      people: [
        { id: 'lea', name: 'Lea', born: '1984-05-02' },
        { id: 'ott', name: 'Ott', born: '1986-09-12' },
      ],
      dependents: withChild ? [{ id: 'pip', name: 'Pip', born: '2015-03-20' }] : [],
      living: [{ id: 'living', name: 'Living', perMonth: 2300 }],
      pay: [{ id: 'bakery', name: 'Bakery', person: 'ott', perMonth }],
      place: { state },
    },
    health: {
      marketplace: {
        planAt21: 400,
        benchmarkAt21: 420,
        members: ['lea', 'ott', ...(withChild ? ['pip'] : [])].map((person) => ({ person })),
        advanceCredit,
      },
    },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 50_000 }] },
  } satisfies PlanInput)

type Read = Extract<CoverFigures, { status: 'read' }>
const cover = async (query = '') => (await (await app.get(`/cover.json${query}`)).json()) as Read
const run = async () =>
  ((await (await app.get('/runway.json')).json()) as { months: { month: string; premiums: number }[] }).months
const text = async (path: string) =>
  (await (await app.get(path)).text()).replaceAll(/<[^>]+>/g, ' ').replaceAll(/\s+/g, ' ')

// On the federal curve for 2026 (45 CFR 147.102, factors from memory): 1.302 at 41 and 1.262 at 39 make 2.564 of 400, 1,025.60 of the plan,
// and of 420, 1,076.88 of the benchmark; with 0.765 at 10 it is 3.329: 1,331.60 and 1,398.18.

// Of 1,025.60 the household paid 300: 725.60 came in advance, and 351.28 is the own part the marketplace has set. It goes on.
test('the premium paid so far is paid to the end of the year, and what the credit is more comes with the return', async () => {
  app.savePlan(planOf({ state: 'NC', perMonth: 3400, withChild: false }))
  pay(300, 3400)
  const { rows } = await cover()
  const [first] = rows
  expect(first!.marketplaceMonths).toBe(10)
  const { over, ahead, settles } = first!.paidInMonths!
  expect(over).toEqual({ months: 8, monthly: 300 })
  expect(ahead!.months).toBe(2)
  expect(ahead!.monthly).toBeCloseTo(300, 2)
  expect(settles).toBeCloseTo(first!.credit - 10 * 725.6, 1)
  const [november, december] = await run()
  expect(november!.premiums).toBeCloseTo(300, 1)
  expect(december!.premiums).toBeCloseTo(300, 1)
})

// Household income is pay of ten months, 34,000: 160% of the level of 21,150 for two, of which 4.67% is asked (Rev. Proc. 2025-25: 4.19% at
// 150% to 6.60% at 200%): 1,587.80 a year, 132.32 a month. The credit is 1,076.88 less that, 944.56; the premium after it 81.04.
test('a month after the credit is one figure on the pages of Health', async () => {
  app.savePlan(planOf({ state: 'NC', perMonth: 3400, withChild: false }))
  pay(300, 3400)
  const { rows, inSight } = await cover()
  expect(rows[0]!.householdIncome).toBeCloseTo(34_000, -2)
  expect(rows[0]!.paidMonthly).toBeCloseTo(81.04, 0)
  const { now } = inSight!.room
  expect(now.netPremium / inSight!.months).toBeCloseTo(rows[0]!.paidMonthly, 0)
  expect(now.credit).toBeCloseTo(rows[0]!.credit, 0)
  expect(inSight!.paidInMonths!.settles).toBeCloseTo(rows[0]!.paidInMonths!.settles, 0)
  for (const path of ['/cover', '/cover/credit', '/cover/years']) {
    const page = await text(path)
    expect(page).toContain('$81')
    expect(page).toContain(
      'So far the marketplace was paid $300 a month; it is $300 a month from November on, as the advance credit goes on.',
    )
    expect(page).toContain('of the credit comes with the return of 2026')
  }
})

// Pay of 4,000 is 48,000 over twelve months, 176% of 27,320 for three: children have Medicaid, adults above 138% have none. The own part is
// 1,398.18 less 1,031.60, 366.58; of the adults' benchmark 1,076.88 it leaves 710.30 in advance, and 315.30 of 1,025.60 to pay.
test('a child who comes to Medicaid was on the marketplace in the months that were paid with it', async () => {
  app.savePlan(planOf({ state: 'NC', perMonth: 4000, withChild: true }))
  pay(300, 4000)
  const { rows, inSight } = await cover()
  expect(rows[0]!.people.find(({ name }) => name === 'Pip')!.cover).toEqual([
    { kind: 'Medicaid', from: 11, months: 2 },
  ])
  expect(rows[0]!.paidInMonths!.ahead!.monthly).toBeCloseTo(315.3, 1)
  expect((await run())[1]!.premiums).toBeCloseTo(315.3, 1)
  expect(inSight!.charges).toEqual([
    { from: 3, to: 10, monthly: 1331.6 },
    { from: 11, to: 12, monthly: 1025.6 },
  ])
  expect(await text('/cover/credit')).toContain(
    'Of a premium of $1,332 from March to October and $1,026 from November to December',
  )
  app.savePlan(planOf({ state: 'NC', perMonth: 4000, withChild: true, startMonth: '2026-03' }), {
    basedOn: 1,
  })
  const [first] = (await cover()).rows
  expect(first!.people.find(({ name }) => name === 'Pip')!.cover).toEqual([
    { kind: 'marketplace', from: 3, months: 8 },
    { kind: 'Medicaid', from: 11, months: 2 },
  ])
  expect(first!.people.find(({ name }) => name === 'Lea')!.cover).toEqual([
    { kind: 'marketplace', from: 3, months: 10 },
  ])
})

// Kansas takes no adults of this income: under the poverty level no credit begins, but one that was taken in advance stays open
// (26 CFR 1.36B-2(b)(6)). Pay of ten months is 15,000, 70% of 21,150: 2.10% of it is 315 a year, 26.25 a month; the credit of a month is the
// whole premium. In 2027 nothing is left of it.
test('a credit taken in advance stays open under the poverty level this year, and full price of the next is said', async () => {
  app.savePlan(planOf({ state: 'KS', perMonth: 1500, withChild: false }))
  pay(300, 1500)
  const { rows, inSight } = await cover()
  expect(inSight!.room.now.credit).toBeCloseTo(10_256, 0)
  expect(rows[0]!.credit).toBeCloseTo(10_256, 0)
  expect(rows[0]!.paidMonthly).toBe(0)
  expect(inSight!.room.rooms.some(({ line }) => line === 'federal poverty level')).toBe(false)
  const next = rows[1]!
  expect(next.credit).toBe(0)
  const page = await text('/cover?year=2027')
  expect(page).toContain('Full price is paid already: $1,0')
  expect(page).toContain('The credit begins at a household income of')
  expect(await text('/now')).toMatch(
    /In the next twelve months January 2027: premiums go from \$300 to \$1,0\d\d a month, with no credit any more/,
  )
})

// Without a credit in advance all of the premium is paid and the credit comes in spring.
test('a household that pays in full is told so', async () => {
  app.savePlan(planOf({ state: 'NC', perMonth: 3400, withChild: false, advanceCredit: false }))
  pay(1025.6, 3400)
  const [first, next] = (await cover()).rows
  expect(first!.paidInMonths!.over!.monthly).toBeCloseTo(1025.6, 2)
  expect(first!.paidInMonths!.ahead!.monthly).toBeCloseTo(1025.6, 2)
  expect(first!.paidInMonths!.settles).toBeCloseTo(first!.credit, 0)
  expect(first!.paidMonthly).toBeCloseTo(81.04, 0)
  expect(next!.paidInMonths!.over).toBeNull()
})

// Less was paid than the plan's premium, and nothing came in advance: what was paid is the premium of these months, and the credit of each
// is no more than it: 8 × 300 and 2 × 944.56 (above) are 4,289.12. Charged are 8 × 300 and 2 × 1,025.60; 162.08 is left, 16.21 a month of ten.
test('without a credit in advance a household that paid less than the plan’s premium was charged no more', async () => {
  app.savePlan(planOf({ state: 'NC', perMonth: 3400, withChild: false, advanceCredit: false }))
  pay(300, 3400)
  const [first] = (await cover()).rows
  expect(first!.paidInMonths!.over).toEqual({ months: 8, monthly: 300 })
  expect(first!.paidInMonths!.ahead!.monthly).toBeCloseTo(1025.6, 2)
  expect(first!.credit).toBeCloseTo(4289.12, 0)
  expect(first!.paidInMonths!.settles).toBeCloseTo(first!.credit, 0)
  expect(first!.paidMonthly).toBeCloseTo(16.21, 0)
  expect(await text('/year-pack/sheets/tax?year=2026')).toContain(
    'the plan takes no credit in advance, so where less was paid, that is the premium',
  )
})

// Farm profit of 6,000 more than none is taxed for self-employment, half of it deducted; where the credit begins, premiums that were deducted
// are paid by it, so that less profit is needed than household income is short.
test('the note of the room says which way room as farm profit differs', async () => {
  app.savePlan(planOf({ state: 'KS', perMonth: 900, withChild: false }))
  post('farm', '2026-06-10', { 'Farm checking': 9000, 'Vegetables and fruit sold': -9000 })
  const { inSight } = await cover()
  const begins = inSight!.room.rooms.find(({ line }) => line === 'federal poverty level')!
  expect(begins.extraLeft).toBeLessThan(begins.incomeLeft)
  expect(await text('/cover')).toContain('there is less room where a credit pays')
})
