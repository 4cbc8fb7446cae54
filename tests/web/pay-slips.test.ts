// Pay slips that take a plan at work and an employer's premium before tax, through the desk to the year's forms. By hand, invented.
import { randomUUID } from 'node:crypto'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { addAccount, listAccounts } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { sortingDesk } from '#db/statements/sorting-desk.ts'
import { importStatement } from '#db/statements/statement-store.ts'
import { cents } from '#money/cents.ts'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import { act, done } from '../db/fresh-books.ts'
import { statementFile } from '../db/statement-file.ts'
import { deskFields } from './desk-fields.ts'
import { postByName } from './post-by-name.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp

const planOf = (members: string[]) =>
  planSchema.parse({
    startMonth: '2026-07',
    household: {
      people: [
        { id: 'tess', name: 'Tess', born: '1984-05-02' },
        { id: 'rolf', name: 'Rolf', born: '1986-09-12' },
      ],
      living: [{ id: 'living', name: 'Living', perMonth: 2300 }],
      pay: [
        { id: 'library', name: 'Library', person: 'tess', perMonth: 1050 },
        { id: 'creamery', name: 'Creamery', person: 'rolf', perMonth: 3800 },
      ],
      place: { state: 'NC' },
    },
    health: {
      marketplace: { planAt21: 400, benchmarkAt21: 420, members: members.map((person) => ({ person })) },
    },
    savings: { accounts: [{ id: 'cash', name: 'Savings', kind: 'cash', balance: 50_000 }] },
  } satisfies PlanInput)

const monthsBehind = ['01', '02', '03', '04', '05', '06']
const post = (side: string, on: string, amounts: Record<string, number>) =>
  postByName(app.books, side, on, amounts)
const id = (name: string) => listAccounts(app.books).find((one) => one.name === name)!.id

/**
 * Rolf, half a month: 1,900.00, of it 114.00 (6 percent) into a 401(k) and 106.20 for the creamery's health plan; 95.00 of federal tax; Social
 * Security and Medicare 7.65 percent of 1,793.80, 137.23 (26 USC 3121(a)(5)(G), (v)(1)): 1,447.57 come. Tess, a month: 1,050.00 of the
 * library, 40.00 and 80.33 withheld: 929.67.
 */
const rolfs = {
  'Retirement, traditional': '114.00',
  'Health premiums': '106.20',
  'Federal taxes': '95.00',
  'Social Security and Medicare from pay': '137.23',
}
const tesss = { 'Federal taxes': '40.00', 'Social Security and Medicare from pay': '80.33' }

beforeEach(() => {
  app = testApp({ today: '2026-07-02' })
  app.openSides()
  post('household', '2026-01-01', { Savings: 50_000, 'Opening balances': -50_000 })
  for (const [name, personId] of [
    ['Creamery pay', 'rolf'],
    ['Library pay', 'tess'],
  ])
    done(
      addAccount(app.books, act(), {
        sideId: 'household',
        name: name!,
        kind: 'income',
        purpose: 'pay',
        personId: personId!,
      }),
    )
  for (const month of monthsBehind) {
    post('household', `2026-${month}-04`, { 'Health premiums': 287.36, Savings: -287.36 })
    post('farm', `2026-${month}-10`, { 'Farm checking': 2000, 'Vegetables and fruit sold': -2000 })
  }
})
afterEach(() => app.close())

const slip = async (payee: string, pay: string, taken: Record<string, string>) => {
  const line = sortingDesk(app.books).lines.find(({ line }) => line.payee === payee)!.line.id
  const fields = Object.entries(taken).flatMap(([name, amount], at) => [
    [`taken.${at}.account`, String(id(name))],
    [`taken.${at}.amount`, amount],
  ])
  const sent = {
    formId: randomUUID(),
    how: 'pay',
    pay: String(id(pay)),
    keep: 'yes',
    ...Object.fromEntries(fields),
  }
  return app.post(`/books/sorting/lines/${line}`, sent)
}

