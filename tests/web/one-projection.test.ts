// One projection: every page, its JSON and the terminal say the same months left, floor, carry month, lowest savings, cover ratio, spendable savings and end.
// Three houses of our own invention: the sample, books far from their plan, and a plan begun more than a year ago.
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, afterEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import type { Books } from '#db/open.ts'
import { dollarsToCents } from '#money/cents.ts'
import type { PlanInput } from '#plan/plan.ts'
import { readPlan } from '#plan/upgrade.ts'
import type { Milestones } from '#runway/project.ts'
import { nowCommand } from '#src/cli/now.ts'
import type { FarmFigures } from '#today/farm/figures.ts'
import type { NowFigures } from '#today/now/figures.ts'
import { act, done } from '../db/fresh-books.ts'
import { copySample } from '../sample/built-sample.ts'
import { expectPlain, expectSameNames, expectSameRooms, type Held, type RunwaySaid } from './other-rooms.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
const folder = mkdtempSync(join(tmpdir(), 'dooryard-one-'))
afterEach(() => app.close())
afterAll(() => rmSync(folder, { recursive: true }))

const json = async <Figures>(path: string) => {
  const figures: unknown = await (await app.get(path)).json()
  expectPlain(figures, path)
  return figures as Figures
}

interface CourseMonth {
  month: string
  spendable: number
  coverRatio: number | null
  drawToHoldFloor: number
  cash: number
  taxable: number
  traditional: number
  roth: number
  taxOwed: number
}

interface Walk {
  figures: NowFigures
  now: Extract<NowFigures['plan'], { status: 'read' }>
  runway: {
    milestones: Milestones
    months: CourseMonth[]
    years: { year: number; spendable: number; coverRatio: number | null }[]
    savingsAtEnd: number
  }
  storms: { storms: { name: string; monthsLeft: number | null; lowestSpendable: number }[] }
  against: { monthsLeft: number | null }
  compare: {
    plans: {
      milestones: Milestones
      spendable: { month: string; dollars: number }[]
      savingsAtEnd: number
      badYear: { name: string; monthsLeft: number | null } | null
    }[]
  }
}

interface SlowerSaid {
  savingsAtEnd: number
  answers: { cushion: { savings: number } | null }
}

const walk = async (): Promise<Walk> => {
  const figures = await json<NowFigures>('/now.json?storms=yes')
  return {
    figures,
    now: figures.plan as Walk['now'],
    runway: await json('/runway.json'),
    storms: await json('/runway/storms.json'),
    against: await json('/runway/actual.json'),
    compare: await json('/runway/compare.json'),
  }
}

/** The terminal says all that the page says, cover ratio and spendable savings in the books with it. */
async function expectSaidInTerminal({ figures }: Walk, today: string) {
  const said = await terminal(app.books, today)
  for (const name of Object.keys(said) as (keyof NowFigures)[])
    expect(said[name], name).toEqual(figures[name])
}

