import { afterEach, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { type Month, month } from '#calendar/month.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { checklistOf } from '#db/reconcile/closing-store.ts'
import { moneyOut } from '#ledger/simple-entry.ts'
import { cents } from '#money/cents.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
let forms = 0
const at = '2026-03-15T12:00:00.000Z'
const formId = () => `00000000-0000-4000-8000-${String(++forms).padStart(12, '0')}`
const account = (name: string) => listAccounts(app.books).find((one) => one.name === name)!.id

beforeEach(() => {
  app = testApp({ today: '2026-03-15' })
  app.openSides()
  for (const [day, amount, payee] of [
    ['2026-01-05', 3200, 'Corner Pharmacy'],
    ['2026-01-20', 800, 'Country store'],
  ] as const) {
    const draft = moneyOut(
      { id: '', sideId: 'farm', day: day as never, payee, memo: '' },
      account('Farm checking'),
      [{ accountId: account('Supplies'), amountCents: cents(amount) }],
    )
    const done = postEntry(app.books, { formId: formId(), at, actor: 'test' }, draft)
    if (!done.ok) throw new Error(JSON.stringify(done.problems))
  }
})
afterEach(() => {
  app.close()
})

const json = async (path: string) => (await app.get(path)).json() as Promise<never>
type Ticking = { differenceCents: number; state: string; lines: { postingId: number; ticked: boolean }[] }

const startStatement = async (balance: string) => {
  const started = await app.post('/books/reconcile', {
    formId: formId(),
    account: String(account('Farm checking')),
    statementDay: '2026-01-31',
    balance,
    note: '',
  })
  return started.headers.get('location')!.split('?')[0]!
}

test('a statement is checked, shows what is left over, and is finished when nothing is', async () => {
  const page = await startStatement('-40.00')
  const before = (await json(`${page}.json`)) as Ticking
  expect(before.differenceCents).toBe(-4000)
  const shown = before.lines.map((line) => `${line.postingId}.0`)
  const [first, second] = before.lines.map((line) => String(line.postingId))
  const early = await app.post(`${page}/ticks`, {
    formId: formId(),
    'shown[]': shown,
    'ticked[]': [first!],
    next: 'finish',
  })
  expect(early.status).toBe(422)
  expect(await early.text()).toContain('differ by −$8.00')
  const late = await app.post(`${page}/ticks`, {
    formId: formId(),
    'shown[]': [`${first}.1`, `${second}.0`],
    'ticked[]': [first!, second!],
    next: 'finish',
  })
  expect(late.status).toBe(303)
  expect(((await json(`${page}.json`)) as Ticking).state).toBe('finished')
  const unsaid = await app.post(`${page}/reopen`, { formId: formId(), reason: '' })
  expect(unsaid.status).toBe(422)
  expect(
    (await app.post(`${page}/reopen`, { formId: formId(), reason: 'the bank corrected it' })).status,
  ).toBe(303)
  expect(((await json(`${page}.json`)) as Ticking).state).toBe('open')
})

test('ticks set at two screens come together: a stale form takes nothing back', async () => {
  const page = await startStatement('-40.00')
  const { lines } = (await json(`${page}.json`)) as Ticking
  const [first, second] = lines.map((line) => String(line.postingId))
  const shown = [`${first}.0`, `${second}.0`]
  await app.post(`${page}/ticks`, { formId: formId(), 'shown[]': shown, 'ticked[]': [first!], next: 'stay' })
  await app.post(`${page}/ticks`, { formId: formId(), 'shown[]': shown, 'ticked[]': [second!], next: 'stay' })
  expect(((await json(`${page}.json`)) as Ticking).lines.map((line) => line.ticked)).toEqual([true, true])
})

test('a statement without a day or with a word for a balance comes back with what was typed', async () => {
  const reply = await app.post('/books/reconcile', {
    formId: formId(),
    account: '',
    statementDay: '',
    balance: 'lots',
    note: 'blue folder',
  })
  const text = await reply.text()
  expect(reply.status).toBe(422)
  expect(text).toContain('Choose a bank or card account')
  expect(text).toContain('value="lots"')
  expect(text).toContain('value="blue folder"')
})

test('a mistyped statement is put right on its page, keeps the ticks, and shows what another screen did', async () => {
  const page = await startStatement('-4.00')
  const { lines } = (await json(`${page}.json`)) as Ticking
  const shown = lines.map((line) => `${line.postingId}.0`)
  const ticked = lines.map((line) => String(line.postingId))
  await app.post(`${page}/ticks`, { formId: formId(), 'shown[]': shown, 'ticked[]': ticked, next: 'stay' })
  const seen = { 'seen.statementDay': '2026-01-31', 'seen.balance': '-4.00', 'seen.note': '' }
  const right = { statementDay: '2026-01-31', balance: '-40.00', note: 'blue folder' }
  const wrong = await app.post(`${page}/change`, { formId: formId(), ...right, balance: 'lots', ...seen })
  expect(wrong.status).toBe(422)
  const again = await wrong.text()
  expect(again).toContain('<details open')
  expect(again).toMatch(/<input id="f-balance"[^>]*value="lots"[^>]*aria-invalid="true"/)
  expect((await app.post(`${page}/change`, { formId: formId(), ...right, ...seen })).status).toBe(303)
  const after = (await json(`${page}.json`)) as Ticking & { note: string }
  expect(after).toMatchObject({ differenceCents: 0, note: 'blue folder' })
  const late = await app.post(`${page}/change`, { formId: formId(), ...right, balance: '-41.00', ...seen })
  expect(late.status).toBe(409)
  const conflict = await late.text()
  expect(conflict).toContain('changed on another device meanwhile')
  expect(conflict).toContain('name="seen.balance" value="-40.00"')
  expect(conflict).toContain('value="-41.00"')
  expect((await app.post('/books/reconcile/nothing/change', { formId: formId() })).status).toBe(404)
})

type Close = {
  sides: {
    side: { id: string }
    closedThrough: number | null
    reopenId: string | null
    closings: { reopenReason: string | null }[]
  }[]
}
const farmClosing = async () =>
  ((await json('/books/close.json')) as Close).sides.find((one) => one.side.id === 'farm')!

test('a month is closed, refuses entries, and is opened again only with a reason that stays', async () => {
  const close = (month: string) =>
    app.post('/books/close', { formId: formId(), side: 'farm', at: '0', month_0: month, note_0: '' })
  const early = await close('2026-03')
  expect(early.status).toBe(422)
  expect(await early.text()).toContain('href="#f-month_0">March 2026 is not over yet')
  expect((await close('2026-01')).status).toBe(303)
  // The farm is a month ahead now: the filled button is that of the books which the sentence names.
  const page = await (await app.get('/books/close')).text()
  const [, of] = /Next to close is January 2026, of ([^.]+)\./.exec(page)!
  const filled = [...page.matchAll(/<section[^>]*aria-label="([^"]*)"[\s\S]*?<\/section>/g)].filter(([box]) =>
    /class="button"[^>]*>(Close|Check)/.test(box),
  )
  expect(filled.map(([, name]) => name)).toEqual([of])
  const late = await app.post('/books/entry', {
    formId: formId(),
    side: 'farm',
    kind: 'out',
    day: '2026-01-31',
    moneyAccount: String(account('Farm checking')),
    'lines.0.account': String(account('Supplies')),
    'lines.0.amount': '5',
  })
  expect(late.status).toBe(422)
  expect(await late.text()).toContain('closed through January 2026')
  const { reopenId } = await farmClosing()
  const reopen = (reason: string) =>
    app.post(`/books/close/${reopenId}/reopen`, { formId: formId(), side: 'farm', at: '0', reason_0: reason })
  expect((await reopen('')).status).toBe(422)
  expect((await reopen('a receipt was found')).status).toBe(303)
  expect(await farmClosing()).toMatchObject({
    closedThrough: null,
    closings: [{ reopenReason: 'a receipt was found' }],
  })
  expect(await (await app.get('/books/close.csv')).text()).toContain('a receipt was found')
})