const bookSlips = async () => {
  const lines = monthsBehind.flatMap((month) => [
    { day: day(`2026-${month}-15`), amount: cents(144_757), payee: 'CREAMERY PAYROLL' },
    { day: day(`2026-${month}-26`), amount: cents(92_967), payee: 'COUNTY LIBRARY' },
    { day: day(`2026-${month}-28`), amount: cents(144_757), payee: 'CREAMERY PAYROLL' },
  ])
  done(importStatement(app.books, act(), id('Household checking'), statementFile(lines), day('2026-07-02')))
  expect((await slip('CREAMERY PAYROLL', 'Creamery pay', rolfs)).status).toBe(303)
  expect((await slip('COUNTY LIBRARY', 'Library pay', tesss)).status).toBe(303)
  const { fields } = deskFields(await (await app.get('/books/sorting')).text())
  expect((await app.post('/books/sorting', fields)).status).toBe(303)
  expect(sortingDesk(app.books).lines).toEqual([])
}

interface Pack {
  tax: {
    worksheet: {
      figures: Record<string, number>
      household: { wages: number[]; deferredPay: number[]; withheld: number }
      inputs: { label: string; dollars: number; says: string }[]
      assumed: string[]
      healthInsurance: { line: string; amount: number }[]
      selfEmployment: { name: string; lines: { line: string; cents: number }[] }[]
    }
  }
  places: { account: string; amountCents: number; goes: { line: string } | null }[]
  payroll: {
    papers: { account: string; paper: string; bookedCents: number }[]
    premiums: { monthsCents: number[] }[]
  }
}
const pack = async () => (await (await app.get('/year-pack.json?year=2026')).json()) as Pack

/**
 * Twelve slips: 22,800.00 less 1,368.00 and 1,274.40 is 20,157.60 in box 1, and 21,525.60 with the 401(k) in box 3. Tess 6,300.00. Profit of the
 * farm 12,000.00, half each: 0.9235 of 6,000.00 is 5,541.00; 687.08 and 160.69 are 847.77 of tax, half of it 423.89 each. Premiums they paid
 * themselves: 6 times 287.36, 1,724.16. Adjusted gross income 20,157.60 + 6,300.00 + 12,000.00 − 847.78 − 1,724.16 = 35,885.66.
 */
test('what is taken off pay before tax is in no wages, no deduction for premiums and no premium of the marketplace; Social Security keeps what is deferred', async () => {
  app.savePlan(planOf([]))
  await bookSlips()
  const { tax, places, payroll } = await pack()
  const { household, figures, inputs, assumed, healthInsurance, selfEmployment } = tax.worksheet
  expect(household.wages).toEqual([6300, 20_157.6])
  expect(household.deferredPay).toEqual([0, 1368])
  expect(household.withheld).toBe(12 * 95 + 6 * 40)
  expect(healthInsurance.find(({ line }) => line === '1')!.amount).toBe(172_416)
  expect(
    selfEmployment.map(({ name, lines }) => [name, lines.find(({ line }) => line === '8d')!.cents]),
  ).toEqual([
    ['Tess', 630_000],
    ['Rolf', 2_152_560],
  ])
  expect(figures.adjustedGrossIncome).toBeCloseTo(35_885.66, 2)
  // The year pack says what was taken out, and finds every dollar again.
  const pay = inputs.find(({ label }) => label === 'Pay')!
  expect(pay.dollars).toBeCloseTo(26_457.6, 2)
  expect(pay.says).toContain('$1,274.40 of premiums')
  expect(pay.says).toContain('$1,368.00 put into a plan at work')
  expect(assumed.join(' ')).toContain('Boxes 1 and 12 of Form W-2 decide')
  expect(places.map(({ account, amountCents, goes }) => [account, amountCents, goes?.line ?? null])).toEqual(
    expect.arrayContaining([
      ['Creamery pay', 2_015_760, '1a'],
      ['Creamery pay', 264_240, null],
      ['Library pay', 630_000, '1a'],
    ]),
  )
  expect(payroll.papers.map(({ account, paper, bookedCents }) => [account, paper, bookedCents])).toEqual(
    expect.arrayContaining([
      ['Creamery pay', 'W-2', 2_015_760],
      ['Library pay', 'W-2', 630_000],
      ['Health premiums', '1095-A, or a statement of the insurer', 172_416],
    ]),
  )
  expect(payroll.premiums.map(({ monthsCents }) => monthsCents.slice(0, 7))).toEqual([
    [28_736, 28_736, 28_736, 28_736, 28_736, 28_736, 0],
  ])
})

