import { readFileSync } from 'node:fs'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { latestRevision, savePlan } from '#db/plan-store.ts'
import { planSchema, planVersion } from '#plan/plan.ts'
import type { FarmFigures } from '#views/farm/figures.ts'
import type { SlowerAnswers, SlowerFigures } from '#views/slower-years/figures.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
const at = '2026-11-20T12:00:00.000Z'
const sample = planSchema.parse(
  JSON.parse(readFileSync(new URL('../../sample/plan.json', import.meta.url), 'utf8')),
)
const formId = (n: number) => `00000000-0000-4000-8000-${String(n).padStart(12, '0')}`
const planNow = () => {
  const revision = latestRevision(app.books, 'sample')!
  return { revisionNo: revision.revisionNo, plan: planSchema.parse(revision.document) }
}

beforeAll(() => {
  app = testApp({ today: '2026-11-20' })
  const saved = savePlan(
    app.books,
    { at, actor: 'test' },
    { planId: 'sample', basedOn: 0, name: 'Sample', schemaVersion: planVersion, document: sample },
  )
  if (!saved.ok) throw new Error('The plan was not saved')
})
afterAll(() => {
  app.close()
})

test('the farm page shows its lines, markets, flock and purchases, and the same as JSON and CSV', async () => {
  const page = await (await app.get('/farm')).text()
  for (const words of [
    'Lines of work',
    'Saturday market',
    'Meat sheep',
    'Paid back',
    'Used van',
    'Is everything in step?',
  ])
    expect(page).toContain(words)
  const figures = (await (await app.get('/farm.json?year=2030')).json()) as FarmFigures
  expect(figures.year).toBe(2030)
  expect(figures.lines.map((line) => line.id)).toContain('sheep')
  const csv = await (await app.get('/farm.csv?table=purchases')).text()
  expect(csv.split('\r\n')[0]).toContain('waiting costs')
})

test('an enterprise changed by form is a new revision of the plan', async () => {
  const { revisionNo } = planNow()
  const page = await (await app.get('/farm/enterprises/honey')).text()
  expect(page).toContain('value="0 0 0 0 0 0 0 70 95 95 90 94"')
  const reply = await app.post('/farm/enterprises/honey', honey({ basedOn: String(revisionNo), scale: '16' }))
  expect(reply.status).toBe(303)
  const { plan, revisionNo: after } = planNow()
  expect(after).toBe(revisionNo + 1)
  expect(plan.farm.enterprises.find((one) => one.id === 'honey')).toMatchObject({
    scale: 16,
    markets: ['saturday', 'stand'],
  })
  expect(plan.farm.enterprises.find((one) => one.id === 'honey')!.scheduleFCostLines).toEqual({
    '28': 8,
    '31': 2,
  })
})

test('mistakes come back at their fields with what was typed', async () => {
  const { revisionNo } = planNow()
  const form = honey({
    basedOn: String(revisionNo),
    salesPerUnit: '1 2 3',
    start: 'soon',
    scaleSteps: '2028 18',
  })
  const reply = await app.post('/farm/enterprises/honey', form)
  expect(reply.status).toBe(422)
  const page = await reply.text()
  expect(page).toContain('href="#f-salesPerUnit"')
  expect(page).toContain('there are 3')
  expect(page).toContain('Enter a month, like 2027-03')
  expect(page).toContain('value="1 2 3"')
  expect(planNow().revisionNo).toBe(revisionNo)
})

test('saving over a newer revision is refused with both versions shown', async () => {
  const reply = await app.post('/farm/enterprises/honey', honey({ basedOn: '1', scale: '99' }))
  expect(reply.status).toBe(409)
  const page = await reply.text()
  expect(page).toContain('99')
  expect(page).toContain('The plan now')
})

test('a thing is added and taken out again, and what named it forgets it', async () => {
  let { revisionNo } = planNow()
  const market = {
    formId: formId(9),
    basedOn: String(revisionNo),
    name: 'Harbour fair',
    trips: '2',
    salesPerTrip: '400',
    tripsSteps: '',
    followShare: '40',
    feePerTrip: '',
    feePerMonth: '',
    hoursPerTrip: '8',
    milesPerTrip: '',
    costPerMile: '',
    leastShareWhenRun: '',
  }
  expect((await app.post('/farm/markets/new', market)).status).toBe(303)
  expect(planNow().plan.farm.markets.at(-1)).toMatchObject({ id: 'harbour-fair', followShare: 0.4 })
  revisionNo = planNow().revisionNo
  await app.post(
    '/farm/enterprises/honey',
    honey({ basedOn: String(revisionNo), 'markets[]': ['harbour-fair', 'stand'] }),
  )
  revisionNo = planNow().revisionNo
  const gone = await app.post('/farm/markets/harbour-fair/remove', {
    formId: formId(10),
    basedOn: String(revisionNo),
  })
  expect(gone.status).toBe(303)
  const { farm } = planNow().plan
  expect(farm.markets.map((one) => one.id)).not.toContain('harbour-fair')
  expect(farm.enterprises.find((one) => one.id === 'honey')!.markets).toEqual(['stand'])
})

