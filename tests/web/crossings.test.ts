import { afterAll, beforeAll, expect, test } from 'vitest'
import { monthText } from '#calendar/month.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { listStanding } from '#db/transfers/standing-store.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
const formId = (n: number) => `00000000-0000-4000-8000-${String(n).padStart(12, '0')}`
const account = (name: string, side?: string) =>
  String(
    listAccounts(app.books).find((one) => one.name === name && (!side || one.sideId === side))?.id ?? name,
  )

beforeAll(() => {
  app = testApp({ today: '2026-03-15' })
  app.openSides()
})
afterAll(() => {
  app.close()
})

const crossing = (over: Record<string, string> = {}) => ({
  formId: formId(1),
  kind: 'contribution',
  day: '2026-01-10',
  amount: '4,000',
  fromAccount: account('Household checking'),
  toAccount: account('Farm checking'),
  memo: 'second propagation house',
  ...over,
})

interface Figures {
  equity: { side: { id: string }; equityCents: number }[]
  leak: { leakCents: number; runningCents: number }[]
  history: { kindName: string; isTakenBack: boolean }[]
  due: { name: string; isMissed: boolean }[]
}
const figures = async () => (await (await app.get('/crossings.json')).json()) as Figures

test('a contribution leaves the household, reaches the farm, and is the leak', async () => {
  expect((await app.post('/crossings/new', crossing())).status).toBe(303)
  expect((await app.post('/crossings/new', crossing())).status).toBe(303)
  const now = await figures()
  expect(now.equity.map((one) => [one.side.id, one.equityCents])).toEqual([
    ['farm', 400000],
    ['household', -400000],
  ])
  expect(now.leak.at(-1)?.runningCents).toBe(400000)
  expect(now.history).toHaveLength(1)
})

test('a draw takes from the leak, and the wrong way round is refused at the field', async () => {
  const ends = { fromAccount: account('Farm checking'), toAccount: account('Household checking') }
  const done = await app.post(
    '/crossings/new',
    crossing({ ...ends, formId: formId(2), kind: 'draw', amount: '800' }),
  )
  expect(done.status).toBe(303)
  expect((await figures()).leak.at(-1)?.runningCents).toBe(320000)
  const wrong = await app.post('/crossings/new', crossing({ formId: formId(3), kind: 'draw' }))
  expect(wrong.status).toBe(422)
  expect(await wrong.text()).toContain('goes to the household')
})

test('farm goods used at home are a memo of quantity and price, and no money moves', async () => {
  const reply = await app.post('/crossings/new', {
    formId: formId(4),
    kind: 'goods_used_at_home',
    day: '2026-03-01',
    quantity: '12',
    unit: 'dozen eggs',
    unitPrice: '4.50',
    fromAccount: account('Value of goods used at home'),
    toAccount: account('Food from the farm'),
    memo: 'eggs',
  })
  expect(reply.status).toBe(303)
  const books = (await (await app.get('/books.json')).json()) as { gates: { amountCents: number }[] }
  expect(books.gates[0]?.amountCents).toBe(5400)
  expect((await figures()).leak.at(-1)?.runningCents).toBe(320000)
})

test('a standing transfer waits for a yes, is caught up for missed months, and never posts twice', async () => {
  const reply = await app.post('/crossings/standing/new', {
    formId: formId(5),
    replaces: '',
    name: 'monthly draw',
    kind: 'draw',
    amount: '300',
    fromAccount: account('Farm checking'),
    toAccount: account('Household checking'),
    dayOfMonth: '5',
    firstMonth: '2026-01',
    lastMonth: '',
    posting: 'confirm',
  })
  expect(reply.status).toBe(303)
  expect((await figures()).due.map((one) => one.isMissed)).toEqual([true, true, false])
  const id = listStanding(app.books)[0]!.id
  const post = { formId: formId(6), month: '2026-01' }
  expect((await app.post(`/crossings/standing/${id}/post`, post)).status).toBe(303)
  expect((await app.post(`/crossings/standing/${id}/post`, post)).status).toBe(303)
  expect(
    (await app.post(`/crossings/standing/${id}/skip`, { formId: formId(7), month: '2026-02' })).status,
  ).toBe(303)
  expect((await app.post('/crossings/standing/catch-up', { formId: formId(8) })).status).toBe(303)
  const now = await figures()
  expect(now.due).toEqual([])
  expect(now.leak.at(-1)?.runningCents).toBe(320000 - 60000)
})

test('a standing transfer gets new terms from a month on, and ends', async () => {
  const id = listStanding(app.books)[0]!.id
  const form = await (await app.get(`/crossings/standing/new?from=${id}`)).text()
  expect(form).toContain(`name="replaces" value="${id}"`)
  expect(form).toContain('value="300.00"')
  const end = await app.post(`/crossings/standing/${id}/end`, {
    formId: formId(9),
    firstMonthWithout: 'soon',
  })
  expect(end.status).toBe(422)
  const ended = await app.post(`/crossings/standing/${id}/end`, {
    formId: formId(10),
    firstMonthWithout: '2026-04',
  })
  expect(ended.status).toBe(303)
})