test('what the marketplace was paid leaves out what pay slips took', async () => {
  app.savePlan(planOf(['tess']))
  await bookSlips()
  const cover = (await (await app.get('/cover.json')).json()) as {
    rows: { paidInMonths: { over: { months: number; monthly: number } } }[]
  }
  expect(cover.rows[0]!.paidInMonths.over.months).toBe(6)
  expect(cover.rows[0]!.paidInMonths.over.monthly).toBeCloseTo(287.36, 2)
  // A line of the plan for the creamery's cover is paid by the slips, and takes nothing of the marketplace's.
  const plan = planOf(['tess'])
  const premiums = [{ id: 'job', name: 'Creamery cover', perMonth: 212.4, deductible: false }]
  app.savePlan(planSchema.parse({ ...plan, health: { ...plan.health, premiums } }), { basedOn: 1 })
  const again = (await (await app.get('/cover.json')).json()) as typeof cover
  expect(again.rows[0]!.paidInMonths.over.monthly).toBeCloseTo(287.36, 2)
})

interface Beside {
  revisionNo: number
  oneSided: { id: string; says: string; button: string | null }[]
}

const beside = async () => (await (await app.get('/runway/actual.json')).json()) as Beside
const told = async () =>
  (await beside()).oneSided.filter(({ id }) => id === 'premiums-from-pay').map(({ says }) => says)
const take = async () => {
  const sent = {
    formId: randomUUID(),
    what: 'premiums-from-pay',
    planId: 'ours',
    basedOn: String((await beside()).revisionNo),
  }
  expect((await app.post('/runway/actual/take', sent)).status).toBe(303)
}
const august = async () =>
  (
    (await (await app.get('/runway.json')).json()) as {
      months: { month: string; premiums: number; pay: number }[]
    }
  ).months.find(({ month }) => month === '2026-08')!
const coverOf = async (name: string) =>
  (
    (await (await app.get('/cover.json')).json()) as {
      rows: { people: { name: string; cover: { kind: string; from: number; months: number }[] }[] }[]
    }
  ).rows[0]!.people.find((one) => one.name === name)!.cover
const withDaughter = (perMonth: number, more: Partial<PlanInput['health']> = {}) => {
  const plan = planOf(['tess'])
  return planSchema.parse({
    ...plan,
    household: {
      ...plan.household,
      dependents: [{ id: 'una', name: 'Una', born: '2015-04-09' }],
      pay: [plan.household.pay[0]!, { ...plan.household.pay[1]!, perMonth }],
    },
    health: { ...plan.health, ...more },
  })
}

// Pay of the plan is without what the employer takes for premiums. Two slips of 1,900.00 are the 3,800.00 of the plan: entered with 212.40 that
// never come. In hand that is 212.40 less 7.65 percent, 196.15. Rolf is on that plan, not Tess, and not Una.
test('pay that was entered with the premiums that slips take is lowered by them at one press, and covers nobody else', async () => {
  app.savePlan(withDaughter(3800))
  await bookSlips()
  expect(await told()).toEqual([
    'Pay slips took $212 a month for an employer’s health plan lately, and the plan’s pay of Rolf, $3,800 a month, is entered with it: months left are too many',
  ])
  const before = await august()
  const [tess, una] = [await coverOf('Tess'), await coverOf('Una')]
  await take()
  const after = await august()
  expect(before.pay - after.pay).toBeCloseTo(196.15, 1)
  expect(after.premiums).toBeCloseTo(before.premiums, 2)
  expect(await told()).toEqual([])
  expect((await coverOf('Rolf')).at(-1)!.kind).toBe('other plan')
  expect([await coverOf('Tess'), await coverOf('Una')]).toEqual([tess, una])
  const cover = (await (await app.get('/cover.json')).json()) as {
    rows: { paidInMonths: { over: { monthly: number } } }[]
  }
  expect(cover.rows[0]!.paidInMonths.over.monthly).toBeCloseTo(287.36, 2)
})