async function expectOne(
  today: string,
  firstMonth = today.slice(0, 7),
  farmYear: 'each' | 'each fifth' = 'each fifth',
): Promise<Walk> {
  const said = await walk()
  const { milestones, months } = said.runway
  expect(months[0]!.month).toBe(firstMonth)
  expect(said.now.monthsLeft).toBe(milestones.monthsLeft)
  expect(said.against.monthsLeft).toBe(milestones.monthsLeft)
  expect(said.compare.plans[0]!.milestones).toEqual(milestones)
  expect(said.now.floorMonth).toBe(milestones.floorMonth)
  expect(said.now.carryMonth).toBe(milestones.carryMonth)
  expect(said.now.lowestMonth).toBe(milestones.lowestMonth)
  expect(said.now.lowestDollars).toBe(milestones.lowestSpendable)
  const [compared] = said.compare.plans
  const slower = await json<SlowerSaid>('/slower-years.json')
  // All savings as the first slower year begins: one figure, in the same dollars.
  if (slower.answers.cushion)
    expect(slower.answers.cushion.savings).toBeCloseTo(milestones.savingsAtFirstSlower!, 2)
  expect([slower.savingsAtEnd, compared!.savingsAtEnd]).toEqual([
    said.runway.savingsAtEnd,
    said.runway.savingsAtEnd,
  ])
  const worst = said.storms.storms.find((storm) => storm.name === said.now.worst?.name)
  expect(said.now.worst?.monthsLeft ?? null).toBe(worst?.monthsLeft ?? null)
  expect(said.now.worst?.lowestDollars ?? null).toBe(worst?.lowestSpendable ?? null)
  expect(compared!.badYear?.name).toBe(said.now.worst?.name)
  await expectSameMonths(said)
  await expectSaidInWords(said)
  held = await expectSameRooms(app, said.runway as unknown as RunwaySaid, said.figures, farmYear)
  const named = await expectSameNames(app, said.runway as unknown as RunwaySaid)
  expect(named.filter((path) => path.startsWith('/now ') || path.startsWith('/runway'))).not.toEqual([])
  return said
}

let held: Held

/** The same in the pages themselves, in the table that is taken away, and by the years of Slower years. */
async function expectSaidInWords({ now, runway }: Walk) {
  const { milestones, months } = runway
  const left = milestones.monthsLeft
  const counted = left === 1 ? '1 month' : `${left} months`
  const page = async (path: string) => await (await app.get(path)).text()
  expect(await page('/now')).toContain(
    left === null ? 'If all goes as planned, savings last.' : `savings reach the floor in ${counted}.`,
  )
  expect(await page('/runway')).toContain(
    left === null ? 'Savings stay at or above the floor to the end of the plan.' : `${counted} left: `,
  )
  const csv = await page('/runway/compare.csv')
  const told = new Map(csv.split('\r\n').map((line) => [line.split(',')[0]!, line.split(',')[1]]))
  for (const name of ['monthsLeft', 'floorMonth', 'carryMonth', 'lowestMonth'] as const)
    expect([name, told.get(name)]).toEqual([name, String(milestones[name] ?? '')])
  expect(Number(told.get('lowestSpendable'))).toBeCloseTo(now.lowestDollars, 2)
  expect(Number(told.get('savingsAtEnd'))).toBeCloseTo(runway.savingsAtEnd, 2)
  const { years } = await json<{ years: { year: number; savings: number }[] }>('/slower-years.json')
  for (const { year, savings } of years) {
    const last = months.filter((one) => one.month.startsWith(`${year}-`)).at(-1)!
    const held = last.cash + last.taxable + last.traditional + last.roth - last.taxOwed
    expect(savings, String(year)).toBeCloseTo(held, 1)
  }
}

/** Spendable savings and the cover ratio, month by month: drawn on Now, in the table, the year and the comparison. */
async function expectSameMonths({ figures, runway, compare }: Walk) {
  const courseOf = new Map(runway.months.map((one) => [one.month, one]))
  for (const { month, dollars } of figures.future as unknown as { month: string; dollars: number }[])
    expect(dollars, month).toBe(courseOf.get(month)!.spendable)
  for (const { month, dollars } of compare.plans[0]!.spendable)
    expect(dollars, month).toBe(courseOf.get(month)!.spendable)
  for (const { year, spendable, coverRatio } of runway.years) {
    const last = runway.months.filter((one) => one.month.startsWith(`${year}-`)).at(-1)!
    expect([year, spendable, coverRatio]).toEqual([year, last.spendable, last.coverRatio])
  }
  const { year } = runway.years[0]!
  const opened = await json<{ months: CourseMonth[] }>(`/runway/years/${year}.json`)
  expect(opened.months).toEqual(runway.months.filter((one) => one.month.startsWith(`${year}-`)))
  const month = opened.months[0]!
  const trace = await json<{ groups: { title: string; total: number }[] }>(
    `/runway/months/${month.month}.json`,
  )
  const spendable = trace.groups.find(({ title }) => title === 'Spendable savings')
  expect(spendable?.total ?? 0).toBeCloseTo(month.spendable, 2)
}

