// What is chosen on the desk counts as chosen, and nothing chosen is dropped: by pages, by accounts, by a line's own page, by booking.

import { randomUUID } from 'node:crypto'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { month } from '#calendar/month.ts'
import { addSide, listAccounts } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { listCrossings } from '#db/ledger/crossing-store.ts'
import { closeMonth } from '#db/reconcile/closing-store.ts'
import { sortingDesk } from '#db/statements/sorting-desk.ts'
import { importStatement } from '#db/statements/statement-store.ts'
import { listActs } from '#db/undo.ts'
import { cents } from '#money/cents.ts'
import { act, done } from '../db/fresh-books.ts'
import { statementFile } from '../db/statement-file.ts'
import { deskFields } from './desk-fields.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
beforeEach(() => {
  app = testApp()
  app.openSides()
})
afterEach(() => {
  app.close()
})

const id = (name: string) => listAccounts(app.books).find((one) => one.name === name)!.id
const balance = (name: string) => balancesOn(app.books).get(id(name)) ?? 0

const read = (account: string, payees: readonly string[], bankNumber = '', on = '2026-02-') => {
  const lines = payees.map((payee, at) => ({
    bankNumber: bankNumber && `${bankNumber}${at}`,
    day: day(`${on}${String(1 + (at % 27)).padStart(2, '0')}`),
    amount: cents(-100 - at),
    payee,
  }))
  const file = statementFile(lines)
  const act = { formId: randomUUID(), at: '2026-03-01T00:00:00.000Z', actor: 'test' }
  expect(importStatement(app.books, act, id(account), file, day('2026-03-15')).ok).toBe(true)
}

const fieldsOf = (html: string) => deskFields(html).fields

const desk = async (address = '/books/sorting') => fieldsOf(await (await app.get(address)).text())

/** Payees that differ by letters: numbers do not tell payees apart. */
const payeesNamed = (count: number) =>
  Array.from({ length: count }, (_, at) => `Payee ${letter(at / 26)}${letter(at)}`)
const letter = (at: number) => String.fromCharCode(65 + (Math.floor(at) % 26))

/** The field of a line's row, found by its payee. */
const field = (fields: Record<string, unknown>, payee: string, name: string) => {
  const line = sortingDesk(app.books).lines.find((each) => each.line.payee === payee)!.line.id
  const row = Object.entries(fields).find(
    ([key, value]) => /^g\.n\d+\.lines$/.test(key) && String(value).split(' ').includes(String(line)),
  )!
  return row[0].replace(/lines$/, name)
}

const post = (fields: Record<string, string | string[]>, address = '/books/sorting') =>
  app.post(address, fields)
const feed = () => `a:${id('Feed')}`

test('without script, choosing where a line goes books it, check or no check', async () => {
  read('Farm checking', ['Mill', 'Vet'])
  const fields = await desk()
  const reply = await post({ ...fields, [field(fields, 'Mill', 'to')]: feed() })
  expect(reply.status).toBe(303)
  expect(balance('Feed')).toBe(100)
  expect(sortingDesk(app.books).lines.map(({ line }) => line.payee)).toEqual(['Vet'])
})

test('what a venture earned and the household’s account received is chosen on the desk, and is a draw by itself', async () => {
  const bench = done(addSide(app.books, act(), { kind: 'venture', name: 'Repair bench' })).sideId
  const sales = listAccounts(app.books).find(
    (one) => one.sideId === bench && one.kind === 'income' && one.systemRole === null,
  )!
  const file = statementFile([{ day: day('2026-02-03'), amount: cents(12_500), payee: 'Customer' }])
  done(importStatement(app.books, act(), id('Household checking'), file, day('2026-03-15')))
  const html = await (await app.get('/books/sorting')).text()
  expect(html).toContain(`${sales.name}, Repair bench`)
  const fields = fieldsOf(html)
  await post({ ...fields, [field(fields, 'Customer', 'to')]: `a:${sales.id}` })
  expect([balance('Household checking'), balancesOn(app.books).get(sales.id)]).toEqual([12_500, -12_500])
  expect(listCrossings(app.books)).toMatchObject([
    { kind: 'draw', fromSideId: bench, toSideId: 'household', amountCents: 12_500 },
  ])
})

