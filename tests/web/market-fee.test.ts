// What a market day cost to stand there reaches the books once, however it was paid: out of the day's cash, from an account of the farm,
// by the bank's line that comes, or out of somebody's own pocket. All worked by hand.
import { randomUUID } from 'node:crypto'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { listCrossings } from '#db/ledger/crossing-store.ts'
import { sortingDesk } from '#db/statements/sorting-desk.ts'
import { sortLines } from '#db/statements/sorting-store.ts'
import { importStatement } from '#db/statements/statement-store.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { cents } from '#money/cents.ts'
import { statementFile } from '../db/statement-file.ts'
import { browserForms, fieldsOf } from './browser-form.ts'
import { type TestApp, testApp } from './test-app.ts'

// Two who sell sweet corn and eggs on Saturdays, $140 and $60 in cash, and pay $25 for the stand.
let app: TestApp
const table = '/farm/notebook/table'
const account = (name: string) => String(listAccounts(app.books).find((one) => one.name === name)!.id)
const balance = (name: string) => balancesOn(app.books).get(Number(account(name))) ?? 0

beforeEach(() => {
  app = testApp({ today: '2026-07-20' })
  app.openSides()
  app.savePlan({
    name: 'Corn and eggs',
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
afterEach(() => {
  // Whatever was settled: each side balances, and the file proves itself.
  expect(verifyBooks(app.books.sqlite).findings).toEqual([])
  app.close()
})

const noted = async (on = '2026-07-18', over: Record<string, string> = {}) => {
  const reply = await app.post('/farm/notebook/market', {
    formId: randomUUID(),
    'market.market': 'saturday',
    'market.day': on,
    'market.products.0.enterprise': 'corn',
    'market.products.0.cash': '140',
    'market.products.1.enterprise': 'eggs',
    'market.products.1.cash': '60',
    'market.fee': '25',
    ...over,
  })
  expect(reply.status).toBe(303)
}

/** The form of the day that has waited longest, as it opens. */
const waiting = async () => {
  const html = await (await app.get(table)).text()
  const form = browserForms(html, table).find(({ action }) => action.startsWith(`${table}/market/`))
  return form && { action: form.action, fields: fieldsOf(form) }
}

const settle = async (over: Record<string, string | string[]>, formId: string = randomUUID()) => {
  const form = (await waiting())!
  const said = {
    ...form.fields,
    formId,
    cash: account('Cash box'),
    sales: account('Vegetables and fruit sold'),
    'more.0.sales': account('Eggs and poultry sold'),
    feeCost: account('Market fees and dues'),
    ...over,
  }
  return { reply: await app.post(form.action, said), again: () => app.post(form.action, said) }
}

/** Where the newest act of these words is taken back. */
const undoOf = async (words: string) => {
  const html = await (await app.get('/books/acts')).text()
  return /action="(\/undo\/\d+[^"]*)"/.exec(html.slice(html.indexOf(words)))![1]!.replaceAll('&amp;', '&')
}

const sold = () => [balance('Vegetables and fruit sold'), balance('Eggs and poultry sold')]

test('where two costs could be the fee, or none is called so, none is proposed', async () => {
  await noted('2026-07-18')
  const rename = (from: string, to: string) =>
    app.books.sqlite.prepare('UPDATE accounts SET name = ? WHERE name = ?').run(to, from)
  rename('Packaging', 'Winter market fees')
  expect((await waiting())!.fields['feeCost']).toBe('')
  rename('Winter market fees', 'Packaging')
  rename('Market fees and dues', 'Dues')
  expect((await waiting())!.fields['feeCost']).toBe('')
  rename('Dues', 'Market fees and dues')
})

test('a fee is asked about, and nothing is booked before it is said how it was paid', async () => {
  await noted()
  // The one cost that is called after it is proposed; how it was paid is not.
  expect((await waiting())!.fields).toMatchObject({ fee: '', feeCost: account('Market fees and dues') })
  const { reply } = await settle({})
  expect(reply.status).toBe(422)
  const page = await reply.text()
  expect(page).toContain('Say how the fee was paid')
  expect(page).toContain('-fee"')
  // Cash lies on no card, and nobody pays for a stand out of retirement savings.
  const [cash, fee] = ['cash', 'fee'].map(
    (name) => new RegExp(`<select[^>]* name="${name}"[\\s\\S]*?</select>`).exec(page)![0],
  )
  expect([cash!.includes('Farm card'), fee!.includes('Farm card')]).toEqual([false, true])
  expect([fee!.includes('Household card'), fee!.includes('Retirement'), fee!.includes('Taxable')]).toEqual([
    true,
    false,
    false,
  ])
  expect([balance('Cash box'), ...sold()]).toEqual([0, 0, 0])
  const { reply: noCost } = await settle({ fee: 'takings', feeCost: '' })
  expect(noCost.status).toBe(422)
  expect(await noCost.text()).toContain('Choose the cost that a fee is')
})

test('out of the day’s cash: what was sold stands whole, the box holds what is left, and it is booked once', async () => {
  await noted()
  const { reply, again } = await settle({ fee: 'takings' })
  expect([reply.status, (await again()).status]).toEqual([303, 303])
  expect([balance('Cash box'), ...sold(), balance('Market fees and dues')]).toEqual([
    17_500, -14_000, -6000, 2500,
  ])
  expect(await waiting()).toBeUndefined()
  // The next day opens with what was said.
  await noted('2026-07-11')
  expect((await waiting())!.fields).toMatchObject({
    cash: account('Cash box'),
    fee: 'takings',
    feeCost: account('Market fees and dues'),
  })
})

test('out of cash that goes to the bank: the line brings $175, the fee and its part of what was sold are booked', async () => {
  await noted()
  const { reply } = await settle({ cash: '', fee: 'takings' })
  expect(reply.status).toBe(303)
  // 25 is 17.50 of corn and 7.50 of eggs, as 140 is to 60.
  expect([...sold(), balance('Market fees and dues')]).toEqual([-1750, -750, 2500])
  const line = { bankNumber: '1', day: day('2026-07-20'), amount: cents(17_500), payee: 'DEPOSIT' }
  await readIn('Farm checking', line)
  const { line: deposit, proposal } = sortingDesk(app.books).lines[0]!
  expect(proposal?.kind).not.toBe('entry')
  const target = {
    kind: 'account',
    accountId: Number(account('Vegetables and fruit sold')),
    enterpriseId: null,
  } as const
  expect(sortLines(app.books, act(), [{ lineId: deposit.id, kind: 'target', target }]).ok).toBe(true)
  // All that was sold, once: 200.
  expect(sold().reduce((sum, one) => sum + one, 0)).toBe(-20_000)
})

const act = () => ({ formId: randomUUID(), at: '2026-07-20T00:00:00.000Z', actor: 'test' })

const readIn = async (
  name: string,
  line: { bankNumber: string; day: ReturnType<typeof day>; amount: ReturnType<typeof cents>; payee: string },
) =>
  expect(
    importStatement(app.books, act(), Number(account(name)), statementFile([line]), day('2026-07-20')).ok,
  ).toBe(true)

const feeLine = (on: string) => ({
  bankNumber: '7',
  day: day(on),
  amount: cents(-2500),
  payee: 'SATURDAY MKT ASSN',
})

test('from an account of the farm: the bank’s line that comes later is the one that is booked', async () => {
  await noted()
  const { reply } = await settle({ fee: account('Farm checking') })
  expect(reply.status).toBe(303)
  expect([balance('Cash box'), ...sold(), balance('Market fees and dues'), balance('Farm checking')]).toEqual(
    [20_000, -14_000, -6000, 2500, -2500],
  )
  await readIn('Farm checking', feeLine('2026-07-20'))
  const { line, proposal } = sortingDesk(app.books).lines[0]!
  expect(proposal).toMatchObject({ kind: 'entry', payee: 'Saturday market' })
  if (proposal?.kind !== 'entry') return
  expect(
    sortLines(app.books, act(), [{ lineId: line.id, kind: 'entry', postingId: proposal.postingId }]).ok,
  ).toBe(true)
  expect([balance('Market fees and dues'), balance('Farm checking')]).toEqual([2500, -2500])
  await noted('2026-07-11')
  expect((await waiting())!.fields.fee).toBe(account('Farm checking'))
})

test('a line of the bank that is booked already is asked about, and not booked a second time unless it is another', async () => {
  await noted()
  await readIn('Farm checking', feeLine('2026-07-17'))
  const target = {
    kind: 'account',
    accountId: Number(account('Market fees and dues')),
    enterpriseId: null,
  } as const
  const lineId = sortingDesk(app.books).lines[0]!.line.id
  expect(sortLines(app.books, act(), [{ lineId, kind: 'target', target }]).ok).toBe(true)
  const { reply } = await settle({ fee: account('Farm checking') })
  expect(reply.status).toBe(422)
  const page = await reply.text()
  expect(page).toContain('Farm checking has −$25.00 on Jul 17, 2026')
  expect([balance('Market fees and dues'), balance('Cash box')]).toEqual([2500, 0])
  // It is that line: its statement shows it.
  expect((await settle({ fee: 'line' })).reply.status).toBe(303)
  expect([balance('Market fees and dues'), balance('Cash box')]).toEqual([2500, 20_000])
})

test('another payment of the same amount is booked with a yes', async () => {
  await noted()
  await readIn('Farm checking', feeLine('2026-07-17'))
  const target = { kind: 'account', accountId: Number(account('Land rent')), enterpriseId: null } as const
  const lineId = sortingDesk(app.books).lines[0]!.line.id
  expect(sortLines(app.books, act(), [{ lineId, kind: 'target', target }]).ok).toBe(true)
  const page = await (await settle({ fee: account('Farm checking') })).reply.text()
  const form = browserForms(page, table).find(({ action }) => action.startsWith(`${table}/market/`))!
  const box = /name="sure\[\]" value="([^"]*)"/.exec(page)![1]!
  const yes = await app.post(form.action, {
    ...fieldsOf(form),
    'sure[]': box.replaceAll('&#39;', "'").replaceAll('&amp;', '&'),
  })
  expect(yes.status).toBe(303)
  expect([balance('Market fees and dues'), balance('Farm checking')]).toEqual([2500, -5000])
})

