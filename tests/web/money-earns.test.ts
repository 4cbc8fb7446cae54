// What money lying in accounts earns: asked with the balances, told later on the account's page, kept in the plan, and used where the plan goes on
// from the books. An invented clockmaker of 41 in Vermont: 6,000 in checking, 40,000 in savings at 4%, 1,500 owed on a card. No tax, no prices: by hand.
import { afterEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { addAccount, listAccounts } from '#db/ledger/account-store.ts'
import { type Plan, planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'
import { currentPlan } from '#today/current-plan.ts'
import { keptTies } from '#today/loan-ties.ts'
import { continuedPlan } from '#today/projection/continued-plan.ts'
import { moveIn } from '../today/moved.ts'
import { browserForms, fieldsOf, filledForm } from './browser-form.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
afterEach(() => app.close())

const id = (name: string) => listAccounts(app.books).find((one) => one.name === name)!.id
const number = (name: string) => listAccounts(app.books).find((one) => one.name === name)!.number
const planNow = (): Plan => {
  const current = currentPlan(app.books)
  if (current.status !== 'read') throw new Error(current.status)
  return current.plan
}

/** What the button “Not for us” of a step sends; undefined where the step does not stand on the page. */
const stepAsked = (page: string, step: string): Record<string, string> | undefined => {
  const forms = page.match(/<form[^>]*action="\/now\/first-step"[\s\S]*?<\/form>/g)
  const form = (forms ?? []).find((one) => one.includes(`value="${step}"`))
  return (
    form && Object.fromEntries([...form.matchAll(/name="(\w+)" value="([^"]*)"/g)].map((one) => one.slice(1)))
  )
}
const notForUs = async (sent: Record<string, string> | undefined) =>
  expect((await app.post('/now/first-step', sent!)).status).toBe(303)

/** The step's form as the browser has it, with balances and what they earn typed in by the names of their accounts. */
const balances = async (typed: Record<string, [amount: string, earns?: string]>) => {
  const fields = await filledForm(app, '/start/accounts', { day: '2027-02-01' })
  for (const [name, [amount, earns]] of Object.entries(typed)) {
    const at = Object.entries(fields).find(
      ([field, value]) => /^balances\.\d+\.account$/.test(field) && value === String(id(name)),
    )![0]
    fields[at.replace('account', 'amount')] = amount
    if (earns !== undefined) {
      expect(Object.keys(fields)).toContain(at.replace('account', 'earns'))
      fields[at.replace('account', 'earns')] = earns
    }
  }
  return fields
}

const begin = async (savings: [string, string?] = ['40,000', '4']) => {
  app = testApp({ today: '2027-02-10' })
  await app.post(
    '/start/who',
    await filledForm(app, '/start/who', {
      farmName: 'Escapement Acre',
      state: 'VT',
      'people.0.name': 'Ferrin',
      'people.0.born': '1985-10-02',
    }),
  )
  return app.post(
    '/start/accounts',
    await balances({
      'Household checking': ['6,000', ''],
      Savings: savings,
      'Household card': ['1,500'],
    }),
  )
}

/** By hand: no tax, prices as they are, 2,000 a month. */
const plain = (plan: Plan): Plan =>
  planSchema.parse({
    ...plan,
    tax: { method: 'none' },
    household: { ...plan.household, living: [{ id: 'living', name: 'Living', perMonth: 2000 }] },
    assumptions: { ...plan.assumptions, inflation: 0 },
  })

const monthly = (rate: number) => (1 + rate) ** (1 / 12)

test('what is typed with the balances stands in the plan, and each month of the projection earns it', async () => {
  expect((await begin()).headers.get('location')).toBe('/start/owned')
  const { savings, assumptions } = planNow()
  expect(assumptions.bills).toBeCloseTo(0.04, 12)
  expect(savings.accounts).toMatchObject([
    { kind: 'cash', name: 'Cash and savings', balance: 4500, mix: { bills: 0 } },
    { kind: 'cash', name: 'Savings', balance: 40_000, mix: { bills: 1 }, bookAccount: number('Savings') },
  ])
  // 4,500 less 2,000 lie in checking; savings earn a twelfth power of 4%, month by month, until checking is empty in the third month.
  const grown = 40_000 * monthly(0.04) ** 2
  expect(
    project(plain(planNow()))
      .months.slice(0, 3)
      .map(({ cash }) => cash),
  ).toEqual([
    expect.closeTo(2500 + 40_000 * monthly(0.04), 4),
    expect.closeTo(500 + grown, 4),
    expect.closeTo((grown - 1500) * monthly(0.04), 4),
  ])
})

test('the step shows what was typed, and changed there it is changed in the plan', async () => {
  await begin()
  const page = '/start/accounts'
  const html = await (await app.get(page)).text()
  const place = new RegExp(`name="(balances\\.\\d+)\\.account" value="${id('Savings')}"`).exec(html)![1]!
  expect(html).toMatch(new RegExp(`name="${place}\\.earns"[^>]*value="4"`))
  const action = '/start/accounts/change'
  const form = browserForms(html, page).find((one) => one.action === action)!
  await app.post(action, { ...fieldsOf(form), [`${place}.earns`]: '3.5' })
  expect(planNow().assumptions.bills).toBeCloseTo(0.035, 12)
  const again = await (await app.get(page)).text()
  const next = browserForms(again, page).find((one) => one.action === action)!
  await app.post(action, { ...fieldsOf(next), [`${place}.earns`]: '' })
  expect(planNow().savings.accounts).toMatchObject([{ balance: 44_500, mix: { bills: 0 } }])
})

test('a rate that is none is refused at its field, and nothing is booked', async () => {
  const reply = await begin(['40,000', '95'])
  expect(reply.status).toBe(422)
  expect(await reply.text()).toMatch(/href="#f-balances\.\d+\.earns"/)
  expect(app.books.sqlite.prepare('SELECT count(*) FROM entries').pluck().get()).toBe(0)
})

test('a plan that goes on from the books holds in the earning account what the books have there', async () => {
  await begin()
  // 5,000 go from savings to checking, and 3,200 are spent of it: 46,000 − 1,500 − 3,200 are left, 35,000 of it in savings.
  moveIn(app.books, 'household', '2027-02-12', 'Savings', 'Household checking', 5000)
  moveIn(app.books, 'household', '2027-02-20', 'Household checking', 'Groceries', 3200)
  const today = day('2027-03-05')
  const { plan } = continuedPlan(app.books, planNow(), today)
  expect(plan.savings.accounts.map(({ balance }) => balance)).toEqual([6300, 35_000])
  const [first] = project({ ...plain(planNow()), continuesFrom: '2027-03', savings: plan.savings }).months
  expect(first!.cash).toBeCloseTo(4300 + 35_000 * monthly(0.04), 4)
})

test('what a card owes beyond checking is taken off what earns: nothing counts twice', async () => {
  await begin()
  moveIn(app.books, 'household', '2027-02-20', 'Household card', 'Groceries', 7000)
  const { plan } = continuedPlan(app.books, planNow(), day('2027-03-05'))
  expect(plan.savings.accounts.map(({ balance }) => balance)).toEqual([0, 37_500])
  expect(plan.household.oneOffs).toEqual([])
})

test('the account’s own page asks it later, and tells an account apart from the one it was counted with', async () => {
  await begin(['40,000', ''])
  expect(planNow().savings.accounts).toMatchObject([{ balance: 44_500, mix: { bills: 0 } }])
  const page = `/books/accounts/${id('Savings')}/earns`
  expect(await (await app.get(`/books/accounts/${id('Savings')}`)).text()).toContain(page)
  expect(await (await app.get(`/settings/accounts/${id('Savings')}`)).text()).toContain(page)
  expect((await (await app.get(page)).text()).replace(/\s+/g, ' ')).toContain('earns nothing')
  const sent = await filledForm(app, page, { earns: '3.25' })
  // Sent twice it is the same success.
  for (let time = 0; time < 2; time += 1) expect((await app.post(page, sent)).status).toBe(303)
  const { savings, assumptions } = planNow()
  expect(assumptions.bills).toBeCloseTo(0.0325, 12)
  expect(savings.accounts).toMatchObject([
    { balance: 4500, mix: { bills: 0 } },
    { name: 'Savings', balance: 40_000, mix: { bills: 1 }, bookAccount: number('Savings') },
  ])
  // A second one that pays more: the first still earns what it did.
  const checking = `/books/accounts/${id('Household checking')}/earns`
  await app.post(checking, await filledForm(app, checking, { earns: '4' }))
  const after = planNow()
  expect(after.assumptions.bills).toBeCloseTo(0.04, 12)
  const earned = after.savings.accounts.map(({ mix }) => mix.bills * after.assumptions.bills)
  expect(earned).toEqual([0, expect.closeTo(0.0325, 12), expect.closeTo(0.04, 12)])
  // What the card owes is taken off the first of them.
  const { plan } = continuedPlan(app.books, after, day('2027-03-05'))
  expect(plan.savings.accounts.map(({ balance }) => balance)).toEqual([0, 38_500, 6000])
})

test('a rate above 20% is refused on the account’s page too; a card and the farm’s account have none', async () => {
  await begin()
  const page = `/books/accounts/${id('Savings')}/earns`
  const reply = await app.post(page, await filledForm(app, page, { earns: '21' }))
  expect(reply.status).toBe(422)
  expect(await reply.text()).toContain('href="#f-earns"')
  for (const name of ['Household card', 'Farm checking', 'Taxable investments'])
    expect((await app.get(`/books/accounts/${id(name)}/earns`)).status).toBe(404)
})

test('where no money of the house earns anything in the plan, Now asks once what it earns', {
  timeout: 30_000,
}, async () => {
  await begin(['40,000', ''])
  await app.post('/start/costs', await filledForm(app, '/start/costs', { living: '2,000', floorMonths: '6' }))
  const steps = async () =>
    ((await (await app.get('/now.json')).json()) as { firstSteps: { id: string; href: string }[] }).firstSteps
  expect(await steps()).toContainEqual(
    expect.objectContaining({ id: 'earns', href: `/books/accounts/${id('Savings')}/earns` }),
  )
  const page = `/books/accounts/${id('Savings')}/earns`
  await app.post(page, await filledForm(app, page, { earns: '3.25' }))
  expect((await steps()).map((step) => step.id)).not.toContain('earns')
})

// A certificate that was opened in March, of which the first run could ask nothing: 15,000 lie in it.
test('an account made later is asked about by its name until its rate is told, nothing too', {
  timeout: 30_000,
}, async () => {
  await begin()
  await app.post('/start/costs', await filledForm(app, '/start/costs', { living: '2,000', floorMonths: '6' }))
  app.setToday('2027-03-04')
  const made = addAccount(
    app.books,
    { formId: 'certificate', at: '2027-03-04T12:00:00.000Z', actor: 'test' },
    { sideId: 'household', kind: 'asset', name: 'Two-year certificate', cashRole: 'spendable' },
  )
  if (!made.ok) throw new Error(JSON.stringify(made.problems))
  const steps = async () =>
    ((await (await app.get('/now.json')).json()) as { firstSteps: { id: string; says: string }[] }).firstSteps
  expect((await steps()).map((step) => step.id)).not.toContain('earns')
  moveIn(app.books, 'household', '2027-03-04', 'Savings', 'Two-year certificate', 15_000)
  expect(await steps()).toContainEqual(
    expect.objectContaining({
      id: 'earns',
      says: 'Say what the money in “Two-year certificate” earns a year',
    }),
  )
  const page = `/books/accounts/${id('Two-year certificate')}/earns`
  await app.post(page, await filledForm(app, page, { earns: '0' }))
  expect((await steps()).map((step) => step.id)).not.toContain('earns')
  expect(planNow().savings.accounts.at(-1)).toMatchObject({ name: 'Two-year certificate', mix: { bills: 0 } })
  await app.post(page, await filledForm(app, page, { earns: '4' }))
  expect(planNow().savings.accounts.at(-1)).toMatchObject({ mix: { bills: 1 } })
  const { plan } = continuedPlan(app.books, planNow(), day('2027-04-02'))
  expect(plan.savings.accounts.at(-1)).toMatchObject({ name: 'Two-year certificate', balance: 15_000 })
})

test('a document that names no account of the books keeps what holds it, by its short name, and says so', async () => {
  await begin()
  const before = planNow()
  const untied = before.savings.accounts.map(({ bookAccount: _, ...one }) => one)
  const document = { ...before, savings: { ...before.savings, accounts: untied } }
  const { plan, says } = keptTies(app.books, before, planSchema.parse(document))
  expect(plan.savings.accounts.at(-1)!.bookAccount).toBe(number('Savings'))
  expect(says).toEqual([
    `Savings stays tied to account ${number('Savings')}, which the document does not name.`,
  ])
})

test('the plan’s form of savings says that an account without a mix earns nothing, and where the rate is given', async () => {
  app = testApp({ today: '2026-11-20' })
  app.savePlan({
    startMonth: '2027-01',
    household: { people: [{ id: 'ida', name: 'Ida', born: '1984-05-02' }] },
    savings: { accounts: [{ id: 'spare', name: 'Spare', kind: 'cash', balance: 8000 }] },
  })
  const page = await (await app.get('/runway/plan/savings')).text()
  expect(page).toContain('Left empty, the account earns nothing')
  expect(page).toContain('gives for all; one that pays less has less')
})

test('“Not for us” of one account says nothing of those opened later', { timeout: 30_000 }, async () => {
  await begin(['40,000', ''])
  await app.post('/start/costs', await filledForm(app, '/start/costs', { living: '2,000', floorMonths: '6' }))
  app.setToday('2027-03-04')
  const open = (name: string, dollars: number) => {
    const act = { formId: name, at: '2027-03-04T12:00:00.000Z', actor: 'test' }
    const made = addAccount(app.books, act, {
      sideId: 'household',
      kind: 'asset',
      name,
      cashRole: 'spendable',
    })
    if (!made.ok) throw new Error(JSON.stringify(made.problems))
    moveIn(app.books, 'household', '2027-03-04', 'Savings', name, dollars)
  }
  const asked = async () => {
    const page = await (await app.get('/now')).text()
    return stepAsked(page, 'earns')
  }
  expect(await asked()).not.toHaveProperty('of')
  await notForUs(await asked())
  expect(await asked()).toBeUndefined()
  open('Two-year certificate', 15_000)
  expect(await asked()).toHaveProperty('of')
  await notForUs(await asked())
  expect(await asked()).toBeUndefined()
  open('Barn fund', 4000)
  expect(await asked()).toHaveProperty('of')
})

// 9,000 for a kiln, then 2,500 from a brother, each lent after the first run and paid into savings.
test('“Not for us” of one loan says nothing of those made later', { timeout: 30_000 }, async () => {
  await begin(['40,000', ''])
  await app.post('/start/costs', await filledForm(app, '/start/costs', { living: '2,000', floorMonths: '6' }))
  app.setToday('2027-03-04')
  const borrow = (name: string, dollars: number) => {
    const act = { formId: name, at: '2027-03-04T12:00:00.000Z', actor: 'test' }
    const made = addAccount(app.books, act, { sideId: 'household', kind: 'liability', name })
    if (!made.ok) throw new Error(JSON.stringify(made.problems))
    moveIn(app.books, 'household', '2027-03-04', name, 'Savings', dollars)
  }
  const now = async () => await (await app.get('/now')).text()
  expect(stepAsked(await now(), 'loans')).toBeUndefined()
  borrow('Kiln loan', 9000)
  expect(await now()).toContain('Say the rate and the payment of “Kiln loan”')
  await notForUs(stepAsked(await now(), 'loans'))
  expect(stepAsked(await now(), 'loans')).toBeUndefined()
  borrow('Lent by a brother', 2500)
  expect(await now()).toContain('Say the rate and the payment of “Lent by a brother”')
  expect(stepAsked(await now(), 'loans')).toMatchObject({ of: String(number('Lent by a brother')) })
})