test('with script, ticks are meant as they stand: what is chosen and not checked is said, and stays chosen', async () => {
  read('Farm checking', ['Mill', 'Vet'])
  const fields = await desk()
  const reply = await post({
    ...fields,
    ticks: 'exact',
    [field(fields, 'Mill', 'to')]: feed(),
    [field(fields, 'Mill', 'take')]: 'yes',
    [field(fields, 'Vet', 'to')]: `a:${id('Seeds and plants')}`,
  })
  const next = reply.headers.get('location')!
  const page = await (await app.get(next)).text()
  expect(page).toContain('1 transaction is not checked and stays as you chose')
  const after = fieldsOf(page)
  expect(after[field(after, 'Vet', 'to')]).toBe(`a:${id('Seeds and plants')}`)
  expect(after[field(after, 'Vet', 'take')]).toBeUndefined()
  expect(balance('Feed')).toBe(100)
})

test('choices go along to other pages and accounts, and are booked with what is checked there', async () => {
  read('Farm checking', payeesNamed(85))
  read('Household checking', ['Grocer'])
  const first = await desk(`/books/sorting?account=${id('Farm checking')}`)
  const name = 'Payee AA'
  const turned = await post(
    { ...first, [field(first, name, 'to')]: feed(), go: 'page:2' },
    `/books/sorting?account=${id('Farm checking')}`,
  )
  expect(turned.status).toBe(303)
  expect(sortingDesk(app.books).waiting).toBe(86)
  const address = turned.headers.get('location')!
  expect(address).toContain('page=2')
  const html = await (await app.get(address)).text()
  expect(html).toContain('1 transaction checked on other pages is booked with these')
  const other = await post({ ...fieldsOf(html), account: '', go: 'find' }, address)
  const all = fieldsOf(await (await app.get(other.headers.get('location')!)).text())
  const booked = await post(all)
  expect(booked.status).toBe(303)
  expect(balance('Feed')).toBe(100)
})

test('a line’s own page and back loses nothing', async () => {
  read('Farm checking', ['Mill', 'Vet'])
  const fields = await desk()
  const vet = sortingDesk(app.books).lines.find(({ line }) => line.payee === 'Vet')!.line.id
  const away = await post({ ...fields, [field(fields, 'Mill', 'to')]: feed(), go: `line:${vet}` })
  const address = away.headers.get('location')!
  expect(address).toBe(`/books/sorting/lines/${vet}`)
  const aside = await post({ formId: randomUUID(), how: 'ignore', note: 'x' }, address)
  const back = await desk(aside.headers.get('location')!)
  expect(back[field(back, 'Mill', 'to')]).toBe(feed())
  expect(back[field(back, 'Mill', 'take')]).toBe('yes')
})

test('a row without a choice comes back on its own page with all that was chosen there', async () => {
  read('Farm checking', payeesNamed(85))
  const fields = await desk('/books/sorting?page=2')
  const [one, two] = Object.keys(fields).flatMap((name) => /^(g\.n\d+)\.lines$/.exec(name)?.[1] ?? [])
  const reply = await post(
    { ...fields, ticks: 'exact', [`${one}.take`]: 'yes', [`${one}.to`]: feed(), [`${two}.take`]: 'yes' },
    '/books/sorting?page=2',
  )
  expect(reply.status).toBe(422)
  const after = fieldsOf(await reply.text())
  expect(after[`${one}.lines`]).toBe(fields[`${one}.lines`])
  expect(after[`${one}.to`]).toBe(feed())
})