// January and February shut in one press: February alone is offered first, and January stays shut.
test('of months closed in one press the form offers from which on they are opened', async () => {
  for (const day of ['2026-01-08', '2026-02-08'])
    await app.post('/books/entry', {
      formId: formId(),
      side: 'farm',
      kind: 'out',
      day,
      moneyAccount: String(account('Farm checking')),
      'lines.0.account': String(account('Supplies')),
      'lines.0.amount': '5',
    })
  app.setToday('2026-03-20')
  const close = { formId: formId(), side: 'farm', at: '0', month_0: '2026-02', note_0: '' }
  expect((await app.post('/books/close', close)).status).toBe(303)
  const page = await (await app.get('/books/close')).text()
  const [, offered] = /<select[^>]*name="from_\d"[^>]*>([\s\S]*?)<\/select>/.exec(page)!
  expect([...offered!.matchAll(/value="([^"]*)"( selected)?/g)].map((one) => one.slice(1))).toEqual([
    ['2026-02', ' selected'],
    ['2026-01', undefined],
  ])
  const { reopenId } = await farmClosing()
  const sent = { formId: formId(), side: 'farm', at: '0', reason_0: 'a late bill', from_0: '2026-02' }
  const unread = { ...sent, formId: formId(), from_0: 'the last one' }
  expect((await app.post(`/books/close/${reopenId}/reopen`, unread)).status).toBe(422)
  expect((await farmClosing()).closedThrough).toBe('2026-02')
  expect((await app.post(`/books/close/${reopenId}/reopen`, sent)).status).toBe(303)
  expect((await farmClosing()).closedThrough).toBe('2026-01')
  expect(await (await app.get('/books/close')).text()).toContain(
    'Stayed closed when February 2026 was opened again',
  )
})