const terminal = async (books: Books, today: string): Promise<NowFigures> =>
  JSON.parse((await linesOfTerminal(books, today, '--json')).join('\n'))

const linesOfTerminal = async (books: Books, today: string, ...options: string[]): Promise<string[]> => {
  const folder = mkdtempSync(join(tmpdir(), 'dooryard-now-'))
  try {
    const file = join(folder, 'books.sqlite')
    books.sqlite.prepare('VACUUM INTO ?').run(file)
    const said: string[] = []
    const io = {
      out: (text: string) => void said.push(text),
      err: (text: string) => void said.push(text),
      readInput: async () => '',
      env: {},
      now: () => new Date(`${today}T12:00:00`),
    }
    expect(await nowCommand.run([...options, '--data', file], io)).toBe(0)
    return said
  } finally {
    rmSync(folder, { recursive: true })
  }
}

test('the sample farm', { timeout: 180_000 }, async () => {
  app = testApp({ today: '2026-11-28', file: await copySample(folder) })
  const said = await expectOne('2026-11-28', '2026-11', 'each')
  expect(said.figures.cover.at(-1)!.ratio).toBeGreaterThan(0)
  await expectSaidInTerminal(said, '2026-11-28')
  expect(held).toMatchObject({ healthYears: expect.any(Number), farmYears: 30, purchases: 120, phases: 3 })
})

const samplePlan = (change: object = {}): PlanInput => ({
  ...JSON.parse(readFileSync(new URL('../../sample/plan.json', import.meta.url), 'utf8')),
  ...change,
})

test('the sample’s plan with books far from it: other savings, other farm cash', {
  timeout: 180_000,
}, async () => {
  opened('2026-12-10', samplePlan())
  heldOf('household', 'Savings', 21_400, '2026-11-02')
  heldOf('farm', 'Farm checking', 3100, '2026-11-02')
  const said = await expectOne('2026-12-10')
  await expectSaidInTerminal(said, '2026-12-10')
  const farm = await json<FarmFigures>('/farm.json')
  expect(farm.purchases.cashNow).toEqual({ dollars: 3100, isFromBooks: true, asOf: '2026-11-30' })
  expect(await (await app.get('/farm')).text()).toMatch(/\$3,100\s+in cash on\s+Nov 30, 2026/)
  expect(await (await app.get('/farm/buying')).text()).toMatch(
    /By the books the farm had\s+\$3,100\s+in cash on Nov 30, 2026\./,
  )
  expect(held.farmYears).toBe(6)
})

test('the sample’s plan a year after it began, and never met by books', { timeout: 180_000 }, async () => {
  opened('2027-11-20', samplePlan())
  const said = await expectOne('2027-11-20')
  await expectSaidInTerminal(said, '2027-11-20')
  const farm = await json<FarmFigures>('/farm.json')
  expect(farm.purchases.cashNow).toMatchObject({ isFromBooks: false, asOf: '2027-10-31' })
  expect(held.farmYears).toBeGreaterThan(4)
})

/** A couple at a creamery: 2,600 a month, a floor of 6,000, and 900 of draws; no tax and no prices, so that it can be counted by hand. */
const creamery: PlanInput = {
  startMonth: '2025-09',
  household: {
    living: [{ id: 'living', name: 'Living', perMonth: 2600 }],
    floor: { kind: 'dollars', dollars: 6000 },
  },
  savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 40_000 }] },
  draw: { policy: 'steps', steps: [{ from: '2025-09', perMonth: 900 }], growth: 0, withPrices: false },
  tax: { method: 'none' },
  assumptions: { inflation: 0, premiumGrowth: 0 },
}

