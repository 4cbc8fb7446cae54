// Several plans: a copy is changed without being used, put away and brought back, and compared in words. A basket maker alone, our
// own invention: 1,500 a month out of 90,000, no tax and no rising prices.
import { randomUUID } from 'node:crypto'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { latestRevision, listPlans } from '#db/plan-store.ts'
import { type Plan, type PlanInput, planSchema } from '#plan/plan.ts'
import { readPlan } from '#plan/upgrade.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
beforeEach(() => {
  app = testApp({ today: '2026-04-10' })
  app.openSides()
  const read = readPlan({
    planVersion: 4,
    name: 'Ours',
    startMonth: '2026-04',
    years: 8,
    household: {
      living: [{ id: 'living', name: 'Living', perMonth: 1500 }],
      floor: { kind: 'dollars', dollars: 6000 },
    },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 90_000 }] },
    tax: { method: 'none' },
    assumptions: { inflation: 0, bills: 0, premiumGrowth: 0 },
  })
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  app.savePlan(read.plan)
})
afterEach(() => app.close())

const copied = async (name: string): Promise<string> => {
  const formId = randomUUID()
  expect((await app.post('/runway/compare/copy', { formId, name })).status).toBe(303)
  return `plan-${formId}`
}

const opened = async (planId: string): Promise<{ cookie: string }> => {
  const reply = await app.post('/runway/compare/open', { planId })
  expect(reply.status).toBe(303)
  return { cookie: reply.headers.getSetCookie()[0]!.split(';')[0]! }
}

const livingOf = (planId: string) =>
  (latestRevision(app.books, planId)!.document as Plan).household.living[0]!.perMonth

const monthsLeft = async (path: string, headers = {}) => {
  const figures = (await (await app.get(path, headers)).json()) as {
    milestones?: { monthsLeft: number }
    plan?: { monthsLeft: number }
  }
  return (figures.milestones ?? figures.plan)!.monthsLeft
}

test('a copy is opened and changed while the plan in use stays as it is', async () => {
  const copy = await copied('Cheaper')
  const headers = await opened(copy)
  const change = { formId: randomUUID(), planId: copy, basedOn: '1', living: '80' }
  expect((await app.post('/runway/keep', change, headers)).status).toBe(303)
  expect([livingOf('ours'), livingOf(copy)]).toEqual([1500, 1200])
  // 84,000 above the floor: 56 months of 1,500, 70 of 1,200.
  expect(await monthsLeft('/runway.json', headers)).toBe(70)
  expect(await monthsLeft('/runway.json')).toBe(56)
  // What is said of today stays with the plan in use.
  expect(await monthsLeft('/now.json', headers)).toBe(56)
  const page = await (await app.get('/runway', headers)).text()
  expect(page).toContain('You are working on “Cheaper”, which is not the plan in use.')
  for (const path of ['/now', '/runway/actual', '/runway/compare'])
    expect(await (await app.get(path, headers)).text(), path).not.toContain('You are working on')
  for (const path of ['/farm', '/slower-years', '/runway/revisions', '/runway/plan/household'])
    expect(await (await app.get(path, headers)).text(), path).toContain('You are working on “Cheaper”')
})

test('a form is taken into the plan it was made for, whichever is open since', async () => {
  const copy = await copied('Cheaper')
  const headers = await opened(copy)
  const notice = async (reply: Response) => {
    expect(reply.status).toBe(303)
    return (await app.get(reply.headers.get('location')!, headers)).text()
  }
  const stale = { formId: randomUUID(), planId: 'ours', basedOn: '1', living: '50' }
  expect(await notice(await app.post('/runway/keep', stale, headers))).toContain(
    'Levers kept in “Ours”, which is not the plan open here. It is at revision 2.',
  )
  expect([livingOf('ours'), livingOf(copy)]).toEqual([750, 1500])
  // What is refused is refused as a form of that plan, with what was typed.
  const wrong = { formId: randomUUID(), planId: 'ours', basedOn: '2', startMonth: 'someday' }
  const refused = await app.post('/runway/plan', wrong, headers)
  expect(refused.status).toBe(422)
  const page = await refused.text()
  expect(page).toContain('value="ours"')
  expect(page).toContain('Enter a month, like')
  expect(page).not.toContain('You are working on')
  // Undone from there, it is that plan again.
  const undone = await app.post('/runway/revisions/undo?from=2&plan=ours', { formId: randomUUID() }, headers)
  expect(undone.status).toBe(303)
  expect([livingOf('ours'), livingOf(copy)]).toEqual([1500, 1500])
  // A plan put away since is not one whose form is lost.
  await app.post('/runway/compare/use', { formId: randomUUID(), planId: copy, putAway: 'yes' })
  const late = { formId: randomUUID(), planId: copy, basedOn: '1', living: '80' }
  expect((await app.post('/runway/keep', late, headers)).status).toBe(303)
  expect([livingOf('ours'), livingOf(copy)]).toEqual([1500, 1200])
})

test('life events are entered, changed and taken out in the plan that is open', async () => {
  const copy = await copied('With a child')
  const headers = await opened(copy)
  const page = await (await app.get('/runway/events/new', headers)).text()
  const planId = /name="planId" value="([^"]*)"/.exec(page)![1]!
  expect(planId).toBe(copy)
  const birth = { kind: 'birth', name: 'Noor', born: '2027-02-20', perMonth: '300', untilAge: '18' }
  const sent = (path: string, basedOn: number, fields: Record<string, string>) =>
    app.post(path, { formId: randomUUID(), planId, basedOn: String(basedOn), ...fields }, headers)
  expect((await sent('/runway/events/new', 1, { kind: 'birth', show: 'yes' })).status).toBe(200)
  expect((await sent('/runway/events/new', 1, birth)).status).toBe(303)
  expect(await (await app.get('/runway/events/0', headers)).text()).toContain('Noor')
  expect((await app.get('/runway/events/0')).status).toBe(404)
  expect((await sent('/runway/events/0/remove', 2, {})).status).toBe(303)
  expect((latestRevision(app.books, copy)!.document as Plan).events).toEqual([])
  expect(latestRevision(app.books, 'ours')!.revisionNo).toBe(1)
})