test('a proposal left as it is is not carried; a check taken from one stays away', async () => {
  read('Farm checking', ['Hollow Mill'], '', '2026-01-')
  const fields = await desk()
  await post({ ...fields, [field(fields, 'Hollow Mill', 'to')]: feed() })
  read('Farm checking', ['Hollow Mill', 'Vet'])
  const next = await desk()
  expect(next[field(next, 'Hollow Mill', 'take')]).toBe('yes')
  const untouched = await post({ ...next, ticks: 'exact', go: 'page:2' })
  expect(untouched.headers.get('location')).toBe('/books/sorting?page=2')
  const unticked: Record<string, string | string[]> = { ...next, ticks: 'exact' }
  delete unticked[field(next, 'Hollow Mill', 'take')]
  const kept = await post({ ...unticked, go: 'page:1' })
  const after = await desk(kept.headers.get('location')!)
  expect(after[field(after, 'Hollow Mill', 'take')]).toBeUndefined()
})

test('a month that came as OFX and then as CSV is set aside by one press, and what is chosen meanwhile stays', async () => {
  read('Farm checking', ['Mill', 'Vet', 'Fuel'], 'N')
  read('Farm checking', ['MILL TARN', 'VET TARN', 'FUEL TARN'])
  const fields = await desk()
  expect(fields['doubtful.0[]']).toHaveLength(3)
  const reply = await post({ ...fields, [field(fields, 'Mill', 'to')]: feed(), decide: 'aside.0' })
  expect(reply.status).toBe(303)
  expect(sortingDesk(app.books)).toMatchObject({ waiting: 3, doubtful: 0 })
  const after = await desk(reply.headers.get('location')!)
  expect(after[field(after, 'Mill', 'to')]).toBe(feed())
  expect(balance('Feed')).toBe(0)
})

test('one press books a payee’s transactions; one that is left out waits, and one with a choice of its own goes there', async () => {
  read('Farm checking', ['HOLLOW MILL 01', 'VET', 'HOLLOW MILL 02', 'HOLLOW MILL 03', 'HOLLOW MILL 04'])
  const first = await desk()
  const line = (payee: string) =>
    sortingDesk(app.books).lines.find((each) => each.line.payee === payee)!.line.id
  const opened = await post({ ...first, go: `open:${line('HOLLOW MILL 01')}` })
  const address = opened.headers.get('location')!
  const fields = await desk(address)
  expect(String(fields[field(fields, 'HOLLOW MILL 01', 'lines')]).split(' ')).toHaveLength(4)
  const chosen = {
    ...fields,
    [field(fields, 'HOLLOW MILL 01', 'to')]: feed(),
    [field(fields, 'HOLLOW MILL 01', `own.n${line('HOLLOW MILL 03')}`)]: `a:${id('Seeds and plants')}`,
    [field(fields, 'HOLLOW MILL 01', 'without[]')]: [String(line('HOLLOW MILL 04'))],
  }
  for (let time = 0; time < 2; time += 1) expect((await post(chosen, address)).status).toBe(303)
  expect([balance('Feed'), balance('Seeds and plants')]).toEqual([100 + 102, 103])
  expect(sortingDesk(app.books).lines.map((each) => each.line.payee)).toEqual(['VET', 'HOLLOW MILL 04'])
})

test('what is chosen is there after leaving by any link, told by the script at once, and gone with its line', async () => {
  read('Farm checking', ['Mill', 'Vet'])
  const fields = await desk()
  const row = field(fields, 'Vet', '').slice(0, -1)
  const one = Object.fromEntries(Object.entries(fields).filter(([name]) => name.startsWith(`${row}.`)))
  const told = await app.post('/books/sorting/choices', { ...one, ticks: 'exact', [`${row}.to`]: feed() })
  expect(told.status).toBe(204)
  const after = await desk()
  expect(after[field(after, 'Vet', 'to')]).toBe(feed())
  expect(after[field(after, 'Mill', 'to')]).toBe('')
  await post({ ...after, ticks: 'exact', [field(after, 'Vet', 'take')]: 'yes' })
  expect(app.books.sqlite.prepare('SELECT count(*) FROM line_choices').pluck().get()).toBe(0)
  expect(balance('Feed')).toBe(101)
})

