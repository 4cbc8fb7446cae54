// The step of what is owned: each row's mistakes are named at once, whatever is wrong in another.
import { afterEach, expect, test } from 'vitest'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
afterEach(() => app.close())

const formId = (n: number) => `00000000-0000-4000-8000-${String(n).padStart(12, '0')}`

test('an amount that cannot be read in one row hides nothing of the other', async () => {
  app = testApp({ today: '2026-08-20' })
  const who = {
    farmName: 'Fernlea',
    region: 'contiguous',
    'people.0.name': 'Oda',
    'people.0.born': '1988-03-09',
  }
  await app.post('/start/who', { formId: formId(1), ...who })
  const form = await (await app.get('/start/accounts')).text()
  const account = /name="balances\.0\.account" value="(\d+)"/.exec(form)![1]!
  const balance = { 'balances.0.account': account, 'balances.0.amount': '1000' }
  await app.post('/start/accounts', { formId: formId(2), day: '2026-01-01', ...balance })
  const page = await (
    await app.post('/start/owned', {
      formId: formId(3),
      'things.0.cost': '500',
      'things.1.name': 'Tractor',
      'things.1.cost': 'abc',
    })
  ).text()
  const named = [...page.matchAll(/<a href="#f-(things\.\d\.\w+)">/g)].map(([, at]) => at)
  expect(named.toSorted()).toEqual(['things.0.account', 'things.0.name', 'things.1.cost'])
})
