import { readFileSync } from 'node:fs'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { latestRevision } from '#db/plan-store.ts'
import { planSchema } from '#plan/plan.ts'
import type { FarmFigures } from '#today/farm/figures.ts'
import type { SlowerAnswers, SlowerFigures } from '#today/slower-years/figures.ts'
import { filledForm } from './browser-form.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
const sample = planSchema.parse(
  JSON.parse(readFileSync(new URL('../../sample/plan.json', import.meta.url), 'utf8')),
)
let forms = 0
const newForm = () => {
  forms += 1
  return `00000000-0000-4000-8000-${String(forms).padStart(12, '0')}`
}
const planNow = () => {
  const revision = latestRevision(app.books, 'ours')!
  return { revisionNo: revision.revisionNo, plan: planSchema.parse(revision.document) }
}

beforeAll(() => {
  app = testApp({ today: '2026-11-20' })
  app.savePlan(sample)
})
afterAll(() => {
  app.close()
})

test('the farm’s pages show its lines, markets, flock and purchases, and the same as JSON and CSV', async () => {
  const holds: Readonly<Record<string, readonly string[]>> = {
    '/farm': ['What an hour brings', 'What it can buy next', 'What does not fit in'],
    '/farm/enterprises': ['Budgets of', 'Meat sheep'],
    '/farm/markets': ['Saturday market'],
    '/farm/herds': ['Meat sheep', 'Paid back'],
    '/farm/buying': ['Used van', 'Add a purchase'],
    '/farm/fit': ['Season by season', 'Facilities', 'Overheads a year'],
  }
  for (const [path, words] of Object.entries(holds)) {
    const page = await (await app.get(path)).text()
    for (const word of words) expect(page, path).toContain(word)
  }
  const figures = (await (await app.get('/farm.json?year=2030')).json()) as FarmFigures
  expect(figures.year).toBe(2030)
  expect(figures.lines.map((line) => line.id)).toContain('sheep')
  const csv = await (await app.get('/farm.csv?table=purchases')).text()
  expect(csv.split('\r\n')[0]).toContain('waiting costs')
})

test('an enterprise changed by form is a new revision of the plan', async () => {
  const { revisionNo } = planNow()
  const form = await filledForm(app, '/farm/enterprises/honey', { scale: '16' })
  expect([form['salesPerUnit.m1'], form['salesPerUnit.m8'], form['salesPerUnit.one']]).toEqual(['', '70', ''])
  expect((await app.post('/farm/enterprises/honey', form)).status).toBe(303)
  const { plan, revisionNo: after } = planNow()
  expect(after).toBe(revisionNo + 1)
  expect(plan.farm.enterprises.find((one) => one.id === 'honey')).toEqual({
    ...sample.farm.enterprises.find((one) => one.id === 'honey'),
    scale: 16,
  })
})

test('who does the work, the first years’ sales and the lines of costs are on the form', async () => {
  const page = '/farm/enterprises/honey'
  const form = await filledForm(app, page, {
    buildUp: '40, 75',
    'hoursBy.0.value': '2',
    'scheduleFCostLines.0.value': '3',
  })
  expect((await app.post(page, form)).status).toBe(303)
  const honey = planNow().plan.farm.enterprises.find((one) => one.id === 'honey')!
  expect(honey).toMatchObject({ buildUp: [0.4, 0.75], hoursBy: { mara: 2 } })
  expect(honey.scheduleFCostLines).toEqual({ '28': 3, '31': 2 })
})

test('a facility is added, and a purchase adds to what it holds until the facility is taken out', async () => {
  const bench = { name: 'Germination bench', unit: 'trays', 'capacity.m3': '40', 'capacity.m4': '60' }
  expect(
    (await app.post('/farm/facilities/new', await filledForm(app, '/farm/facilities/new', bench))).status,
  ).toBe(303)
  const { facilities } = planNow().plan.farm
  expect(facilities.at(-1)).toMatchObject({
    id: 'germination-bench',
    capacity: [0, 0, 40, 60, 0, 0, 0, 0, 0, 0, 0, 0],
    uses: [],
  })
  const van = await filledForm(app, '/farm/purchases/van', {
    'addsCapacity.facility': 'germination-bench',
    'addsCapacity.amount': '12',
  })
  expect((await app.post('/farm/purchases/van', van)).status).toBe(303)
  const capacity = () => planNow().plan.farm.purchases.find((one) => one.id === 'van')!.addsCapacity
  expect(capacity()).toEqual({ facility: 'germination-bench', amount: 12 })
  const { revisionNo } = planNow()
  const gone = { formId: newForm(), basedOn: String(revisionNo) }
  expect((await app.post('/farm/facilities/germination-bench/remove', gone)).status).toBe(303)
  expect(capacity()).toBeUndefined()
})

