// The Runway page as a browser meets it: levers, years, months, storms, forms, revisions, and two people saving at once.
import { randomUUID } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { latestRevision } from '#db/plan-store.ts'
import { type TestApp, testApp } from './test-app.ts'

const document = JSON.parse(readFileSync(new URL('../../sample/plan.json', import.meta.url), 'utf8'))
const formId = (n: number) => `00000000-0000-4000-8000-00000000000${n}`

let app: TestApp

/** Figures as JSON: only what a test looks at. */
interface Figures {
  asPlanned: boolean
  milestones: { monthsLeft: number }
  why: string[]
  groups: { title: string; total: number; lines: { name: string; dollars: number }[] }[]
  storms: { id: string }[]
  plans: { name: string }[]
}

const figuresOf = async (path: string) => (await (await app.get(path)).json()) as Figures

beforeEach(() => {
  app = testApp({ today: '2026-11-20' })
  app.savePlan(document)
})

afterEach(() => {
  app.close()
})

const pageOf = async (path: string, status = 200, headers = {}) => {
  const response = await app.get(path, headers)
  expect(response.status).toBe(status)
  return response.text()
}

test('without a plan the page says what is missing and leads there', async () => {
  const empty = testApp()
  const html = await (await empty.get('/runway')).text()
  expect(html).toContain('There is no plan yet')
  expect(html).toContain('/start/costs')
  empty.close()
})

test('a plan that cannot be read is told with its fault, and the page still stands', async () => {
  app.savePlan({ ...document, planVersion: 9 }, { basedOn: 1, schemaVersion: 9 })
  expect(await pageOf('/runway')).toContain('newer version (9)')
})

test('the page shows months left, the reasons and the bad years; the years have a room of their own', async () => {
  const html = await pageOf('/runway')
  expect(html).toContain('Months left')
  expect(html).toContain('Savings stay at or above the floor to the end of the plan.')
  expect(html).toContain('Bad season: half the sales of a year')
  const years = await pageOf('/runway/years')
  expect(years).toContain('href="/runway/years/2027"')
  const [columns, ...rows] = (await pageOf('/runway.csv')).trim().split('\r\n')
  expect(columns!.split(',')).toContain('benefits')
  expect(
    rows.flatMap((row) => row.split(',')).filter((cell) => /\.\d{3}/.test(cell) && Number(cell) > 10),
  ).toEqual([])
  expect(await pageOf('/runway/years?living=104')).toMatch(/href="\/runway\/years\/2027\?[^"]*living=104/)
})

test('a lever runs the course again: costs up by a tenth cross the floor, and the page says what would hold it', async () => {
  const figures = await figuresOf('/runway.json?living=110')
  expect(figures.asPlanned).toBe(false)
  expect(figures.milestones.monthsLeft).toBeGreaterThan(0)
  expect(figures.why[0]).toMatch(/^\d+ months left: savings fall below the floor in [^.]*\.$/)
  expect(`${figures.why[0]} ${figures.why[1]}`).toMatch(
    /months left: savings fall below the floor in .*\. \$[\d,]+ more each month from December 2026 would hold the floor (until .*|to the end of the plan)\./,
  )
})

test('htmx gets the course alone, with the storms to come', async () => {
  const html = await pageOf('/runway?living=104', 200, { 'HX-Request': 'true', 'HX-Target': 'div#course' })
  expect(html.startsWith('<div id="course"')).toBe(true)
  expect(html).toMatch(/<section id="storms" hx-swap-oob="true" [^>]*hx-trigger="load"/)
  const htmx = { 'HX-Request': 'true', 'HX-Target': 'section#storms' }
  const brought = await pageOf('/runway/storms?living=104', 200, htmx)
  expect(brought.startsWith('<section id="storms"')).toBe(true)
  expect(brought).not.toContain('hx-swap-oob')
  expect(await pageOf('/runway/storms?living=104')).toContain('Injury')
})

test('a lever that is no number is told at the lever, and the plan’s own course stays', async () => {
  const html = await pageOf('/runway?living=lots', 422)
  expect(html).toContain('Enter a percentage')
  expect(html).toContain('value="lots"')
})

