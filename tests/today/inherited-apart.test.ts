// An inherited account that only the plan knows: a part of what the books hold of its kind, or beside it, as was said; a part until then. Two invented lock keepers, 61 and 58, with
// traditional savings of 150,000 and 90,000 of their own and 40,000 inherited; no tax, prices or growth, so that it is counted by hand.
import { afterEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { type Month, parseMonth } from '#calendar/month.ts'
import { addAccount } from '#db/ledger/account-store.ts'
import { type Plan, type PlanInput, planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'
import type { NowFigures } from '#today/now/figures.ts'
import { reachWords } from '#today/now/reach-words.ts'
import { oneSided } from '#today/one-sided/one-sided.ts'
import { continuedIn } from '#today/projection/continued-plan.ts'
import { act, done } from '../db/fresh-books.ts'
import { type TestApp, testApp } from '../web/test-app.ts'
import { moveIn } from './moved.ts'

let app: TestApp
afterEach(() => app.close())

const keepers = (change: object = {}): Plan =>
  planSchema.parse({
    startMonth: '2027-03',
    household: {
      people: [
        { id: 'ebb', name: 'Ebb', born: '1966-02-01', planToAge: 90 },
        { id: 'tide', name: 'Tide', born: '1969-05-01', planToAge: 90 },
      ],
      living: [{ id: 'living', name: 'Living', perMonth: 500 }],
    },
    savings: {
      accounts: [
        { id: 'cash', name: 'Cash', kind: 'cash', balance: 60_000 },
        { id: 'ebb', name: 'Ebb', kind: 'traditional', owner: 'ebb', balance: 150_000 },
        { id: 'tide', name: 'Tide', kind: 'traditional', owner: 'tide', balance: 90_000 },
        {
          id: 'uncle',
          name: 'Uncle’s IRA',
          kind: 'traditional',
          owner: 'tide',
          balance: 40_000,
          inherited: 'tenYears',
          inheritedIn: '2026-05',
          inheritedFromBorn: 1970,
          inheritedTaken: 'evenly',
          inheritedHeld: 'beside',
        },
      ],
    },
    tax: { method: 'none' },
    assumptions: { inflation: 0, stocks: 0, bonds: 0, bills: 0 },
    ...change,
  } satisfies PlanInput)

const opened = (held: Record<string, number>) => {
  app = testApp({ today: '2027-03-10' })
  app.openSides()
  moveIn(app.books, 'household', '2027-02-26', 'Opening balances', 'Household checking', 60_000)
  for (const [name, dollars] of Object.entries(held)) {
    done(
      addAccount(app.books, act(), {
        sideId: 'household',
        name,
        kind: 'asset',
        cashRole: 'cash',
        savingsKind: 'traditional',
      } as Parameters<typeof addAccount>[2]),
    )
    moveIn(app.books, 'household', '2027-02-26', 'Opening balances', name, dollars)
  }
}

const heldIn = (plan: Plan, month = '2027-03'): Record<string, number> =>
  Object.fromEntries(
    continuedIn(app.books, plan, parseMonth(month) as Month).plan.savings.accounts.map(({ id, balance }) => [
      id,
      Math.round(balance * 100) / 100,
    ]),
  )

test('what the books hold is shared by the owners’ own accounts, and what was inherited stays as planned', () => {
  opened({ 'Old plans': 240_000 })
  expect(heldIn(keepers())).toEqual({ cash: 60_000, ebb: 150_000, tide: 90_000, uncle: 40_000 })
  // All that there is counts from the first month on: 240,000 and 40,000.
  const { plan, savingsFrom } = continuedIn(app.books, keepers(), parseMonth('2027-03')!)
  expect(project(plan).months[0]!.traditional).toBeCloseTo(280_000, 6)
  expect(savingsFrom.apart).toEqual(['Uncle’s IRA'])
  expect(
    reachWords({
      reach: null,
      month: 0,
      loansUntold: [],
      plan: { status: 'read', savingsFrom },
    } as unknown as NowFigures),
  ).toEqual(['The books do not hold “Uncle’s IRA”: counted as planned.'])
})

test('another balance of the inherited account moves the whole by as much, and markets in the books move only their own', () => {
  opened({ 'Old plans': 216_000 })
  const plan = keepers()
  const uncle = plan.savings.accounts[3]!
  const more = {
    ...plan,
    savings: {
      ...plan.savings,
      accounts: [...plan.savings.accounts.slice(0, 3), { ...uncle, balance: 100_000 }],
    },
  }
  // A tenth lost: 150,000 and 90,000 become 135,000 and 81,000.
  expect(heldIn(more)).toEqual({ cash: 60_000, ebb: 135_000, tide: 81_000, uncle: 100_000 })
})

test('an account of the books that bears its name restarts it, and nothing else of its kind', () => {
  opened({ 'uncle’s ira': 38_500 })
  expect(heldIn(keepers())).toEqual({ cash: 60_000, ebb: 150_000, tide: 90_000, uncle: 38_500 })
  expect(continuedIn(app.books, keepers(), parseMonth('2027-03')!).savingsFrom.apart).toEqual([])
  app.close()
  opened({ 'Uncle’s IRA': 38_500, 'Old plans': 200_000 })
  expect(heldIn(keepers())).toEqual({ cash: 60_000, ebb: 125_000, tide: 75_000, uncle: 38_500 })
})

test('later it goes on from what it was expected to hold by then: less a tenth taken in January', () => {
  opened({ 'Old plans': 240_000 })
  // One who died in 2026: out by the end of 2036. Ten Januaries from 2027 on, of which the plan begun in March has nine: 40,000 ÷ 9.
  const plan = keepers()
  const expected = project(plan).months
  expect(expected[9]!.traditional - expected[10]!.traditional).toBeCloseTo(40_000 / 9, 2)
  expect(heldIn(plan, '2028-02')).toMatchObject({ ebb: 150_000, tide: 90_000, uncle: 35_555.56 })
})

test('a plan whose only account of the kind was inherited takes it from the books', () => {
  opened({ Brokerage: 31_000 })
  const plan = keepers()
  const { accounts } = plan.savings
  const only = { ...plan, savings: { ...plan.savings, accounts: [accounts[0]!, accounts[3]!] } }
  expect(heldIn(only)).toEqual({ cash: 60_000, uncle: 31_000 })
})

test('it stands in the list of what only the plan knows, with the way out of it', () => {
  opened({ 'Old plans': 240_000 })
  const inUse = { status: 'read', planId: 'p', name: 'P', revisionNo: 1, plan: keepers() } as Parameters<
    typeof oneSided
  >[1]
  const [told] = oneSided(app.books, inUse, day('2027-03-10')).filter(
    ({ id }) => id === 'planned-inherited-uncle',
  )
  expect(told?.says).toBe(
    '“Uncle’s IRA”: the plan counts $40,000, inherited, and the books hold no account of that name; it goes on as planned, beside what they hold',
  )
  expect(told?.change?.plan.savings?.accounts?.map(({ id }) => id)).toEqual(['cash', 'ebb', 'tide'])
})

const notSaid = (): Plan => {
  const plan = keepers()
  const accounts = plan.savings.accounts.map(({ inheritedHeld: _, ...one }) => one)
  return { ...plan, savings: { ...plan.savings, accounts } }
}

test('until somebody says where it is, it is a part of what the books hold and counts once; Now asks, and either answer stands', async () => {
  // One account of the books with 280,000: 240,000 of their own and the 40,000 inherited.
  opened({ Retirement: 280_000 })
  expect(heldIn(notSaid())).toEqual({ cash: 60_000, ebb: 150_000, tide: 90_000, uncle: 40_000 })
  const { plan } = continuedIn(app.books, notSaid(), parseMonth('2027-03')!)
  expect(project(plan).months[0]!.traditional).toBeCloseTo(280_000, 6)
  app.savePlan(notSaid())
  const asks =
    'Is “Uncle’s IRA”, inherited, a part of the $280,000 of traditional savings in the books, or beside them?'
  expect(await (await app.get('/now')).text()).toContain(asks)
  const told = (await (await app.get('/runway/actual.json')).json()) as {
    revisionNo: number
    planId: string
    oneSided: { id: string; button: string | null; otherButton: string | null }[]
  }
  expect(told.oneSided.find(({ id }) => id === 'inherited-held-uncle')).toMatchObject({
    button: 'It is a part of them',
    otherButton: 'It is beside them',
  })
  let { revisionNo } = told
  for (const [answer, sum] of [
    ['inherited-held-uncle-other', 320_000],
    ['inherited-held-uncle', 280_000],
  ] as const) {
    const page = await (await app.get('/runway/actual')).text()
    const form = page.split('<form').find((one) => one.includes(`value="${answer}"`))!
    const fields = Object.fromEntries(
      [...form.matchAll(/name="([^"]+)"[^>]*value="([^"]*)"/g)].map(([, name, value]) => [name!, value!]),
    )
    expect((await app.post('/runway/actual/take', fields)).status).toBeLessThan(400)
    const { months } = (await (await app.get('/runway.json')).json()) as { months: { traditional: number }[] }
    expect(months[0]!.traditional, answer).toBeCloseTo(sum, 2)
    expect(await (await app.get('/now')).text()).not.toContain(asks)
    app.savePlan(notSaid(), { basedOn: revisionNo + 1 })
    revisionNo += 2
  }
})

test('what the books hold is less than was inherited: then that is all there is of it', () => {
  opened({ Retirement: 25_000 })
  expect(heldIn(notSaid())).toEqual({ cash: 60_000, ebb: 0, tide: 0, uncle: 25_000 })
})
