// A flock of our own invention entered beside the line of the first run for the whole farm: the answer that it is a part of it, as a browser
// sends it.
import { afterEach, expect, test } from 'vitest'
import { latestRevision } from '#db/plan-store.ts'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import { browserForms, fieldsOf, filledForm } from './browser-form.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
afterEach(() => app.close())

const plan = planSchema.parse({
  startMonth: '2026-01',
  household: { people: [{ id: 'una', name: 'Una', born: '1980-02-02' }] },
  farm: {
    enterprises: [
      { id: 'whole-farm', name: 'The farm as it is', salesPerUnit: 24_000, costsPerUnit: 13_500 },
    ],
  },
} as PlanInput)

const farmNow = () => planSchema.parse(latestRevision(app.books, 'ours')!.document).farm
const wholeNow = () => farmNow().enterprises.find((one) => one.id === 'whole-farm')!

test('hens entered beside the whole farm: as a part of it they count once, sent twice are booked once, and undo brings the whole back', async () => {
  app = testApp({ today: '2026-01-20' })
  app.savePlan(plan)
  const form = await filledForm(app, '/farm/herds/new', {
    kind: 'layers',
    name: 'Hens',
    start: '2026-01',
    breedingFemales: '100',
    carryingLimit: '100',
    ownedAlready: 'yes',
    buysReplacements: 'yes',
    'rates.cullPerYear': '100',
    'rates.adultLossPerYear': '0',
    'prices.breedingFemale': '15',
    'productPerFemale.one': '90',
    'costPerFemale.one': '4',
  })
  const asked = await app.post('/farm/herds/new', form)
  expect(asked.status).toBe(409)
  const page = await asked.text()
  // 100 × 90 of eggs; 100 × 4 × 12 of feed and 100 × 15 of pullets. Nothing is saved yet.
  expect(page).toContain('$9,000 of sales, $6,300 of costs')
  expect(page).toContain('$15,000 of sales, $7,200 of costs')
  expect(farmNow().herds).toHaveLength(0)
  const part = fieldsOf(browserForms(page, '/farm/herds/new')[0]!)
  const first = await app.post('/runway/revisions/mine', part)
  expect(first.status).toBe(303)
  const no = latestRevision(app.books, 'ours')!.revisionNo
  expect((await app.post('/runway/revisions/mine', part)).status).toBe(303)
  expect(latestRevision(app.books, 'ours')!.revisionNo).toBe(no)
  expect(wholeNow()).toMatchObject({ salesPerUnit: 15_000, costsPerUnit: 7200 })
  expect(farmNow().herds.map(({ name }) => name)).toEqual(['Hens'])
  const undo = { formId: '00000000-0000-4000-8000-000000000077' }
  expect((await app.post(`/runway/revisions/undo?from=${no}&plan=ours&next=/farm`, undo)).status).toBe(303)
  expect(wholeNow()).toMatchObject({ salesPerUnit: 24_000, costsPerUnit: 13_500 })
  expect(farmNow().herds).toHaveLength(0)
})