test('words, sums and what is left to do find transactions among those that wait', async () => {
  read('Farm checking', ['Mill', 'Vet', 'Mill Pond Fuel'])
  const payees = async (query: string) =>
    (
      (await (await app.get(`/books/sorting.json?${query}`)).json()) as { rows: { payee: string }[] }
    ).rows.map(({ payee }) => payee)
  expect(await payees('find=mill')).toEqual(['Mill', 'Mill Pond Fuel'])
  expect(await payees('find=1.01')).toEqual(['Vet'])
  expect(await payees('find=nobody')).toEqual([])
  const fields = await desk()
  await post({ ...fields, [field(fields, 'Vet', 'to')]: feed(), go: 'find', show: 'ticked' })
  expect(await payees('show=ticked')).toEqual(['Vet'])
  expect(await payees('show=open')).toEqual(['Mill', 'Mill Pond Fuel'])
})

/** Presses the first “Forget” of a page. */
const forgetOn = async (page: string) => {
  const form = /action="\/books\/sorting\/learned".*?<\/form>/s.exec(page)![0]
  const value = (name: string) => new RegExp(`name="${name}" value="([^"]+)"`).exec(form)![1]!
  await app.post('/books/sorting/learned', {
    formId: value('formId'),
    rule: value('rule'),
    change: value('change'),
  })
}

test('a rule is shown as it is learned, and forgotten by one press', async () => {
  read('Farm checking', ['Hollow Mill'])
  const fields = await desk()
  const reply = await post({ ...fields, [field(fields, 'Hollow Mill', 'to')]: feed() })
  const page = await (await app.get(reply.headers.get('location')!)).text()
  expect(page.replaceAll(/<[^>]+>/g, '')).toContain('hollow mill goes to Feed')
  await forgetOn(page)
  read('Farm checking', ['Hollow Mill'], '', '2026-03-')
  expect(sortingDesk(app.books).lines[0]!.proposal).toBeNull()
  expect(balance('Feed')).toBe(100)
})

test('a split kept for the next bills is shown as it is learned, and forgotten by one press, or with its booking', async () => {
  const splitBy = (percent: string) => ({
    formId: randomUUID(),
    how: 'split',
    'parts.0.account': String(id('Farm utilities')),
    'parts.0.amount': percent,
    'parts.1.account': String(id('Utilities')),
    'parts.1.amount': '',
    keep: 'yes',
  })
  const waiting = () => sortingDesk(app.books).lines[0]!
  const lastSorted = () => listActs(app.books).find((one) => one.kind === 'lines.sorted')!.id
  const proposed = async () =>
    /Farm utilities \(\d+%\), Utilities, Household \(the rest\)/.exec(
      await (await app.get('/books/sorting')).text(),
    )?.[0]
  read('Farm checking', ['VALLEY ELECTRIC'])
  const reply = await app.post(`/books/sorting/lines/${waiting().line.id}`, splitBy('60%'))
  read('Farm checking', ['VALLEY ELECTRIC'], '', '2026-03-')
  expect(await proposed()).toBe('Farm utilities (60%), Utilities, Household (the rest)')
  // Split anew and kept, then the booking taken back: the bills go as they went before it.
  await app.post(`/books/sorting/lines/${waiting().line.id}`, splitBy('25%'))
  await app.post(`/undo/${lastSorted()}`, { formId: randomUUID(), from: 'acts' })
  expect(await proposed()).toBe('Farm utilities (60%), Utilities, Household (the rest)')
  expect([balance('Farm utilities'), balance('Utilities')]).toEqual([60, 40])
  // The rule was changed since the first booking, so what that one taught is a person's own by now.
  const page = await (await app.get(reply.headers.get('location')!)).text()
  expect(page).not.toContain('Learned just now')
})

