import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { listAccounts } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { filledForm } from './browser-form.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
const formId = () => randomUUID()
const account = (name: string) => listAccounts(app.books).find((one) => one.name === name)!.id

beforeAll(() => {
  app = testApp()
  app.openSides()
})
afterAll(() => {
  app.close()
})

const ofx = (movements: string, accountId = '77') =>
  `OFXHEADER:100\nDATA:OFXSGML\n\n<OFX><BANKMSGSRSV1><STMTTRNRS><STMTRS><CURDEF>USD<BANKACCTFROM><ACCTID>${accountId}</BANKACCTFROM><BANKTRANLIST>\n${movements}\n</BANKTRANLIST></STMTRS></STMTTRNRS></BANKMSGSRSV1></OFX>`
const movement = (day: string, amount: string, id: string, name: string) =>
  `<STMTTRN><TRNTYPE>X<DTPOSTED>${day}<TRNAMT>${amount}<FITID>${id}<NAME>${name}</STMTTRN>`

const upload = async (content: string, name = 'bank.ofx') => {
  const data = new FormData()
  data.set('file', new File([content], name))
  return app.upload('/books/statements/read', data)
}

const lookAt = async (content: string, name?: string) => {
  const reply = await upload(content, name)
  expect(reply.status).toBe(303)
  return reply.headers.get('location')!
}

test('a file is looked at first: nothing is stored until it is read in, and then once', async () => {
  const farm = String(account('Farm checking'))
  const address = await lookAt(ofx(movement('20260302', '-12.50', '1', 'Hollow &lt;b&gt; Feed')))
  const look = await (await app.get(`${address}?account=${farm}`)).text()
  expect(look).toContain('1 new, 0 seen before, 0 doubtful')
  expect(look).toContain('Hollow &lt;b&gt; Feed')
  const waiting = async () => (await (await app.get('/books/sorting.json')).json()) as { waiting: number }
  expect((await waiting()).waiting).toBe(0)
  const confirmation = { formId: formId(), part: '0', account: farm }
  for (let time = 0; time < 2; time += 1) {
    const reply = await app.post(address, confirmation)
    expect(reply.status).toBe(303)
    expect(reply.headers.get('location')).toMatch(/^\/books\/sorting\?account=/)
  }
  expect((await waiting()).waiting).toBe(1)
  const again = await lookAt(ofx(movement('20260302', '-12.50', '1', 'Hollow &lt;b&gt; Feed')))
  // The bank's own name for the account is known now.
  expect(await (await app.get(again)).text()).toContain('There is nothing to read in')
})

test('a broken file is refused at the field, with its line, and one that is no statement says what to do', async () => {
  const broken = await upload(ofx(movement('20260399', '-1', '1', 'x')))
  expect(broken.status).toBe(422)
  expect(await broken.text()).toContain('Line 5: “20260399” is not a date')
  expect(await (await upload('%PDF-1.7 …', 'statement.pdf')).text()).toContain('This is a PDF')
  expect(await (await upload('')).text()).toContain('Choose a file first, one that is not empty')
  const large = await upload('x'.repeat(26 * 1024 * 1024))
  expect(large.status).toBe(413)
  expect(await large.text()).toContain('at most 25 MB')
})

test('a file that is held no longer is told, not stored', async () => {
  const reply = await app.post('/books/statements/read/00000000', { formId: formId() })
  expect(reply.status).toBe(404)
  expect(await reply.text()).toContain('Choose it again')
})

const csv = 'Posted,What,Out,In\n03/02/2026,Market,,150.00\n03/03/2026,Fuel,40.10,\n'

test('the columns of a CSV are guessed, shown, changed and remembered', async () => {
  const household = String(account('Household checking'))
  const address = await lookAt(csv, 'bank.csv')
  const first = await (await app.get(`${address}?account=${household}`)).text()
  expect(first).toContain('2 new, 0 seen before, 0 doubtful')
  expect(first).toContain('What the columns mean')
  const typed = {
    account: household,
    delimiter: ',',
    dayColumn: '0',
    dayOrder: 'day-month-year',
    amountKind: 'two-columns',
    outColumn: '2',
    inColumn: '3',
    decimalMark: '.',
    payeeColumn: '1',
  }
  const changed = await (await app.get(`${address}?${new URLSearchParams(typed)}`)).text()
  expect(changed).toContain('Feb 3, 2026')
  const same = await (await app.get(`${address}?${new URLSearchParams({ ...typed, inColumn: '2' })}`)).text()
  expect(same).toContain('Money in and money out cannot be the same column')
  const wrong = await (
    await app.get(`${address}?${new URLSearchParams({ ...typed, dayColumn: '1' })}`)
  ).text()
  expect(wrong).toContain('Line 2: “Market” is not a date')
  const part = await app.get(`${address}?${new URLSearchParams(typed)}`, {
    'HX-Request': 'true',
    'HX-Target': 'div#look',
  })
  expect(await part.text()).toMatch(/^<div id="look"/)
  const read = await app.post(address, {
    formId: formId(),
    ...typed,
    dayOrder: 'month-day-year',
    'sure.dayOrder': 'yes',
  })
  expect(read.status).toBe(303)
  const next = await lookAt(csv.replaceAll('03/0', '02/0'), 'next.csv')
  const remembered = await (await app.get(next)).text()
  expect(remembered).toContain('The columns are read as last time')
  expect(remembered).toContain('2 new, 0 seen before')
})

