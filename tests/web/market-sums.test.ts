// Cash and cards of a market day, told as a whole and by product: where the two do not add up it is said at the field, with what was typed.
import { randomUUID } from 'node:crypto'
import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Day } from '#calendar/day.ts'
import { listMarketDays } from '#db/notebook/field-notes.ts'
import { browserForms, fieldsOf } from './browser-form.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
beforeEach(() => {
  app = testApp({ today: '2026-07-20' })
  app.openSides()
  app.savePlan({
    startMonth: '2026-01',
    household: { people: [{ id: 'opal', name: 'Opal', born: '1984-03-02' }] },
    farm: {
      enterprises: [
        { id: 'corn', name: 'Sweet corn', unit: 'bed' },
        { id: 'eggs', name: 'Eggs', unit: 'dozen' },
      ],
      markets: [{ id: 'saturday', name: 'Saturday market' }],
    },
  })
})
afterEach(() => app.close())

const page = '/farm/notebook/market'
const day = (over: Record<string, string | string[]>) => ({
  formId: randomUUID(),
  'market.market': 'saturday',
  'market.day': '2026-07-18',
  'market.products.0.enterprise': 'corn',
  'market.products.1.enterprise': 'eggs',
  ...over,
})
const noted = () =>
  listMarketDays(app.books, '2026-01-01' as Day, '2026-12-31' as Day).map(({ takings }) =>
    takings.map(({ enterpriseId, means, amountCents }) => [enterpriseId, means, amountCents]),
  )

// 140 and 50 are 190; the box had 200.
const short = {
  'market.cash': '200',
  'market.products.0.cash': '140',
  'market.products.1.cash': '50',
  'market.card': '33',
}

test('products that come to less than the cash are asked about at the cash, and the rest is of no product with a yes', async () => {
  const asked = await app.post(page, day(short))
  expect(asked.status).toBe(422)
  const html = await asked.text()
  expect(html).toContain('The products come to $190.00, and this is $200.00: $10.00 would be of no product.')
  expect(html).toContain('href="#f-market.cash"')
  expect(noted()).toEqual([])
  const form = fieldsOf(browserForms(html, page).find(({ action }) => action === page)!)
  expect(form).toMatchObject(short)
  const [, question] = /name="sure\[\]" value="([^"]*)"/.exec(html)!
  // A yes to other amounts says nothing of these.
  expect((await app.post(page, { ...form, 'sure[]': question!, 'market.cash': '210' })).status).toBe(422)
  expect((await app.post(page, { ...form, 'sure[]': question! })).status).toBe(303)
  expect(noted()).toEqual([
    [
      ['', 'card', 3300],
      ['', 'cash', 1000],
      ['corn', 'cash', 14_000],
      ['eggs', 'cash', 5000],
    ],
  ])
})

test('products that come to more are refused with by how much; what adds up, or is not told apart, is not asked about', async () => {
  const more = await app.post(page, day({ ...short, 'market.cash': '180' }))
  expect(more.status).toBe(422)
  expect(await more.text()).toContain('The products come to $190.00, $10.00 more than this.')
  const card = await app.post(
    page,
    day({ 'market.card': '100', 'market.products.0.card': '40', 'market.products.0.cash': '9' }),
  )
  expect(card.status).toBe(422)
  expect(await card.text()).toContain('href="#f-market.card"')
  for (const over of [
    { 'market.cash': '200' },
    { ...short, 'market.cash': '190' },
    { ...short, 'market.cash': '', 'market.products.0.cash': '141' },
  ])
    expect((await app.post(page, day(over))).status).toBe(303)
})