test('an inherited account that the books do not hold stays beside what they do', {
  timeout: 180_000,
}, async () => {
  opened('2026-12-10', {
    ...creamery,
    startMonth: '2026-12',
    savings: {
      accounts: [
        { id: 'cash', name: 'Cash', kind: 'cash', balance: 40_000 },
        { id: 'own', name: 'Own', kind: 'traditional', balance: 120_000 },
        {
          id: 'aunt',
          name: 'Aunt’s IRA',
          kind: 'traditional',
          balance: 30_000,
          inherited: 'lifetime',
          inheritedHeld: 'beside',
        },
      ],
    },
    draw: { policy: 'steps', steps: [{ from: '2026-12', perMonth: 900 }], growth: 0, withPrices: false },
  })
  heldSavings(40_000, '2026-11-02')
  heldOf('household', 'Retirement, traditional', 114_000, '2026-11-02')
  const { runway } = await expectOne('2026-12-10')
  // 114,000 by the books and 30,000 by the plan, which earn nothing; not 114,000 in all.
  expect(runway.months[0]!.traditional).toBeCloseTo(144_000, 2)
})

const opened = (today: string, plan: PlanInput) => {
  app = testApp({ today })
  app.openSides()
  const read = readPlan({ planVersion: 4, ...plan })
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  app.savePlan(read.plan)
}

const heldSavings = (dollars: number, on: string) => heldOf('household', 'Savings', dollars, on)

const heldOf = (sideId: string, account: string, dollars: number, on: string) => {
  const id = (name: string) =>
    listAccounts(app.books).find((one) => one.sideId === sideId && one.name === name)!.id
  const lines = [
    { accountId: id(account), amountCents: dollarsToCents(dollars) },
    { accountId: id('Opening balances'), amountCents: dollarsToCents(-dollars) },
  ]
  const entry = { sideId, day: day(on), payee: '', memo: '', source: 'form', lines } as const
  done(postEntry(app.books, act(), entry))
}

test('books far from their plan: 61,400 where it expected 14,500', async () => {
  opened('2026-12-10', creamery)
  heldSavings(61_400, '2026-11-02')
  const said = await expectOne('2026-12-10')
  const { now, runway } = said
  // 61,400 less 1,700 a month is 7,000 after 32 months and 5,300 after the 33rd, August 2029.
  expect(now.monthsLeft).toBe(32)
  expect(runway.milestones.floorMonth).toBe('2029-08')
  expect(runway.months[0]!.spendable).toBe(59_700)
  expect(now.correction).toMatchObject({ expectedDollars: 14_500, differenceDollars: 46_900 })
  // The plan as it was saved is drawn beside: 14,500 less 1,700. Nothing on the page tells its months left.
  for (const path of ['/runway', '/now']) {
    const figures = await json<{ baseline: { spendable?: number; dollars?: number }[] }>(`${path}.json`)
    expect(figures.baseline[0]!.spendable ?? figures.baseline[0]!.dollars, path).toBe(12_800)
    expect(await (await app.get(path)).text(), path).toContain('As the plan was saved')
  }
  await expectSaidInTerminal(said, '2026-12-10')
  // Nothing of December is in the books yet; once something is, a bad year begins no earlier than in January.
  const begins = async () => {
    const { storms } = await json<{ storms: { id: string; from: string }[] }>('/runway/storms.json')
    return storms.find(({ id }) => id === 'bad-season')!.from
  }
  expect(await begins()).toBe('2026-12')
  heldSavings(100, '2026-12-09')
  expect(await begins()).toBe('2027-01')
})

test('books that know nothing of the household’s savings leave them as planned, and differ by nothing', async () => {
  opened('2026-12-10', creamery)
  const id = (name: string) =>
    listAccounts(app.books).find((one) => one.sideId === 'farm' && one.name === name)!.id
  const lines = [
    { accountId: id('Farm checking'), amountCents: dollarsToCents(2000) },
    { accountId: id('Opening balances'), amountCents: dollarsToCents(-2000) },
  ]
  const entry = {
    sideId: 'farm',
    day: day('2026-11-02'),
    payee: '',
    memo: '',
    source: 'form',
    lines,
  } as const
  done(postEntry(app.books, act(), entry))
  const { now, runway } = await expectOne('2026-12-10')
  // 40,000 less fifteen months of 1,700 is 14,500 at the end of November, by the plan alone.
  expect(runway.months[0]!.spendable).toBe(12_800)
  expect(now.correction).toMatchObject({ expectedDollars: 14_500, differenceDollars: 0 })
})