test('keeping the levers saves a revision that can be undone', async () => {
  const kept = await app.post('/runway/keep', {
    formId: formId(1),
    planId: 'ours',
    basedOn: '1',
    living: '90',
  })
  expect(kept.status).toBe(303)
  const saved = latestRevision(app.books, 'ours')!
  expect(saved.revisionNo).toBe(2)
  expect((saved.document as typeof document).household.living[0].perMonth).toBeCloseTo(980 * 0.9)
  const undone = await app.post('/runway/revisions/undo', { formId: formId(2), planId: 'ours', basedOn: '2' })
  expect(undone.status).toBe(303)
  const back = latestRevision(app.books, 'ours')!
  expect(back.revisionNo).toBe(3)
  expect((back.document as typeof document).household.living[0].perMonth).toBe(980)
})

test('each undo goes one save further back, and what was undone can be chosen again', async () => {
  const living = () =>
    (latestRevision(app.books, 'ours')!.document as typeof document).household.living[0].perMonth
  const no = () => latestRevision(app.books, 'ours')!.revisionNo
  const send = (path: string, fields: Record<string, string> = {}) =>
    app.post(path, { formId: randomUUID(), planId: 'ours', basedOn: String(no()), ...fields })
  const first = no()
  const before = living()
  await send('/runway/keep', { living: '90' })
  await send('/runway/keep', { living: '50' })
  const [once, twice] = [before * 0.9, before * 0.9 * 0.5]
  expect(living()).toBeCloseTo(twice)
  await send('/runway/revisions/undo')
  expect(living()).toBeCloseTo(once)
  // From the notice of that undo as from the list.
  await app.post(`/runway/revisions/undo?from=${no()}&plan=ours`, { formId: randomUUID() })
  expect(living()).toBeCloseTo(before)
  expect(latestRevision(app.books, 'ours')!.note).toBe(`Undone: back to revision ${first}`)
  // Chosen again from the list, that is a save like any other, and its undo takes it back.
  await send(`/runway/revisions/${first + 2}/back`)
  expect(living()).toBeCloseTo(twice)
  await send('/runway/revisions/undo')
  expect(living()).toBeCloseTo(before)
  // A save after an undo, undone, leads to what the undo had left, and from there further back.
  await send('/runway/keep', { living: '80' })
  await send('/runway/revisions/undo')
  expect(living()).toBeCloseTo(before)
})

test('a year opens its months, and a month what made it', async () => {
  expect(await pageOf('/runway/years/2028')).toContain('/runway/months/2028-04')
  const trace = await figuresOf('/runway/months/2028-04.json')
  const living = trace.groups.find((group) => group.title === 'Living costs')!
  const property = living.lines.find((line) => line.name === 'Property tax')!
  // 1,450 a half-year, at the prices of the plan's first month, this one.
  expect(property.dollars).toBeCloseTo(1450, 6)
  for (const group of trace.groups) {
    const sum = group.lines.reduce((total, line) => total + line.dollars, 0)
    // Each line is to the cent.
    expect(sum, group.title).toBeCloseTo(group.total, 1)
  }
  await pageOf('/runway/months/1999-01', 404)
})

test('every section of the plan has a form, and saving one makes a revision', async () => {
  for (const section of ['household', 'health', 'savings', 'draw', 'tax', 'assumptions'])
    expect(await pageOf(`/runway/plan/${section}`)).toContain('Save this section')
  const saved = await app.post('/runway/plan/draw', {
    formId: formId(3),
    basedOn: '1',
    'draw.policy': 'ramp',
    'draw.from': '2027-01',
    'draw.fromShare': '20',
    'draw.to': '2030-01',
    'draw.toShare': '100',
  })
  expect(saved.status).toBe(303)
  expect((latestRevision(app.books, 'ours')!.document as typeof document).draw).toEqual({
    policy: 'ramp',
    from: '2027-01',
    fromShare: 0.2,
    to: '2030-01',
    toShare: 1,
  })
})

test('a wrong field keeps what was typed and says what would be right', async () => {
  const response = await app.post('/runway/plan/draw', {
    formId: formId(4),
    basedOn: '1',
    'shown[]': 'draw.steps',
    'draw.policy': 'steps',
    'draw.growth': '3',
    'draw.steps.0.from': '2027-01',
    'draw.steps.0.perMonth': 'two thousand',
  })
  expect(response.status).toBe(422)
  const html = await response.text()
  expect(html).toContain('Enter an amount, like 1200 or 1200.50')
  expect(html).toContain('value="two thousand"')
})