// 3,800.00 less 212.40 is 3,587.60.
test('pay that was entered without them is told of nothing; a line that takes them once more is, and goes at one press', async () => {
  app.savePlan(withDaughter(3587.6))
  await bookSlips()
  expect(await told()).toEqual([])
  const [una, without] = [await coverOf('Una'), await august()]
  const premiums = [{ id: 'job', name: 'Creamery cover', perMonth: 212.4, deductible: false }]
  app.savePlan(withDaughter(3587.6, { premiums }), { basedOn: 1 })
  expect(await told()).toEqual([
    'Pay slips took $212 a month for an employer’s health plan lately. The plan’s pay of Rolf, $3,588 a month, is entered without it, and “Creamery cover” takes it once more: months left are too few',
  ])
  await take()
  expect(await told()).toEqual([])
  expect(await august()).toMatchObject({ pay: without.pay, premiums: without.premiums })
  expect(await coverOf('Una')).toEqual(una)
})

test('what a plan at work took off pay is summed among contributions, and nobody is asked for which year it was', async () => {
  app.savePlan(planOf([]))
  await bookSlips()
  const page = await (await app.get('/year-pack/contributions?year=2026')).text()
  expect(page).toContain('$1,368.00 was taken off pay for plans at work.')
  expect(page).not.toContain('$114.00 into Retirement, traditional')
})

test('an employer’s premium alone brings no paper of the marketplace; taken back, the slip is as if it never was', async () => {
  app.savePlan(planOf([]))
  const before = (await pack()).tax.worksheet.figures.adjustedGrossIncome
  const slipOf = (sign: 1 | -1) =>
    post('household', '2026-06-30', {
      'Household checking': 800 * sign,
      'Health premiums': 100 * sign,
      'Retirement, traditional': 100 * sign,
      'Creamery pay': -1000 * sign,
    })
  slipOf(1)
  expect((await pack()).tax.worksheet.figures.adjustedGrossIncome).toBeCloseTo(before! + 800, 2)
  slipOf(-1)
  expect((await pack()).tax.worksheet.figures.adjustedGrossIncome).toBeCloseTo(before!, 2)
})

// 26 USC 402(g)(1) and Notice 2025-67, from memory: 24,500 in 2026 for one under 50.
test('put into a plan at work beyond the year’s most, the rest is wages and is told; into Roth savings it is wages too', async () => {
  app.savePlan(planOf([]))
  post('household', '2026-06-30', {
    'Household checking': 10_000,
    'Retirement, traditional': 26_000,
    'Retirement, Roth': 1000,
    'Creamery pay': -37_000,
  })
  const { household, assumed } = (await pack()).tax.worksheet
  expect([household.wages[1], household.deferredPay[1]]).toEqual([12_500, 24_500])
  expect(assumed.join(' ')).toContain(
    'Into a plan at work by Rolf: $26,000.00 is booked and $24,500.00 is the most for 2026',
  )
})

test('the whole cannot be taken off itself, and the field says so with what was typed', async () => {
  done(
    importStatement(
      app.books,
      act(),
      id('Household checking'),
      statementFile([{ day: day('2026-06-15'), amount: cents(90_000), payee: 'IRA CUSTODIAN' }]),
      day('2026-07-02'),
    ),
  )
  const refused = await slip('IRA CUSTODIAN', 'Retirement, traditional', { 'Retirement, traditional': '100' })
  expect(refused.status).toBe(422)
  const html = await refused.text()
  expect(html).toContain('This is what it was before tax. Choose what was taken off it')
  expect(html).toContain('value="100"')
})

