// Form 1095-A by month: entered once, it stands for a year whatever the plan says of premiums later.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { listAccounts } from '#db/ledger/account-store.ts'
import { planSchema } from '#plan/plan.ts'
import { filledForm } from './browser-form.ts'
import { postByName } from './post-by-name.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp

const planWith = (benchmark: number) =>
  planSchema.parse({
    startMonth: '2025-01',
    household: {
      people: [{ id: 'ann', name: 'Ann', born: '1982-04-01' }],
      living: [{ id: 'living', name: 'Living', perMonth: 1500 }],
    },
    health: {
      marketplace: {
        members: [{ person: 'ann' }],
        benchmarkAt21: benchmark,
        planAt21: benchmark,
      },
    },
  })

const post = (side: string, on: string, amounts: Record<string, number>) =>
  postByName(app.books, side, on, amounts)

beforeEach(() => {
  app = testApp({ today: '2026-02-10' })
  app.openSides()
  post('household', '2024-12-31', { Savings: 60_000, 'Opening balances': -60_000 })
  post('farm', '2025-06-10', { 'Farm checking': 30_000, 'Vegetables and fruit sold': -30_000 })
  const premiums = listAccounts(app.books).find(({ purpose }) => purpose === 'premium')!.name
  for (let month = 1; month <= 12; month += 1)
    post('household', `2025-${String(month).padStart(2, '0')}-03`, { [premiums]: 150, Savings: -150 })
})

afterEach(() => app.close())

interface Pack {
  tax: { worksheet: { figures: Record<string, number>; assumed: string[] } }
  gaps: { says: string }[]
}
const pack = async () => (await (await app.get('/year-pack.json?year=2025')).json()) as Pack

const path = '/year-pack/cover-papers?year=2025'
const paper = Object.fromEntries(
  Array.from({ length: 12 }, (_, i) => [
    [`papers.0.premium.m${i + 1}`, '500'],
    [`papers.0.benchmark.m${i + 1}`, '520'],
    [`papers.0.advance.m${i + 1}`, '350'],
  ]).flat(),
)

test('asked on the pack; entered, a plan changed later changes nothing of the year, and the sheet says whose figures they are', async () => {
  app.savePlan(planWith(300))
  const before = await pack()
  expect(before.gaps.map(({ says }) => says).join(' ')).toContain('Form 1095-A of 2025 is not entered')
  expect(before.tax.worksheet.assumed.join(' ')).toContain('are the plan’s')
  const form = await filledForm(app, path, { ...paper, 'papers.0.who': 'Ann' })
  expect([(await app.post(path, form)).status, (await app.post(path, form)).status]).toEqual([303, 303])
  const entered = await pack()
  expect(entered.gaps.map(({ says }) => says).join(' ')).not.toContain('1095-A of 2025 is not entered')
  expect(entered.tax.worksheet.assumed.join(' ')).toContain('those of Form 1095-A, as entered for 12 months.')
  expect(entered.tax.worksheet.figures.premiumTaxCredit).toBeGreaterThan(0)
  app.savePlan(planWith(900), { basedOn: 1 })
  expect((await pack()).tax.worksheet.figures).toEqual(entered.tax.worksheet.figures)
  expect(await (await app.get(path)).text()).toContain('value="520.00"')
})

