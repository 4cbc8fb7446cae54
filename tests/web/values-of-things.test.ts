// A gander house valued at the year's end on one form for all things: the name of its field holds the thing's id, which has hyphens.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { browserForms, fieldsOf } from './browser-form.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
beforeEach(() => {
  app = testApp({ today: '2026-02-10' })
  app.openSides()
})
afterEach(() => app.close())

const fieldOf = (page: string, named: string): string =>
  new RegExp(`<label for="f-(value\\.[^"]+)">${named}</label>`).exec(page)![1]!

const typedIn = (page: string, field: string): string =>
  new RegExp(`<input id="f-${field}"[^>]* value="([^"]*)"`).exec(page)![1]!

test('the value of a thing on December 31 is kept, shown again, and stays when the form is saved untouched', async () => {
  const added = await app.post('/year-pack/holdings/new?year=2025', {
    formId: crypto.randomUUID(),
    side: 'farm',
    name: 'Gander house',
    kind: 'equipment',
    quantity: '1',
    unit: '',
    cost: '2,400',
    acquiredDay: '2025-06-01',
    inServiceDay: '',
    account: '',
    assetClass: '',
    section179: '',
    marketValue: '',
    valuedDay: '',
    disposedDay: '',
    disposedFor: '',
  })
  expect(added.status).toBe(303)
  const at = '/year-pack/inputs?year=2025'
  const page = async () => (await app.get(at)).text()
  const field = fieldOf(await page(), 'Gander house')
  expect(typedIn(await page(), field)).toBe('')
  const to = '/year-pack/inputs/things?year=2025'
  const send = async (values: Record<string, string>) => {
    const form = browserForms(await page(), at).find(({ action }) => action === to)
    return app.post(to, { ...fieldsOf(form!), ...values })
  }
  expect((await send({ [field]: '1,950' })).status).toBe(303)
  expect(typedIn(await page(), field)).toBe('1950.00')
  expect((await send({})).status).toBe(303)
  expect(typedIn(await page(), field)).toBe('1950.00')
  expect((await send({ [field]: '' })).status).toBe(303)
  expect(typedIn(await page(), field)).toBe('')
})

test('what is added to the pack of a year gone by is not dated today', async () => {
  const bought = async (at: string) =>
    /name="acquiredDay"[^>]* value="([^"]*)"/.exec(await (await app.get(at)).text())![1]
  expect(await bought('/year-pack/holdings/new?year=2025')).toBe('')
  expect(await bought('/year-pack/holdings/new?year=2025&bought=2025-03-04')).toBe('2025-03-04')
  expect(await bought('/year-pack/holdings/new')).toBe('2026-02-10')
})
