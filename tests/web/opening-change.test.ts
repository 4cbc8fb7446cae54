// Opening balances changed in the fields they were entered in: entries corrected underneath, nothing booked since touched. A house of its own.
import { randomUUID } from 'node:crypto'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { listAccounts } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
beforeEach(() => {
  app = testApp({ today: '2026-06-15' })
  app.openSides()
})
afterEach(() => {
  expect(verifyBooks(app.books.sqlite).findings).toEqual([])
  app.close()
})

const id = (name: string) => listAccounts(app.books).find((one) => one.name === name)!.id
const balance = (name: string, on?: string) => balancesOn(app.books, on as never).get(id(name)) ?? 0

/** The step's form as the browser has it, with some balances typed over by the names of their accounts. */
const formWith = async (typed: Record<string, string>) => {
  const html = await (await app.get('/start/accounts')).text()
  const values = [...html.matchAll(/<input[^>]*name="([^"]+)"[^>]*>/g)].map(
    ([tag, name]): [string, string] => [name!, / value="([^"]*)"/.exec(tag)?.[1] ?? ''],
  )
  const fields = Object.fromEntries(values)
  for (const [name, amount] of Object.entries(typed)) {
    const at = values.find(([field, value]) => field.endsWith('.account') && value === String(id(name)))![0]
    fields[at.replace('account', 'amount')] = amount
  }
  const action = /action="(\/start\/accounts[^"]*)"/.exec(html)![1]!
  return { html, action, fields }
}

const begin = async () => {
  const { action, fields } = await formWith({
    'Household checking': '1,200',
    'Household card': '300',
    'Farm checking': '5,000',
  })
  expect(action).toBe('/start/accounts')
  expect((await app.post(action, { ...fields, day: '2026-06-01' })).status).toBe(303)
}

test('the step shows the balances as they were entered, and what is changed there is changed in the books', async () => {
  await begin()
  const opened = await formWith({ 'Household checking': '1,250.50', 'Household card': '', Savings: '10,000' })
  expect(opened.action).toBe('/start/accounts/change')
  expect(opened.html).toContain('value="1200.00"')
  expect(opened.html).toContain('Jun 1, 2026')
  // Sent twice it is the same success.
  for (let time = 0; time < 2; time += 1)
    expect((await app.post(opened.action, opened.fields)).status).toBe(303)
  expect([
    balance('Household checking'),
    balance('Household card'),
    balance('Savings'),
    balance('Farm checking'),
  ]).toEqual([125_050, 0, 1_000_000, 500_000])
  // The whole opening of the house is one entry that stands in for the first: 1,250.50 and 10,000 against equity.
  expect(balance('Household checking', '2026-06-01')).toBe(125_050)
  const again = await formWith({})
  expect(again.html).toContain('value="10000.00"')
  const unchanged = await app.post(again.action, again.fields)
  expect(await (await app.get(unchanged.headers.get('location')!)).text()).toContain('Nothing was changed.')
})

test('a side without any gets its first opening entry on the first day, and what was booked since stays', async () => {
  const { action, fields } = await formWith({ 'Household checking': '1,200' })
  await app.post(action, { ...fields, day: '2026-06-01' })
  await app.post('/books/entry', {
    formId: randomUUID(),
    side: 'household',
    kind: 'out',
    day: '2026-06-10',
    payee: 'Corner store',
    moneyAccount: String(id('Household checking')),
    'lines.0.account': String(id('Groceries')),
    'lines.0.amount': '50',
  })
  const change = await formWith({ 'Farm checking': '700', 'Household checking': '' })
  expect((await app.post(change.action, change.fields)).status).toBe(303)
  expect([
    balance('Farm checking', '2026-06-01'),
    balance('Household checking'),
    balance('Groceries'),
  ]).toEqual([70_000, -5000, 5000])
})

test('an amount that is none comes back at its field with all that was typed, and nothing is changed', async () => {
  await begin()
  const { action, fields } = await formWith({ 'Household checking': 'lots', Savings: '44' })
  const reply = await app.post(action, fields)
  expect(reply.status).toBe(422)
  const html = await reply.text()
  expect(html).toContain('value="lots"')
  expect(html).toContain('value="44"')
  expect(balance('Household checking')).toBe(120_000)
})

test('a minus where what is owed is asked for is refused, on the first visit and later; only an overpaid card may have one', async () => {
  const first = await formWith({ 'Household checking': '6,240', 'Term loan': '-9800' })
  const refused = await app.post(first.action, { ...first.fields, day: '2026-06-01' })
  expect(refused.status).toBe(422)
  expect(await refused.text()).toContain('Term loan: enter what you owe without a minus')
  await begin()
  const later = await formWith({ 'Term loan': '-9800', 'Household card': '-40' })
  const again = await app.post(later.action, later.fields)
  expect(again.status).toBe(422)
  const html = await again.text()
  expect(html).toContain('Term loan: enter what you owe without a minus')
  expect(html).toContain('Household card is overpaid: its bank owes us this')
  expect([balance('Term loan'), balance('Household card')]).toEqual([0, -30_000])
  const box = `overpaid_${id('Household card')}`
  const meant = await formWith({ 'Household card': '-40' })
  expect((await app.post(meant.action, { ...meant.fields, [box]: 'yes' })).status).toBe(303)
  expect(balance('Household card')).toBe(4000)
})

test('all that is wrong on the first day is said at once, each at its field', async () => {
  const { action, fields } = await formWith({ 'Household checking': 'four thousand' })
  const html = await (await app.post(action, { ...fields, day: '1999-03-01' })).text()
  expect(html).toContain('href="#f-day"')
  expect(html).toMatch(/href="#f-balances\.\d+\.amount"|href="#f-balances-\d+-amount"/)
})

test('going on from balances that are in the books saves what was changed', async () => {
  await begin()
  const opened = await formWith({ Savings: '250' })
  expect(opened.html).toMatch(/name="next" value="owned"/)
  const reply = await app.post(opened.action, { ...opened.fields, next: 'owned' })
  expect(reply.headers.get('location')).toMatch(/^\/start\/owned/)
  expect(balance('Savings')).toBe(25_000)
})
