// A batch of beds is told in words of beds: nothing of it lives, dies, or is kept to lay; a batch of birds in words of birds.
import { afterAll, beforeAll, expect, test } from 'vitest'
import { listAccounts } from '#db/ledger/account-store.ts'
import { type TestApp, testApp } from './test-app.ts'

// Fourteen beds of sweet corn picked over weeks, and sixty ducks beside them.
let app: TestApp
const formId = (n: number) => `00000000-0000-4000-8000-${String(n).padStart(12, '0')}`
const account = (name: string) => String(listAccounts(app.books).find((one) => one.name === name)!.id)

beforeAll(async () => {
  app = testApp({ today: '2026-09-20' })
  app.openSides()
  app.savePlan({
    startMonth: '2026-01',
    household: { people: [{ id: 'opal', name: 'Opal', born: '1984-03-02' }] },
    farm: {
      enterprises: [
        { id: 'corn', name: 'Sweet corn', unit: 'bed' },
        { id: 'ducks', name: 'Ducks', unit: 'duck' },
      ],
    },
  })
  for (const [n, enterprise, size, unit] of [
    [1, 'corn', '14', 'beds'],
    [2, 'ducks', '60', 'ducks'],
  ] as const) {
    const began = {
      formId: formId(n),
      enterprise,
      name: `${unit} of 2026`,
      size,
      unit,
      startedDay: '2026-05-01',
    }
    expect((await app.post('/farm/batches/new', began)).status).toBe(303)
    const weighed = {
      formId: formId(n + 10),
      kind: 'weighed',
      quantity: '4',
      pounds: '100',
      day: '2026-08-01',
    }
    expect((await app.post(`/farm/batches/${formId(n)}/mark`, weighed)).status).toBe(303)
    const sold = {
      formId: formId(n + 20),
      side: 'farm',
      kind: 'in',
      day: '2026-08-10',
      payee: 'Saturday market',
      memo: '',
      moneyAccount: account('Cash box'),
      'lines.0.account': account('Vegetables and fruit sold'),
      'lines.0.amount': `42${n}`,
      'lines.0.enterprise': enterprise,
      'lines.0.batch': formId(n),
    }
    expect((await app.post('/books/entry', sold)).status).toBe(303)
  }
})
afterAll(() => app.close())

const textOf = async (path: string) =>
  (await (await app.get(path)).text()).replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ')

test.for([
  ['beds', 1, false],
  ['ducks', 2, true],
] as const)('%s', async ([unit, n, isStock]) => {
  const page = await textOf(`/farm/batches/${formId(n)}`)
  expect(/\b(lived|live pound)\b/.test(page)).toBe(isStock)
  expect(page).toContain(
    isStock
      ? 'Note what was sold, or end the batch'
      : `Note as sold the ${unit} that are picked for good, or end the batch`,
  )
  const edit = await textOf(`/farm/batches/${formId(n)}/edit`)
  expect(edit.includes('To breed or to lay')).toBe(isStock)
  expect(edit.includes('For seed, or left standing')).toBe(!isStock)
})
