// What is still to be paid ahead of the year's return: worked by hand, and the same wherever it is said.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { formatDollars } from '#money/format.ts'
import { planSchema } from '#plan/plan.ts'
import { postByName } from './post-by-name.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp

const household = {
  people: [{ id: 'ida', name: 'Ida', born: '1982-04-01' }],
  living: [{ id: 'living', name: 'Living', perMonth: 1500 }],
}

const post = (side: string, on: string, amounts: Record<string, number>, payee = '') =>
  postByName(app.books, side, on, amounts, { payee })

const sell = (dollars: number) =>
  post('farm', '2026-06-10', { 'Farm checking': dollars, 'Vegetables and fruit sold': -dollars })

const text = async (path: string) => (await app.get(path)).text()
const worksheet = async () =>
  (
    (await (await app.get('/year-pack.json?year=2026')).json()) as {
      tax: {
        worksheet: {
          figures: { totalTax: number; stateIncomeTax: number }
          estimated: { installments: { due: string; amount: number }[] }
          statePayments: { estimates: number; stillOwed: number; comesBack: number } | null
        }
      }
    }
  ).tax.worksheet

beforeEach(() => {
  app = testApp({ today: '2026-11-29' })
  app.openSides()
  post('household', '2025-12-31', { Savings: 60_000, 'Opening balances': -60_000 })
})

afterEach(() => app.close())

/**
 * Farm profit 26,720.96: self-employment tax 3,775.55, half of it 1,887.78; income 24,833.18 less 16,100 is 8,733.18, a fifth of it
 * 1,746.64 for qualified business income; a tenth of 6,986.54 is 698.65. In all 4,474.20, two thirds 2,982.80, less 2,700 paid.
 */
test('the farmer’s January payment is what three payments leave of two thirds of the tax', async () => {
  app.savePlan(planSchema.parse({ startMonth: '2026-01', household }))
  sell(26_720.96)
  for (const on of ['2026-06-15', '2026-07-15', '2026-09-15'])
    post('household', on, { 'Federal taxes': 900, Savings: -900 })
  const { figures, estimated } = await worksheet()
  expect(figures.totalTax).toBeCloseTo(4474.2, 1)
  expect(estimated.installments).toHaveLength(1)
  expect(estimated.installments[0]).toMatchObject({ due: '2027-01-15' })
  expect(estimated.installments[0]!.amount).toBeCloseTo(282.8, 1)
  expect(await text('/year-pack/print?year=2026')).toContain(
    'Jan 15, 2027: $283 estimated tax, after what was paid',
  )
  const says = '$283 still to pay ahead by the books so far'
  expect(await text('/now')).toContain(says)
  expect(await text('/cover/tax')).toContain(says)
})

// 72 P.S. 7304: forgiveness of all of it to one person with income up to 6,500 (from memory).
test('a state that asks for nothing is not reminded of, and what it was paid comes back', async () => {
  const place = { state: 'PA' as const }
  app.savePlan(planSchema.parse({ startMonth: '2026-01', household: { ...household, place } }))
  sell(5000)
  post('household', '2026-06-15', { 'State and local income taxes': 300, Savings: -300 })
  const { figures, statePayments } = await worksheet()
  // The state pays out a part of the federal earned income credit beside.
  expect(figures.stateIncomeTax).toBeLessThanOrEqual(0)
  expect(statePayments).toMatchObject({ estimates: 300, stillOwed: 0 })
  expect(statePayments!.comesBack).toBeCloseTo(300 - figures.stateIncomeTax, 6)
  expect(await text('/year-pack/print?year=2026')).toContain('Comes back by this worksheet')
  for (const path of ['/now', '/calendar', '/calendar.ics', '/cover/tax'])
    expect(await text(path), path).not.toContain('Pennsylvania estimated tax for 2026')
})