test('by the bank’s line: only the cash is booked now, and the line brings the fee', async () => {
  await noted()
  expect((await settle({ fee: 'line', feeCost: '' })).reply.status).toBe(303)
  expect([balance('Cash box'), ...sold(), balance('Market fees and dues')]).toEqual([
    20_000, -14_000, -6000, 0,
  ])
  await noted('2026-07-11')
  expect((await waiting())!.fields.fee).toBe('line')
})

test('a fee that was to come by the bank’s line, or that nobody asked about, is an open point of the pack until some account has it', async () => {
  const gaps = async () => {
    const pack = (await (await app.get('/year-pack.json?year=2026')).json()) as { gaps: { says: string }[] }
    return pack.gaps.map(({ says }) => says).filter((says) => says.startsWith('Fees of market days'))
  }
  for (const on of ['2026-07-04', '2026-07-18']) {
    await noted(on)
    expect((await settle({ fee: 'line', feeCost: '' })).reply.status).toBe(303)
  }
  const sort = async (line: Parameters<typeof readIn>[1], to: string) => {
    await readIn('Farm checking', line)
    const found = sortingDesk(app.books).lines.find((one) => one.line.amount === line.amount)!
    const target = { kind: 'account', accountId: Number(account(to)), enterpriseId: null } as const
    expect(sortLines(app.books, act(), [{ lineId: found.line.id, kind: 'target', target }]).ok).toBe(true)
  }
  await sort({ bankNumber: '3', day: day('2026-07-20'), amount: cents(-4100), payee: 'FEED STORE' }, 'Feed')
  // By July 20 the line of July 4 would be there; that of July 18 may come until July 23.
  expect(await gaps()).toEqual([
    'Fees of market days: 1 of 2026 is settled, and no account has a payment of $25.00 near its day. Unless fees were paid together or at another time, record them: they are in no costs.',
  ])
  await sort(feeLine('2026-07-06'), 'Market fees and dues')
  expect(await gaps()).toEqual([])
})