test('a split kept and not changed since is forgotten by one press: nothing is proposed by it, what is booked stays', async () => {
  read('Farm checking', ['VALLEY ELECTRIC'])
  const reply = await app.post(`/books/sorting/lines/${sortingDesk(app.books).lines[0]!.line.id}`, {
    formId: randomUUID(),
    how: 'split',
    'parts.0.account': String(id('Farm utilities')),
    'parts.0.amount': '60%',
    'parts.1.account': String(id('Utilities')),
    'parts.1.amount': '',
    keep: 'yes',
  })
  const page = await (await app.get(reply.headers.get('location')!)).text()
  expect(page.replaceAll(/<[^>]+>/g, '')).toContain(
    'valley electric goes to Farm utilities (60%), Utilities, Household (the rest).',
  )
  await forgetOn(page)
  read('Farm checking', ['VALLEY ELECTRIC'], '', '2026-03-')
  expect(sortingDesk(app.books).lines[0]!.proposal).toBeNull()
  expect([balance('Farm utilities'), balance('Utilities')]).toEqual([60, 40])
})

test('a bill for house and farm is split by percent, the others like it too, and the next ones are proposed so', async () => {
  read('Farm checking', ['VALLEY ELECTRIC', 'VALLEY ELECTRIC'])
  const lines = sortingDesk(app.books).lines.map((each) => each.line)
  const split = {
    formId: randomUUID(),
    how: 'split',
    'parts.0.account': String(id('Farm utilities')),
    'parts.0.amount': '60%',
    'parts.1.account': String(id('Utilities')),
    'parts.1.amount': '',
    keep: 'yes',
    alsoAll: 'yes',
    alike: `${lines[1]!.id}.101`,
  }
  expect((await app.post(`/books/sorting/lines/${lines[0]!.id}`, split)).status).toBe(303)
  expect(sortingDesk(app.books).waiting).toBe(0)
  // 60 % of 1.00 and of 1.01 is 0.60 and 0.61.
  expect([balance('Farm utilities'), balance('Utilities')]).toEqual([121, 80])
  read('Farm checking', ['VALLEY ELECTRIC'], '', '2026-03-')
  const fields = await desk()
  expect(fields[field(fields, 'VALLEY ELECTRIC', 'take')]).toBe('yes')
  const page = await (await app.get('/books/sorting')).text()
  expect(page).toContain('Farm utilities (60%), Utilities, Household (the rest)')
  expect((await post(fields)).status).toBe(303)
  expect([balance('Farm utilities'), balance('Utilities')]).toEqual([181, 120])
})

test('a line whose entry was corrected to another amount is never checked by itself, and the answer says so', async () => {
  read('Farm checking', ['Mill'])
  const fields = await desk()
  await post({ ...fields, [field(fields, 'Mill', 'to')]: feed() })
  const no = app.books.sqlite.prepare("SELECT no FROM entries WHERE payee = 'Mill'").pluck().get()
  const answer = await app.post(`/books/entries/${no}/correct`, {
    formId: randomUUID(),
    side: 'farm',
    kind: 'out',
    day: '2026-02-01',
    payee: 'Mill',
    memo: '',
    moneyAccount: String(id('Farm checking')),
    'lines.0.account': String(id('Feed')),
    'lines.0.amount': '0.80',
  })
  expect(answer.status).toBe(303)
  const entry = await (await app.get(answer.headers.get('location')!)).text()
  expect(entry).toContain('decide under Books, Sort transactions')
  const says = /Was booked as “Mill”, −\$1\.00, corrected to −\$0\.80 on Feb 1, 2026 \(entry \d+\)/
  const shown = await (await app.get('/books/sorting')).text()
  expect(shown).toMatch(says)
  // Sent as it stands the desk books nothing, also once the line waits as one of its own.
  await post(fieldsOf(shown))
  expect(balance('Feed')).toBe(80)
  const line = sortingDesk(app.books).lines[0]!.line.id
  await app.post(`/books/sorting/lines/${line}`, { formId: randomUUID(), how: 'genuine' })
  const again = await (await app.get('/books/sorting')).text()
  expect(again).toMatch(says)
  const opened = fieldsOf(again)
  expect(opened[field(opened, 'Mill', 'take')]).toBeUndefined()
  await post({ ...opened, ticks: 'exact' })
  expect([balance('Feed'), sortingDesk(app.books).waiting]).toEqual([80, 1])
})

