// Now when the plan has begun: its course goes on from the books, and every page says the same months left.
import { afterEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { nameOfMonth } from '#calendar/month.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { reconcileWhole } from '#db/reconcile/reconcile-store.ts'
import { sortingDesk } from '#db/statements/sorting-desk.ts'
import { sortLines } from '#db/statements/sorting-store.ts'
import { readIn } from '#db/statements/statement-store.ts'
import { cents } from '#money/cents.ts'
import { readPlan } from '#plan/upgrade.ts'
import { act, done } from '../db/fresh-books.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
afterEach(() => app.close())

/** Costs of 2,000 a month, a floor of 5,000, and 10,000 at the start: below the floor in the third month. */
const plan = {
  startMonth: '2026-01',
  household: {
    living: [{ id: 'living', name: 'Living', perMonth: 2000 }],
    floor: { kind: 'dollars', dollars: 5000 },
  },
  savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 10_000 }] },
  tax: { method: 'none' },
  assumptions: { inflation: 0, premiumGrowth: 0, returns: { stocks: 0, bonds: 0, bills: 0 } },
}

const saved = (dollars: number, on: string) => {
  const id = (name: string) =>
    listAccounts(app.books).find((one) => one.sideId === 'household' && one.name === name)!.id
  const lines = [
    { accountId: id('Savings'), amountCents: cents(dollars * 100) },
    { accountId: id('Opening balances'), amountCents: cents(-dollars * 100) },
  ]
  const draft = {
    sideId: 'household' as const,
    day: day(on),
    payee: '',
    memo: '',
    source: 'form' as const,
    lines,
  }
  done(postEntry(app.books, act(), draft))
}

const opened = (today: string) => {
  app = testApp({ today })
  app.openSides()
  const read = readPlan(plan)
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  app.savePlan(read.plan)
}

interface Said {
  plan: { monthsLeft: number | null; floorMonth: number; correction: { differenceDollars: number } | null }
  due: unknown[]
}
const now = async () => (await (await app.get('/now.json')).json()) as Said
const actual = async () =>
  (await (await app.get('/runway/actual.json')).json()) as { monthsLeft: number | null; fromBooks: boolean }

test('in the plan’s first month the plan’s own savings count only where the books hold nothing from before it', async () => {
  opened('2026-01-20')
  expect((await now()).plan).toMatchObject({ monthsLeft: 2, correction: null })
  expect(await actual()).toMatchObject({ monthsLeft: 2, fromBooks: false })
  // 30,000 less 2,000 a month: 6,000 after twelve months, 4,000 after the thirteenth.
  saved(30_000, '2025-12-31')
  expect((await now()).plan).toMatchObject({ monthsLeft: 12, correction: null })
  expect(await actual()).toMatchObject({ monthsLeft: 12, fromBooks: true })
})

test('once it has begun, months left count from what the books hold, on Now and against the books alike', async () => {
  opened('2026-06-15')
  saved(30_000, '2026-05-30')
  // 30,000 less 2,000 a month: 6,000 after twelve months, 4,000 after the thirteenth.
  const said = await now()
  expect(said.plan.monthsLeft).toBe(12)
  // The plan expected 10,000 less five months.
  expect(said.plan.correction?.differenceDollars).toBe(30_000)
  expect(await actual()).toMatchObject({ monthsLeft: 12, fromBooks: true })
})

test('a card with payments and no charges is said on Now, counts nothing, and counts once a person says so', async () => {
  opened('2026-01-20')
  saved(5000, '2025-12-31')
  const id = (name: string) =>
    listAccounts(app.books).find((one) => one.sideId === 'household' && one.name === name)!.id
  const lines = [
    { accountId: id('Household card'), amountCents: cents(94_000) },
    { accountId: id('Savings'), amountCents: cents(-94_000) },
  ]
  const head = { sideId: 'household' as const, payee: '', memo: '', source: 'form' as const }
  done(postEntry(app.books, act(), { ...head, day: day('2026-01-10'), lines }))
  const spendable = async () =>
    ((await (await app.get('/now.json')).json()) as { spendable: { cents: number } }).spendable.cents
  expect(await spendable()).toBe(406_000)
  const page = await (await app.get('/now')).text()
  expect(page).toContain('Household card: $940.00')
  expect(page).not.toContain('Farm card')
  expect(page).toContain('Read in its statements')
  const formId = /card-credit.*?name="formId" value="([^"]+)"/s.exec(page)![1]!
  const said = { formId, account: String(id('Household card')), owed: '940.00' }
  expect((await app.post('/now/card-credit', said)).status).toBe(303)
  expect((await app.post('/now/card-credit', said)).status).toBe(303)
  expect(await spendable()).toBe(500_000)
})