test('mistakes come back at their fields with what was typed', async () => {
  const { revisionNo } = planNow()
  const form = await filledForm(app, '/farm/enterprises/honey', {
    'salesPerUnit.m3': 'lots',
    start: 'soon',
    'scaleSteps.0.value': 'many',
  })
  const reply = await app.post('/farm/enterprises/honey', form)
  expect(reply.status).toBe(422)
  const page = await reply.text()
  expect(page).toContain('href="#f-salesPerUnit.m3"')
  expect(page).toContain('href="#f-scaleSteps.0.value"')
  expect(page).toContain('Enter a month, like 2027-03')
  expect(page).toContain('value="lots"')
  expect(planNow().revisionNo).toBe(revisionNo)
})

test('saving over a newer revision is refused with both versions shown', async () => {
  const form = await filledForm(app, '/farm/enterprises/honey', { basedOn: '1', scale: '99' })
  const reply = await app.post('/farm/enterprises/honey', form)
  expect(reply.status).toBe(409)
  const page = await reply.text()
  expect(page).toContain('Two versions of the plan')
  expect(page).toContain('Farm, Enterprises, honey, Units today')
  expect(page).toContain('99')
})

test('a thing is added and taken out again, and what named it forgets it', async () => {
  const market = { name: 'Harbour fair', 'trips.m3': '2', 'salesPerTrip.one': '400', followShare: '40' }
  expect(
    (await app.post('/farm/markets/new', await filledForm(app, '/farm/markets/new', market))).status,
  ).toBe(303)
  expect(planNow().plan.farm.markets.at(-1)).toMatchObject({
    id: 'harbour-fair',
    trips: [0, 0, 2, 0, 0, 0, 0, 0, 0, 0, 0, 0],
    salesPerTrip: 400,
    followShare: 0.4,
  })
  const honey = await filledForm(app, '/farm/enterprises/honey', { 'markets[]': ['harbour-fair', 'stand'] })
  await app.post('/farm/enterprises/honey', honey)
  expect(planNow().plan.farm.enterprises.find((one) => one.id === 'honey')!.markets).toEqual([
    'stand',
    'harbour-fair',
  ])
  const { revisionNo } = planNow()
  const gone = await app.post('/farm/markets/harbour-fair/remove', {
    formId: newForm(),
    basedOn: String(revisionNo),
  })
  expect(gone.status).toBe(303)
  const { farm } = planNow().plan
  expect(farm.markets.map((one) => one.id)).not.toContain('harbour-fair')
  expect(farm.enterprises.find((one) => one.id === 'honey')!.markets).toEqual(['stand'])
})

test('a barn is not written off at once: the form says so at its field, and a fence is', async () => {
  const { revisionNo } = planNow()
  const shed = (assetClass: string) => ({
    formId: newForm(),
    basedOn: String(revisionNo),
    name: 'Wash shed',
    cost: '9,000',
    timing: 'dated',
    month: '2028-03',
    usefulYears: '20',
    assetClass,
    section179Share: '50',
  })
  const refused = await app.post('/farm/purchases/new', shed('farm-building'))
  expect(refused.status).toBe(422)
  const page = await refused.text()
  expect(page).toContain('href="#f-section179Share"')
  expect(page).toContain('not written off under section 179')
  expect(planNow().revisionNo).toBe(revisionNo)
  expect((await app.post('/farm/purchases/new', shed('fence-or-grain-bin'))).status).toBe(303)
  expect((await app.get('/farm/buying')).status).toBe(200)
})

test('a market that is all a line sells at, or that a storm takes away, stays until that is changed', async () => {
  const remove = (path: string) =>
    app.post(`${path}/remove`, { formId: newForm(), basedOn: String(planNow().revisionNo) })
  const { farm } = planNow().plan
  const only = farm.enterprises.find((one) => one.markets.length === 1)!
  const { revisionNo } = planNow()
  const stranded = await remove(`/farm/markets/${only.markets[0]}`)
  expect(stranded.status).toBe(422)
  expect(await stranded.text()).toContain(`${only.name}`)
  expect(planNow().revisionNo).toBe(revisionNo)

  await app.post('/farm/markets/new', await filledForm(app, '/farm/markets/new', { name: 'Barn sale' }))
  const { plan } = planNow()
  const storm = { ...plan.storms[0]!, id: 'no-barn', name: 'No barn sale', lostMarket: 'barn-sale' }
  app.savePlan({ ...plan, storms: [...plan.storms, storm] }, { basedOn: revisionNo + 1 })
  const named = await remove('/farm/markets/barn-sale')
  expect(named.status).toBe(422)
  expect(await named.text()).toContain('the bad year “No barn sale” takes away')
  app.savePlan(plan, { basedOn: revisionNo + 2 })
  expect((await remove('/farm/markets/barn-sale')).status).toBe(303)
})