test('the order of dates that is shown is the one that is read, also where a file of before was taken in another', async () => {
  const household = String(account('Household checking'))
  const chosen = async (address: string) =>
    /name="dayOrder"[\s\S]*?<option value="([a-z-]+)" selected/.exec(
      await (await app.get(`${address}?account=${household}`)).text(),
    )?.[1]
  const address = await lookAt(csv, 'bank.csv')
  expect(await chosen(address)).toBe('month-day-year')
  const typed = {
    account: household,
    delimiter: ',',
    dayColumn: '0',
    dayOrder: 'month-day-year',
    amountKind: 'two-columns',
    outColumn: '2',
    inColumn: '3',
    decimalMark: '.',
    payeeColumn: '1',
    'sure.dayOrder': 'yes',
  }
  expect((await app.post(address, { formId: formId(), ...typed })).status).toBe(303)
  const isoFile = csv.replaceAll(/03\/0(\d)\/2026/g, '2026-04-0$1')
  const iso = await lookAt(isoFile, 'iso.csv')
  expect(await chosen(iso)).toBe('year-month-day')
})

test('checked lines are booked together; a checked line without a choice comes back at its field with what was typed', async () => {
  const page = await (await app.get('/books/sorting')).text()
  expect(page).toContain('Hollow &lt;b&gt; Feed')
  const { rows } = (await (await app.get('/books/sorting.json')).json()) as {
    rows: { id: number; payee: string }[]
  }
  const fields = await filledForm(app, '/books/sorting', { go: '' })
  const group = (payee: string) => {
    const id = String(rows.find((row) => row.payee === payee)!.id)
    return Object.keys(fields)
      .find((name) => name.endsWith('.lines') && fields[name] === id)!
      .replace('.lines', '')
  }
  const fuel = group('Fuel')
  const feed = `a:${account('Feed')}`
  const lines = {
    ...fields,
    [`${group('Hollow <b> Feed')}.take`]: 'yes',
    [`${group('Hollow <b> Feed')}.to`]: feed,
    [`${fuel}.take`]: 'yes',
    [`${fuel}.to`]: '',
  }
  const missing = await app.post('/books/sorting', lines)
  expect(missing.status).toBe(422)
  const text = await missing.text()
  expect(text).toContain(`href="#f-${fuel}.to"`)
  expect(text).toMatch(new RegExp(`<option value="${feed}" selected`))
  expect(balancesOn(app.books).get(account('Feed'))).toBeUndefined()
  const booked = await app.post('/books/sorting', {
    ...lines,
    [`${fuel}.to`]: `a:${account('Vehicles and travel')}`,
  })
  expect(booked.status).toBe(303)
  expect(balancesOn(app.books).get(account('Feed'))).toBe(1250)
  expect(balancesOn(app.books).get(account('Vehicles and travel'))).toBe(4010)
  const nothing = await app.post('/books/sorting', { formId: formId() })
  expect(await nothing.text()).toContain('Check the transactions to book')
})

test('one line is split over two sides by its own page, the last amount taking the rest', async () => {
  const { rows } = (await (await app.get('/books/sorting.json')).json()) as {
    rows: { id: number; payee: string }[]
  }
  const line = rows.find((row) => row.payee === 'Market')!.id
  const address = `/books/sorting/lines/${line}`
  expect(await (await app.get(address)).text()).toContain('Split it')
  const parts = {
    formId: formId(),
    how: 'split',
    'parts.0.account': String(account('Vegetables and fruit sold')),
    'parts.0.amount': '100',
    'parts.1.account': String(account('Other income')),
    'parts.1.amount': '',
  }
  const tooMuch = await app.post(address, { ...parts, 'parts.0.amount': '200', 'parts.1.amount': '1' })
  expect(tooMuch.status).toBe(422)
  expect(await tooMuch.text()).toContain('The parts add up to $201.00, but the transaction is $150.00')
  const turned = await app.post(address, { ...parts, formId: formId(), 'parts.0.amount': '196.25' })
  expect(turned.status).toBe(422)
  expect(await turned.text()).toContain('The other parts are $46.25 more than the $150.00 of the transaction')
  expect((await app.post(address, parts)).status).toBe(303)
  // Sent again by a second press it is the same success, though the transaction waits no more.
  expect((await app.post(address, parts)).status).toBe(303)
  expect(balancesOn(app.books).get(account('Vegetables and fruit sold'))).toBe(-10_000)
  expect(balancesOn(app.books).get(account('Other income'))).toBe(-5_000)
  expect((await app.get(address)).status).toBe(404)
})