test('amounts that change within the year are worked month by month on Form 8962; a mistake is told at its field, and what was typed stays', async () => {
  app.savePlan(planWith(300))
  const wrong = await app.post(path, await filledForm(app, path, { ...paper, 'papers.0.premium.m3': 'x' }))
  expect(wrong.status).toBe(422)
  expect(await wrong.text()).toContain('value="x"')
  const form = await filledForm(app, path, {
    ...paper,
    'papers.0.premium.m12': '',
    'papers.0.advance.m12': '',
  })
  expect((await app.post(path, form)).status).toBe(303)
  expect((await pack()).tax.worksheet.assumed.join(' ')).toContain('as entered for 11 months.')
  const before = (await pack()).tax.worksheet.figures.premiumTaxCredit!
  // A benchmark below the premium of its month counts in that month alone (Form 8962, line 22): more than the premium brings nothing.
  const higher = await filledForm(app, path, { 'papers.0.benchmark.m11': '6000' })
  expect((await app.post(path, higher)).status).toBe(303)
  const { worksheet } = (await pack()).tax
  expect(worksheet.assumed.join(' ')).toContain('each month counts by itself')
  expect(worksheet.figures.premiumTaxCredit! - before).toBeLessThanOrEqual(520)
  const changed = await filledForm(app, path, { 'papers.0.benchmark.m11': '600' })
  expect((await app.post(path, changed)).status).toBe(303)
  const { figures } = (await pack()).tax.worksheet
  const csv = await (await app.get('/year-pack.csv?year=2025&table=form-8962')).text()
  const rows = csv.split('\r\n').map((row) => row.split(','))
  const at = (line: string) => rows.find(([first]) => first === line)!
  const amount = (line: string) => Number(at(line).findLast((cell) => /^\d+(\.\d+)?$/.test(cell)))
  // Line 8a is line 3 by the figure of line 7, 8b a twelfth (26 CFR 1.36B-3(g)); one person, 15,060 (HHS guidelines of 2024).
  expect([amount('1'), amount('4')]).toEqual([1, 15_060])
  expect(amount('8a')).toBeCloseTo(amount('3') * amount('7'), 2)
  const own = Math.round((amount('8a') * 100) / 12) / 100
  // Line 12: the least of 500 and 520 less 8b. Line 22: of 500 and 600 less 8b. December has no cover, and no line.
  const credit = (benchmark: number) => Math.min(500, benchmark - own)
  const columns = (line: string) => at(line).slice(-6).map(Number)
  expect(columns('12')).toEqual([500, 520, own, 520 - own, credit(520), 350].map((n) => expect.closeTo(n, 2)))
  expect(columns('22')).toEqual([500, 600, own, 600 - own, credit(600), 350].map((n) => expect.closeTo(n, 2)))
  expect(rows.some(([line]) => line === '23' || line === '11')).toBe(false)
  // Line 24: ten such months and one; line 25: eleven of 350; the rest is line 26, or 27.
  expect(amount('24')).toBeCloseTo(10 * credit(520) + credit(600), 2)
  expect(amount('24')).toBeCloseTo(figures.premiumTaxCredit!, 2)
  expect(amount('25')).toBe(3850)
  expect(amount('26') - amount('27')).toBeCloseTo(amount('24') - 3850, 2)
  expect(await (await app.get('/year-pack/sheets/form-8962?year=2025')).text()).toContain('Form 8962 2025')
})

// Form 1095-A of one that grows mushrooms: A 412, B 430, and C typed 5,000 in June. A credit is no more than the premium of its month
// (26 USC 36B(b)(2)(A), from memory).
test('more credit in advance than premium is asked about at its field, and taken when the form says so', async () => {
  app.savePlan(planWith(300))
  const slip = {
    'papers.0.premium.m6': '412',
    'papers.0.benchmark.m6': '430',
    'papers.0.advance.m6': '5,000',
  }
  const form = await filledForm(app, path, { ...paper, ...slip })
  const asked = await app.post(path, form)
  expect(asked.status).toBe(422)
  const page = await asked.text()
  expect(page).toContain('More than the premium of $412.00 in column A')
  expect(page).toContain('value="5,000"')
  expect(page).toContain('name="ahead"')
  const says = async () => (await pack()).gaps.map((gap) => gap.says).join(' ')
  expect(await says()).toContain('Form 1095-A of 2025 is not entered')
  // As much as the premium is the most.
  const equal = { ...form, 'papers.0.advance.m6': '412' }
  expect((await app.post(path, equal)).status).toBe(303)
  expect(await says()).not.toContain('is more than the premium')
  const meant = await filledForm(app, path, { 'papers.0.advance.m6': '412.01', ahead: 'yes' })
  expect((await app.post(path, meant)).status).toBe(303)
  expect(await says()).toContain(
    'Form 1095-A of 2025: in June the credit in advance is more than the premium.',
  )
  expect(await (await app.get(path)).text()).not.toContain('name="ahead"')
})

test('what every month says the same is one row, which a month of its own goes before', async () => {
  app.savePlan(planWith(300))
  const row = {
    'papers.0.premium.all': '500',
    'papers.0.benchmark.all': '520',
    'papers.0.advance.all': '350',
  }
  const months = async () => (await pack()).tax.worksheet.assumed.join(' ')
  expect((await app.post(path, await filledForm(app, path, row))).status).toBe(303)
  expect(await months()).toContain('those of Form 1095-A, as entered for 12 months.')
  const page = await (await app.get(path)).text()
  expect(page).toMatch(/name="papers\.0\.premium\.all"[^>]*value="500\.00"/)
  expect(page).not.toMatch(/name="papers\.0\.premium\.m1"[^>]*value="500\.00"/)
  // December without cover: its own zeros go before the row.
  const gone = { 'papers.0.premium.m12': '0', 'papers.0.benchmark.m12': '0', 'papers.0.advance.m12': '0' }
  expect((await app.post(path, await filledForm(app, path, gone))).status).toBe(303)
  expect(await months()).toContain('as entered for 11 months.')
  // Kept so it opens by the month, as nothing is the same for all of them any more.
  expect(await (await app.get(path)).text()).toMatch(/name="papers\.0\.premium\.m1"[^>]*value="500\.00"/)
  const slip = await app.post(
    path,
    await filledForm(app, path, { ...row, 'papers.1.premium.all': '100', 'papers.1.advance.all': '160' }),
  )
  expect(slip.status).toBe(422)
  expect(await slip.text()).toMatch(/papers\.1\.advance\.all[\s\S]*More than the premium of \$100\.00/)
})
