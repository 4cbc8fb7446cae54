// A question's address after the program was stopped: that it was asked and is not kept is said, with the way to ask it again.
import { afterEach, expect, test } from 'vitest'
import { browserForms } from './browser-form.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
afterEach(() => app.close())

test('a question asked before the program was stopped says so at its address, and is asked again by one press', async () => {
  app = testApp({ today: '2026-12-01' })
  app.savePlan({
    startMonth: '2026-12',
    household: { people: [{ id: 'rut', name: 'Rut', born: '1971-02-08', planToAge: 60 }] },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 90_000 }] },
  })
  const says = 'What was asked here is not kept'
  expect(await (await app.get('/runway/questions/draw')).text()).not.toContain(says)
  // A number that this start of the program gave to no question.
  const page = '/runway/questions/draw?job=0b1f5a8e-6f5e-4c3f-9d0e-3a1f0f6f2c11'
  const html = await (await app.get(page)).text()
  expect(html).toContain(says)
  expect(browserForms(html, page).some(({ action }) => action === '/runway/questions/draw')).toBe(true)
  // As the page that watched it asks for its part.
  const part = await app.get(page, { 'HX-Request': 'true', 'HX-Target': 'section#question' })
  expect(await part.text()).toContain(says)
})
