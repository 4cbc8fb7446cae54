// What a look at a bank file asks before it is read in, and the columns it proposes by account. All banks are invented.
import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { listAccounts } from '#db/ledger/account-store.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
beforeAll(() => {
  app = testApp()
  app.openSides()
})
afterAll(() => {
  app.close()
})

const account = (name: string) => String(listAccounts(app.books).find((one) => one.name === name)!.id)

const lookAt = async (content: string, name: string) => {
  const data = new FormData()
  data.set('file', new File([content], name))
  const reply = await app.upload('/books/statements/read', data)
  expect(reply.status).toBe(303)
  return reply.headers.get('location')!
}

/** The fields of every form on the page, as a browser would send them. */
const fieldsOf = (html: string): Record<string, string> => {
  const fields: Record<string, string> = {}
  const attribute = (tag: string, name: string) => new RegExp(`\\b${name}="([^"]*)"`).exec(tag)?.[1] ?? ''
  for (const [tag] of html.matchAll(/<input [^>]*>/g)) {
    const isChoice = /type="(checkbox|radio)"/.test(tag)
    if (!isChoice || /\bchecked\b/.test(tag)) fields[attribute(tag, 'name')] = attribute(tag, 'value')
  }
  for (const [, name, inner] of html.matchAll(/<select [^>]*name="([^"]*)"[^>]*>(.*?)<\/select>/gs))
    fields[name!] =
      /<option value="([^"]*)" selected/.exec(inner!)?.[1] ??
      /<option value="([^"]*)"/.exec(inner!)?.[1] ??
      ''
  return fields
}

const look = async (address: string, fields: Record<string, string>) =>
  (await app.get(`${address}?${new URLSearchParams(fields)}`)).text()

const cardFile =
  'Date,Description,Amount\n01/13/2026,FEED STORE,45.67\n01/20/2026,PAYMENT THANK YOU,-100.00\n'
const bankFile = 'Date,Description,Amount\n01/14/2026,ELECTRIC CO,-80.00\n01/15/2026,MARKET DEPOSIT,300.00\n'

test('columns remembered for a card do not turn the signs of another account with the same header', async () => {
  const first = await lookAt(cardFile, 'card.csv')
  const asCard = await look(first, { account: account('Household card') })
  expect(asCard).toContain('−$45.67')
  expect(asCard).not.toContain('Before it is read in')
  const read = await app.post(first, { ...fieldsOf(asCard), formId: randomUUID() })
  expect(read.status).toBe(303)

  const second = await lookAt(bankFile, 'checking.csv')
  // The only account with this header is proposed: its signs cannot be right here, and that is asked.
  const proposed = await (await app.get(second)).text()
  expect(proposed).toContain('Payments and refunds')
  // The person chooses the other account; the columns in the form are those proposed for the card.
  const chosen = await look(second, { ...fieldsOf(proposed), account: account('Farm checking') })
  expect(chosen).toContain('−$80.00')
  expect(chosen).not.toContain('Before it is read in')
  expect(fieldsOf(chosen).moneyOutIs).toBe('negative')
})

test('columns that a person changed stay when another account is chosen', async () => {
  const address = await lookAt('Date,Description,Note,Amount\n01/14/2026,A,B,-80.00\n', 'note.csv')
  const first = fieldsOf(await look(address, {}))
  const changed = fieldsOf(await look(address, { ...first, payeeColumn: '2' }))
  expect(changed.payeeColumn).toBe('2')
  const chosen = fieldsOf(await look(address, { ...changed, account: account('Farm checking') }))
  expect(chosen.payeeColumn).toBe('2')
})

test('a question without a yes comes back at its box, with what was said, and nothing is stored', async () => {
  const address = await lookAt(cardFile.replace('45.67', '46.67'), 'other.csv')
  const page = await look(address, { account: account('Household checking') })
  const fields = { ...fieldsOf(page), amountKind: 'signed', moneyOutIs: 'negative', formId: randomUUID() }
  const refused = await app.post(address, { ...fields, account: account('Household card') })
  expect(refused.status).toBe(422)
  const text = await refused.text()
  expect(text).toContain('id="f-sure.signs"')
  expect(text).toContain('Say yes to this')
  expect(await (await app.get('/books/statements.json')).text()).not.toContain('other.csv')
})

