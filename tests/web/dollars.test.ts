// Today's dollars or those of each year, on every page of the plan. Two potters without a farm, our own invention: 2,000 a month at
// prices that rise by a tenth each January, 60,000 in cash that earns nothing, no tax. In 2027 they pay 2,200, in 2028 2,420.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { type TestApp, testApp } from './test-app.ts'

const potters = {
  planVersion: 4,
  startMonth: '2026-01',
  years: 4,
  household: {
    living: [{ id: 'living', name: 'Living', perMonth: 2000 }],
    floor: { kind: 'dollars', dollars: 5000 },
  },
  savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 60_000 }] },
  tax: { method: 'none' },
  assumptions: { inflation: 0.1, bills: 0, premiumGrowth: 0, careGrowth: 0.1 },
}

let app: TestApp
beforeEach(() => {
  app = testApp({ today: '2026-01-10' })
  app.openSides()
  app.savePlan(potters)
})
afterEach(() => app.close())

/** As a browser that pressed the switch sends it. */
const ofTheYear = { cookie: 'dooryard-dollars=year' }

const json = async (path: string, headers = {}) => (await app.get(path, headers)).json() as Promise<never>
const page = async (path: string, headers = {}) => (await app.get(path, headers)).text()

interface Course {
  dollars: unknown
  savingsAtEnd: number
  milestones: { monthsLeft: number; unmetNeed: number; lowestSpendable: number }
  months: { month: string; spendable: number; living: number }[]
  years: { year: number; householdCosts: number; spendable: number }[]
}

test('the switch is kept with the browser and leads back to where it was pressed', async () => {
  const pressed = await app.post('/dollars', { of: 'year', back: '/runway?inflation=10&living=90' })
  expect(pressed.status).toBe(303)
  expect(pressed.headers.get('location')).toBe('/runway?inflation=10&living=90')
  expect(pressed.headers.get('set-cookie')).toMatch(/^dooryard-dollars=year; .*HttpOnly; SameSite=Strict/)
  for (const back of ['https://elsewhere.example/', '//elsewhere.example', '/\\elsewhere.example', ''])
    expect((await app.post('/dollars', { of: 'today', back })).headers.get('location')).toBe('/runway')
})

test('Runway tells one course in either kind, and says which', async () => {
  const today: Course = await json('/runway.json')
  const year: Course = await json('/runway.json', ofTheYear)
  expect(today.dollars).toEqual({ of: 'today', month: '2026-01' })
  expect(year.dollars).toEqual({ of: 'year' })
  const at = (course: Course, month: string) => course.months.find((one) => one.month === month)!
  // 60,000 − 24,000 − 26,400 = 9,600 in December 2027, at prices 1.1 times today's.
  expect(at(year, '2027-12').spendable).toBeCloseTo(9600, 2)
  expect(at(today, '2027-12').spendable).toBeCloseTo(9600 / 1.1, 2)
  expect(today.years.map((one) => Math.round(one.householdCosts))).toEqual([24_000, 24_000, 24_000, 24_000])
  expect(year.years.map((one) => Math.round(one.householdCosts))).toEqual([24_000, 26_400, 29_040, 31_944])
  expect(today.milestones.monthsLeft).toBe(year.milestones.monthsLeft)
  // In all 111,384 against 60,000; at today's prices 96,000 against 48,000 and what 9,600 of 2028 buy.
  expect(year.milestones.unmetNeed).toBeCloseTo(51_384, 2)
  expect(today.milestones.unmetNeed).toBeCloseTo(48_000 - 9600 / 1.21, 2)
  expect(today.milestones.lowestSpendable).toBeCloseTo(0, 2)
})

test('each page of the plan says its dollars beside its charts and tables, and has the switch', async () => {
  for (const path of [
    '/now',
    '/runway',
    '/runway/years',
    '/runway/years/2027',
    '/runway/months/2027-03',
    '/runway/storms',
    '/runway/compare',
    '/slower-years',
    '/slower-years/answers',
  ]) {
    const html = await page(path)
    expect(html, path).toContain(
      'Amounts of the plan are in <strong>today’s dollars, of January 2026</strong>',
    )
    expect(html, path).toContain(`name="back" value="${path}"`)
    expect(await page(path, ofTheYear), path).toContain('<strong>dollars of each year</strong>')
  }
  const runway = await page('/runway')
  expect(runway).toContain('In today’s dollars, of January 2026.')
  expect(runway).toContain('Unmet costs')
})

test('pages of the books have no such switch', async () => {
  for (const path of ['/books', '/crossings', '/runway/actual', '/year-pack'])
    expect(await page(path), path).not.toContain('action="/dollars"')
})

test('a table as CSV says its dollars in every row', async () => {
  const [head, first] = (await page('/runway.csv?table=months')).split('\r\n')
  expect(head).toMatch(/,dollars$/)
  expect(first).toMatch(/,of 2026-01$/)
  expect((await page('/runway.csv', ofTheYear)).split('\r\n')[1]).toMatch(/,of each year$/)
  const savings = (await page('/now.csv')).split('\r\n')
  expect(savings[0]).toBe('month,spendable savings,low,high,from,dollars')
  expect(savings[1]).toMatch(/,plan,of 2026-01$/)
})