test('purchases move by button and by a dragged order, and one not listed stays in its place', async () => {
  const ids = () => planNow().plan.farm.purchases.map((one) => one.id)
  const send = (order: string) =>
    app.post('/farm/purchases/order', {
      formId: newForm(),
      basedOn: String(planNow().revisionNo),
      order,
    })
  const page = await (await app.get('/farm/buying')).text()
  const orders = [...page.matchAll(/name="order" value="([^"]*)"/g)].map((match) => match[1]!)
  const listed = orders.at(-1)!.split(' ')
  // The first item's only button moves it behind the second.
  expect(orders[0]!.split(' ')).toEqual([listed[1], listed[0], ...listed.slice(2)])
  const before = ids()
  await send(orders[0]!)
  expect(ids().filter((id) => listed.includes(id))).toEqual(orders[0]!.split(' '))
  await send('van tractor')
  expect(ids().indexOf('van')).toBeLessThan(ids().indexOf('tractor'))
  expect([...ids()].sort()).toEqual([...before].sort())
  const unlisted = before.filter((id) => !listed.includes(id))
  for (const id of unlisted) expect(ids().indexOf(id)).toBe(before.indexOf(id))
  const { revisionNo } = planNow()
  await send('van van tractor')
  expect(planNow().revisionNo).toBe(revisionNo)
})

test('what waited for cash and was bought is bought this month, once, and the months ahead buy it no more', async () => {
  const purchases = () => planNow().plan.farm.purchases
  const seen = async () =>
    (
      (await (await app.get('/farm/buying.json')).json()) as {
        purchases: { queue: { id: string; bought: string }[] }
      }
    ).purchases.queue
  const waiting = purchases().find(({ timing }) => timing === 'when cash allows')!
  const form = { formId: newForm(), basedOn: String(planNow().revisionNo), purchase: waiting.id }
  for (const _ of [1, 2]) expect((await app.post('/farm/purchases/bought', form)).status).toBe(303)
  const { timing, month } = purchases().find(({ id }) => id === waiting.id)!
  expect([timing, month]).toEqual(['dated', '2026-11'])
  expect((await seen()).filter(({ id }) => id === waiting.id)).toMatchObject([{ bought: '2026-11' }])
  const { revisionNo } = planNow()
  await app.post('/farm/purchases/bought', {
    ...form,
    formId: newForm(),
    basedOn: String(revisionNo),
    purchase: 'gone',
  })
  expect(planNow().revisionNo).toBe(revisionNo)
})

test('cash, land and hands are kept, and a phase takes hours, trips and what is sold', async () => {
  const basics = await filledForm(app, '/farm/basics', {
    cash: '8,000',
    reserve: '5000',
    'crew.0.weeklyHours.one': '40',
    ...Object.fromEntries(Array.from({ length: 12 }, (_, k) => [`crew.0.weeklyHours.m${k + 1}`, ''])),
  })
  expect((await app.post('/farm/basics', basics)).status).toBe(303)
  expect(planNow().plan.farm).toEqual({
    ...planNow().plan.farm,
    cash: 8000,
    reserve: 5000,
    crew: sample.farm.crew.map((one) => (one.who === 'mara' ? { who: 'mara', weeklyHours: 40 } : one)),
  })
  const { farm } = planNow().plan
  const market = farm.markets.findIndex((one) => one.id === 'saturday')
  const phase = {
    from: '2055-01',
    name: 'Garden only',
    'weeklyHours.0.hours': '6',
    [`trips.${market}.value.one`]: '0',
    landLeasedOut: '10',
    leasePerAcreAndYear: '90',
    'sales.0.name': 'Bee yard',
    'sales.0.price': '1200',
    'sales.0.basis': '100',
  }
  const opened = await filledForm(app, '/slower-years/phases/new', phase)
  expect((await app.post('/slower-years/phases/new', opened)).status).toBe(303)
  expect(planNow().plan.farm.phases.at(-1)).toMatchObject({
    from: '2055-01',
    weeklyHours: [{ who: 'mara', hours: 6 }],
    trips: [{ market: 'saturday', value: 0 }],
    sales: [{ name: 'Bee yard', price: 1200, basis: 100 }],
  })
  const wrong = await app.post('/slower-years/phases/new', {
    ...(await filledForm(app, '/slower-years/phases/new', phase)),
    'sales.0.price': 'much',
  })
  expect(wrong.status).toBe(422)
})

