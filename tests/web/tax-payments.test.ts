// Payments of tax by the year they are for: a year worked by hand, asked where two readings fit, and said on the page.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { entryByNo } from '#db/ledger/entry-reader.ts'
import { correctEntry } from '#db/ledger/ledger-store.ts'
import { taxMoves } from '#db/tax/tax-moves.ts'
import { cents } from '#money/cents.ts'
import { planSchema } from '#plan/plan.ts'
import { act, done } from '../db/fresh-books.ts'
import { accountIn } from '../today/moved.ts'
import { filledForm } from './browser-form.ts'
import { postByName } from './post-by-name.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp

const plan = planSchema.parse({
  startMonth: '2025-01',
  household: {
    people: [{ id: 'ann', name: 'Ann', born: '1982-04-01' }],
    living: [{ id: 'living', name: 'Living', perMonth: 1500 }],
  },
})

const post = (side: string, on: string, amounts: Record<string, number>, payee = '') =>
  postByName(app.books, side, on, amounts, { payee })

const pay = (on: string, dollars: number, words = '') =>
  post('household', on, { 'Federal taxes': dollars, Savings: -dollars }, words)

/**
 * A year of 2025 of one person, by hand: pay 14,400.05, farm profit 26,720.96. Schedule SE: line 4a 24,676.81, line 10 3,059.92,
 * line 11 715.63, in all 3,775.55. Income 41,121.01 less half of it 1,887.78 less 15,750 is 23,483.23; less a fifth of that, 4,696.65,
 * for qualified business income, 18,786.58: tax 1,192.50 + 12 percent of 6,861.58 = 2,015.89. In all 5,791.44.
 * Paid: 1,200 withheld and four estimates of 1,500, 7,200. So 1,408.56 comes back.
 */
beforeEach(() => {
  app = testApp({ today: '2026-02-10' })
  app.openSides()
  post('household', '2024-12-31', { Savings: 60_000, 'Opening balances': -60_000 })
  post('farm', '2025-06-10', { 'Farm checking': 26_720.96, 'Vegetables and fruit sold': -26_720.96 })
  for (let month = 1; month <= 12; month += 1)
    post('household', `2025-${String(month).padStart(2, '0')}-28`, {
      'Household checking': month === 12 ? 1008.25 : 1008.2,
      'Federal taxes': 100,
      'Social Security and Medicare from pay': 91.8,
      'Off-farm pay': month === 12 ? -1200.05 : -1200,
    })
  for (const on of ['2025-04-15', '2025-06-16', '2025-09-15', '2026-01-15']) pay(on, 1500, 'Treasury')
  app.savePlan(plan)
})

afterEach(() => app.close())

interface Pack {
  tax: {
    worksheet: {
      figures: Record<string, number>
      payments: Record<string, number>
      inputs: { label: string; dollars: number }[]
    }
  }
  gaps: { says: string; href: string }[]
}
const json = async <Read>(path: string) => (await (await app.get(path)).json()) as Read
const worksheet = async (year = 2025) => (await json<Pack>(`/year-pack.json?year=${year}`)).tax.worksheet

/** The form as it stands, changed in some fields. */
const send = async (changed: Record<string, string>) => {
  const path = '/year-pack/payments?year=2025'
  return app.post(path, await filledForm(app, path, changed))
}

const aprilPayment = () => taxMoves(app.books).find((move) => move.day === '2025-04-15')!.postingId

test('withheld, estimates and January’s installment count for the year; the April one is asked', async () => {
  const { tax, gaps } = await json<Pack>('/year-pack.json?year=2025')
  expect(tax.worksheet.figures.totalTax).toBe(5791.44)
  expect(tax.worksheet.payments).toMatchObject({ withheld: 1200, estimates: 4500, withReturn: 0 })
  expect(gaps.map(({ says }) => says).join(' ')).toContain('1 payment of tax may be for this year or another')
  const page = await (await app.get('/year-pack/payments?year=2025')).text()
  expect(page).toContain('paid with the return or after it for 2024, or estimated payment for 2025: both fit')
})