test('a plan begun over a year ago and never met by books goes on as it was planned', async () => {
  opened('2027-01-15', creamery)
  const said = await expectOne('2027-01-15')
  await expectSaidInTerminal(said, '2027-01-15')
  const { now, runway } = said
  // 40,000 less sixteen months of 1,700 is 12,800; 6,000 are left after four more, 4,300 after the fifth.
  expect(runway.months[0]!.spendable).toBe(11_100)
  expect(now.monthsLeft).toBe(4)
  expect(runway.milestones.floorMonth).toBe('2027-05')
})

/** A mill by a brook: 3,000 a month to live on, and a farm with far more cash than its year needs, of which the plan draws nothing. */
const brookMill: PlanInput = {
  ...creamery,
  startMonth: '2026-12',
  household: {
    living: [{ id: 'living', name: 'Living', perMonth: 3000 }],
    floor: { kind: 'dollars', dollars: 5000 },
  },
  savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 20_000 }] },
  farm: { cash: 90_000, enterprises: [{ id: 'flour', name: 'Flour', salesPerUnit: 6000 }] },
  draw: { policy: 'steps', steps: [], growth: 0, withPrices: false },
}

test('farm cash called on to hold the floor is told with months left, wherever they are told', async () => {
  opened('2026-12-10', brookMill)
  const said = await expectOne('2026-12-10')
  // 20,000 less 3,000 a month is 5,000 after April 2027; from May the farm gives the 3,000, more than the plan draws.
  const says =
    'From May 2027 farm cash that can be spared is drawn beyond the planned draws, so that savings do not fall below the floor: '
  expect(said.now.calledOn).toMatchObject({ says: expect.stringContaining(says) })
  const called = said.runway.months.filter((one) => one.drawToHoldFloor > 0)
  expect(called[0]).toMatchObject({ month: '2027-05', drawToHoldFloor: 3000, spendable: 5000 })
  expect(said.now.calledOn!.dollars).toBe(
    said.runway.months.slice(0, 120).reduce((sum, one) => sum + one.drawToHoldFloor, 0),
  )
  for (const path of ['/now', '/runway'])
    expect(await (await app.get(path)).text(), path).toContain(said.now.calledOn!.says)
  expect((await linesOfTerminal(app.books, '2026-12-10')).join('\n')).toContain(said.now.calledOn!.says)
  await expectSaidInTerminal(said, '2026-12-10')
})

const withLoan: PlanInput = {
  ...creamery,
  household: {
    ...creamery.household,
    loans: [
      {
        id: 'car',
        name: 'Car',
        principal: 9000,
        yearlyRate: 0,
        months: 30,
        start: '2025-08',
        bookAccount: 2200,
      },
    ],
  },
}

const loanPayments = async (): Promise<number[]> => {
  const { months } = await json<{ months: { loanPayments: number }[] }>('/runway.json')
  return months.map((one) => one.loanPayments).filter((one) => one > 0)
}

test('a loan that the books have no account for goes on by its terms', async () => {
  opened('2026-12-10', withLoan)
  heldSavings(61_400, '2026-11-02')
  // Fifteen of thirty payments of 300 are made by November.
  expect(await loanPayments()).toEqual(new Array(15).fill(300))
})

