// A question under way, and its address after the program was stopped: each is said, nothing as if it had never been asked.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { browserForms } from './browser-form.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
beforeEach(() => {
  app = testApp({ today: '2026-12-01' })
  // Answers are known by what was asked of which plan, for as long as a process runs, and tests share one: this plan is no other test's.
  app.savePlan(
    {
      startMonth: '2026-12',
      household: { people: [{ id: 'rut', name: 'Rut', born: '1971-02-08', planToAge: 60 }] },
      savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 90_431 }] },
    },
    { planId: 'rut-alone' },
  )
})
afterEach(() => app.close())

test('while a question is worked out the list does not say that none was asked', async () => {
  const list = async () => (await app.get('/runway/questions')).text()
  expect(await list()).toContain('No question has been asked yet.')
  const asked = await app.post('/runway/questions/draw', { confidence: '90', paths: '5000', seed: '1' })
  expect(await list()).toContain('1 is being worked out now.')
  const job = new URL(asked.headers.get('location')!, 'http://house').searchParams.get('job')!
  await app.post('/runway/questions/draw/stop', { job })
})

test('a question asked before the program was stopped says so at its address, and is asked again by one press', async () => {
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
