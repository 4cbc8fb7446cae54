// Money that comes in once is entered as that, with a plain amount: an invented couple who expect 18,000 from an aunt in October 2027.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'
import { currentPlan } from '#today/current-plan.ts'
import { filledForm } from './browser-form.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
const page = '/runway/plan/household'
const field = (name: string) => `household.oneOffs.0.${name}`

beforeEach(() => {
  app = testApp({ today: '2026-11-20' })
  app.savePlan(
    planSchema.parse({
      startMonth: '2027-01',
      household: {
        people: [{ id: 'ida', name: 'Ida', born: '1984-05-02' }],
        living: [{ id: 'living', name: 'Living', perMonth: 1700 }],
        oneOffs: [{ id: 'roof', name: 'Roof', month: '2027-10', cost: 9500.25, todaysPrices: false }],
      },
      savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 90_000 }] },
      assumptions: { inflation: 0 },
    }),
  )
})

afterEach(() => app.close())

const planNow = () => {
  const current = currentPlan(app.books)
  if (current.status !== 'read') throw new Error(current.status)
  return current.plan
}
const cashIn = (month: string) => project(planNow()).months.find((one) => one.month === month)!.cash
const costOf = () => planNow().household.oneOffs[0]!.cost

test('a cost stays one; said to be money in it brings as much as it cost, and opens so again', async () => {
  const [roof, before] = [cashIn('2027-10'), cashIn('2027-09')]
  expect(before - roof).toBeCloseTo(1700 + 9500.25, 2)
  const asIs = await filledForm(app, page)
  expect(asIs[field('costWay')]).toBe('above')
  expect((await app.post(page, asIs)).status).toBe(303)
  expect(costOf()).toBe(9500.25)
  const form = await filledForm(app, page, {
    [field('name')]: 'From the aunt',
    [field('costWay')]: 'below',
    [field('cost')]: '$18,000',
  })
  expect([(await app.post(page, form)).status, (await app.post(page, form)).status]).toEqual([303, 303])
  expect(costOf()).toBe(-18_000)
  expect(cashIn('2027-10') - before).toBeCloseTo(18_000 - 1700, 2)
  const again = await filledForm(app, page)
  expect([again[field('costWay')], again[field('cost')]]).toEqual(['below', '18000'])
  expect((await app.post(page, again)).status).toBe(303)
  expect(costOf()).toBe(-18_000)
  expect(await (await app.get(page)).text()).toContain('No income tax is counted on it')
})

test('a minus is understood as before, and what cannot be read comes back with the choice as it was', async () => {
  const minus = await filledForm(app, page, { [field('cost')]: '-700' })
  expect((await app.post(page, minus)).status).toBe(303)
  expect(costOf()).toBe(-700)
  const wrong = await filledForm(app, page, { [field('costWay')]: 'below', [field('cost')]: 'much' })
  const answer = await app.post(page, wrong)
  expect(answer.status).toBe(422)
  const shown = await answer.text()
  expect(shown).toContain('value="much"')
  expect(shown).toMatch(/<option value="below" selected/)
})
