// The cash of market days at the table: each product to its own account and batch, and what was said before said again.
import { afterAll, beforeAll, expect, test } from 'vitest'
import { changeAccount } from '#db/ledger/account-change.ts'
import { findAccount, listAccounts } from '#db/ledger/account-store.ts'
import { findEntry } from '#db/ledger/entry-reader.ts'
import { tiedLines } from '#db/notebook/batch-lines.ts'
import { browserForms, fieldsOf } from './browser-form.ts'
import { type TestApp, testApp } from './test-app.ts'

// Two who sell flowers and goat meat on Thursdays: a batch of flowers is under way, and the kids of spring.
let app: TestApp
const formId = (n: number) => `00000000-0000-4000-8000-${String(n).padStart(12, '0')}`
const account = (name: string) => String(listAccounts(app.books).find((one) => one.name === name)!.id)
const table = '/farm/notebook/table'

beforeAll(() => {
  app = testApp({ today: '2026-07-20' })
  app.openSides()
  app.savePlan({
    name: 'Flowers and goats',
    startMonth: '2026-01',
    household: { people: [{ id: 'ruth', name: 'Ruth', born: '1984-03-02' }] },
    farm: {
      enterprises: [{ id: 'flowers', name: 'Cut flowers', unit: 'bed' }],
      markets: [{ id: 'thursday', name: 'Thursday market' }],
      herds: [
        {
          id: 'goats',
          name: 'Goats',
          kind: 'goats',
          start: '2025-01',
          breedingFemales: 9,
          carryingLimit: 12,
        },
      ],
    },
  })
})
afterAll(() => app.close())

const marketDay = (n: number, on: string, taken: readonly [product: string, cash: string][]) =>
  app.post('/farm/notebook/market', {
    formId: formId(n),
    'market.market': 'thursday',
    'market.day': on,
    ...Object.fromEntries(
      taken.flatMap(([product, cash], k) => [
        [`market.products.${k}.enterprise`, product],
        [`market.products.${k}.cash`, cash],
      ]),
    ),
  })

/** The forms of market days as they stand on the page, oldest first. */
const waiting = async () => {
  const html = await (await app.get(table)).text()
  return browserForms(html, table)
    .filter(({ action }) => action.startsWith(`${table}/market/`))
    .map((form) => ({ action: form.action, fields: fieldsOf(form) }))
}

test('each product goes to its own account and batch, and the next day opens with what was said', async () => {
  const started = await app.post('/farm/batches/new', {
    formId: formId(1),
    enterprise: 'flowers',
    name: 'Flowers of 2026',
    size: '14',
    unit: 'beds',
    startedDay: '2026-03-15',
  })
  expect(started.status).toBe(303)
  const both: [string, string][] = [
    ['flowers', '140'],
    ['goats', '60'],
  ]
  expect((await marketDay(2, '2026-07-02', both)).status).toBe(303)
  expect((await marketDay(3, '2026-07-09', both)).status).toBe(303)
  expect((await marketDay(4, '2026-07-16', [['flowers', '90']])).status).toBe(303)
  const [first] = await waiting()
  // Nothing was ever sold: no account is guessed. The one batch of flowers under way is theirs.
  expect(first!.fields).toMatchObject({ cash: '', sales: '', 'more.0.sales': '' })
  expect(first!.fields.batch).toMatch(/./)
  // With the cash in the box the accounts are asked for, each at its field.
  const open = { ...first!.fields, cash: account('Cash box') }
  const refused = await app.post(first!.action, open)
  expect(refused.status).toBe(422)
  expect((await refused.text()).match(/Choose the account of the sales/g)!.length).toBeGreaterThan(1)
  const said = {
    ...open,
    formId: formId(5),
    sales: account('Cut flowers sold'),
    'more.0.sales': account('Raised livestock and meat sold'),
  }
  for (const _ of [1, 2]) expect((await app.post(first!.action, said)).status).toBe(303)
  const { lines } = findEntry(app.books, formId(5))!
  expect(lines.map((one) => [String(one.accountId), one.amountCents, one.enterpriseId])).toEqual([
    [account('Cash box'), 20000, null],
    [account('Cut flowers sold'), -14000, 'flowers'],
    [account('Raised livestock and meat sold'), -6000, 'goats'],
  ])
  expect(tiedLines(app.books).map(({ amountCents }) => amountCents)).toEqual([-14000])
  const [second, third] = await waiting()
  expect(second!.fields).toMatchObject({
    cash: account('Cash box'),
    sales: account('Cut flowers sold'),
    batch: first!.fields.batch,
    'more.0.sales': account('Raised livestock and meat sold'),
  })
  // One press each.
  expect((await app.post(second!.action, { ...second!.fields, formId: formId(6) })).status).toBe(303)
  expect((await app.post(third!.action, { ...third!.fields, formId: formId(7) })).status).toBe(303)
  expect(tiedLines(app.books).map(({ amountCents }) => amountCents)).toEqual([-14000, -14000, -9000])
})

test('what goes to the bank needs no account of sales', async () => {
  expect((await marketDay(8, '2026-07-18', [['flowers', '33']])).status).toBe(303)
  const [day] = await waiting()
  const reply = await app.post(day!.action, { ...day!.fields, cash: '', sales: '', formId: formId(9) })
  expect(reply.status).toBe(303)
  expect(findEntry(app.books, formId(9))).toBeUndefined()
  expect(await waiting()).toEqual([])
})

test('a batch that is over, or another enterprise’s, is refused', async () => {
  expect((await marketDay(10, '2026-03-05', [['flowers', '21']])).status).toBe(303)
  const [day] = await waiting()
  // Its day lies before the batch began: none is offered.
  expect(day!.fields.batch ?? '').toBe('')
  const reply = await app.post(day!.action, {
    ...day!.fields,
    formId: formId(11),
    cash: account('Cash box'),
    batch: 'strange',
  })
  expect(reply.status).toBe(422)
})

test('goods that are bartered open with the account of line 8; without one, with that which the same was sold to', async () => {
  const barter = (n: number, of: string) =>
    app.post('/farm/notebook/goods', {
      formId: formId(n),
      'goods.day': '2026-07-19',
      'goods.kind': 'bartered',
      'goods.what': 'bunches',
      'goods.quantity': '4',
      'goods.unit': '',
      'goods.of': of,
      'goods.tradedFor': 'eggs',
    })
  expect((await barter(20, 'enterprise:flowers')).status).toBe(303)
  expect((await barter(21, '')).status).toBe(303)
  const goods = async () =>
    browserForms(await (await app.get(table)).text(), table)
      .filter(({ action }) => action.startsWith(`${table}/goods/`))
      .map((form) => fieldsOf(form).fromAccount)
  const other = account('Other farm income')
  expect(await goods()).toEqual([other, other])
  const { id, revision } = findAccount(app.books, Number(other))!
  const act = { formId: formId(22), at: '2026-07-20T12:00:00.000Z', actor: 'test' }
  const put = changeAccount(app.books, act, { id, revision }, { archived: true, anyway: true })
  expect(put.ok).toBe(true)
  expect(await goods()).toEqual([account('Cut flowers sold'), ''])
})
