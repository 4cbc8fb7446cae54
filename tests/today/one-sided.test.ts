// What books know and the plan does not, or the other way round: each with one button that takes it into the plan, once, with undo. A
// ferry landing of our own invention, with a loan, a Roth account and a boat-painting venture that its plan knows nothing of.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { addSide, listAccounts } from '#db/ledger/account-store.ts'
import { postCrossing } from '#db/ledger/crossing-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { cents, dollarsToCents } from '#money/cents.ts'
import type { Plan, PlanInput } from '#plan/plan.ts'
import { readPlan } from '#plan/upgrade.ts'
import { currentPlan } from '#today/current-plan.ts'
import { act, done } from '../db/fresh-books.ts'
import { type TestApp, testApp } from '../web/test-app.ts'

let app: TestApp
afterEach(() => app.close())

const accountId = (side: string, name: string): number =>
  listAccounts(app.books).find((one) => one.sideId === side && one.name === name)!.id
const moved = (side: string, on: string, from: string, to: string, dollars: number) => {
  const amountCents = dollarsToCents(dollars)
  const lines = [
    { accountId: accountId(side, to), amountCents },
    { accountId: accountId(side, from), amountCents: cents(-amountCents) },
  ]
  const head = { sideId: side, payee: '', memo: '', source: 'form' } as const
  done(postEntry(app.books, act(), { ...head, day: day(on), lines }))
}

const landing: PlanInput = {
  startMonth: '2027-01',
  household: {
    living: [{ id: 'living', name: 'Living', perMonth: 150 }],
    loans: [{ id: 'van', name: 'Van', principal: 3000, yearlyRate: 0, months: 30, start: '2026-12' }],
  },
  savings: {
    accounts: [
      { id: 'cash', name: 'Cash', kind: 'cash', balance: 20_000 },
      { id: 'ira', name: 'Old IRA', kind: 'traditional', balance: 7000 },
    ],
    contributions: [{ id: 'monthly', account: 'ira', perMonth: 50 }],
  },
  tax: { method: 'none' },
}

let venture = ''
beforeEach(() => {
  app = testApp({ today: '2027-04-06' })
  app.openSides()
  const read = readPlan({ planVersion: 4, ...landing })
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  app.savePlan(read.plan)
  venture = done(addSide(app.books, act(), { kind: 'venture', name: 'Boat painting' })).sideId
  moved('household', '2026-12-31', 'Opening balances', 'Savings', 20_000)
  moved('household', '2026-12-31', 'Opening balances', 'Retirement, Roth', 4000)
  moved('household', '2026-12-31', 'Other loans', 'Opening balances', 6000)
  // 4 % a year: interest of 20.00, 19.40 and 18.80 on 6,000, 5,820 and 5,640.
  for (const [on, interest] of [
    ['2027-01-20', 20],
    ['2027-02-20', 19.4],
    ['2027-03-20', 18.8],
  ] as const) {
    moved('household', on, 'Savings', 'Other loans', 180)
    moved('household', on, 'Savings', 'Other loan interest', interest)
    moved(venture, on, 'Sales and fees earned', 'Venture checking', 450)
    done(
      postCrossing(app.books, act(), {
        kind: 'draw',
        day: day(on),
        amountCents: dollarsToCents(150),
        fromAccountId: accountId(venture, 'Venture checking'),
        toAccountId: accountId('household', 'Savings'),
        memo: '',
      }),
    )
  }
})

interface Listed {
  oneSided: { id: string; says: string; button: string | null }[]
  revisionNo: number
}
const shown = async () => (await (await app.get('/runway/actual.json')).json()) as Listed
const plan = (): Plan => {
  const current = currentPlan(app.books)
  if (current.status !== 'read') throw new Error('no plan')
  return current.plan
}
const form = (n: number) => `00000000-0000-4000-8000-00000000000${n}`
const take = async (what: string, formId: string, sure: Record<string, string> = {}) =>
  app.post('/runway/actual/take', {
    formId,
    what,
    planId: 'ours',
    basedOn: String((await shown()).revisionNo),
    ...sure,
  })