test('a form sent twice is saved once and answered as the same success', async () => {
  const sent = (form: Record<string, string>) => ({
    formId: newForm(),
    basedOn: String(planNow().revisionNo),
    ...form,
  })
  const { farm } = planNow().plan
  const order = farm.purchases.map((one) => one.id)
  const phase = { from: '2056-01', name: 'Bees only' }
  const fair = { name: 'Lantern fair' }
  const steps: [string, () => Record<string, string>][] = [
    ['/farm/purchases/order', () => ({ order: [...order].reverse().join(' ') })],
    ['/farm/markets/new', () => fair],
    ['/farm/markets/lantern-fair/remove', () => ({})],
    ['/slower-years/split', () => ({ 'share.0': '35', reserveMonths: '7' })],
    ['/slower-years/phases/new', () => phase],
    [`/slower-years/phases/${farm.phases.length}/remove`, () => ({})],
  ]
  for (const [path, form] of steps) {
    const { revisionNo } = planNow()
    const body = sent(form())
    const [first, second] = [await app.post(path, body), await app.post(path, body)]
    expect([path, first.status, second.status]).toEqual([path, 303, 303])
    expect([path, planNow().revisionNo]).toEqual([path, revisionNo + 1])
    const page = await (await app.get(second.headers.get('location')!)).text()
    expect(page).toContain(`This form was saved already, as revision ${revisionNo + 1}.`)
  }
})

test('a form sent again is the same success when the plan has moved on since', async () => {
  const { revisionNo, plan } = planNow()
  const order = plan.farm.purchases.map((one) => one.id)
  const first = { formId: newForm(), basedOn: String(revisionNo), order: `${order[1]} ${order[0]}` }
  await app.post('/farm/purchases/order', first)
  const next = { formId: newForm(), basedOn: String(revisionNo + 1), order: `${order[3]} ${order[2]}` }
  await app.post('/farm/purchases/order', next)
  expect((await app.post('/farm/purchases/order', first)).status).toBe(303)
  expect(planNow().revisionNo).toBe(revisionNo + 2)
})

test('every form of farm and slower years shows both versions when the plan was saved meanwhile', async () => {
  const { revisionNo, plan } = planNow()
  const order = plan.farm.purchases.map((one) => one.id)
  const stale = () => ({ formId: newForm(), basedOn: String(revisionNo - 1) })
  const phase = { from: '2057-01', name: 'Orchard' }
  const cases: [string, Record<string, string>, string][] = [
    ['/farm/purchases/order', { order: `${order[2]} ${order[1]}` }, 'Farm, Purchases, order'],
    ['/farm/purchases/bought', { purchase: order[2]! }, 'Farm, Purchases'],
    ['/slower-years/phases/new', phase, 'Orchard'],
    ['/slower-years/phases/0/remove', {}, 'Farm, Phases of the slower years'],
    ['/slower-years/split', { 'share.0': '11', reserveMonths: '3' }, 'Emergency fund'],
  ]
  for (const [path, form, shown] of cases) {
    const reply = await app.post(path, { ...stale(), ...form })
    expect([path, reply.status]).toEqual([path, 409])
    const page = await reply.text()
    expect(page).toContain('Two versions of the plan')
    expect(page).toContain(shown)
    expect(page).toContain('Save yours after theirs')
  }
  expect(planNow().revisionNo).toBe(revisionNo)
})