test('a loan goes on from what the books say is owed, at its own payment', async () => {
  opened('2026-12-10', withLoan)
  heldSavings(61_400, '2026-11-02')
  const home = listAccounts(app.books, { sideId: 'household' })
  const id = home.find((one) => one.number === 2200)!.id
  const opening = home.find((one) => one.name === 'Opening balances')!.id
  const lines = [
    { accountId: id, amountCents: dollarsToCents(-1000) },
    { accountId: opening, amountCents: dollarsToCents(1000) },
  ]
  const entry = {
    sideId: 'household',
    day: day('2026-11-02'),
    payee: '',
    memo: '',
    source: 'form',
    lines,
  } as const
  done(postEntry(app.books, act(), entry))
  // 1,000 at 300 a month: three whole payments and the rest.
  expect(await loanPayments()).toEqual([300, 300, 300, 100])
})

test('what last year’s return still asks for is paid by April, on every page alike', async () => {
  opened('2026-02-10', {
    ...creamery,
    startMonth: '2026-02',
    tax: { method: 'none', lastYear: { stillDue: 1800 } },
  })
  const { runway } = await expectOne('2026-02-10')
  // 40,000 less 1,700 a month; in April 1,800 of last year's tax besides.
  expect(runway.months.slice(0, 4).map((one) => Math.round(one.spendable))).toEqual([
    36_500, 34_800, 33_100, 31_400,
  ])
})

test('books that stop in May: the months since are projected, and nothing is read from them as spending', async () => {
  opened('2026-11-28', { ...creamery, startMonth: '2026-03' })
  heldSavings(60_000, '2026-02-28')
  const home = listAccounts(app.books, { sideId: 'household' })
  const id = (name: string) => home.find((one) => one.name === name)!.id
  for (const on of ['2026-03-20', '2026-04-20', '2026-05-20']) {
    const lines = [
      { accountId: id('Groceries'), amountCents: dollarsToCents(2700) },
      { accountId: id('Savings'), amountCents: dollarsToCents(-2700) },
    ]
    done(
      postEntry(app.books, act(), {
        sideId: 'household',
        day: day(on),
        payee: '',
        memo: '',
        source: 'form',
        lines,
      }),
    )
  }
  const figures = await json<NowFigures>('/now.json?storms=yes')
  expect(figures.reach).toEqual({
    day: '2026-05-20',
    missingMonths: 5,
    isByHand: true,
    laterByHand: null,
    accounts: ['Savings'],
    gaps: [],
  })
  // 60,000 less three months of 2,700 is 51,900 at the end of May. From June 1,700 a month: 26 months leave 7,700, the 27th
  // 6,000, the floor itself, and the 28th, September 2028, is below it: 22 months from November 2026.
  expect(figures.plan).toMatchObject({ status: 'read', monthsLeft: 22 })
  const against = await json<{ suggestions: unknown[]; variance: { actual: { to: string } } }>(
    '/runway/actual.json',
  )
  expect(against.variance.actual.to).toBe('2026-05')
  expect(against.suggestions).toEqual([])
  const page = await (await app.get('/now')).text()
  expect(page).toContain('5 months are missing since then')
})

test('books opened in January and not written in since: months left are counted from today’s month everywhere', async () => {
  opened('2026-11-29', { ...creamery, startMonth: '2026-01' })
  heldSavings(40_000, '2026-01-01')
  // 40,000 less 1,700 a month is 6,000, the floor, after twenty months, and below it in the 21st.
  const said = await expectOne('2026-11-29', '2026-01')
  expect(said.runway.milestones.floorMonth).toBe('2027-09')
  expect(said.now.monthsLeft).toBe(10)
  expect(await (await app.get('/runway')).text()).toMatch(
    /10 months left: .* more each month from December 2026/,
  )
  await expectSaidInTerminal(said, '2026-11-29')
})

test('a plan that begins only after the new year: months left are counted from today’s month everywhere', async () => {
  opened('2026-11-29', { ...creamery, startMonth: '2027-02' })
  const said = await expectOne('2026-11-29', '2027-02')
  // 6,000, the floor, after twenty months, September 2028; the 21st is 23 months from November 2026.
  expect(said.runway.milestones.floorMonth).toBe('2028-10')
  expect(said.now.monthsLeft).toBe(23)
})
