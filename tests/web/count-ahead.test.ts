// A herd counted after the month in which the books end: the page says that its years do not go on from the count yet.
import { afterAll, beforeAll, expect, test } from 'vitest'
import { listAccounts } from '#db/ledger/account-store.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
beforeAll(() => {
  app = testApp({ today: '2026-11-30' })
  app.openSides()
  app.savePlan({
    name: 'Goats',
    startMonth: '2026-01',
    household: { people: [{ id: 'owen', name: 'Owen', born: '1982-08-19' }] },
    farm: {
      herds: [
        {
          id: 'goats',
          name: 'Goats',
          kind: 'goats',
          start: '2026-01',
          breedingFemales: 9,
          carryingLimit: 12,
        },
      ],
    },
  })
})
afterAll(() => app.close())

const account = (name: string) => String(listAccounts(app.books).find((one) => one.name === name)!.id)
const herds = async () => (await app.get('/farm/herds')).text()

test('a count beyond the books is told, and that the years begin before it', async () => {
  const heads = await app.post('/farm/notebook/heads', {
    formId: '00000000-0000-4000-8000-000000000001',
    'heads.herd': 'goats',
    'heads.kind': 'counted',
    'heads.headClass': 'females',
    'heads.count': '7',
    'heads.day': '2026-10-05',
  })
  expect(heads.status).toBe(303)
  // Nothing is in the books: the plan goes on from this month, with the count.
  expect(await herds()).toContain('The years below go on from them.')
  // The household's money moved last in March: the months since are projected, and begin before the count.
  const entry = await app.post('/books/entry', {
    formId: '00000000-0000-4000-8000-000000000002',
    side: 'household',
    kind: 'out',
    day: '2026-03-09',
    payee: 'Feed and hardware',
    moneyAccount: account('Household checking'),
    'lines.0.account': account('Groceries'),
    'lines.0.amount': '50',
  })
  expect(entry.status).toBe(303)
  const html = await herds()
  expect(html).toContain('The years below begin in April 2026, where the books end')
  expect(html).not.toContain('The years below go on from them.')
})
