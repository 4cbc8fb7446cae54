// Books with many payments of tax: each page that reads them works so much more as there are more of them, and no more than that.
import { afterAll, beforeAll, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { planSchema } from '#plan/plan.ts'
import { taxSoFarFigures } from '#today/tax/tax-so-far.ts'
import { callsOf } from '../calls-of.ts'
import { postByName } from './post-by-name.ts'
import { type TestApp, testApp } from './test-app.ts'

const plan = planSchema.parse({
  startMonth: '2025-01',
  household: {
    people: [{ id: 'ann', name: 'Ann', born: '1982-04-01' }],
    living: [{ id: 'living', name: 'Living', perMonth: 1500 }],
  },
})

let app: TestApp

const post = (side: string, on: string, amounts: Record<string, number>) =>
  postByName(app.books, side, on, amounts, { payee: 'Treasury' })

/** Each fits two years. */
const payUpTo = (count: number) => {
  for (; paid < count; paid += 1) post('household', '2026-04-15', { 'Federal taxes': 3, Savings: -3 })
}
let paid = 0
const aFew = 20

beforeAll(() => {
  app = testApp({ today: '2026-06-10' })
  app.openSides()
  post('household', '2024-12-31', { Savings: 60_000, 'Opening balances': -60_000 })
  for (const on of ['2025-06-10', '2026-05-10'])
    post('farm', on, { 'Farm checking': 26_000, 'Vegetables and fruit sold': -26_000 })
  app.savePlan(plan)
})
afterAll(() => app.close())

test('of six times the payments each costs no more than before, on every page that reads them', async () => {
  const works = [
    ...['/year-pack.json?year=2025', '/year-pack/payments?year=2025', '/runway/actual.json'].map(
      (page) => async () => expect((await app.get(page)).status).toBe(200),
    ),
    // What Now asks of them; the page runs whole courses beside it.
    () => expect(taxSoFarFigures(app.books, plan, day('2026-04-20'))).not.toBeNull(),
  ]
  const callsOfEach = async (count: number) => {
    payUpTo(count)
    const calls: number[] = []
    for (const work of works) calls.push(await callsOf(work))
    return calls
  }
  // What is made once for all books is made by then.
  await callsOfEach(20)
  const few = await callsOfEach(40)
  const twice = await callsOfEach(80)
  const many = await callsOfEach(240)
  for (const at of works.keys()) {
    const [each, eachOfMany] = [(twice[at]! - few[at]!) / 40, (many[at]! - twice[at]!) / 160]
    expect(many[at]).toBeGreaterThan(few[at]!)
    // Of a page that takes a few calls for each, what it does besides is more than the difference of forty.
    expect(eachOfMany).toBeLessThan(1.2 * Math.max(each, aFew))
  }
})