test('Health and its form show and change the plan that is open', async () => {
  const copy = await copied('Covered')
  const headers = await opened(copy)
  for (const path of ['/cover', '/cover/marketplace']) {
    const page = await (await app.get(path, headers)).text()
    expect(page, path).toContain('You are working on “Covered”, which is not the plan in use.')
  }
  expect(await (await app.get('/cover.json', headers)).json()).toMatchObject({ planName: 'Covered' })
  expect(await (await app.get('/cover.json')).json()).toMatchObject({ planName: 'Ours' })
  const fields = { formId: randomUUID(), planId: copy, basedOn: '1', care: '333' }
  const change = { ...fields, plan: '', benchmark: '', ageRating: 'federal', expansion: 'yes' }
  expect((await app.post('/cover/marketplace', change, headers)).status).toBe(303)
  const careOf = (planId: string) => (latestRevision(app.books, planId)!.document as Plan).health.careBefore65
  expect([careOf('ours'), careOf(copy)]).toEqual([0, 333])
})

test('one that is archived is open no more, and is brought back as it was', async () => {
  const copy = await copied('Cheaper')
  const headers = await opened(copy)
  const move = (putAway: string) =>
    app.post('/runway/compare/use', { formId: randomUUID(), planId: copy, putAway })
  expect((await move('yes')).status).toBe(303)
  expect(listPlans(app.books).map((one) => one.id)).toEqual(['ours'])
  expect(await (await app.get('/runway', headers)).text()).not.toContain('You are working on')
  expect((await move('no')).status).toBe(303)
  expect(await (await app.get('/runway', headers)).text()).toContain('You are working on “Cheaper”')
  const back = await app.post('/runway/compare/open', {}, headers)
  expect(back.headers.getSetCookie()[0]).toMatch(/^dooryard-plan=; Max-Age=0/)
})

test('plans are compared by what they come to, in words', async () => {
  const copy = await copied('Cheaper')
  await app.post(
    '/runway/keep',
    { formId: randomUUID(), planId: copy, basedOn: '1', living: '80' },
    await opened(copy),
  )
  const address = `/runway/compare?plan=ours&plan=${copy}&storms=yes`
  const page = await (await app.get(address)).text()
  const row = (title: string) =>
    [
      ...new RegExp(`<th scope="row"[^>]*>${title}</th>(.*?)</tr>`, 's')
        .exec(page)![1]!
        .matchAll(/<td[^>]*>(.*?)<\/td>/gs),
    ].map(([, cell]) => cell!.replaceAll(/<[^>]+>/g, ' ').trim())
  expect(row('Months left')).toEqual(['56', '70'])
  expect(row('Floor crossed')).toEqual(['December 2030', 'February 2032'])
  expect(row('Carry month')).toEqual(['none', 'none'])
  // 90,000 last 60 months of 1,500 and 75 of 1,200: in the 96 months of the plan 36 and 21 are short.
  expect(row('Savings at the end')).toEqual(['$0', '$0'])
  expect(row('Unmet costs')).toEqual(['$54,000', '$25,200'])
  expect(row('In a bad year')[0]).toMatch(/^56 months: /)
  expect(row('One time in ten')).toEqual(['not run', 'not run'])
  expect(page).toContain('Household, Living costs, living, A month')
  expect(page).not.toMatch(/\{"|1\.84615/)
})

// An orchard that nets 12,000 a year, 1,000 each month: of 96 months, 600 drawn leaves 96 × 400 in the farm, 400 drawn 96 × 600. Savings lose
// 96 × 200 less with the larger draw: what is not drawn is not lost.
test('what a smaller draw leaves in the farm stands beside what it takes from savings', async () => {
  const ours = latestRevision(app.books, 'ours')!.document as Plan
  const drawing = (perMonth: number) =>
    planSchema.parse({
      ...ours,
      farm: { enterprises: [{ id: 'orchard', name: 'Orchard', salesPerUnit: 12_000 }] },
      draw: { policy: 'steps', steps: [{ from: ours.startMonth, perMonth }] },
      savings: { accounts: [{ id: 'cash', name: 'Savings', kind: 'cash', balance: 200_000 }] },
    } satisfies PlanInput)
  app.savePlan(drawing(600), { planId: 'larger', name: 'Larger' })
  app.savePlan(drawing(400), { planId: 'smaller', name: 'Smaller' })
  const { plans } = (await (await app.get('/runway/compare.json?plan=larger&plan=smaller')).json()) as {
    plans: { savingsAtEnd: number; farmCashAtEnd: number }[]
  }
  expect(plans.map(({ farmCashAtEnd }) => farmCashAtEnd)).toEqual([38_400, 57_600])
  expect(plans[0]!.savingsAtEnd - plans[1]!.savingsAtEnd).toBeCloseTo(96 * 200, 2)
  const page = await (await app.get('/runway/compare?plan=larger&plan=smaller')).text()
  expect(page).toMatch(/Farm cash at the end<\/th>.*?\$38,400.*?\$57,600/s)
  // Nobody slows down: that row would be empty.
  expect(page).not.toContain('Savings then')
})