test('a farm card with payments and no charges is said on Now too, as farm cash that does not count', async () => {
  opened('2026-06-20')
  saved(9000, '2025-12-31')
  const id = (name: string) =>
    listAccounts(app.books).find((one) => one.sideId === 'farm' && one.name === name)!.id
  const lines = [
    { accountId: id('Farm card'), amountCents: cents(61_000) },
    { accountId: id('Farm checking'), amountCents: cents(-61_000) },
  ]
  const head = { sideId: 'farm' as const, payee: '', memo: '', source: 'form' as const }
  done(postEntry(app.books, act(), { ...head, day: day('2026-05-10'), lines }))
  const page = await (await app.get('/now')).text()
  expect(page).toContain('Farm card: $610.00')
  expect(page).toContain('It does not count as farm cash')
})

const reachSays = async () =>
  ((await (await app.get('/now.json')).json()) as { reachSays: string[] }).reachSays

test('the headline says whose savings are counted, and from when what is booked this month counts', async () => {
  opened('2026-06-15')
  expect(await reachSays()).toEqual([
    'Savings are counted as the plan has them: the books do not hold them yet.',
  ])
  // Something of this month only: nothing of it was there as the month began.
  saved(30_000, '2026-06-09')
  expect(await reachSays()).toEqual([
    'The books reach Jun 9, 2026, as they were entered by hand.',
    'Savings are counted as the plan has them: the books do not hold them yet.',
    'Months left are counted from the first of June 2026, with this month as planned: what is booked in it moves them from July 2026 on.',
  ])
  expect(await (await app.get('/now')).text()).toContain('moves them from July 2026 on.')
  app.close()
  opened('2026-06-15')
  saved(1000, '2026-05-02')
  saved(30_000, '2026-06-09')
  expect(await reachSays()).toEqual([
    'The books reach Jun 9, 2026, as they were entered by hand.',
    'Months left are counted from the first of June 2026, with this month as planned: what is booked in it moves them from July 2026 on.',
  ])
})

test('savings that the books hold in part are told apart from those that go on as planned', async () => {
  app = testApp({ today: '2026-06-15' })
  app.openSides()
  const ira = { id: 'ira', name: 'IRA', kind: 'traditional', owner: 'jo', balance: 40_000 }
  const people = [{ id: 'jo', name: 'Jo', born: '1970-01-20' }]
  const { household, savings } = plan
  const read = readPlan({
    ...plan,
    household: { ...household, people },
    savings: { accounts: [...savings.accounts, ira] },
  })
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  app.savePlan(read.plan)
  saved(30_000, '2026-05-30')
  expect(await reachSays()).toEqual([
    'The books reach May 30, 2026, as they were entered by hand.',
    'The books do not hold traditional accounts: counted as planned.',
  ])
})

test('savings below zero say that it is tax owed which takes them there', async () => {
  app = testApp({ today: '2026-01-20' })
  app.openSides()
  const read = readPlan({
    ...plan,
    household: {
      ...plan.household,
      people: [{ id: 'jo', name: 'Jo', born: '1980-01-20' }],
      // What comes in is spent whole, while its tax waits.
      sideVentures: [{ id: 'joinery', name: 'Joinery', person: 'jo', perMonth: 9000 }],
      living: [{ id: 'living', name: 'Living', perMonth: 9000 }],
    },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 2000 }] },
    tax: { method: 'law' },
  })
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  app.savePlan(read.plan)
  const html = await (await app.get('/runway')).text()
  // Of money that runs out one thing is said: from when, and what stays unmet.
  expect(html).toContain('None left')
  expect(html).not.toMatch(/lowest −\$/)
  expect(html).not.toContain('No account itself falls below zero')
  // Every page that shows them says what they are, and the one month from which money is out.
  const saysOf = (page: string) =>
    page.replace(/\s+/g, ' ').match(/Savings below zero: tax owed by then[^<]*/)?.[0]
  expect(saysOf(html)).toContain('The plan is out of money from')
  expect(saysOf(await (await app.get('/now?savings=all')).text())).toBe(saysOf(html))
  expect(html).toContain(
    `out of money from ${nameOfMonth(((await (await app.get('/runway.json')).json()) as { milestones: { runsShort: string } }).milestones.runsShort)} on`,
  )
  expect(await (await app.get('/runway/years/2026')).text()).toContain('Savings below zero')
  const { plan: said } = (await (await app.get('/now.json')).json()) as {
    plan: { lowestDollars: number; lowestTaxOwed: number }
  }
  expect(said.lowestDollars).toBeLessThan(0)
  expect(said.lowestTaxOwed).toBeGreaterThan(-said.lowestDollars - 1)
})