// 26 USC 32 and 24(d): a year of 18,000 of wages and a child brings money back; one of 60,000 of fees does not.
test('a year that brings a refund reminds of no payment ahead; one that owes does', async () => {
  const child = { id: 'kit', name: 'Kit', born: '2018-02-01' }
  const plan = (more: object) =>
    planSchema.parse({ startMonth: '2026-01', household: { ...household, dependents: [child], ...more } })
  app.savePlan(plan({ pay: [{ id: 'job', name: 'Job', person: 'ida', perMonth: 1500, withheldShare: 0 }] }))
  expect(await text('/now')).not.toContain('Estimated tax for 2026')
  const fees = { id: 'fees', name: 'Fees', person: 'ida', perMonth: 5000 }
  app.savePlan(plan({ sideVentures: [fees] }), { basedOn: 1 })
  expect(await text('/now')).toMatch(/Estimated tax for 2026.*about \$[\d,]+ for the year by the plan/)
})

// 26 USC 162(l): premiums lower income, with it the tax that the child credit meets, and leave more of that to be paid out.
test('set-aside and worksheet say the same of what of the child credit comes back', async () => {
  const child = { id: 'kit', name: 'Kit', born: '2018-02-01' }
  app.savePlan(planSchema.parse({ startMonth: '2026-01', household: { ...household, dependents: [child] } }))
  sell(31_000)
  post('household', '2026-06-20', { 'Health premiums': 1200, Savings: -1200 })
  const now = (await (await app.get('/cover.json')).json()) as {
    tax: { mayComeBack: number; setAside: number }
  }
  const { figures } = (await worksheet()) as unknown as {
    figures: Record<'earnedIncomeCredit' | 'additionalChildTaxCredit' | 'balanceDue', number>
  }
  expect(figures.additionalChildTaxCredit).toBeGreaterThan(0)
  expect(now.tax.mayComeBack).toBeCloseTo(figures.earnedIncomeCredit + figures.additionalChildTaxCredit, 2)
  expect(now.tax.setAside - now.tax.mayComeBack).toBeCloseTo(figures.balanceDue, 2)
})

/**
 * The year of 26,720.96 above: federal tax 4,474.20. Pennsylvania takes 3.07 percent of the profit, 820.33 (72 P.S. 7302, from memory);
 * 26,720.96 is above what it forgives one person.
 */
test('what comes back with one return is said where tax of the other is set aside, as the worksheet has it', async () => {
  const place = { state: 'PA' as const }
  app.savePlan(planSchema.parse({ startMonth: '2026-01', household: { ...household, place } }))
  sell(26_720.96)
  const tax = async () =>
    (
      (await (await app.get('/cover.json')).json()) as {
        tax: { setAside: number; comesBack: { federal: number; state: number; local: number } }
      }
    ).tax
  expect((await tax()).comesBack).toEqual({ federal: 0, state: 0, local: 0 })
  expect(await text('/now')).not.toContain('comes back with the return')
  post('household', '2026-06-15', { 'Federal taxes': 5474.2, Savings: -5474.2 })
  post('household', '2026-06-15', { 'State and local income taxes': 100, Savings: -100 })
  const { setAside, comesBack } = await tax()
  expect(setAside).toBeCloseTo(720.33, 0)
  expect(comesBack.federal).toBeCloseTo(1000, 0)
  expect(comesBack.state).toBe(0)
  const says = 'about $1,000 comes back with the federal return'
  expect(await text('/now')).toContain(says)
  expect(await text('/cover/tax')).toContain(says)
  post('household', '2026-09-15', { 'State and local income taxes': 1420.33, Savings: -1420.33 })
  const after = await tax()
  expect(after.setAside).toBe(0)
  expect(after.comesBack.state).toBeCloseTo(700, 0)
  const both = 'about $1,700 comes back with the returns, $1,000 of it federal and $700 from Pennsylvania'
  expect(await text('/now')).toContain(both)
  expect(await text('/cover/tax')).toContain(both)
})

test('days of tax that are over are listed no more, and January’s is', async () => {
  app.savePlan(planSchema.parse({ startMonth: '2026-01', household }))
  post('household', '2026-03-10', { 'Household checking': 70_000, 'Off-farm pay': -70_000 })
  sell(3000)
  const dates = async () =>
    (
      (await (await app.get('/cover.json')).json()) as {
        tax: { dates: { day: string; stillAhead: number | null }[] }
      }
    ).tax.dates
  // Quarters: farming is less than two thirds. 26 USC 6654(c)(2).
  const before = await dates()
  expect(before.map(({ day }) => day)).toContain('2027-01-15')
  for (const { day, stillAhead } of before)
    expect(day >= '2026-11-29' || (stillAhead ?? 0) > 0, day).toBe(true)
  post('household', '2026-04-10', { 'Federal taxes': 40_000, Savings: -40_000 }, '1040-ES')
  expect((await dates()).map(({ day }) => day)).toEqual(['2027-01-15', '2027-04-15'])
})

