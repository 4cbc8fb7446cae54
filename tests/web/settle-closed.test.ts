// What was noted in the field and lies in a closed month by the time one comes to the table: the first open day is offered, and books it.
import { randomUUID } from 'node:crypto'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { listAccounts } from '#db/ledger/account-store.ts'
import { findEntry } from '#db/ledger/entry-reader.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { browserForms, fieldsOf } from './browser-form.ts'
import { type TestApp, testApp } from './test-app.ts'

// One who sells bread and honey on Fridays, and closes each month on its first days after.
let app: TestApp
const table = '/farm/notebook/table'
const account = (name: string) => String(listAccounts(app.books).find((one) => one.name === name)!.id)
beforeEach(async () => {
  app = testApp({ today: '2026-09-04' })
  app.openSides()
  app.savePlan({
    name: 'Honey',
    startMonth: '2026-01',
    household: { people: [{ id: 'pia', name: 'Pia', born: '1990-05-05' }] },
    farm: {
      enterprises: [{ id: 'honey', name: 'Honey', unit: 'hive' }],
      markets: [{ id: 'friday', name: 'Friday market' }],
    },
  })
})
afterEach(() => app.close())

const shut = (sideId: string, month: string) =>
  app.books.sqlite
    .prepare(
      "INSERT INTO month_closings (id, side_id, month, closed_at) VALUES (?, ?, ?, '2026-09-04T12:00:00Z')",
    )
    .run(randomUUID(), sideId, Number(month.slice(0, 4)) * 12 + Number(month.slice(5)) - 1)
const waiting = async (way: 'market' | 'goods') => {
  const html = await (await app.get(table)).text()
  const [form] = browserForms(html, table).filter(({ action }) => action.startsWith(`${table}/${way}/`))
  return { html, action: form!.action, fields: fieldsOf(form!) }
}

test('a market day of a closed month is booked on the first open day, which the form offers', async () => {
  await app.post('/farm/notebook/market', {
    formId: randomUUID(),
    'market.market': 'friday',
    'market.day': '2026-08-28',
    'market.products.0.enterprise': 'honey',
    'market.products.0.cash': '212',
  })
  expect((await waiting('market')).html).not.toContain('Booked on')
  shut('farm', '2026-08')
  const { html, action, fields } = await waiting('market')
  expect(html).toContain('Aug 28, 2026 lies in a closed month: Sep 1, 2026 is the first open day')
  expect(fields.day).toBe('2026-09-01')
  const id = randomUUID()
  const sent = {
    ...fields,
    formId: id,
    cash: account('Cash box'),
    sales: account('Honey and hive goods sold'),
  }
  // Typed back into the closed month it is refused at the field that is there.
  const refused = await app.post(action, { ...sent, day: '2026-08-28' })
  expect(refused.status).toBe(422)
  expect(await refused.text()).toContain('These books are closed through August 2026')
  for (let time = 0; time < 2; time += 1) expect((await app.post(action, sent)).status).toBe(303)
  expect(findEntry(app.books, id)).toMatchObject({
    day: '2026-09-01',
    payee: 'Friday market',
    memo: 'Market day of Aug 28, 2026',
  })
  expect(verifyBooks(app.books.sqlite).findings).toEqual([])
})

test('goods of a month that only the household has closed are booked on a day open to both', async () => {
  await app.post('/farm/notebook/goods', {
    formId: randomUUID(),
    'goods.day': '2026-07-30',
    'goods.kind': 'kitchen',
    'goods.what': 'honey',
    'goods.of': 'enterprise:honey',
    'goods.quantity': '4',
    'goods.unit': 'jars',
  })
  shut('household', '2026-07')
  const { action, fields } = await waiting('goods')
  expect(fields.day).toBe('2026-08-01')
  const id = randomUUID()
  expect((await app.post(action, { ...fields, formId: id, price: '9' })).status).toBe(303)
  expect(app.books.sqlite.prepare('SELECT day, memo, amount_cents FROM crossings').all()).toEqual([
    { day: '2026-08-01', memo: 'honey of Jul 30, 2026', amount_cents: 3600 },
  ])
})