test('said as an estimate, what comes back is 1,408.56, and the lines 25a and 26 stand apart', async () => {
  const saved = await send({
    [`p.m${aprilPayment()}.use`]: 'estimate',
    [`p.m${aprilPayment()}.year`]: '2025',
  })
  expect(saved.status).toBe(303)
  const { figures, payments, inputs } = await worksheet()
  expect(payments).toMatchObject({
    withheld: 1200,
    estimates: 6000,
    withReturn: 0,
    refunded: 0,
    stillOwed: 0,
  })
  expect(figures.balanceDue).toBe(-1408.56)
  expect(inputs.filter(({ label }) => /line 2[56]/.test(label)).map(({ dollars }) => dollars)).toEqual([
    1200, 6000,
  ])
  const { gaps } = await json<Pack>('/year-pack.json?year=2025')
  expect(gaps.map(({ says }) => says).join(' ')).not.toContain('may be for this year or another')
})

test('estimates take withholding off what must be paid ahead (26 USC 6654(g))', async () => {
  const { estimated } = (await worksheet()) as unknown as {
    estimated: { farmer: boolean; requiredAnnualPayment: number; installments: { amount: number }[] }
  }
  const left = estimated.installments.reduce((sum, { amount }) => sum + amount, 0)
  // Three estimates of 1,500 are surely for the year: those meet what comes first, and leave nothing.
  expect(left).toBeCloseTo(Math.max(0, estimated.requiredAnnualPayment - 1200 - 4500), 2)
})

test('social security kept from pay is no income tax, also where it was booked to federal taxes', async () => {
  pay('2025-12-30', 400, 'one more')
  const { postingId } = taxMoves(app.books).find((move) => move.payee === 'one more')!
  expect((await send({ [`p.m${postingId}.office`]: 'payroll' })).status).toBe(303)
  expect((await worksheet()).payments).toMatchObject({ withheld: 1200, estimates: 4500 })
})

test('a refund is of the year before, and lowers nothing that was paid for its own', async () => {
  app.setToday('2026-06-10')
  post('household', '2026-05-12', { Savings: 1408.56, 'Federal taxes': -1408.56 }, 'Treasury')
  await send({ [`p.m${aprilPayment()}.use`]: 'estimate', [`p.m${aprilPayment()}.year`]: '2025' })
  expect((await worksheet()).payments).toMatchObject({ estimates: 6000, refunded: 1408.56, stillOwed: 0 })
  expect((await worksheet(2026)).payments).toMatchObject({ withheld: 0, estimates: 0, refunded: 0 })
})

test('another state’s tax is not the household’s own', async () => {
  app.savePlan(
    { ...plan, household: { ...plan.household, place: { ...plan.household.place, state: 'PA' } } },
    { basedOn: 1 },
  )
  post('household', '2025-06-20', { 'State and local income taxes': 300, Savings: -300 })
  post('household', '2025-06-21', { 'State and local income taxes': 200, Savings: -200 }, 'Ohio')
  const ohio = taxMoves(app.books).find((move) => move.payee === 'Ohio')!.postingId
  await send({ [`p.m${ohio}.state`]: 'OH' })
  const { sums } = await json<{ sums: { state: Record<string, number> } }>(
    '/year-pack/payments.json?year=2025',
  )
  expect(sums.state.estimates).toBe(300)
})

test('what was said stays with the entry that stands in for a corrected one', async () => {
  await send({ [`p.m${aprilPayment()}.use`]: 'estimate', [`p.m${aprilPayment()}.year`]: '2025' })
  const entryId = entryByNo(
    app.books,
    taxMoves(app.books).find((move) => move.day === '2025-04-15')!.entryNo,
  )!.id
  done(
    correctEntry(app.books, act(), entryId, {
      sideId: 'household',
      day: day('2025-04-14'),
      payee: 'Treasury',
      memo: '',
      source: 'form',
      lines: [
        { accountId: accountIn(app.books, 'household', 'Federal taxes'), amountCents: cents(150_100) },
        { accountId: accountIn(app.books, 'household', 'Savings'), amountCents: cents(-150_100) },
      ],
    }),
  )
  expect((await worksheet()).payments).toMatchObject({ estimates: 6001 })
})

