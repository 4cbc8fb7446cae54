// Published figures in the farm's forms: shown when an enterprise is chosen, taken by a press, kept only when the form is saved.
import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { latestRevision } from '#db/plan-store.ts'
import { type Plan, planSchema } from '#plan/plan.ts'
import { browserForms, fieldsOf, filledForm } from './browser-form.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
beforeAll(() => {
  app = testApp({ today: '2026-11-20' })
  app.savePlan(planSchema.parse({ startMonth: '2027-01', household: { people: [] } }))
})
afterAll(() => app.close())

const farmNow = () => (latestRevision(app.books, 'ours')!.document as Plan).farm
const page = '/farm/enterprises/new'
const formIn = (html: string) => fieldsOf(browserForms(html, page).find(({ action }) => action === page)!)

test('nothing is suggested before something is chosen', async () => {
  const html = await (await app.get(page)).text()
  expect(html).toContain('Published figures to begin with')
  expect(html).not.toContain('Usual:')
})

test('a chosen enterprise shows each figure with range, dollars, place, source and how it was obtained', async () => {
  const form = await filledForm(app, page, { name: 'Birds', usual: 'broilers', show: 'usual' })
  const reply = await app.post(page, form)
  const html = await reply.text()
  expect(reply.status).toBe(200)
  expect(html).toContain('Usual: $17.10 a bird, dollars of 2014')
  // The field asks for today's prices, and 23.11 is 3.6 pounds at the price that only covers costs.
  expect(html).toContain('Usual: $23.11 a bird, dollars of 2014, a break-even price: it leaves nothing over')
  expect(html).toContain('From $17.10 to $20.85. In dollars of 2014. North Carolina')
  expect(html).toContain('Worked out: chick 1.20, feed 3.20')
  expect(html).toContain('NC Choices')
  expect(html).toContain('From memory, not checked')
  // What was typed stands, and nothing is filled in or saved by showing.
  expect(formIn(html)).toMatchObject({ name: 'Birds', 'costsPerUnit.one': '0', usual: 'broilers' })
  expect(farmNow().enterprises).toEqual([])
})

test('one press takes a figure, another fills what is empty, and the dollars move only when that was asked', async () => {
  const shown = formIn(
    await (
      await app.post(page, await filledForm(app, page, { name: 'Birds', usual: 'broilers', show: 'usual' }))
    ).text(),
  )
  const own = { ...shown, 'hoursPerUnit.one': '0.5' }
  const taken = formIn(await (await app.post(page, { ...own, take: 'salesPerUnit.1' })).text())
  expect(taken).toMatchObject({ 'salesPerUnit.one': '23.11', 'costsPerUnit.one': '0', unit: 'bed' })
  const filled = formIn(await (await app.post(page, { ...taken, usualPrices: 'yes', take: 'all' })).text())
  // The figure taken before and the hours of our own stay; 17.10 of 2014 at 321.943 / 236.736 is 23.25.
  expect(filled).toMatchObject({
    unit: 'bird',
    'salesPerUnit.one': '23.11',
    'costsPerUnit.one': '23.25',
    'hoursPerUnit.one': '0.5',
    yieldPerUnit: '4.71',
    yieldMeasure: 'pounds',
    startUpMonths: '3',
  })
  const brought = await (await app.post(page, { ...taken, usualPrices: 'yes', show: 'usual' })).text()
  expect(brought).toContain('Usual: $23.25 a bird, dollars of 2025')
  expect((await app.post(page, { ...filled, scale: '300' })).status).toBe(303)
  expect(farmNow().enterprises[0]).toMatchObject({
    name: 'Birds',
    unit: 'bird',
    scale: 300,
    salesPerUnit: 23.11,
    costsPerUnit: 23.25,
    hoursPerUnit: 0.5,
    yieldPerUnit: 4.71,
  })
})

test('a herd takes shares as percent, months of birth as a list', async () => {
  const herds = '/farm/herds/new'
  const form = await filledForm(app, herds, {
    name: 'Sows',
    kind: 'pigs',
    breedingFemales: '4',
    carryingLimit: '6',
    'prices.breedingFemale': '600',
    'prices.youngSold': '90',
    usual: 'pigs',
    take: 'all',
  })
  const html = await (await app.post(herds, form)).text()
  expect(html).toContain('Usual: 25% of pigs born alive')
  const filled = fieldsOf(browserForms(html, herds).find(({ action }) => action === herds)!)
  expect(filled).toMatchObject({ 'rates.youngLossToWeaning': '25', 'rates.birthMonths': '4, 10' })
  const saved = await app.post(herds, filled)
  expect(saved.status).toBe(303)
  expect(farmNow().herds[0]).toMatchObject({ rates: { youngLossToWeaning: 0.25, birthMonths: [4, 10] } })
  // Undone, it leads where it was made.
  const list = await (await app.get(saved.headers.get('location')!)).text()
  const [, undo] = /action="(\/runway\/revisions\/undo[^"]*)"/.exec(list)!
  const undone = await app.post(undo!.replaceAll('&amp;', '&'), { formId: randomUUID() })
  expect(undone.headers.get('location')).toMatch(/^\/farm\/herds(\?|$)/)
  expect(farmNow().herds).toEqual([])
})