test('purchases move by button and by a dragged order', async () => {
  const ids = () => planNow().plan.farm.purchases.map((one) => one.id)
  const before = ids()
  await app.post('/farm/purchases/order', {
    basedOn: String(planNow().revisionNo),
    id: before[3]!,
    move: 'up',
  })
  expect(ids().indexOf(before[3]!)).toBe(2)
  await app.post('/farm/purchases/order', {
    basedOn: String(planNow().revisionNo),
    order: ['van', 'tractor'].join(' '),
  })
  expect(ids().indexOf('van')).toBeLessThan(ids().indexOf('tractor'))
  expect([...ids()].sort()).toEqual([...before].sort())
})

test('cash, land and hands are kept, and a phase takes hours, trips and what is sold', async () => {
  const basics = {
    formId: formId(20),
    basedOn: String(planNow().revisionNo),
    cash: '8,000',
    reserve: '5000',
    land: '12',
    winterFeed: '',
    'hours.mara': '40',
    'hours.teo': '',
    'hired.hourlyCost': '22',
    'hired.weeklyHours': '0',
  }
  expect((await app.post('/farm/basics', basics)).status).toBe(303)
  expect(planNow().plan.farm).toMatchObject({
    cash: 8000,
    reserve: 5000,
    crew: [{ who: 'mara', weeklyHours: 40 }],
  })
  expect(planNow().plan.farm.winterFeed).toBeUndefined()
  const phase = {
    formId: formId(21),
    basedOn: String(planNow().revisionNo),
    from: '2055-01',
    name: 'Garden only',
    'hours.mara': '6',
    'trips.saturday': '0',
    landLeasedOut: '10',
    leasePerAcreAndYear: '90',
    sold: '1200 100 Bee yard',
  }
  expect((await app.post('/slower-years/phases/new', phase)).status).toBe(303)
  expect(planNow().plan.farm.phases.at(-1)).toMatchObject({
    from: '2055-01',
    weeklyHours: [{ who: 'mara', hours: 6 }],
    trips: [{ market: 'saturday', value: 0 }],
    sales: [{ name: 'Bee yard', price: 1200, basis: 100 }],
  })
  const wrong = await app.post('/slower-years/phases/new', {
    ...phase,
    basedOn: String(planNow().revisionNo),
    sold: 'much',
  })
  expect(wrong.status).toBe(422)
})

test('the slower years page opens at once and says where the answers come from', async () => {
  const page = await (await app.get('/slower-years')).text()
  expect(page).toContain('hx-get="/slower-years?answers=yes"')
  for (const words of [
    'One market day',
    'Wednesday market is dropped',
    'Required distributions from',
    'Limits of 2026',
  ])
    expect(page).toContain(words)
})

test('its answers hold a mix for each phase, the cushion, claim ages and one of us alone', {
  timeout: 180_000,
}, async () => {
  const figures = (await (await app.get('/slower-years.json')).json()) as SlowerFigures & {
    answers: SlowerAnswers
  }
  expect(figures.answers.mixes).toHaveLength(figures.phases.length)
  expect(figures.answers.claims).toHaveLength(2)
  expect(figures.answers.alone).toHaveLength(2)
  const part = await app.get('/slower-years?answers=yes', {
    'HX-Request': 'true',
    'HX-Target': 'div#answers',
  })
  const html = await part.text()
  expect(html.startsWith('<div id="answers">')).toBe(true)
  expect(html).toContain('The mix for each phase')
})

const honey = (over: Record<string, string | string[]> = {}) => ({
  formId: formId(1),
  name: 'Honey',
  unit: 'hive',
  scale: '14',
  scaleSteps: '2028-03 18',
  start: '',
  end: '',
  startUpMonths: '0',
  salesPerUnit: '0 0 0 0 0 0 0 70 95 95 90 94',
  costsPerUnit: '78',
  hoursPerUnit: '9',
  yieldPerUnit: '37',
  yieldMeasure: 'pounds',
  landPerUnit: '',
  'markets[]': ['saturday', 'stand'],
  tag: '',
  scheduleFSalesLine: '2',
  seasonSpread: '15',
  minimumScale: '',
  maximumScale: '24',
  wholeUnits: 'yes',
  ...over,
})
