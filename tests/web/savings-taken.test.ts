// Money taken out of retirement savings by the books is income of its year in every tax paper; what only moves on is none.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { month } from '#calendar/month.ts'
import { addAccount, listAccounts } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { cents } from '#money/cents.ts'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import type { CoverFigures } from '#today/cover/figures.ts'
import { taxFacts } from '#today/projection/tax-facts.ts'
import { booksYear } from '#today/tax/books-year.ts'
import { act, done } from '../db/fresh-books.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp

const plan = planSchema.parse({
  startMonth: '2025-01',
  household: {
    people: [{ id: 'ida', name: 'Ida', born: '1960-04-01' }],
    living: [{ id: 'living', name: 'Living', perMonth: 1500 }],
  },
} satisfies PlanInput)

const post = (side: string, on: string, amounts: Record<string, number>, words = '') => {
  const ids = new Map(
    listAccounts(app.books)
      .filter(({ sideId }) => sideId === side)
      .map(({ name, id }) => [name, id]),
  )
  const lines = Object.entries(amounts).map(([name, dollars]) => ({
    accountId: ids.get(name)!,
    amountCents: cents(Math.round(dollars * 100)),
  }))
  done(
    postEntry(app.books, act(), {
      sideId: side,
      day: day(on),
      payee: '',
      memo: words,
      source: 'form',
      lines,
    }),
  )
}
const home = (on: string, amounts: Record<string, number>, words = '') =>
  post('household', on, amounts, words)

beforeEach(() => {
  app = testApp({ today: '2025-12-10' })
  app.openSides()
  home('2024-12-31', {
    'Retirement, traditional': 90_000,
    'Retirement, Roth': 20_000,
    'Opening balances': -110_000,
  })
  post('farm', '2025-06-10', { 'Farm checking': 10_000, 'Vegetables and fruit sold': -10_000 })
  app.savePlan(plan)
})
afterEach(() => app.close())

type CoverRead = Extract<CoverFigures, { status: 'read' }>

interface Pack {
  places: { account: string; amountCents: number; goes: { form: string; line: string } | null }[]
  tax: {
    worksheet: { figures: Record<string, number>; inputs: { label: string; dollars: number }[] }
  }
}
const pack = async (year = 2025) => (await (await app.get(`/year-pack.json?year=${year}`)).json()) as Pack
const taken = async (year = 2025) =>
  (await pack(year)).tax.worksheet.inputs.find(({ label }) => label.startsWith('Taken from IRAs'))!.dollars
const agi = async () => (await pack()).tax.worksheet.figures.adjustedGrossIncome!

/**
 * By hand: farm profit 10,000 × 0.9235 = 9,235; tax of self-employment 15.3 % 1,412.96, half of it 706.48. Adjusted gross income
 * 9,293.52, and with 8,000 of which 800 went to the treasury 17,293.52.
 */
test('8,000 taken from traditional savings: line 4b, income, a 1099-R, a place, and facts of the year so far', async () => {
  expect(await agi()).toBeCloseTo(9293.52, 1)
  home('2025-05-04', { 'Household checking': 7200, 'Federal taxes': 800, 'Retirement, traditional': -8000 })
  expect(await taken()).toBe(8000)
  expect(await agi()).toBeCloseTo(17_293.52, 1)
  expect((await pack()).places).toContainEqual(
    expect.objectContaining({
      account: 'Retirement, traditional',
      amountCents: 800_000,
      goes: { form: 'Form 1040', line: '4b' },
    }),
  )
  const papers = await (await app.get('/year-pack/people?year=2025')).text()
  expect(papers).toContain('1099-R')
  expect(booksYear(app.books, 2025).farm!.income.gross).toEqual({ farm: 10_000, total: 18_000 })
  expect(taxFacts(app.books, plan, month(2025, 12), null).soFar.otherIncome).toBe(8000)
  expect(taxFacts(app.books, plan, month(2025, 5), null).soFar.otherIncome).toBe(0)
})