test('a month opened shows its lines at the prices of the figures beside it', async () => {
  interface Trace {
    groups: { title: string; total: number; lines: { dollars: number }[] }[]
  }
  const living = (trace: Trace) => trace.groups.find(({ title }) => title === 'Living costs')!.total
  expect(living(await json('/runway/months/2027-03.json'))).toBeCloseTo(2000, 2)
  expect(living(await json('/runway/months/2027-03.json', ofTheYear))).toBeCloseTo(2200, 2)
  // The change of savings is that month's flows, without a line for prices that rose since the month before.
  const change = ((await json('/runway/months/2027-01.json')) as Trace).groups.find(
    ({ title }) => title === 'Change of all savings',
  )!
  expect(change.total).toBeCloseTo(-2000, 2)
  expect(change.lines).toHaveLength(1)
})

test('Now, Compare and Slower years tell the same amounts as Runway in either kind', async () => {
  for (const headers of [{}, ofTheYear]) {
    const course: Course = await json('/runway.json', headers)
    const now: { plan: { lowestDollars: number }; future: { dollars: number }[] } = await json(
      '/now.json',
      headers,
    )
    const compare: { plans: { milestones: object }[] } = await json('/runway/compare.json', headers)
    const slower: { savingsAtEnd: number; years: { year: number; living: number }[] } = await json(
      '/slower-years.json',
      headers,
    )
    expect(now.plan.lowestDollars).toBe(course.milestones.lowestSpendable)
    expect(now.future[23]!.dollars).toBe(course.months[23]!.spendable)
    expect(compare.plans[0]!.milestones).toEqual(course.milestones)
    expect(slower.savingsAtEnd).toBe(course.savingsAtEnd)
    expect(slower.years[1]!.living).toBeCloseTo(course.years[1]!.householdCosts, 2)
  }
})

test('Farm tells budgets at today’s prices, or at those of the year looked at', async () => {
  const farm = {
    cash: 4000,
    enterprises: [
      { id: 'eggs', name: 'Eggs', unit: 'hen', scale: 100, salesPerUnit: 600, costsPerUnit: 240 },
    ],
  }
  app.savePlan({ ...potters, farm }, { basedOn: 1 })
  interface Farm {
    summary: { sales: number; hours: number }
    lines: { sales: number; units: number }[]
    purchases: { cash: { dollars: number }[] }
  }
  // 100 hens at 600 a year; in 2028 prices are 1.21 times today's.
  const today: Farm = await json('/farm.json?year=2028')
  const year: Farm = await json('/farm.json?year=2028', ofTheYear)
  expect(today.summary.sales).toBeCloseTo(60_000, 2)
  expect(year.summary.sales).toBeCloseTo(72_600, 2)
  expect(year.lines[0]).toMatchObject({ units: 100, sales: expect.closeTo(72_600, 6) })
  expect(year.purchases.cash[24]!.dollars).toBeCloseTo(today.purchases.cash[24]!.dollars * 1.21, 1)
  expect(await page('/farm/enterprises')).toContain('In today’s dollars, of January 2026.')
})

test('Health tells premiums of the years ahead in either kind, and the year looked at in its own', async () => {
  const person = { id: 'ada', name: 'Ada', born: '1980-05-05' }
  const health = { marketplace: { members: [{ person: 'ada' }], planAt21: 300, benchmarkAt21: 300 } }
  app.savePlan(
    {
      ...potters,
      household: { ...potters.household, people: [person] },
      health,
      assumptions: { ...potters.assumptions, premiumGrowth: 0.1 },
    },
    { basedOn: 1 },
  )
  interface Health {
    rows: { year: number; premiumMonthly: number; people: { premiumMonthly: number }[] }[]
  }
  const today: Health = await json('/cover.json')
  const year: Health = await json('/cover.json', ofTheYear)
  const in2028 = ({ rows }: Health) => rows.find((row) => row.year === 2028)!.premiumMonthly
  expect(in2028(today)).toBeGreaterThan(300)
  expect(in2028(year)).toBeCloseTo(in2028(today) * 1.21, 2)
  expect((await page('/cover.csv?table=kept')).split('\r\n')[1]).toMatch(/,of each year$/)
})

const step = 'The plan’s prices step up each January, so savings that stay the same step down then.'

test('the switch says when today’s dollars step, on every page that has it, and nothing where they do not', async () => {
  for (const path of [
    '/now',
    '/runway',
    '/runway/years',
    '/farm',
    '/slower-years',
    '/cover',
    '/runway/levers',
  ])
    if ((await app.get(path)).status === 200 && (await page(path)).includes('dollars-switch')) {
      expect((await page(path)).replace(/\s+/g, ' ').split(step), path).toHaveLength(2)
      expect(await page(path, ofTheYear)).not.toContain(step)
    }
  expect(await page('/runway')).toContain('dollars-switch')
  app.savePlan({ ...potters, assumptions: { ...potters.assumptions, priceSteps: 'monthly' } }, { basedOn: 1 })
  expect(await page('/runway')).not.toContain(step)
  app.savePlan({ ...potters, assumptions: { ...potters.assumptions, inflation: 0 } }, { basedOn: 2 })
  expect(await page('/runway')).not.toContain(step)
})

test('the form of draws and the first run say that a draw stays the same number of dollars while prices rise', async () => {
  expect(await page('/runway/plan/draw')).toContain(
    'a draw stays the same number of dollars while prices rise, and buys less each year',
  )
  expect((await page('/start/costs')).replace(/\s+/g, ' ')).toContain(
    'A draw stays the same number of dollars while prices rise',
  )
})