test('one’s own version saved after theirs leads back to the page of the form', async () => {
  const { revisionNo } = planNow()
  const asked = {
    formId: newForm(),
    basedOn: String(revisionNo - 1),
    'share.0': '12',
    reserveMonths: '4',
  }
  const page = await (await app.post('/slower-years/split', asked)).text()
  const field = (name: string) => unescaped(new RegExp(`name="${name}" value="([^"]*)"`).exec(page)![1]!)
  const mine = Object.fromEntries(
    ['formId', 'planId', 'basedOn', 'document', 'next'].map((name) => [name, field(name)]),
  )
  const saved = await app.post('/runway/revisions/mine', mine)
  expect(saved.status).toBe(303)
  expect(saved.headers.get('location')).toMatch(/^\/slower-years\?notice=.*#split$/)
  expect(planNow().plan.savings.reserveMonths).toBe(4)
})

test('a split that is no share comes back at its field with what was typed', async () => {
  const form = { formId: newForm(), basedOn: String(planNow().revisionNo), reserveMonths: '5' }
  const reply = await app.post('/slower-years/split', { ...form, 'share.0': 'half' })
  expect(reply.status).toBe(422)
  const page = await reply.text()
  expect(page).toContain('href="#f-share.0"')
  expect(page).toContain('value="half"')
})

test('a form of a plan that is not here changes nothing', async () => {
  const { revisionNo } = planNow()
  const form = { formId: newForm(), planId: 'other', basedOn: String(revisionNo), order: 'van tractor' }
  const reply = await app.post('/farm/purchases/order', form)
  expect(reply.status).toBe(404)
  const page = await reply.text()
  expect(page).toContain('There is no such plan as this form was made for')
  // What was typed is given back, to be copied.
  expect(page).toContain('van tractor')
  expect(planNow().revisionNo).toBe(revisionNo)
})

test('the first figures do not write over a plan that has grown beyond them', async () => {
  const { revisionNo } = planNow()
  const first = {
    formId: newForm(),
    living: '2000',
    premium: '',
    floorMonths: '6',
    farmSales: '',
    farmCosts: '',
    farmReserve: '',
    drawNow: '',
    drawLater: '',
    drawLaterFrom: '',
  }
  app.openSides()
  const reply = await app.post('/start/costs', first)
  expect(reply.status).toBe(422)
  expect(await reply.text()).toContain('Change it on Runway and Farm')
  expect(planNow().revisionNo).toBe(revisionNo)
})

test('the slower years page opens at once and says where the answers come from', async () => {
  const page = await (await app.get('/slower-years')).text()
  expect(page).toContain('hx-get="/slower-years/answers"')
  for (const words of [
    'One market day',
    'Wednesday market is dropped',
    'Required distributions from',
    'Limits of 2026',
  ])
    expect(page).toContain(words)
})

test('a plan that ends within the year has no whole year to show, and the page says so', async () => {
  const ending = testApp({ today: '2026-11-20' })
  ending.savePlan({ startMonth: '2025-01', years: 2 })
  const reply = await ending.get('/slower-years')
  expect(reply.status).toBe(200)
  expect(await reply.text()).toContain('there is no year to show')
  ending.close()
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
  const part = await app.get('/slower-years/answers', {
    'HX-Request': 'true',
    'HX-Target': 'div#answers',
  })
  const html = await part.text()
  expect(html.startsWith('<div id="answers">')).toBe(true)
  expect(html).toContain('Against the plan the best mix makes')
  expect(html).toContain('href="/slower-years/answers"')
  const whole = await (await app.get('/slower-years/answers')).text()
  expect(whole).toContain('The mix for each phase')
  // Where they were once asked for leads there, with how the mix is asked; its table says it as asked.
  const once = await app.get('/slower-years?answers=yes&aim=hours&change=20')
  expect(once.headers.get('location')).toBe('/slower-years/answers?aim=hours&change=20')
  const path = await (await app.get('/slower-years/answers?change=20')).text()
  const csv = /href="(\/slower-years\/answers\.csv\?table=path[^"]*)"/
    .exec(path)![1]!
    .replaceAll('&amp;', '&')
  expect((await (await app.get(csv)).text()).split('\n').length).toBeGreaterThan(2)
})

const unescaped = (text: string) =>
  text.replaceAll('&quot;', '"').replaceAll('&#39;', "'").replaceAll('&lt;', '<').replaceAll('&amp;', '&')

test('a flock that was there already and only earns is told that nothing was put in, not that the money is lost', async () => {
  const hens = {
    id: 'hens',
    name: 'Hens',
    kind: 'layers',
    start: '2027-01',
    breedingFemales: 40,
    carryingLimit: 40,
    ownedAlready: true,
    productPerFemale: 60,
  }
  const pageWith = async (costPerFemale: number) => {
    const own = testApp({ today: '2026-11-20' })
    own.savePlan(planSchema.parse({ startMonth: '2027-01', farm: { herds: [{ ...hens, costPerFemale }] } }))
    const page = await (await own.get('/farm/herds')).text()
    own.close()
    return page
  }
  const earning = await pageWith(3)
  expect(earning).toMatch(/Paid back[\s\S]{0,80}Nothing was put in/)
  for (const wrong of ['does not come back', 'Not within 30 years', 'Deepest at', 'not back within'])
    expect(earning).not.toContain(wrong)
  const losing = await pageWith(9)
  expect(losing).toContain('does not come back')
  expect(losing).not.toContain('Nothing was put in')
})