test('columns that hold something and are not read are named', async () => {
  const address = await lookAt('Date,Description,Amount,Branch\n01/14/2026,A,-80.00,North\n', 'branch.csv')
  expect(await look(address, { account: account('Farm checking') })).toContain('Not read: Branch.')
})

const ofx = (body: string) => `<OFX>${body}</OFX>`
const bank = (id: string, lines: string, list = 'STMTRS', from = 'BANKACCTFROM') =>
  `<${list}><CURDEF>USD<${from}><ACCTID>${id}</${from}><BANKTRANLIST>${lines}</BANKTRANLIST></${list}>`
const movement = (day: string, amount: string, id: string, name: string) =>
  `<STMTTRN><DTPOSTED>${day}<TRNAMT>${amount}<FITID>${id}<NAME>${name}</STMTTRN>`

test('a bank account that is known, and a card’s file into checking, are asked about', async () => {
  const one = await lookAt(ofx(bank('7711', movement('20260102', '-1', 'a', 'x'))), 'a.ofx')
  await app.post(one, { formId: randomUUID(), part: '0', account: account('Farm checking') })
  const two = await lookAt(ofx(bank('7711', movement('20260103', '-2', 'b', 'y'))), 'b.ofx')
  const elsewhere = await look(two, { account: account('Household checking') })
  expect(elsewhere).toContain('Statements of the bank’s account 7711 went to Farm checking so far.')
  const other = await lookAt(ofx(bank('9922', movement('20260103', '-2', 'b', 'y'))), 'c.ofx')
  expect(await look(other, { account: account('Farm checking') })).toContain('This one is of 9922.')
  const cards = await lookAt(
    ofx(bank('4', movement('20260103', '-2', 'b', 'y'), 'CCSTMTRS', 'CCACCTFROM')),
    'd.ofx',
  )
  const asked = await look(cards, { account: account('Household checking') })
  expect(asked).toContain('This is the statement of a card (4)')
  const refused = await app.post(cards, {
    formId: randomUUID(),
    part: '0',
    account: account('Household checking'),
  })
  expect(refused.status).toBe(422)
  const agreed = {
    formId: randomUUID(),
    part: '0',
    account: account('Household checking'),
    'sure.kind': 'yes',
  }
  expect((await app.post(cards, agreed)).status).toBe(303)
})

test('a file, or most of its lines, that went into another account is asked about', async () => {
  const rows = ['01/20/2026,A,-1.00', '01/21/2026,B,-2.00', '01/22/2026,C,-3.00', '01/23/2026,D,-4.00']
  const text = (some: readonly string[]) => `When,What,Amount\n${some.join('\n')}\n`
  const first = await lookAt(text(rows), 'first.csv')
  const page = await look(first, { account: account('Household checking') })
  expect((await app.post(first, { ...fieldsOf(page), formId: randomUUID() })).status).toBe(303)
  const same = await lookAt(text(rows), 'first.csv')
  expect(await look(same, { account: account('Farm checking') })).toContain(
    'This very file was read into Household checking before.',
  )
  const alike = await lookAt(text([...rows.slice(1), '01/24/2026,E,-5.00']), 'second.csv')
  expect(await look(alike, { account: account('Farm checking') })).toContain(
    'Most of its transactions are in Household checking already.',
  )
})

test('a file of two accounts is one list, each account told once, and read in by one press from then on', async () => {
  const both = (day: string, id: string) =>
    ofx(bank('5501', movement(day, '-7', `e${id}`, 'P')) + bank('5502', movement(day, '-8', `f${id}`, 'Q')))
  const list = await lookAt(both('20260105', '1'), 'both.ofx')
  expect(list).toMatch(/^\/books\/statements\/several\//)
  const page = await (await app.get(list)).text()
  const looks = [...page.matchAll(/href="(\/books\/statements\/read\/[^"]*)"/g)].map(([, href]) =>
    href!.replaceAll('&amp;', '&'),
  )
  expect(looks).toHaveLength(2)
  for (const [at, name] of ['Savings', 'Farm reserve'].entries()) {
    const asked = await (await app.get(`${looks[at]}&account=${account(name)}`)).text()
    expect(asked).toContain(`Account ${at + 1} of 2 in this file`)
    const done = await app.post(looks[at]!.split('?')[0]!, { ...fieldsOf(asked), formId: randomUUID() })
    expect(done.headers.get('location')).toContain(list)
  }
  const next = await lookAt(both('20260205', '2'), 'next.ofx')
  expect(await (await app.get(next)).text()).toContain('Read in 2 transactions')
  expect((await app.post(next, { formId: randomUUID() })).headers.get('location')).toContain('/month')
})