test('a row is added and taken out without saving and without losing what was typed', async () => {
  const typed = {
    formId: formId(5),
    basedOn: '1',
    'shown[]': 'draw.steps',
    'draw.policy': 'steps',
    'draw.steps.0.from': '2027-01',
    'draw.steps.0.perMonth': '777',
  }
  const added = await (await app.post('/runway/plan/draw', { ...typed, add: 'draw.steps' })).text()
  expect(added).toContain('value="777"')
  expect(added).toContain('draw.steps.1.perMonth')
  const taken = await (await app.post('/runway/plan/draw', { ...typed, remove: 'draw.steps.0' })).text()
  expect(taken).not.toContain('value="777"')
  expect(latestRevision(app.books, 'ours')!.revisionNo).toBe(1)
})

test('two people who save at once see both versions, and either can be kept', async () => {
  await app.post('/runway/keep', { formId: formId(1), planId: 'ours', basedOn: '1', living: '90' })
  const second = await app.post('/runway/keep', {
    formId: formId(2),
    planId: 'ours',
    basedOn: '1',
    living: '95',
  })
  expect(second.status).toBe(409)
  const html = await second.text()
  expect(html).toContain('Two versions of the plan')
  expect(html).toContain('Household, Living costs, food, A month')
  const mine = /name="document" value="([^"]*)"/
    .exec(html)![1]!
    .replaceAll('&quot;', '"')
    .replaceAll('&#39;', "'")
    .replaceAll('&amp;', '&')
  const saved = await app.post('/runway/revisions/mine', {
    formId: formId(3),
    planId: 'ours',
    basedOn: '2',
    document: mine,
  })
  expect(saved.status).toBe(303)
  expect(latestRevision(app.books, 'ours')!.revisionNo).toBe(3)
})

test('a storm of one’s own is saved, run, changed and taken out again', async () => {
  const storm = {
    basedOn: '1',
    name: 'Dry well',
    from: '2027-06',
    months: '5',
    salesShare: '40',
    lostMarket: '',
    hoursLostPerWeek: '',
    person: '',
    drawsLateMonths: '0',
    premiumJump: '0',
    livingShare: '100',
    oneOffCost: '9000',
    stockFall: '0',
    bondFall: '0',
  }
  expect((await app.post('/runway/storms/new', { formId: formId(1), ...storm })).status).toBe(303)
  const { storms } = await figuresOf('/runway/storms.json')
  expect(storms.find((one) => one.id === 'dry-well')).toMatchObject({
    name: 'Dry well',
    own: true,
  })
  expect(await pageOf('/runway/storms/dry-well')).toContain('value="40"')
  const wrong = await app.post('/runway/storms/dry-well', {
    formId: formId(2),
    ...storm,
    basedOn: '2',
    from: 'June',
  })
  expect(wrong.status).toBe(422)
  expect((await app.post('/runway/storms/dry-well/remove', { formId: formId(3), basedOn: '2' })).status).toBe(
    303,
  )
  expect((latestRevision(app.books, 'ours')!.document as typeof document).storms).toHaveLength(1)
})

test('plans are copied, compared with what differs, and put into use', async () => {
  const copied = await app.post('/runway/compare/copy', { formId: formId(7), name: 'With a second market' })
  expect(copied.status).toBe(303)
  const planId = `plan-${formId(7)}`
  expect((await app.post('/runway/compare/use', { formId: formId(8), planId })).status).toBe(303)
  await app.post('/runway/keep', { formId: formId(9), planId, basedOn: '1', living: '80' })
  const html = await pageOf(`/runway/compare?plan=ours&plan=${planId}`)
  expect(html).toContain('Household, Living costs, food, A month')
  const { plans } = await figuresOf(`/runway/compare.json?plan=ours&plan=${planId}`)
  expect(plans.map((plan) => plan.name)).toEqual(['Ours', 'With a second market'])
})

test('the books’ months stand against the plan’s, and what is said today is written down and read again', async () => {
  const empty = await pageOf('/runway/actual')
  expect(empty).toContain('The books hold no whole month yet')
  expect((await app.post('/runway/actual/say', { formId: formId(1) })).status).toBe(303)
  const { history } = (await figuresOf('/runway/actual.json')) as unknown as {
    history: { month: string; monthsLeft: number | null; monthsLeftWithoutDraws: number }[]
  }
  expect(history).toHaveLength(1)
  expect(history[0]).toMatchObject({ month: '2026-11', monthsLeft: null })
  expect(history[0]!.monthsLeftWithoutDraws).toBeGreaterThan(0)
})