test('what the farm paid says over how many months, where the books hold fewer than twelve', async () => {
  opened('2026-04-20')
  const id = (name: string) =>
    listAccounts(app.books).find((one) => one.sideId === 'household' && one.name === name)!.id
  saved(30_000, '2026-01-02')
  for (const on of ['2026-01-12', '2026-02-12', '2026-03-12']) {
    const lines = [
      { accountId: id('Groceries'), amountCents: cents(500_00) },
      { accountId: id('Savings'), amountCents: cents(-500_00) },
    ]
    const entry = { sideId: 'household', day: day(on), payee: '', memo: '', source: 'form', lines } as const
    done(postEntry(app.books, act(), entry))
  }
  const html = (await (await app.get('/now')).text()).replace(/\s+/g, ' ')
  expect(html).toContain('3 months to March 2026: the books hold no more')
  expect(html).toContain('in the 3 months to March 2026, all that the books hold; at 100% the farm carries')
  expect(html).not.toContain('Twelve months to')
})

test('one entry by hand makes books that rest on the bank’s files reach no further; a closed month and a reconciliation do', async () => {
  opened('2026-07-06')
  const id = listAccounts(app.books).find(({ name }) => name === 'Household checking')!.id
  const groceries = listAccounts(app.books).find(
    ({ name, sideId }) => sideId === 'household' && name === 'Groceries',
  )!.id
  saved(9000, '2026-04-30')
  const line = (fileLine: number, on: string, amount: number) => ({
    fileLine,
    bankNumber: `n${fileLine}`,
    day: day(on),
    amount: cents(amount),
    payee: 'Hill Grocer',
    memo: '',
    checkNumber: '',
  })
  const statement = {
    bankAccount: '',
    kind: 'bank' as const,
    currency: 'USD',
    closing: null,
    lines: [line(1, '2026-05-06', -4000), line(2, '2026-05-20', -3000)],
    remarks: [],
  }
  const file = {
    format: 'ofx' as const,
    fileName: 'may.ofx',
    contentHash: 'a'.repeat(64),
    statement,
    columns: null,
  }
  expect(readIn(app.books, act(), id, file, day('2026-06-01')).ok).toBe(true)
  const target = { kind: 'account' as const, accountId: groceries, enterpriseId: null }
  const waiting = sortingDesk(app.books).lines.map(({ line: one }) => one.id)
  expect(
    sortLines(
      app.books,
      act(),
      waiting.map((lineId) => ({ lineId, kind: 'target' as const, target })),
    ).ok,
  ).toBe(true)
  const told = async () => (await reachSays())[0]
  expect(await told()).toBe('The books reach May 20, 2026.')
  // A single purchase written down at the end of June: May stays the last month known, June is missing still.
  const lines = [
    { accountId: id, amountCents: cents(-2500) },
    { accountId: groceries, amountCents: cents(2500) },
  ]
  const head = { sideId: 'household' as const, payee: '', memo: '', source: 'form' as const }
  done(postEntry(app.books, act(), { ...head, day: day('2026-06-28'), lines }))
  expect((await reachSays()).slice(0, 3)).toEqual([
    'The books reach May 20, 2026.',
    'An entry by hand of Jun 28, 2026 does not count here: how far the books reach comes from bank files, finished reconciliations and closed months.',
    'A month is missing since then and counted here as planned: the projection begins with June 2026.',
  ])
  // The bank's word for the end of June takes it in.
  const balance = { accountId: id, statementDay: day('2026-06-30'), statementBalanceCents: cents(-9500) }
  done(reconcileWhole(app.books, act(), balance))
  expect(await told()).toBe('The books reach Jun 28, 2026.')
})