test('new terms from a month on keep the last month and the note that the transfer had', async () => {
  const terms = {
    name: 'hay money',
    kind: 'draw',
    amount: '300',
    fromAccount: account('Farm checking'),
    toAccount: account('Household checking'),
    dayOfMonth: '9',
    firstMonth: '2026-05',
    lastMonth: '2027-10',
    posting: 'confirm',
  }
  await app.post('/crossings/standing/new', { ...terms, formId: formId(20), replaces: '' })
  const { id } = listStanding(app.books).find((one) => one.name === 'hay money')!
  app.books.sqlite.prepare("UPDATE standing_transfers SET memo = 'for the loft' WHERE id = ?").run(id)
  const form = await (await app.get(`/crossings/standing/new?from=${id}`)).text()
  const lastMonth = /name="lastMonth"[^>]*value="([^"]*)"|value="([^"]*)"[^>]*name="lastMonth"/.exec(form)
  expect(lastMonth?.[1] ?? lastMonth?.[2]).toBe('2027-10')
  const more = { formId: formId(21), replaces: id, amount: '350', firstMonth: '2026-08' }
  expect((await app.post('/crossings/standing/new', { ...terms, ...more })).status).toBe(303)
  const kept = listStanding(app.books).filter((one) => one.name === 'hay money')
  expect(kept.map((one) => [monthText(one.firstMonth), monthText(one.lastMonth!), one.memo])).toEqual([
    ['2026-05', '2026-07', 'for the loft'],
    ['2026-08', '2027-10', 'for the loft'],
  ])
})

test('a loan between sides opens with an account of each side, and can be sent as it stands', async () => {
  const form = await (await app.get('/crossings/new?kind=loan')).text()
  const chosen = (name: string) =>
    /<option value="(\d+)" selected/.exec(
      new RegExp(`<select[^>]*name="${name}"[\\s\\S]*?</select>`).exec(form)![0],
    )![1]!
  const ends = { fromAccount: chosen('fromAccount'), toAccount: chosen('toAccount') }
  const sideOf = (id: string) => listAccounts(app.books).find((one) => String(one.id) === id)!.sideId
  expect(sideOf(ends.fromAccount)).not.toBe(sideOf(ends.toAccount))
  const sent = await app.post(
    '/crossings/new',
    crossing({ ...ends, formId: formId(30), kind: 'loan', amount: '10' }),
  )
  expect(sent.status).toBe(303)
})

test('a repayment without a loan between the sides is refused at its field, and one of more than is owed too', async () => {
  const [lent, borrowed] = [account('Farm checking'), account('Household checking')]
  const repay = (n: number, amount: string, ends: object) =>
    app.post('/crossings/new', crossing({ ...ends, formId: formId(n), kind: 'repayment', amount }))
  const said = async (reply: Promise<Response>) => {
    const { status } = await reply
    return [status, await (await reply).text()] as const
  }
  const before = await (await app.get('/crossings.json')).text()
  // The loan of ten above, whichever side lent it; the other one lent nothing.
  const loan = app.books.sqlite
    .prepare("SELECT from_side_id FROM crossings WHERE kind = 'loan'")
    .pluck()
    .get()
  const back =
    loan === 'farm' ? { fromAccount: borrowed, toAccount: lent } : { fromAccount: lent, toAccount: borrowed }
  const wrong = { fromAccount: back.toAccount, toAccount: back.fromAccount }
  const [none, why] = await said(repay(31, '20', wrong))
  expect(none).toBe(422)
  expect(why).toContain('so there is no loan to repay')
  const [more, says] = await said(repay(32, '20', back))
  expect(more).toBe(422)
  expect(says).toContain('$10.00 in these books: enter that or less')
  expect(says).toContain('value="20"')
  expect(await (await app.get('/crossings.json')).text()).toBe(before)
  expect((await repay(33, '4', back)).status).toBe(303)
  expect((await repay(33, '4', back)).status).toBe(303)
  expect((await repay(34, '6.01', back)).status).toBe(422)
  expect((await repay(35, '6', back)).status).toBe(303)
  expect((await repay(36, '0.01', back)).status).toBe(422)
})

test('every page of the crossings answers, and the leak goes out as CSV', async () => {
  for (const path of [
    '/crossings',
    '/crossings/house-money',
    '/crossings/history?kind=draw',
    '/crossings/new?kind=goods_used_at_home',
    '/crossings/standing/new',
  ]) {
    expect((await app.get(path)).status).toBe(200)
  }
  const csv = await (await app.get('/crossings.csv?table=leak')).text()
  expect(csv.split('\r\n').slice(0, 2)).toEqual([
    'month,contributions,draws,reimbursements,change,house money in the farm',
    '2026-01,4000.00,1100.00,0.00,2900.00,2900.00',
  ])
  expect((await app.get('/crossings.csv?table=nothing')).status).toBe(404)
})