test('lines of a closed month are named once, with the way to reopen it, and the choices stay', async () => {
  const through = { sideId: 'farm', month: month(2026, 2), note: '' }
  done(closeMonth(app.books, act(), through, day('2026-03-15')))
  read('Farm checking', ['Mill', 'Vet'])
  const fields = await desk()
  const reply = await post({
    ...fields,
    ticks: 'exact',
    [field(fields, 'Mill', 'to')]: feed(),
    [field(fields, 'Mill', 'take')]: 'yes',
    [field(fields, 'Vet', 'to')]: `a:${id('Seeds and plants')}`,
    [field(fields, 'Vet', 'take')]: 'yes',
  })
  expect(reply.status).toBe(422)
  const page = await reply.text()
  expect(page.match(/These books are closed through February 2026/g)).toHaveLength(1)
  expect(page).toContain(
    'These books are closed through February 2026: Mill, Feb 1, 2026, −$1.00; Vet, Feb 2, 2026, −$1.01. Uncheck them, or reopen the month first',
  )
  expect(page).toMatch(/<a href="\/books\/close">Reopen a month<\/a>/)
  const after = fieldsOf(page)
  expect(after[field(after, 'Vet', 'to')]).toBe(`a:${id('Seeds and plants')}`)
})

test('a transaction of a closed month says so at its row and on its own page, with the way to reopen, and is not checked by itself', async () => {
  read('Farm checking', ['Mill'], 'f')
  const first = await desk()
  await post({
    ...first,
    ticks: 'exact',
    [field(first, 'Mill', 'to')]: feed(),
    [field(first, 'Mill', 'take')]: 'yes',
  })
  done(closeMonth(app.books, act(), { sideId: 'farm', month: month(2026, 2), note: '' }, day('2026-04-15')))
  // A file that comes late brings more of the closed month.
  read('Farm checking', ['Vet', 'Mill'], 'late')
  read('Farm checking', ['Mill'], 'open', '2026-03-')
  const html = await (await app.get('/books/sorting')).text()
  const rows = html.split('<li class="desk-group').slice(1)
  const says = 'The books of Wrenfold are closed through February 2026'
  const closed = rows.filter((row) => row.includes(says))
  expect(closed).toHaveLength(2)
  for (const row of closed) {
    expect(row).toContain('<a href="/books/close">Reopen the month</a>')
    expect(/<input type="checkbox" class="desk-take"[^>]*>/.exec(row)![0]).not.toContain(' checked')
  }
  const open = rows.find((row) => !row.includes(says))!
  expect(open).toContain('Mar 1')
  expect(/<input type="checkbox" class="desk-take"[^>]*>/.exec(open)![0]).toContain(' checked')
  const vet = sortingDesk(app.books).lines.find(({ line }) => line.payee === 'Vet')!.line.id
  expect(await (await app.get(`/books/sorting/lines/${vet}`)).text()).toContain(says)
})

test('two draws of 500 that both statements show stand in one row as 1,000, not as the nothing of their four halves', async () => {
  const halves = (account: string, amount: number, days: readonly string[]) => {
    const lines = days.map((on) => ({
      bankNumber: on,
      day: day(on),
      amount: cents(amount),
      payee: 'Transfer',
    }))
    expect(importStatement(app.books, act(), id(account), statementFile(lines), day('2026-03-15')).ok).toBe(
      true,
    )
  }
  halves('Farm checking', -50_000, ['2026-02-03', '2026-02-20'])
  const row = async () => {
    const html = await (await app.get('/books/sorting')).text()
    return [...html.matchAll(/class="desk-sum amount">([^<]+)</g)].map(([, sum]) => sum)
  }
  expect(await row()).toEqual(['−$1,000.00'])
  halves('Household checking', 50_000, ['2026-02-03', '2026-02-20'])
  expect(await row()).toEqual(['$1,000.00'])
})