test('a line is set aside with its reason, and brought back', async () => {
  const address = await lookAt(ofx(movement('20260309', '-8', '9', 'Bank notice')))
  await app.post(address, { formId: formId(), part: '0', account: String(account('Farm checking')) })
  const { rows } = (await (await app.get('/books/sorting.json')).json()) as {
    rows: { id: number; payee: string }[]
  }
  const line = rows.find((row) => row.payee === 'Bank notice')!.id
  const aside = await app.post(`/books/sorting/lines/${line}`, {
    formId: formId(),
    how: 'ignore',
    note: 'Entered twice by the bank',
  })
  expect(aside.status).toBe(303)
  expect(await (await app.get('/books/sorting/set-aside')).text()).toContain('Entered twice by the bank')
  expect((await app.post(`/books/sorting/set-aside/${line}`, { formId: formId() })).status).toBe(303)
  expect(await (await app.get('/books/sorting')).text()).toContain('Bank notice')
})

test('a rule is tried on past lines before it is saved, and archived', async () => {
  const feed = `a:${account('Feed')}`
  const rule = {
    formId: formId(),
    matchKind: 'starts',
    matchText: 'Hollow 12',
    sign: 'out',
    target: feed,
    priority: '1',
    minimum: '',
    maximum: '',
  }
  const tried = await app.post('/books/sorting/rules/new', { ...rule, try: 'yes' })
  expect(tried.status).toBe(200)
  expect((await tried.text()).replaceAll(/<[^>]+>/g, '')).toContain('would have caught 1: 1')
  const wrong = await app.post('/books/sorting/rules/new', { ...rule, minimum: 'much', target: '' })
  expect(wrong.status).toBe(422)
  expect(await wrong.text()).toContain('Choose where such transactions go')
  expect((await app.post('/books/sorting/rules/new', rule)).status).toBe(303)
  const second = await app.post('/books/sorting/rules/new', { ...rule, formId: randomUUID() })
  expect(second.status).toBe(422)
  expect(await second.text()).toContain('href="#f-matchText"')
  const { rules } = (await (await app.get('/books/sorting/rules.json')).json()) as {
    rules: { id: string; says: string; learned: boolean }[]
  }
  const saved = rules.find((each) => !each.learned)!
  expect(saved.says).toContain('“hollow …”, money out')
  const address = `/books/sorting/rules/${encodeURIComponent(saved.id)}`
  expect((await app.get(address)).status).toBe(200)
  expect((await app.post(address, { formId: formId(), archive: 'yes' })).status).toBe(303)
  expect((await app.get(address)).status).toBe(404)
})

test('tables come as CSV', async () => {
  for (const path of ['/books/statements.csv', '/books/sorting.csv', '/books/sorting/rules.csv']) {
    const reply = await app.get(path)
    expect(reply.headers.get('content-type')).toContain('text/csv')
  }
})

test.for([
  ['2 MB of newlines', '\n'.repeat(2_000_000), /more than 200,000 rows/],
  ['20 MB of commas', ','.repeat(20_000_000), /more than 500 columns/],
  [
    '200,001 movements',
    `Date,Amount,Name\n${'2026-01-05,-12.50,Feed\n'.repeat(200_001)}`,
    /more than 200,000 rows/,
  ],
] as const)('%s are refused in words, and no other page waits for it', async ([, text, says]) => {
  const odd = await uploadWatched(text)
  expect(odd.status).toBe(422)
  expect(odd.text).toMatch(says)
  expect(odd.cpuSeconds).toBeLessThan(5)
  // As many bytes that are no statement by their first letters: what taking them in costs by itself.
  const plain = await uploadWatched(`%PDF-${text.slice(5)}`)
  // A machine that others use may take this process's turn away at any moment: what a page holds up, it holds up each time.
  let { longestPause } = odd
  const most = 5 * plain.longestPause + 400
  for (let tries = 0; longestPause >= most && tries < 3; tries += 1)
    longestPause = Math.min(longestPause, (await uploadWatched(text)).longestPause)
  expect(longestPause).toBeLessThan(most)
})

/** The longest that nothing else had a turn, in milliseconds. */
const uploadWatched = async (text: string) => {
  const form = new FormData()
  form.set('file', new File([text], 'odd.csv'))
  let longestPause = 0
  let before = performance.now()
  const tick = () => {
    longestPause = Math.max(longestPause, performance.now() - before)
    before = performance.now()
  }
  const ticking = setInterval(tick, 5)
  const used = process.cpuUsage()
  const reply = await app.upload('/books/statements/read', form)
  const cpuSeconds = process.cpuUsage(used).user / 1e6
  clearInterval(ticking)
  tick()
  return { status: reply.status, text: await reply.text(), longestPause, cpuSeconds }
}

test('a large statement is read by a worker as a small one is on the spot', async () => {
  const large = `Date,Amount,Name\n${Array.from({ length: 8000 }, (_, row) => `2026-01-${10 + (row % 20)},-${row}.50,Feed store ${row}\n`).join('')}`
  const form = new FormData()
  form.set('file', new File([large], 'large.csv'))
  const held = await app.upload('/books/statements/read', form)
  expect(held.status).toBe(303)
  const look = await (await app.get(`${held.headers.get('location')}.json`)).json()
  expect(look).toMatchObject({ counts: { new: 8000 } })
})