test('out of somebody’s own pocket: a contribution to the farm, that is taken back with the whole day', async () => {
  await noted()
  const { reply, again } = await settle({ fee: account('Household checking') })
  expect([reply.status, (await again()).status]).toEqual([303, 303])
  const now = () => [
    balance('Cash box'),
    ...sold(),
    balance('Market fees and dues'),
    balance('Household checking'),
  ]
  expect(now()).toEqual([20_000, -14_000, -6000, 2500, -2500])
  const crossings = listCrossings(app.books)
  expect(crossings.map(({ kind, amountCents }) => [kind, amountCents])).toEqual([['contribution', 2500]])
  // From the house's account to what it paid for, not to the cash beside it.
  expect(crossings[0]!.halves.map(({ accountName }) => accountName).sort()).toEqual([
    'Household checking',
    'Market fees and dues',
  ])
  await noted('2026-07-11')
  expect((await waiting())!.fields.fee).toBe(account('Household checking'))
  expect((await app.post(await undoOf('market day was settled'), { formId: randomUUID() })).status).toBe(303)
  expect(now()).toEqual([0, 0, 0, 0, 0])
  // The day waits again, with its fee.
  const days = browserForms(await (await app.get(table)).text(), table).filter(({ action }) =>
    action.startsWith(`${table}/market/`),
  )
  expect(days.map((form) => 'fee' in fieldsOf(form))).toEqual([true, true])
})