type MixedUp = { finds: { postingId: number; entryId: string; lineNo: number; payee: string }[] }

test('what looks mixed up becomes a crossing by one click, or is waved through', async () => {
  const { finds } = (await json('/books/mixed-up.json')) as MixedUp
  expect(finds.map((find) => find.payee)).toEqual(['Corner Pharmacy'])
  const [find] = finds
  const form = { entry: find!.entryId, line: String(find!.lineNo), posting: String(find!.postingId) }
  const unsaid = await app.post('/books/mixed-up', { ...form, formId: formId(), next: 'cross' })
  expect(unsaid.status).toBe(422)
  expect(await unsaid.text()).toContain(`href="#f-toAccount_${find!.postingId}"`)
  const crossed = await app.post('/books/mixed-up', {
    ...form,
    formId: formId(),
    next: 'cross',
    [`toAccount_${find!.postingId}`]: String(account('Care and medicine')),
  })
  expect(crossed.status).toBe(303)
  expect(((await json('/books/mixed-up.json')) as MixedUp).finds).toEqual([])
})

test('a close lists as not reconciled only accounts that Reconcile lets one choose', async () => {
  const named = (name: string) => listAccounts(app.books).find((one) => one.name === name)!
  const entry = {
    formId: formId(),
    side: 'household',
    kind: 'out',
    day: '2026-01-10',
    payee: 'Fee',
    memo: '',
    moneyAccount: String(named('Retirement, traditional').id),
    'lines.0.account': String(named('Other living costs').id),
    'lines.0.amount': '12',
    'lines.0.memo': '',
  }
  expect((await app.post('/books/entry', entry)).status).toBe(303)
  const close = (await (await app.get('/books/close.json')).json()) as {
    sides: { checklist: { id: string; text: string }[] }[]
  }
  const reconcile = await (await app.get('/books/reconcile')).text()
  const texts = close.sides.flatMap(({ checklist }) => checklist.filter(({ id }) => id === 'reconciled'))
  expect(texts.map(({ text }) => text).join()).toContain('Farm checking')
  for (const { text } of texts) {
    expect(text).not.toContain('Retirement')
    for (const name of text.split(': ')[1]?.split(', ') ?? [])
      expect(reconcile).toContain(`>${name}</option>`)
  }
})

test('script typed into reasons and notes is shown as text', async () => {
  const page = await startStatement('-40.00')
  await app.post(`${page}/reopen`, { formId: formId(), reason: '<script>alert(1)</script>' })
  await app.post('/books/close', {
    formId: formId(),
    side: 'farm',
    at: '0',
    month_0: '2026-01',
    'begun_0[]': String(account('Farm checking')),
    note_0: '<script>alert(1)</script>',
  })
  const text = await (await app.get('/books/close')).text()
  expect(text).not.toContain('<script>alert')
  expect(text).toContain('&lt;script&gt;alert')
})

