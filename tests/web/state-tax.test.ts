// The Tax section of the plan: the state's tax as planned, and what is left out of it.
import { afterEach, expect, test } from 'vitest'
import { planSchema } from '#plan/plan.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
afterEach(() => app.close())

const plan = (state?: string) =>
  planSchema.parse({
    startMonth: '2026-01',
    household: {
      people: [{ id: 'ann', name: 'Ann', born: '1981-03-10', planToAge: 50 }],
      pay: [{ id: 'job', name: 'Job', person: 'ann', perMonth: 4000 }],
      ...(state ? { place: { state } } : {}),
    },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 50_000 }] },
  })

const taxPage = async (state?: string): Promise<string> => {
  app = testApp({ today: '2026-02-10' })
  app.savePlan(plan(state))
  return (await app.get('/runway/plan/tax')).text()
}

test('shows the tax by the law of the state, what is unchecked and what is left out', async () => {
  const page = await taxPage('PA')
  // 48,000 dollars at 3.07 percent.
  expect(page).toContain('As planned it is $1,474 for 2026')
  expect(page).toContain('Left out in Pennsylvania: Property tax or rent rebate')
  expect(page).toContain('second hand')
  expect(page).toContain('By the law of the state you live in')
})

test('leads to the state where the plan names none', async () => {
  expect(await taxPage()).toContain('The plan counts none.')
})