test('each is listed with what the button would do', async () => {
  const { oneSided } = await shown()
  expect(oneSided.map(({ id }) => id).sort()).toEqual([
    'account-roth',
    `cash-${venture}`,
    'loan-household-2200',
    'planned-account-traditional',
    'planned-loan-household-van',
    `venture-${venture}`,
  ])
  const says = (id: string) => oneSided.find((one) => one.id === id)!.says
  expect(says('loan-household-2200')).toContain('$5,460')
  expect(says('loan-household-2200')).toContain('$199 a month at 4%')
  expect(says(`cash-${venture}`)).toContain('$900')
  const page = await (await app.get('/runway/actual')).text()
  expect(page).toContain('In the books or in the plan alone')
  expect(await (await app.get('/now')).text()).toContain(
    '5 things stand in the books alone or in the plan alone',
  )
})

test('a loan is taken in by its terms as paid, once, and undone by revision', async () => {
  expect((await take('loan-household-2200', form(1))).status).toBe(303)
  const loan = plan().household.loans.find((one) => one.bookAccount === 2200)!
  expect(loan).toMatchObject({ principal: 5460, start: '2027-03', drawn: false })
  // 180 and 58.20 over three months.
  expect(loan.paymentPerMonth).toBeCloseTo(199.4, 2)
  expect(loan.yearlyRate).toBeCloseTo(0.04, 4)
  const again = await app.post('/runway/actual/take', {
    formId: form(1),
    what: 'loan-household-2200',
    planId: 'ours',
    basedOn: '1',
  })
  expect(again.status).toBe(303)
  expect((await shown()).revisionNo).toBe(2)
  expect((await shown()).oneSided.map(({ id }) => id)).not.toContain('loan-household-2200')
  await app.post('/runway/revisions/undo?from=2&plan=ours', { formId: form(2) })
  expect(plan().household.loans).toHaveLength(1)
  expect((await shown()).oneSided.map(({ id }) => id)).toContain('loan-household-2200')
})

test('a savings account, a venture and its cash come in; what the books do not hold goes out whole', async () => {
  expect((await take('account-roth', form(1))).status).toBe(303)
  expect(plan().savings.accounts.at(-1)).toMatchObject({ kind: 'roth', balance: 4000 })
  expect((await take(`venture-${venture}`, form(2))).status).toBe(303)
  expect(plan().household.sideVentures).toMatchObject([{ name: 'Boat painting', perMonth: 150 }])
  // Now the plan knows the venture: it keeps its 900 until a person says that it hands them over, and nothing counts them twice.
  const months = async () =>
    ((await (await app.get('/runway.json')).json()) as { months: { side: number; ventureCash: number }[] })
      .months
  expect((await months())[0]).toMatchObject({ side: 150, ventureCash: 900 })
  expect((await shown()).oneSided.find(({ id }) => id === `cash-${venture}`)!.says).toContain(
    'keep that for its work',
  )
  expect((await take(`cash-${venture}`, form(3))).status).toBe(303)
  expect(plan().household).toMatchObject({ sideVentures: [{ keeps: 0 }], oneOffs: [] })
  expect((await months()).slice(0, 2)).toMatchObject([
    { side: 1050, ventureCash: 0 },
    { side: 150, ventureCash: 0 },
  ])
  expect((await take('planned-account-traditional', form(4))).status).toBe(303)
  expect(plan().savings).toMatchObject({ accounts: [{ id: 'cash' }, { kind: 'roth' }], contributions: [] })
  expect((await take('planned-loan-household-van', form(5))).status).toBe(303)
  expect(plan().household.loans).toEqual([])
  expect((await shown()).oneSided.map(({ id }) => id)).toEqual(['loan-household-2200'])
})

test('what no longer stands is said, and nothing is saved', async () => {
  expect((await take('loan-household-9999', form(1))).status).toBe(404)
  expect((await shown()).revisionNo).toBe(1)
})