/** Names of accounts of pay, with whose they are and what they hold, cents. */
const payAccounts = () =>
  listAccounts(app.books)
    .filter(({ purpose }) => purpose === 'pay')
    .map(({ id, name, personId }) => [name, personId, balancesOn(app.books).get(id) ?? 0])

test('two people are asked whose pay it is: each has an account from the first slip on, and the next slip opens with the same', async () => {
  const fresh = testApp({ today: '2026-07-02' })
  app.close()
  app = fresh
  app.openSides()
  app.savePlan(planOf([]))
  const lines = ['15', '28'].map((on) => ({
    day: day(`2026-06-${on}`),
    amount: cents(144_757),
    payee: 'CREAMERY',
  }))
  const library = { day: day('2026-06-26'), amount: cents(92_967), payee: 'COUNTY LIBRARY' }
  done(
    importStatement(
      app.books,
      act(),
      id('Household checking'),
      statementFile([...lines, library]),
      day('2026-07-02'),
    ),
  )
  const lineOf = (payee: string) =>
    sortingDesk(app.books).lines.find(({ line }) => line.payee === payee)!.line.id
  const address = () => `/books/sorting/lines/${lineOf('CREAMERY')}`
  const html = await (await app.get(address())).text()
  const select = /<select [^>]*name="pay"[^>]*>(.*?)<\/select>/s.exec(html)![1]!
  expect(select).toContain('<option value="">Choose whose pay it is</option>')
  expect(select).not.toContain('selected')
  expect(html).toContain('<option value="of:rolf">Pay of Rolf</option>')
  const sent = {
    formId: randomUUID(),
    how: 'pay',
    pay: '',
    'taken.0.account': String(id('Federal taxes')),
    'taken.0.amount': '95.00',
  }
  const asked = await app.post(address(), sent)
  expect(asked.status).toBe(422)
  expect(await asked.text()).toContain('href="#f-pay"')
  expect((await app.post(address(), { ...sent, pay: 'of:nobody' })).status).toBe(422)
  expect(payAccounts()).toEqual([['Off-farm pay', null, 0]])
  const first = address()
  for (let time = 0; time < 2; time += 1)
    expect((await app.post(first, { ...sent, pay: 'of:rolf' })).status).toBe(303)
  expect(payAccounts()).toEqual([
    ['Off-farm pay', null, 0],
    ['Pay of Rolf', 'rolf', -154_257],
  ])
  expect(await (await app.get(address())).text()).toContain(
    `<option value="${id('Pay of Rolf')}" selected="">Pay of Rolf`,
  )
  const tesss = { ...sent, formId: randomUUID(), pay: 'of:tess' }
  expect((await app.post(`/books/sorting/lines/${lineOf('COUNTY LIBRARY')}`, tesss)).status).toBe(303)
  expect(payAccounts()[2]).toEqual(['Pay of Tess', 'tess', -102_467])
})

test('pay that names nobody is an open point of the year of two who both earn; where the plan has wages of one alone it is theirs', async () => {
  app.savePlan(planOf([]))
  const open = async () =>
    (
      (await (await app.get('/year-pack.json?year=2026')).json()) as {
        gaps: { says: string; href: string }[]
      }
    ).gaps.filter(({ says }) => says.includes('names nobody, and counts as'))
  expect(await open()).toEqual([])
  post('household', '2026-06-30', { 'Household checking': 900, 'Off-farm pay': -900 })
  const [point] = await open()
  expect(point!.says).toContain('$900.00 of pay under “Off-farm pay” names nobody, and counts as Tess’s')
  expect(point!.href).toBe(`/settings/accounts/${id('Off-farm pay')}`)
  const plan = planOf([])
  const pay = plan.household.pay.filter(({ person }) => person === 'rolf')
  app.savePlan(planSchema.parse({ ...plan, household: { ...plan.household, pay } }), { basedOn: 1 })
  expect(await open()).toEqual([])
})