test('where all was paid by card the fee alone is asked about, and more than the day’s cash is no way', async () => {
  await noted('2026-07-18', {
    'market.products.0.cash': '',
    'market.products.1.cash': '',
    'market.products.0.card': '200',
  })
  const fields = (await waiting())!.fields
  expect(fields).not.toHaveProperty('cash')
  expect((await settle({ fee: 'takings' })).reply.status).toBe(422)
  expect((await settle({ fee: account('Cash box') })).reply.status).toBe(303)
  expect([balance('Cash box'), balance('Market fees and dues'), ...sold()]).toEqual([-2500, 2500, 0, 0])
  expect(await waiting()).toBeUndefined()
  // A day of cards says nothing of where cash goes.
  await noted('2026-07-11', { 'market.products.0.cash': '10', 'market.products.1.cash': '' })
  const form = (await waiting())!.fields
  expect(form.cash).toBe('')
  expect((await settle({ fee: 'takings' })).reply.status).toBe(422)
})

test('what was left to the bank by mistake waits again by a press, in the list of what was done', async () => {
  await noted()
  const { reply } = await settle({ cash: '', fee: 'line', feeCost: '' })
  expect(reply.status).toBe(303)
  const undo = await undoOf('market day was settled')
  expect(await waiting()).toBeUndefined()
  const formId = randomUUID()
  for (const _ of [1, 2]) expect((await app.post(undo, { formId })).status).toBe(303)
  expect((await waiting())!.fields).toMatchObject({ fee: '' })
  // Settled anew, with an entry, the old press takes nothing back.
  expect((await settle({ fee: 'takings' })).reply.status).toBe(303)
  expect((await app.post(undo, { formId: randomUUID() })).status).toBe(303)
  expect([balance('Cash box'), balance('Market fees and dues')]).toEqual([17_500, 2500])
  expect(await waiting()).toBeUndefined()
})

test('goods of which nothing was booked wait again by a press', async () => {
  const goods = {
    formId: randomUUID(),
    'goods.day': '2026-07-12',
    'goods.kind': 'kitchen',
    'goods.what': 'corn',
    'goods.quantity': '2',
    'goods.unit': 'dozen',
    'goods.tradedFor': '',
  }
  expect((await app.post('/farm/notebook/goods', goods)).status).toBe(303)
  const actions = async () =>
    browserForms(await (await app.get(table)).text(), table)
      .map(({ action }) => action)
      .filter((action) => action.startsWith(`${table}/goods/`))
  const [action] = await actions()
  expect((await app.post(`${action}/aside`, { formId: randomUUID() })).status).toBe(303)
  expect(await actions()).toEqual([])
  const undo = await undoOf('were looked at, and nothing is booked')
  expect((await app.post(undo, { formId: randomUUID() })).status).toBe(303)
  expect(await actions()).toEqual([action])
})

test('many days that the bank’s statements show are settled by one press, those that were on the page and no others', async () => {
  for (const on of ['2026-06-27', '2026-07-04', '2026-07-11']) await noted(on, { 'market.card': '12' })
  const html = await (await app.get(table)).text()
  expect(html).toContain('All 3: the bank’s statements show cash and fees')
  const form = browserForms(html, table).find(({ action }) => action === `${table}/markets`)!
  await noted('2026-07-18')
  const fields = fieldsOf(form)
  for (const _ of [1, 2]) expect((await app.post(form.action, fields)).status).toBe(303)
  const left = await (await app.get(table)).text()
  expect(
    browserForms(left, table).filter(({ action }) => action.startsWith(`${table}/market/`)),
  ).toHaveLength(1)
  expect(left).toContain('Jul 18, 2026')
  expect(left).not.toContain('the bank’s statements show cash and fees')
  expect([...sold(), balance('Cash box'), balance('Market fees and dues')]).toEqual([0, 0, 0, 0])
  // One of them by itself waits again.
  expect((await app.post(await undoOf('market day was settled'), { formId: randomUUID() })).status).toBe(303)
  expect(
    browserForms(await (await app.get(table)).text(), table).filter(({ action }) =>
      action.startsWith(`${table}/market/`),
    ),
  ).toHaveLength(2)
})
