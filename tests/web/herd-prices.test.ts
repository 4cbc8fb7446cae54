// A herd that would earn nothing, or is bought for nothing, is asked about where its prices are typed; its chart of money is one line.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { latestRevision } from '#db/plan-store.ts'
import type { Plan } from '#plan/plan.ts'
import { filledForm } from './browser-form.ts'
import { type TestApp, testApp } from './test-app.ts'

// A dairy of ewes that is still on paper: heads, and not one price.
let app: TestApp
const herds = () => (latestRevision(app.books, 'ours')!.document as Partial<Plan>).farm?.herds ?? []
const page = '/farm/herds/new'
const ewes = {
  name: 'Milking ewes',
  kind: 'sheep',
  start: '2027-03',
  breedingFemales: '30',
  carryingLimit: '40',
}
const send = async (fields: Record<string, string>, to = page) =>
  app.post(to, await filledForm(app, to, fields))

beforeEach(() => {
  app = testApp({ today: '2026-11-20' })
  app.savePlan({
    startMonth: '2026-11',
    household: { people: [{ id: 'nell', name: 'Nell', born: '1980-04-02' }] },
  })
})
afterEach(() => app.close())

const asked = async (fields: Record<string, string>, to = page) => {
  const reply = await send(fields, to)
  expect(reply.status).toBe(422)
  return reply.text()
}

test('no price at all is asked about at both fields, and saved with a yes', async () => {
  const html = await asked(ewes)
  expect(html).toContain('href="#f-prices.youngSold"')
  expect(html).toContain('href="#f-prices.breedingFemale"')
  expect(html).toContain('name="sure"')
  expect(html).toContain('value="Milking ewes"')
  expect(herds()).toEqual([])
  expect((await send({ ...ewes, sure: 'yes' })).status).toBe(303)
  expect(herds()).toHaveLength(1)
  // What stands is not asked about again when something else of it is changed.
  const change = { breedingFemales: '28' }
  expect((await send(change, `/farm/herds/${herds()[0]!.id}`)).status).toBe(303)
})

test('milk alone is an income, and ewes that were ours cost nothing', async () => {
  expect(await asked({ ...ewes, 'productPerFemale.one': '600' })).not.toContain('href="#f-prices.youngSold"')
  const ours = { ...ewes, ownedAlready: 'yes' }
  expect(await asked(ours)).not.toContain('href="#f-prices.breedingFemale"')
  expect((await send({ ...ours, 'productPerFemale.one': '600' })).status).toBe(303)
})

test('each price of what is sold is an income, meat by the pound too', async () => {
  for (const price of ['prices.youngSold', 'prices.cullFemale', 'meat.halfPrice', 'meat.cutPrice']) {
    const meat = price.startsWith('meat') ? { 'meat.hangingWeight': '45', 'meat.halfShare': '50' } : {}
    const html = await asked({ ...ewes, ...meat, [price]: '9' })
    expect(html, price).not.toContain('href="#f-prices.youngSold"')
    expect(html, price).toContain('href="#f-prices.breedingFemale"')
  }
})

test('a chart in which all is nothing shows one amount at its side', async () => {
  expect((await send({ ...ewes, sure: 'yes' })).status).toBe(303)
  const html = await (await app.get('/farm/herds')).text()
  const sides = [...html.matchAll(/<text[^>]*text-anchor="end"[^>]*>([^<]*)<\/text>/g)].map(
    ([, text]) => text!,
  )
  expect(sides.filter((text) => text.includes('$')).length).toBeGreaterThan(0)
  expect(sides.filter((text) => /\$0\.\d|\$1$/.test(text))).toEqual([])
})