test('from Roth savings it is told and left out; a loss in value and an entry reversed are none', async () => {
  home('2025-05-04', { 'Household checking': 3000, 'Retirement, Roth': -3000 })
  home('2025-06-30', { 'Change in value of investments': 500, 'Retirement, traditional': -500 })
  expect(await taken()).toBe(0)
  expect((await pack()).places).toContainEqual(
    expect.objectContaining({ account: 'Retirement, Roth', amountCents: 300_000, goes: null }),
  )
})

// 26 USC 408(d)(3): within 60 days. From February 1 day 60 is April 2.
test('what is rolled over in sixty days is left out, what comes back later is not; into Roth savings all is taxed', async () => {
  home('2025-02-01', { 'Household checking': 5000, 'Retirement, traditional': -5000 })
  home('2025-04-02', { 'Retirement, traditional': 4000, 'Household checking': -4000 }, 'rollover')
  expect(await taken()).toBe(1000)
  home('2025-04-03', { 'Retirement, traditional': 1000, 'Household checking': -1000 }, 'rollover')
  expect(await taken()).toBe(1000)
  // 26 USC 408A(d)(3)(A): a conversion is taxed as if it were paid out.
  home('2025-05-01', { 'Retirement, Roth': 2000, 'Retirement, traditional': -2000 })
  expect(await taken()).toBe(3000)
  home('2025-12-20', { 'Household checking': 700, 'Retirement, traditional': -700 })
  expect(await taken()).toBe(3700)
  home('2026-01-15', { 'Retirement, traditional': 700, 'Household checking': -700 }, 'rollover')
  expect(await taken()).toBe(3000)
})

/**
 * By hand, with the farm as above: 9,293.52, eleven months of 1,400 booked and the twelfth planned, 16,800: 26,093.52. Off it, as the
 * deduction of one who works for herself (26 USC 162(l)), December's Medicare of 2025: part B 185.00 and the base of part D 36.78.
 */
test('a pension of the months behind is in the household income of the year under way', async () => {
  done(
    addAccount(app.books, act(), {
      sideId: 'household',
      name: 'Pension',
      kind: 'income',
      purpose: 'pay',
      scheduleLine: '5b',
    }),
  )
  for (let at = 1; at <= 11; at += 1)
    home(`2025-${String(at).padStart(2, '0')}-03`, { 'Household checking': 1400, Pension: -1400 })
  const withPension = planSchema.parse({
    ...plan,
    household: {
      ...plan.household,
      pay: [{ id: 'pension', name: 'Pension', person: 'ida', kind: 'fixedPension', perMonth: 1400 }],
    },
  })
  app.savePlan(withPension, { basedOn: 1 })
  expect(taxFacts(app.books, withPension, month(2025, 12), null).soFar.otherIncome).toBe(15_400)
  const { rows } = (await (await app.get('/cover.json')).json()) as CoverRead
  expect(rows.find(({ year }) => year === 2025)!.householdIncome).toBeCloseTo(26_093.52 - 221.78, 0)
})

/**
 * An aunt's IRA that the books name. Ida is 55 and lives in Pennsylvania, where what an own IRA pays before 59½ is taxed at 3.07 % and
 * what is inherited is not (61 Pa. Code 101.6, memory): 8,000 from each of two, so 245.60 of 491.20. The farm's 40,000 are above the
 * income to which the state forgives tax.
 */
