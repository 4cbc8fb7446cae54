// What Slower years, the first run and the form of a death say of an inherited account and of a pension. Two invented sisters, 57 and 55,
// of whom one inherited an account in May 2024, to be emptied by the end of 2034 (26 USC 401(a)(9)(B)(ii), (H)(i)).
import { afterEach, beforeEach, expect, test } from 'vitest'
import { doubtsOf, newDoubts } from '#plan/doubts.ts'
import { planSchema, planVersion } from '#plan/plan.ts'
import type { SlowerFigures } from '#today/slower-years/figures.ts'
import { type TestApp, testApp } from './test-app.ts'

const sisters = {
  startMonth: '2026-01',
  planVersion: 4,
  household: {
    people: [
      { id: 'mab', name: 'Mab', born: '1969-06-01' },
      { id: 'una', name: 'Una', born: '1971-02-11' },
    ],
    pay: [
      { id: 'mill', name: 'Mill pension', person: 'una', kind: 'fixedPension', perMonth: 1800 },
      { id: 'shop', name: 'Shop', person: 'una', perMonth: 400, to: '2030-12' },
    ],
    living: [{ id: 'living', name: 'Living', perMonth: 1500 }],
  },
  savings: {
    accounts: [
      { id: 'cash', name: 'Cash', kind: 'cash', balance: 40_000 },
      {
        id: 'aunt',
        name: 'Aunt’s account',
        kind: 'traditional',
        balance: 90_000,
        owner: 'mab',
        inherited: 'tenYears',
        inheritedIn: '2024-05',
        inheritedFromBorn: 1960,
      },
      {
        id: 'old',
        name: 'Spread account',
        kind: 'roth',
        balance: 8000,
        owner: 'una',
        inherited: 'lifetime',
        inheritedIn: '2023-01',
      },
    ],
  },
  tax: { method: 'none' },
  assumptions: { inflation: 0, stocks: 0, bonds: 0, bills: 0 },
}

let app: TestApp
beforeEach(() => {
  app = testApp({ today: '2026-01-10' })
  app.openSides()
})
afterEach(() => app.close())

const page = async (path: string) => (await (await app.get(path)).text()).replace(/\s+/g, ' ')

test('a forced payout is listed among the ages, and named on what carries the house', async () => {
  app.savePlan(sisters)
  const { inherited } = (await (await app.get('/slower-years.json')).json()) as SlowerFigures
  expect(inherited.map(({ account, by }) => [account, by])).toEqual([
    ['Aunt’s account', { year: 2034, age: 65 }],
    ['Spread account', null],
  ])
  const html = await page('/slower-years')
  const ages = html.split('id="people-title"')[1]!.split('</section>')[0]!
  expect(ages).toContain('Inherited accounts pay out')
  expect(ages).toContain('Aunt’s account: all by the end of 2034, at 65')
  expect(ages).toContain('Spread account: a part each year')
  const income = html.split('id="income-title"')[1]!.split('</section>')[0]!
  expect(income).toContain('Aunt’s account is inherited: by law all of it is out by the end of 2034')
  expect(income).toContain('needed or not, and is income of its year')
  // The projection does it in that year: all that is left leaves the account in January 2034.
  const { months } = (await (await app.get('/runway.json')).json()) as {
    months: { month: string; withdrawnTraditional: number }[]
  }
  expect(months.find(({ month }) => month === '2034-01')!.withdrawnTraditional).toBeGreaterThan(50_000)
})

test('without one nothing is said of it', async () => {
  app.savePlan({ ...sisters, savings: { accounts: sisters.savings.accounts.slice(0, 1) } })
  expect(await page('/slower-years')).not.toContain('nherited')
})

test('the form of a death asks which share of a pension is paid on, and the course follows it', async () => {
  const death = (more: object) => ({
    ...sisters,
    events: [{ kind: 'death', person: 'una', month: '2027-03', ...more }],
  })
  app.savePlan(death({ pensionShare: 0.5 }))
  expect(await page('/runway/events/0')).toContain('Of that person’s pension, paid on to the other')
  const pay = async () => {
    const { months } = (await (await app.get('/runway.json')).json()) as {
      months: { month: string; pay: number }[]
    }
    return months.find(({ month }) => month === '2027-06')!.pay
  }
  // Half of 1,800; the shop's 400 were wages and end.
  expect(await pay()).toBe(900)
  app.savePlan(death({}), { basedOn: 1 })
  expect(await pay()).toBe(0)
})

test('the first run asks for a pension, and tells what its survivor’s share and an inherited account need, and that they can wait', async () => {
  app.savePlan(sisters)
  const costs = await page('/start/costs')
  expect(costs).toContain('Pension that rises with prices')
  expect(costs).toContain('which share of a pension goes on to the other of you')
  expect(await page('/start/accounts')).toContain('One that you inherited can come later')
})

test('a plan that begins after January says what this year still has to be out, and asks once whether it is', async () => {
  const [cash, aunt] = sisters.savings.accounts
  // Owner born in 1944, died in May 2024 after payments had begun: Mab, 56 in 2025, has 30.6 years by the Single Life Table (26 CFR
  // 1.401(a)(9)-9(b)), one less each year after: 29.6 in 2026.
  const begun = { ...aunt, inheritedFromBorn: 1944, balance: 74_000 }
  const plan = { ...sisters, startMonth: '2026-11', savings: { accounts: [cash, begun] } }
  app.setToday('2026-11-20')
  app.savePlan(plan)
  const { inherited } = (await (await app.get('/slower-years.json')).json()) as SlowerFigures
  expect(inherited[0]!.dueNow).toEqual({ year: 2026, dollars: expect.closeTo(74_000 / 29.6, 2) })
  expect(await page('/slower-years')).toContain(
    'Of 2026 the projection, which begins after January, takes nothing: see that about $2,500 of it is out by December 31.',
  )
  const parsed = (one: object) => planSchema.parse({ ...one, planVersion })
  const read = parsed(plan)
  const asked = doubtsOf(read, '2026-11-20').filter(({ path }) => path.at(-1) === 'balance')
  expect(asked).toMatchObject([
    { asks: true, message: expect.stringContaining('last December’s balance divided by 29.6') },
  ])
  // Another balance asks nothing anew; begun in January, or where the owner's payments had not begun, nothing is due apart.
  const other = parsed({ ...plan, savings: { accounts: [cash, { ...begun, balance: 60_000 }] } })
  expect(newDoubts(other, read, '2026-11-20')).toEqual([])
  for (const same of [
    { ...plan, startMonth: '2027-01' },
    { ...plan, savings: { accounts: [cash, aunt] } },
  ])
    expect(doubtsOf(parsed(same), '2026-11-20').filter(({ path }) => path.at(-1) === 'balance')).toEqual([])
})