test('a file that does not begin where the last one ended is asked about', async () => {
  const header = 'Booked,Text,Amount,Balance\n'
  const first = await lookAt(`${header}01/20/2026,A,-1.00,99.00\n01/21/2026,B,-2.00,97.00\n`, 'one.csv')
  const page = await look(first, { account: account('Savings') })
  expect((await app.post(first, { ...fieldsOf(page), formId: randomUUID() })).status).toBe(303)
  // What the file ended with stands in the form that reconciles.
  expect(await (await app.get('/books/reconcile')).text()).toContain('The file says $97.00 on Jan 21, 2026')
  const form = await (await app.get(`/books/reconcile?account=${account('Savings')}`)).text()
  expect(form).toMatch(/name="statementDay"[^>]*value="2026-01-21"/)
  expect(form).toMatch(/name="balance"[^>]*value="97.00"/)
  const joins = await lookAt(`${header}01/22/2026,C,-3.00,94.00\n01/23/2026,D,-4.00,90.00\n`, 'two.csv')
  expect(await look(joins, { account: account('Savings') })).not.toContain('Before it is read in')
  const later = await lookAt(`${header}01/25/2026,E,-3.00,84.00\n01/26/2026,F,-4.00,80.00\n`, 'three.csv')
  expect(await look(later, { account: account('Savings') })).toContain(
    'The last file ended with $97.00 on Jan 21, 2026, this one begins with $87.00 on Jan 25, 2026',
  )
})

test('the notice after a file was read in reverses it by one press', async () => {
  const address = await lookAt(ofx(bank('6601', movement('20260105', '-9', 'g1', 'WRONG'))), 'wrong.ofx')
  const browser = { cookie: 'dooryard-browser=browser-12345678' }
  const form = { formId: randomUUID(), part: '0', account: account('Health savings') }
  const read = await app.post(address, form, browser)
  const page = await (await app.get(read.headers.get('location')!)).text()
  const [, action, formId] =
    /action="(\/undo\/\d+[^"]*)"[\s\S]*?name="formId" value="([^"]+)"/.exec(page) ?? []
  expect((await app.post(action!, { formId: formId! }, browser)).status).toBe(303)
  expect(await (await app.get('/books/statements.json')).text()).not.toContain('wrong.ofx')
  const again = await lookAt(ofx(bank('6601', movement('20260105', '-9', 'g1', 'WRONG'))), 'wrong.ofx')
  expect(await look(again, { account: account('Savings') })).not.toContain('went to Health savings')
})

test('the cash of an investment account goes to an account only after a yes that it stands for it, and is known from then on', async () => {
  const invested = (number: string, name: string) =>
    ofx(
      `<INVSTMTRS><CURDEF>USD<INVACCTFROM><BROKERID>b<ACCTID>INV77</INVACCTFROM><INVTRANLIST><INCOME><INVTRAN><FITID>t${number}</INVTRAN><TOTAL>25</INCOME><INVBANKTRAN>${movement('20260110', '1000', number, name)}<SUBACCTFUND>CASH</INVBANKTRAN></INVTRANLIST></INVSTMTRS>`,
    )
  const first = await lookAt(invested('i3', 'Deposit'), 'broker.ofx')
  const elsewhere = await look(first, { account: account('Farm checking') })
  expect(elsewhere).toContain('This is the statement of an investment account (INV77)')
  expect(elsewhere).toContain('A trade or income of the investment account (INCOME)')
  const into = { formId: randomUUID(), part: '0', account: account('Taxable investments') }
  expect((await app.post(first, into)).status).toBe(422)
  expect((await app.post(first, { ...into, 'sure.kind': 'yes' })).status).toBe(303)
  const next = await lookAt(invested('i4', 'Deposit again'), 'broker.ofx')
  const known = await (await app.get(next)).text()
  expect(known).toContain('1 new, 0 seen before, 0 doubtful')
  expect(known).not.toContain('Before it is read in')
})