test('cash of a venture that was to come over once is not counted beside what the venture holds, once the plan knows it', async () => {
  expect((await take(`cash-${venture}`, form(1))).status).toBe(303)
  expect(plan().household.oneOffs).toMatchObject([
    { name: 'Cash of Boat painting', month: '2027-05', cost: -900 },
  ])
  const months = async () =>
    ((await (await app.get('/runway.json')).json()) as { months: Record<string, number>[] }).months
  // The plan knows no venture yet: its 900 come in once, in May.
  expect((await months()).slice(0, 2)).toMatchObject([{ oneOffs: 0 }, { oneOffs: -900 }])
  const before = (await months())[3]!
  expect((await take(`venture-${venture}`, form(2))).status).toBe(303)
  // Now it does: the venture hands the 900 over with its month's 150, and nothing comes in a second time.
  const after = await months()
  expect(after.slice(0, 3)).toMatchObject([
    { side: 1050, ventureCash: 0, oneOffs: 0 },
    { side: 150, ventureCash: 0, oneOffs: 0 },
    { side: 150, ventureCash: 0, oneOffs: 0 },
  ])
  // Four months of 150 more than before, less 50 each that may be put aside now that somebody earns; and the same 900.
  expect(after[3]!.spendable! - before.spendable!).toBeCloseTo(400, 6)
  // What the household has in hand by then comes over no more.
  moved(venture, '2027-03-30', 'Venture checking', 'Opening balances', 900)
  expect((await months()).slice(0, 2)).toMatchObject([
    { side: 150, ventureCash: 0, oneOffs: 0 },
    { side: 150, ventureCash: 0, oneOffs: 0 },
  ])
})

test('a pension booked as other income for three months is listed, taken in once, and told no more', async () => {
  const own = plan()
  app.savePlan(
    {
      ...own,
      household: {
        ...own.household,
        people: [{ id: 'wanda', name: 'Wanda', born: '1961-04-04', planToAge: 90 }],
      } as Plan['household'],
    },
    { basedOn: 1 },
  )
  for (const [on, came] of [
    ['2027-01-03', 610],
    ['2027-02-03', 610],
  ] as const)
    moved('household', on, 'Other income', 'Savings', came)
  const ids = async () => (await shown()).oneSided.map(({ id }) => id)
  // Two months are no habit yet.
  expect(await ids()).not.toContain('income-4300')
  moved('household', '2027-03-03', 'Other income', 'Savings', 622)
  const { oneSided } = await shown()
  const listed = oneSided.find(({ id }) => id === 'income-4300')!
  // 610, 610 and 622 are 614 a month.
  expect(listed.says).toContain('Other income brings $614 a month')
  expect((await take('income-4300', form(8))).status).toBe(303)
  expect(plan().household.pay).toMatchObject([
    { id: 'income-4300', person: 'wanda', kind: 'fixedPension', perMonth: 614 },
  ])
  expect(await ids()).not.toContain('income-4300')
})

test('benefits of three months that the plan knows nothing of are taken in as those of the relative at home', async () => {
  const own = plan()
  const household = { ...own.household, people: [{ id: 'wanda', name: 'Wanda', born: '1971-04-04' }] }
  const withUlla = { id: 'ulla', name: 'Ulla', born: '1944-09-05', relation: 'relative' }
  const saved = (more: object[], basedOn: number) => {
    const read = readPlan({ ...own, household: { ...household, dependents: more } })
    if (!read.ok) throw new Error(JSON.stringify(read.faults))
    app.savePlan(read.plan, { basedOn })
  }
  saved([], 1)
  for (const on of ['2027-01-03', '2027-02-03', '2027-03-03'])
    moved('household', on, 'Benefits and credits', 'Savings', 931)
  const told = async () => (await shown()).oneSided.find(({ id }) => id === 'benefits-4200')
  // Nobody is at home whose it could be: it is said where it would be entered.
  expect((await told())!.says).toContain('Of a relative or a child at home it is entered there')
  saved([withUlla], 2)
  const listed = (await told())!
  expect(listed.says).toContain('Benefits and credits brings $931 a month by the books')
  expect(listed.says).toContain('Taken in as Ulla’s own benefits')
  expect((await take('benefits-4200', form(9))).status).toBe(303)
  expect(plan().household.dependents).toMatchObject([{ id: 'ulla', ownMoney: 931 }])
  expect(await told()).toBeUndefined()
})
