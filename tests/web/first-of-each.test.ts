// The first thing of each list of a plan that has none yet: a bad year, an enterprise, a market, a herd, a purchase, a loan.
import { afterEach, expect, test } from 'vitest'
import { planSchema } from '#plan/plan.ts'
import { currentPlan } from '#today/current-plan.ts'
import { browserForms, fieldsOf } from './browser-form.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
afterEach(() => app.close())

const bare = planSchema.parse({
  startMonth: '2026-11',
  household: { living: [{ id: 'living', name: 'Living', perMonth: 2000 }] },
})

test.for([
  '/runway/storms/new',
  '/farm/enterprises/new',
  '/farm/markets/new',
  '/farm/herds/new',
  '/farm/purchases/new',
  '/farm/overheads/new',
  '/farm/loans/new',
])('%s is saved under a short name made from its name', async (address) => {
  app = testApp({ today: '2026-11-20' })
  app.openSides()
  app.savePlan(bare)
  const page = await (await app.get(address)).text()
  const form = browserForms(page, address).find(({ action }) => action.startsWith(address))!
  const reply = await app.post(form.action, {
    ...fieldsOf(form),
    name: 'Hail Field',
    ...(address.includes('storms') ? { from: '2027-06' } : {}),
    ...(address.includes('purchases') ? { cost: '1500' } : {}),
    ...(address.includes('herds')
      ? {
          kind: 'goats',
          breedingFemales: '2',
          carryingLimit: '5',
          'prices.breedingFemale': '300',
          'prices.youngSold': '150',
        }
      : {}),
    ...(address.includes('loans') ? { principal: '9000', paymentPerMonth: '200' } : {}),
  })
  expect(await reply.text()).not.toContain('short name')
  expect(reply.status).toBe(303)
  const current = currentPlan(app.books)
  expect(JSON.stringify(current.status === 'read' ? current.plan : {})).toContain('"id":"hail-field"')
})