test('what comes from an account that bears an inherited one’s name is told apart, and a state that leaves it untaxed does', async () => {
  const inherited = {
    id: 'aunt',
    name: 'IRA of an aunt',
    kind: 'traditional' as const,
    owner: 'ida',
    balance: 40_000,
    inherited: 'tenYears' as const,
    inheritedIn: '2022-03',
    inheritedFromBorn: 1970,
  }
  const from = (name: string) => home('2025-05-04', { 'Household checking': 8000, [name]: -8000 })
  app.close()
  app = testApp({ today: '2025-12-10' })
  app.openSides()
  done(
    addAccount(app.books, act(), {
      sideId: 'household',
      name: inherited.name,
      kind: 'asset',
      cashRole: 'other',
      savingsKind: 'traditional',
    }),
  )
  home('2024-12-31', {
    'Retirement, traditional': 90_000,
    [inherited.name]: 40_000,
    'Opening balances': -130_000,
  })
  post('farm', '2025-06-10', { 'Farm checking': 40_000, 'Vegetables and fruit sold': -40_000 })
  app.savePlan({
    ...plan,
    household: {
      ...plan.household,
      place: { state: 'PA' },
      people: [{ ...plan.household.people[0]!, born: '1970-04-01' }],
    },
    savings: { ...plan.savings, accounts: [...plan.savings.accounts, inherited] },
  })
  const stateTax = async () => (await pack()).tax.worksheet.figures.stateIncomeTax!
  const before = await stateTax()
  from(inherited.name)
  expect(await taken()).toBe(8000)
  const { inputs } = (await pack()).tax.worksheet
  expect(inputs.find(({ label }) => label === 'Of line 4b, from inherited accounts')!.dollars).toBe(8000)
  expect(await stateTax()).toBe(before)
  from('Retirement, traditional')
  expect(await taken()).toBe(16_000)
  expect((await stateTax()) - before).toBeCloseTo(245.6, 0)
})

/** The tax added of 10 percent, 26 USC 72(t)(1); none on what is converted, 408A(d)(3)(A)(ii), none from 59½ on, 72(t)(2)(A)(i). */
test('what is taken before 59½ bears the tax added, in the worksheet, the set-aside and the year so far; a conversion does not', async () => {
  const added = async () => (await pack()).tax.worksheet.figures.earlyWithdrawalTax!
  const soFar = (of: typeof plan) => taxFacts(app.books, of, month(2025, 12), null).soFar
  const aside = async () => ((await (await app.get('/cover.json')).json()) as CoverRead).tax!
  const bornOn = (born: string, basedOn: number, accounts: PlanInput['savings'] = {}) => {
    const person = { ...plan.household.people[0]!, born }
    const changed = planSchema.parse({
      ...plan,
      household: { ...plan.household, people: [person] },
      savings: { ...plan.savings, ...accounts },
    })
    app.savePlan(changed, { basedOn })
    return changed
  }
  home('2025-05-04', { 'Household checking': 3000, 'Retirement, traditional': -3000 })
  home('2025-09-04', { 'Household checking': 5000, 'Retirement, traditional': -5000 })
  home('2025-10-01', { 'Retirement, Roth': 2000, 'Retirement, traditional': -2000 })
  expect(await taken()).toBe(10_000)
  // Ida of 65.
  expect(await added()).toBe(0)
  const before = (await aside()).total
  // 59½ in July 2025: only May's 3,000 were early.
  const turning = bornOn('1966-01-15', 1)
  expect(await added()).toBe(300)
  expect(soFar(turning)).toMatchObject({ otherIncome: 10_000, earlyWithdrawals: 3000 })
  const young = bornOn('1980-01-15', 2)
  expect(await added()).toBe(800)
  expect(soFar(young).earlyWithdrawals).toBe(8000)
  expect((await aside()).total).toBeGreaterThan(before + 790)
  // The plan's account of that name is of an employer that she left at 57 (72(t)(2)(A)(v)).
  bornOn('1968-01-15', 3, {
    accounts: [
      { id: 'cash', name: 'Cash', kind: 'cash', balance: 0 },
      {
        id: 'old',
        name: 'Retirement, traditional',
        kind: 'traditional',
        owner: 'ida',
        balance: 90_000,
        heldAs: 'workPlan',
        leftWork: '2025-02',
      },
    ],
  })
  expect(await added()).toBe(0)
})