test('every page here answers with an unknown number by saying so', async () => {
  for (const path of ['/books/reconcile/nothing', '/books/reconcile/nothing.json'])
    expect((await app.get(path)).status).toBe(404)
  expect((await app.post('/books/reconcile/nothing/drop', { formId: formId() })).status).toBe(404)
})

test('a reconciled statement that the books no longer meet is said on its page, in the list, at the close and on Now', async () => {
  const page = await startStatement('-40.00')
  const { lines } = (await json(`${page}.json`)) as Ticking
  const ids = lines.map((line) => String(line.postingId))
  await app.post(`${page}/ticks`, {
    formId: formId(),
    'shown[]': ids.map((id) => `${id}.0`),
    'ticked[]': ids,
    next: 'finish',
  })
  const pages = async () => ({
    page: plain(await (await app.get(page)).text()),
    list: plain(await (await app.get('/books/reconcile')).text()),
    close: plain(await (await app.get('/books/close')).text()),
    now: plain(await (await app.get('/now')).text()),
  })
  const before = await pages()
  expect(before.page).toContain('Balanced.')
  expect(before.list).toContain('Jan 31, 2026')
  expect(before.close).toContain('Bank and card accounts are reconciled')
  expect(before.close + before.now).not.toMatch(/no longer/)
  // By hand: −40.00 was reconciled; a receipt of 12.34 dated in January comes in March.
  app.setToday('2026-03-16')
  const receipt = {
    formId: formId(),
    side: 'farm',
    kind: 'out',
    day: '2026-01-12',
    payee: 'Seed shop',
    memo: '',
    moneyAccount: String(account('Farm checking')),
    'lines.0.account': String(account('Supplies')),
    'lines.0.amount': '12.34',
    'lines.0.memo': '',
  }
  expect((await app.post('/books/entry', receipt)).status).toBe(303)
  const after = await pages()
  expect(after.page).not.toContain('Balanced.')
  expect(after.page).toContain('come to −$52.34, where the statement says −$40.00')
  expect(after.page).toContain('Jan 12, 2026, Seed shop, −$12.34')
  expect(await (await app.get(page)).text()).toMatch(/href="\/books\/entries\/\d+">Jan 12, 2026, Seed shop/)
  expect(after.list).toContain(
    'No longer: changed since Jan 31, 2026 was reconciled, the books have $12.34 less',
  )
  expect(after.close).toContain(
    'Changed since it was reconciled, and no longer as its statement says: Farm checking',
  )
  expect(after.close).not.toContain('Bank and card accounts are reconciled')
  expect(after.now).toContain(
    'Farm checking no longer meets its statement of Jan 31, 2026: $12.34 apart since it was reconciled',
  )
  expect(((await json(`${page}.json`)) as Ticking).differenceCents).toBe(1234)
})

test('an account that was held against no statement ever is reconciled on neither page, in a month without entries too', async () => {
  const says = (of: Month) =>
    checklistOf(app.books, 'farm', of, day('2026-03-15')).find(({ id }) => id === 'reconciled')?.text
  expect(plain(await (await app.get('/books/reconcile')).text())).toMatch(/Farm checking.{0,60}not yet/)
  // Nothing moved in February: its balance of January was never looked at.
  for (const of of [month(2026, 1), month(2026, 2)])
    expect(says(of)).toBe('Not reconciled through the month’s end: Farm checking')
  expect(says(month(2025, 12))).toBe('No bank or card account has anything to reconcile')
  const page = await startStatement('-40.00')
  const { lines } = (await json(`${page}.json`)) as Ticking
  const ids = lines.map((line) => String(line.postingId))
  const ticks = { 'shown[]': ids.map((id) => `${id}.0`), 'ticked[]': ids, next: 'finish' }
  await app.post(`${page}/ticks`, { formId: formId(), ...ticks })
  expect(plain(await (await app.get('/books/reconcile')).text())).toMatch(/Farm checking.{0,60}Jan 31, 2026/)
  expect(says(month(2026, 1))).toBe('Bank and card accounts are reconciled')
})

const plain = (html: string) => html.replaceAll(/<[^>]+>/g, '').replaceAll(/\s+/g, ' ')