// The kind comes first: no kind, head or limit is taken for anybody's.
test('a new herd opens without a kind or heads; figures for laying hens bring both, and more heads than are carried are asked about', async () => {
  const herds = '/farm/herds/new'
  const begun = { name: 'Hens', breedingFemales: '60', 'prices.breedingFemale': '22', usual: 'layers' }
  const opened = await filledForm(app, herds, begun)
  const seen = await (await app.post(herds, { ...opened, show: 'usual' })).text()
  expect(seen).toContain('These figures are for laying hens.')
  expect(seen).toContain('These figures are for herds and flocks with this checked.')
  expect(seen).toContain('Usual: 0 roosters')
  const formIn = (html: string) => fieldsOf(browserForms(html, herds).find(({ action }) => action === herds)!)
  expect(opened).toMatchObject({ kind: '', carryingLimit: '' })
  expect(formIn(seen)).toMatchObject({ kind: 'layers' })
  expect(seen).toContain('>Hens then</label>')
  // The other way around: once the kind is chosen its figures are shown.
  const byKind = { ...opened, usual: '', kind: 'goats', show: 'usual' }
  expect(await (await app.post(herds, byKind)).text()).toContain('Usual: ')
  const filled = formIn(
    await (await app.post(herds, { ...opened, males: '', carryingLimit: '12', take: 'all' })).text(),
  )
  expect(filled).toMatchObject({ kind: 'layers', buysReplacements: 'yes', males: '0', breedingFemales: '60' })
  const asked = await app.post(herds, filled)
  const html = await asked.text()
  expect(asked.status).toBe(422)
  expect(html).toContain('60 hens begin here and 12 are carried')
  expect(formIn(html)).toMatchObject({ kind: 'layers', breedingFemales: '60', carryingLimit: '12' })
  expect((await app.post(herds, { ...formIn(html), carryingLimit: '60' })).status).toBe(303)
  expect(farmNow().herds.find(({ name }) => name === 'Hens')).toMatchObject({
    kind: 'layers',
    buysReplacements: true,
    breedingFemales: 60,
    carryingLimit: 60,
  })
})

test('meat is another way of selling: filling the empty fields leaves it alone until it is begun', async () => {
  const herds = '/farm/herds/new'
  const formIn = (html: string) => fieldsOf(browserForms(html, herds).find(({ action }) => action === herds)!)
  const begun = { name: 'Steers', breedingFemales: '6', carryingLimit: '10', usual: 'cattle' }
  const opened = await filledForm(app, herds, begun)
  const seen = await (await app.post(herds, { ...opened, show: 'usual' })).text()
  expect(seen).toContain('Usual: 766 pounds')
  const all = formIn(await (await app.post(herds, { ...opened, take: 'all' })).text())
  expect(all).toMatchObject({ 'meat.hangingWeight': '', 'rates.cullPerYear': '14' })
  const one = formIn(await (await app.post(herds, { ...opened, take: 'meat.hangingWeight.0' })).text())
  expect(one).toMatchObject({ 'meat.hangingWeight': '766', 'meat.packagedShare': '' })
  const rest = formIn(await (await app.post(herds, { ...one, take: 'all' })).text())
  expect(rest).toMatchObject({ 'meat.packagedShare': '60', 'meat.processingPerHead': '85' })
})

test('once saved, an enterprise still says from which published figures it began, each with year, range and source', async () => {
  const add = '/farm/enterprises/new'
  const chosen = { name: 'Kept birds', usual: 'broilers', usualPrices: 'yes', take: 'all' }
  const filled = formIn(await (await app.post(add, await filledForm(app, add, chosen))).text())
  // A price of their own, above the published one.
  const own = { ...filled, name: 'Kept birds', 'salesPerUnit.one': '31' }
  expect((await app.post(add, own)).status).toBe(303)
  const kept = () => farmNow().enterprises.find(({ name }) => name === 'Kept birds')!
  expect(kept().usual).toEqual({ figures: 'broilers', pricesOf: 2025 })
  const at = `/farm/enterprises/${kept().id}`
  const html = await (await app.get(at)).text()
  expect(html).toMatch(/fold-holds">begun with [^<]*[Bb]roilers/)
  // Costs stand as they were printed, brought to 2025; what was typed instead has no source.
  expect(html).toContain('As published: $23.25 a bird, dollars of 2025')
  expect(html).toContain('Printed in dollars of 2014, brought to prices of 2025')
  expect(html).toContain('NC Choices')
  expect(html).not.toContain('23.11')
  expect(html).not.toContain('Usual: ')
  // As it stands it is saved as it was; shown again, all figures are there to take.
  const before = structuredClone(kept())
  const again = await filledForm(app, at, {})
  expect((await app.post(at, { ...again, 'salesPerUnit.one': '32' })).status).toBe(303)
  expect(kept()).toEqual({ ...before, salesPerUnit: 32 })
  const shown = await (await app.post(at, await filledForm(app, at, { show: 'usual' }))).text()
  expect(shown).toContain('Usual: ')
  // With none chosen it is forgotten, and so it is where no figure of them was taken.
  expect((await app.post(at, await filledForm(app, at, { usual: '' }))).status).toBe(303)
  expect(kept().usual).toBeUndefined()
  const none = { name: 'Own birds', usual: 'turkeys', 'salesPerUnit.one': '55' }
  expect((await app.post(add, await filledForm(app, add, none))).status).toBe(303)
  expect(farmNow().enterprises.find(({ name }) => name === 'Own birds')!.usual).toBeUndefined()
})

test('published figures stand open where nothing is entered yet, and closed where something is', async () => {
  const isOpen = async (at: string) =>
    /<details class="fold"[^>]* open[^>]*><summary><span class="fold-name">Published figures/.test(
      await (await app.get(at)).text(),
    )
  expect(await isOpen('/farm/enterprises/new')).toBe(true)
  expect(await isOpen('/farm/herds/new')).toBe(true)
  expect(await isOpen(`/farm/enterprises/${farmNow().enterprises[0]!.id}`)).toBe(false)
})