// By hand: what Ohio was paid is none of Pennsylvania's, whose return asks as much as before.
test('tax paid to another state lowers nothing of the own one, and stands by itself on paper', async () => {
  const place = { state: 'PA' as const }
  app.savePlan(planSchema.parse({ startMonth: '2026-01', household: { ...household, place } }))
  sell(40_000)
  const before = await worksheet()
  const set = async () => /[\d,.]+ still to pay ahead/g.exec(await text('/now'))?.[0]
  const aside = await set()
  expect(aside).toBeDefined()
  post(
    'household',
    '2026-06-15',
    { 'State and local income taxes': 900, Savings: -900 },
    'OHIO DEPT OF TAXATION',
  )
  const { statePayments } = await worksheet()
  expect(statePayments).toEqual(before.statePayments)
  expect(statePayments!.estimates).toBe(0)
  expect(await set()).toBe(aside)
  const print = await text('/year-pack/print?year=2026')
  expect(print).toContain('To Ohio')
  expect(print).toMatch(/Ohio\s+state income tax: estimated payment/)
  expect(await text('/year-pack.csv?year=2026&table=tax-paid')).toContain(
    'state of Ohio,Estimated payments,900.00',
  )
})

/**
 * 50,000 of wages before the books and 3,000 of farm profit since: self-employment tax 423.88, half of it 211.94; income 52,788.06
 * less 16,100 and 557.61 for qualified business income is 36,130.45, taxed 1,240 + 12 % of 23,730.45 = 4,087.65. In all 4,511.53,
 * nine tenths 4,060.38, less 2,000 withheld; a quarter of the rest is 515.09.
 */
test('what came before books that begin within the year counts on Now as on the page of tax, to the state too', async () => {
  app.close()
  app = testApp({ today: '2026-11-29' })
  app.openSides()
  post('household', '2026-06-01', { Savings: 60_000, 'Opening balances': -60_000 })
  sell(3000)
  const soFar = { wages: 50_000, paid: 2000, withheld: 2000 }
  const place = { state: 'OR' as const }
  app.savePlan(
    planSchema.parse({ startMonth: '2026-06', household: { ...household, place }, tax: { soFar } }),
  )
  const { figures } = await worksheet()
  expect(figures.totalTax).toBeCloseTo(4511.53, 0)
  const { tax } = (await (await app.get('/cover.json')).json()) as {
    tax: { dates: { day: string; says: string; stillAhead: number | null }[] }
  }
  const january = tax.dates.filter(({ day }) => day === '2027-01-15')
  expect(january.map(({ says }) => says)).toEqual([
    'Estimated tax for 2026, 4 of 4',
    'Oregon estimated tax for 2026, 4 of 4',
  ])
  expect(january[0]!.stillAhead).toBeCloseTo(515.09, 0)
  const now = (await text('/now')).replace(/<[^>]+>/g, '')
  for (const { says, stillAhead } of january)
    expect(now).toMatch(
      new RegExp(`${says}[^:]*, \\${formatDollars(stillAhead!)} still to pay ahead by the books so far`),
    )
  // Of April, June and September three times 515.09.
  expect(now).toContain(
    '$515 still to pay ahead by the books so far, and $1,545 of days that are over: Jan 15, 2027',
  )
  // The contents of the pack end with what the sheet ends with: 4,511.53 less the 2,000 withheld.
  const sheet = /Balance due[\s\S]*?class="number">\$([\d,.]+)</.exec(
    await text('/year-pack/sheets/tax?year=2026'),
  )![1]!
  expect(Number(sheet.replace(',', ''))).toBeCloseTo(2511.53, 0)
  expect((await text('/year-pack?year=2026')).replace(/<[^>]+>/g, ' ')).toMatch(
    new RegExp(`Tax worksheet\\s+federal, balance due\\s+${sheet}\\s`),
  )
})