test('what is typed wrong comes back at its field; a form over a newer one shows both; sent twice it counts once', async () => {
  const name = `p.m${aprilPayment()}.year`
  const wrong = await send({ [name]: 'soon' })
  expect(wrong.status).toBe(422)
  const html = await wrong.text()
  expect(html).toContain(`href="#f-${name}"`)
  expect(html).toContain('value="soon"')
  expect((await send({ [`p.m${aprilPayment()}.state`]: 'Ohio' })).status).toBe(422)
  expect((await send({ basedOn: '0123456789abcdef', [name]: '2025' })).status).toBe(409)
  const id = crypto.randomUUID()
  const path = '/year-pack/payments?year=2025'
  const body = await filledForm(app, path, {
    formId: id,
    [name]: '2025',
    [`p.m${aprilPayment()}.use`]: 'estimate',
  })
  expect([(await app.post(path, body)).status, (await app.post(path, body)).status]).toEqual([303, 303])
  expect((await worksheet()).payments.estimates).toBe(6000)
})

/**
 * Ann in Pennsylvania with 1 percent of local tax on 14,400.05 of pay and 26,720.96 of profit: 411.21 to an office of its own; to the
 * state 3.07 percent, 1,262.42, less a tenth of the earned income credit that she does not have. (72 P.S. 7302; 53 P.S. 6924.501.)
 */
test('what a city or township was paid is its own: it settles no tax of the state, and the state’s none of its', async () => {
  const place = { state: 'PA' as const, county: 'Erie County' }
  app.savePlan(
    {
      ...plan,
      household: { ...plan.household, place },
      tax: { ...plan.tax, stateTax: { kind: 'law', localRate: 0.01 } },
    },
    { basedOn: 1 },
  )
  const paid = (on: string, dollars: number, words: string) =>
    post('household', on, { 'State and local income taxes': dollars, Savings: -dollars }, words)
  paid('2025-06-16', 500, 'Dept of Revenue')
  paid('2025-07-15', 300, 'City of Erie earned income tax')
  const { sums } = await json<{ sums: Record<string, Record<string, number>> }>(
    '/year-pack/payments.json?year=2025',
  )
  expect(sums.state).toMatchObject({ estimates: 500, stillOwed: expect.closeTo(1262.42 - 500, 2) })
  expect(sums.local).toMatchObject({ estimates: 300, stillOwed: expect.closeTo(411.21 - 300, 2) })
  const pack = await (await app.get('/year-pack/print?year=2025')).text()
  expect(pack).toContain('To the local office')
})

test('where local tax goes with the state’s return, both are one (Indiana’s counties)', async () => {
  const place = { state: 'IN' as const }
  app.savePlan(
    {
      ...plan,
      household: { ...plan.household, place },
      tax: { ...plan.tax, stateTax: { kind: 'law', localRate: 0.02 } },
    },
    { basedOn: 1 },
  )
  post('household', '2025-07-15', { 'State and local income taxes': 300, Savings: -300 }, 'County income tax')
  const { sums } = await json<{ sums: Record<string, Record<string, number>> }>(
    '/year-pack/payments.json?year=2025',
  )
  expect(sums.state!.estimates).toBe(300)
  // 41,121.01 less half of self-employment tax and 1,000 exempt: 3 and 2 percent of 38,233.23.
  expect(sums.state!.stillOwed).toBeCloseTo(38_233.23 * 0.05 - 300, 1)
  expect(sums.local).toMatchObject({ estimates: 0, stillOwed: 0 })
})

test('where the year before gives money back, a payment in April is proposed as the new year’s, and not asked once the money is there', async () => {
  await send({ [`p.m${aprilPayment()}.use`]: 'estimate', [`p.m${aprilPayment()}.year`]: '2025' })
  pay('2026-04-15', 600, 'Treasury')
  const asked = async () => (await app.get('/year-pack/payments?year=2026')).text()
  expect(await asked()).toContain(
    'estimated payment for 2026, or paid with the return or after it for 2025: both fit',
  )
  pay('2026-03-30', -1408.56, 'Treasury refund')
  expect(await asked()).not.toContain('both fit')
  expect((await worksheet(2026)).payments.estimates).toBe(600)
})
