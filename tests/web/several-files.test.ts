// Several files chosen together: told apart by account, read in by one press where nothing is in doubt. A house of its own, by hand.
import { randomUUID } from 'node:crypto'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { listAccounts } from '#db/ledger/account-store.ts'
import { listStatements } from '#db/statements/statement-store.ts'
import { countWaiting } from '#db/statements/waiting-lines.ts'
import { browserForms } from './browser-form.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
beforeEach(() => {
  app = testApp({ today: '2026-11-06' })
  app.openSides()
})
afterEach(() => app.close())

const movement = (id: string, day: string, amount: string) =>
  `<STMTTRN><TRNTYPE>OTHER<DTPOSTED>${day}<TRNAMT>${amount}<FITID>${id}<NAME>PAYEE ${id}</STMTTRN>`
/** One account of a bank's file, as OFX 1.0.2 writes it. */
const ofx = (account: string, ...movements: string[]) =>
  `OFXHEADER:100\nDATA:OFXSGML\nVERSION:102\n\n<OFX><BANKMSGSRSV1><STMTTRNRS><STMTRS><CURDEF>USD<BANKACCTFROM><BANKID>1<ACCTID>${account}<ACCTTYPE>CHECKING</BANKACCTFROM><BANKTRANLIST>${movements.join('')}</BANKTRANLIST><LEDGERBAL><BALAMT>100.00<DTASOF>20261031</LEDGERBAL></STMTRS></STMTTRNRS></BANKMSGSRSV1></OFX>`

const choose = async (files: Record<string, string>, page = '/books/statements/read') => {
  const form = new FormData()
  for (const [name, text] of Object.entries(files)) form.append('file', new File([text], name))
  return app.upload(page, form)
}
const locationOf = (reply: Response) => reply.headers.get('location')!

/** Reads one file in by its own page, so that its account is known from then on. */
const readAlone = async (name: string, text: string, accountName: string) => {
  const look = locationOf(await choose({ [name]: text }))
  expect(look).toMatch(/^\/books\/statements\/read\//)
  const html = await (await app.get(look)).text()
  const account = new RegExp(`<option value="(\\d+)"[^>]*>${accountName}<`).exec(html)![1]!
  const asked = await app.get(`${look}?account=${account}`)
  const form = /<form method="post"[\s\S]*?<\/form>/.exec(await asked.text())![0]
  const fields = Object.fromEntries(
    [...form.matchAll(/name="([^"]+)" value="([^"]*)"/g)].map(([, key, value]) => [key!, value!]),
  )
  expect((await app.post(look, fields)).status).toBe(303)
}

interface Figures {
  files: { account: string | null; state: string; counts: { new: number; seen: number } | null }[]
  refused: { fileName: string }[]
}
const figuresAt = async (address: string) => (await (await app.get(`${address}.json`)).json()) as Figures

test('files of known accounts are read in by one press, once, and lead to the month', async () => {
  await readAlone('a.ofx', ofx('111', movement('a1', '20260903', '-10.00')), 'Household checking')
  await readAlone('b.ofx', ofx('222', movement('b1', '20260904', '25.00')), 'Farm checking')
  const chosen = locationOf(
    await choose({
      'a.ofx': ofx('111', movement('a1', '20260903', '-10.00'), movement('a2', '20261005', '-12.00')),
      'b.ofx': ofx('222', movement('b2', '20261007', '30.00'), movement('b3', '20261008', '31.00')),
    }),
  )
  expect(chosen).toMatch(/^\/books\/statements\/several\//)
  expect((await figuresAt(chosen)).files).toMatchObject([
    { account: 'Household checking', state: 'clear', counts: { new: 1, seen: 1 } },
    { account: 'Farm checking', state: 'clear', counts: { new: 2, seen: 0 } },
  ])
  expect(await (await app.get(chosen)).text()).toContain('Read in 3 transactions')
  expect(countWaiting(app.books).waiting).toBe(2)
  const formId = randomUUID()
  const done = await app.post(chosen, { formId })
  expect(locationOf(done)).toMatch(/^\/month/)
  expect(countWaiting(app.books).waiting).toBe(5)
  await app.post(chosen, { formId })
  expect(countWaiting(app.books).waiting).toBe(5)
  expect(listStatements(app.books, 10)).toHaveLength(4)
  expect((await figuresAt(chosen)).files.map(({ state }) => state)).toEqual(['seen', 'seen'])
})

test('what is not known, or cannot be read, is said, and the rest is read in all the same', async () => {
  await readAlone('a.ofx', ofx('111', movement('a1', '20260903', '-10.00')), 'Household checking')
  const chosen = locationOf(
    await choose({
      'a.ofx': ofx('111', movement('a2', '20261005', '-12.00')),
      'new.ofx': ofx('999', movement('n1', '20261005', '-7.00')),
      'photo.png': '\u0089PNG no statement',
    }),
  )
  const figures = await figuresAt(chosen)
  expect(figures.files.map(({ account, state }) => [account, state])).toEqual([
    ['Household checking', 'clear'],
    [null, 'asks'],
  ])
  expect(figures.refused.map(({ fileName }) => fileName)).toEqual(['photo.png'])
  const done = await app.post(chosen, { formId: randomUUID() })
  expect(locationOf(done)).toContain(chosen)
  expect(countWaiting(app.books).waiting).toBe(2)
  const html = await (await app.get(chosen)).text()
  expect(html).toContain('Choose its account')
  // Looked at by itself, it leads back to the others.
  const link = /href="(\/books\/statements\/read\/[^"]*)"/.exec(html)![1]!.replaceAll('&amp;', '&')
  const account = listAccounts(app.books).find(({ name }) => name === 'Savings')!.id
  const look = await (await app.get(`${link}&account=${account}`)).text()
  const fields = [
    .../<form method="post"[\s\S]*?<\/form>/.exec(look)![0].matchAll(/name="([^"]+)" value="([^"]*)"/g),
  ].map(([, key, value]) => [key!, value!] as const)
  const back = await app.post(link.split('?')[0]!, Object.fromEntries(fields))
  expect(locationOf(back)).toContain(chosen)
  expect(html).toContain('photo.png')
})

test('a file that was chosen twice counts once, and what two files share is new in one of them', async () => {
  await readAlone('a.ofx', ofx('111', movement('a1', '20260903', '-10.00')), 'Household checking')
  const october = ofx('111', movement('a2', '20261005', '-12.00'), movement('a3', '20261006', '-13.00'))
  const longer = ofx('111', movement('a3', '20261006', '-13.00'), movement('a4', '20261008', '-14.00'))
  const chosen = locationOf(await choose({ 'a.ofx': october, 'a (1).ofx': october, 'longer.ofx': longer }))
  const figures = await figuresAt(chosen)
  expect(figures.files).toHaveLength(2)
  expect(figures.refused).toMatchObject([{ fileName: 'a (1).ofx', message: 'Holds the very same as a.ofx' }])
  expect(await (await app.get(chosen)).text()).toContain('Read in 3 transactions')
  const done = await app.post(chosen, { formId: randomUUID() })
  expect(countWaiting(app.books).waiting).toBe(4)
  const said = await app.get(locationOf(done))
  expect(await said.text()).toContain('3 transactions were read in from 2 statements')
})

const csv = (...rows: string[]) => ['Date,Description,Amount', ...rows].join('\n')
const september = csv('09/13/2026,Grocer,-20.00', '09/21/2026,Pay,300.00')
const october = csv('10/14/2026,Grocer,-21.00', '10/22/2026,Pay,310.00', '10/23/2026,Fuel,-40.00')
const farm = csv('10/14/2026,Feed mill,-82.50', '10/17/2026,Market,356.96', '10/19/2026,Twine,-12.00')

test('a CSV whose columns alone are those of an account is asked about; what was read in keeps its account in the list', async () => {
  await readAlone('household-09.csv', september, 'Household checking')
  const chosen = locationOf(await choose({ 'household-10.csv': october, 'farm-10.csv': farm }))
  expect((await figuresAt(chosen)).files).toMatchObject([
    { account: 'Household checking', state: 'clear' },
    { account: 'Household checking', state: 'asks' },
  ])
  const list = await (await app.get(chosen)).text()
  expect(list).toContain('its name, farm-10.csv, is unlike theirs')
  // Its own page asks too, and stores nothing without a yes.
  const links = [...list.matchAll(/href="(\/books\/statements\/read\/[^"]*)"/g)].map((one) =>
    one[1]!.replaceAll('&amp;', '&'),
  )
  expect(links).toHaveLength(1)
  const look = await (await app.get(links[0]!)).text()
  const fieldsIn = (html: string) =>
    Object.fromEntries(
      [
        .../<form method="post"[\s\S]*?<\/form>/.exec(html)![0].matchAll(/name="([^"]+)" value="([^"]*)"/g),
      ].map(([, key, value]) => [key!, value!]),
    )
  const { 'sure.sameColumns': _, ...unsure } = fieldsIn(look)
  expect((await app.post(links[0]!.split('?')[0]!, unsure)).status).toBe(422)
  const account = listAccounts(app.books).find(({ name }) => name === 'Farm checking')!.id
  const told = await (await app.get(`${links[0]!}&account=${account}`)).text()
  expect(told).not.toContain('is unlike theirs')
  expect((await app.post(links[0]!.split('?')[0]!, fieldsIn(told))).status).toBe(303)
  expect((await app.post(chosen, { formId: randomUUID() })).status).toBe(303)
  const all = [
    { account: 'Household checking', state: 'seen' },
    { account: 'Farm checking', state: 'seen' },
  ]
  expect((await figuresAt(chosen)).files).toMatchObject(all)
  // Chosen once more, although both accounts have these columns now.
  const again = locationOf(await choose({ 'a.csv': october, 'b.csv': farm }))
  expect((await figuresAt(again)).files).toMatchObject(all)
  expect(await (await app.get(again)).text()).toContain('The books have all of it.')
})

test('one file is looked at by itself as before; none is asked for; files held no longer are said to be', async () => {
  expect(locationOf(await choose({ 'a.ofx': ofx('111', movement('a1', '20260903', '-10.00')) }))).toMatch(
    /^\/books\/statements\/read\//,
  )
  expect((await choose({})).status).toBe(422)
  expect((await app.get('/books/statements/several/none')).status).toBe(404)
  expect((await app.post('/books/statements/several/none', { formId: randomUUID() })).status).toBe(404)
})

test('files read in together are reversed together by one press, and read in anew', async () => {
  await readAlone('a.ofx', ofx('111', movement('a1', '20260903', '-10.00')), 'Household checking')
  await readAlone('b.ofx', ofx('222', movement('b1', '20260904', '25.00')), 'Farm checking')
  const files = {
    'a.ofx': ofx('111', movement('a2', '20261005', '-12.00')),
    'b.ofx': ofx('222', movement('b2', '20261007', '30.00'), movement('b3', '20261008', '31.00')),
  }
  const cookie = { cookie: 'dooryard-browser=browser-12345678' }
  const readIn = async () => {
    const chosen = locationOf(await choose(files))
    const formId = randomUUID()
    const reply = await app.post(chosen, { formId }, cookie)
    expect(reply.status).toBe(303)
    expect(countWaiting(app.books).waiting).toBe(5)
    return { chosen, formId, page: await (await app.get(locationOf(reply), cookie)).text() }
  }
  const { page } = await readIn()
  expect(page).toContain('3 transactions were read in from 2 statements.')
  const action = /action="(\/undo\/\d+[^"]*)"/.exec(page)![1]!
  const undo = { formId: randomUUID() }
  for (let time = 0; time < 2; time += 1) expect((await app.post(action, undo, cookie)).status).toBe(303)
  expect(countWaiting(app.books).waiting).toBe(2)
  expect(listStatements(app.books)).toHaveLength(2)
  // Each of them stands as taken back in the list of acts, and the files can be read in again.
  const { acts } = (await (await app.get('/books/acts.json')).json()) as {
    acts: { says: string; isTakenBack: boolean }[]
  }
  expect(acts.filter(({ isTakenBack }) => isTakenBack)).toHaveLength(3)
  await readIn()
})

test('what a file has beside its transactions is said in the list, with its lines', async () => {
  const csv = 'Date,Description,Amount\n2026-10-02,MILL,-10.00\n2026-10-03,VET,-20.00\nTotal,,-30.00\n'
  await readAlone('b.ofx', ofx('222', movement('b1', '20260904', '25.00')), 'Farm checking')
  const chosen = locationOf(
    await choose({ 'c.csv': csv, 'b.ofx': ofx('222', movement('b2', '20261007', '30.00')) }),
  )
  const html = await (await app.get(chosen)).text()
  expect(html).toMatch(
    /<summary>1 line left out<span class="hidden-text"> of c\.csv<\/span><\/summary><ul><li>Line 4: /,
  )
})

test('numbers that no file named before are told their accounts in the list, once for all their files', async () => {
  const chosen = locationOf(
    await choose({
      'a.ofx': ofx('5555000011112222', movement('a1', '20260905', '-12.00')),
      'b.ofx': ofx('222', movement('b1', '20261007', '30.00')),
      'c.ofx': ofx('5555000011112222', movement('a2', '20261006', '-13.00')),
    }),
  )
  const html = await (await app.get(chosen)).text()
  expect(html.match(/<label for="f-account\.\d">/g)).toHaveLength(2)
  // A long number is shown by its end alone.
  expect(html).toContain('ending in 2222 is')
  expect(html.replaceAll(/value="[^"]*"/g, '')).not.toContain('5555000011112222')
  const id = (name: string) => String(listAccounts(app.books).find((one) => one.name === name)!.id)
  const named = {
    'bank.0': '5555000011112222',
    'account.0': id('Household checking'),
    'bank.1': '222',
    'account.1': '',
  }
  const again = `${chosen}?${new URLSearchParams(named)}`
  const { files } = (await (await app.get(again.replace('?', '.json?'))).json()) as Figures
  expect(files.map(({ account }) => account)).toEqual(['Household checking', null, 'Household checking'])
  const shown = await (await app.get(again)).text()
  expect(shown).toContain('name="bank.0" value="5555000011112222"')
  expect((await app.post(chosen, { formId: randomUUID(), ...named })).status).toBe(303)
  expect(countWaiting(app.books).waiting).toBe(2)
  // Known from then on.
  const next = locationOf(
    await choose({
      'd.ofx': ofx('5555000011112222', movement('a3', '20261101', '-1.00')),
      'b.ofx': ofx('222', movement('b1', '20261007', '30.00')),
    }),
  )
  expect((await figuresAt(next)).files.map(({ account }) => account)).toEqual(['Household checking', null])
})

test('two numbers of the bank chosen as one account are asked about, and what was chosen stays while one is looked at', async () => {
  const chosen = locationOf(
    await choose({
      'a.ofx': ofx('111', movement('a1', '20260903', '-10.00')),
      'b.ofx': ofx('222', movement('b1', '20260904', '25.00')),
      'c.ofx': ofx('333', movement('c1', '20260905', '26.00')),
    }),
  )
  const id = (name: string) => String(listAccounts(app.books).find((one) => one.name === name)!.id)
  const [household, farm] = [id('Household checking'), id('Farm checking')]
  const naming = (...accounts: string[]) =>
    new URLSearchParams(
      accounts.flatMap((account, at): [string, string][] => [
        [`bank.${at}`, ['111', '222', '333'][at]!],
        [`account.${at}`, account],
      ]),
    )
  expect((await app.get(`${chosen}?${naming(household, household, farm)}`)).status).toBe(200)
  // Without saying it again: it is kept with the files.
  const html = await (await app.get(chosen)).text()
  expect(html).toContain('You chose Household checking for ')
  expect((await figuresAt(chosen)).files.map(({ state }) => state)).toEqual(['asks', 'asks', 'clear'])
  expect((await app.post(chosen, { formId: randomUUID() })).status).toBe(303)
  expect(countWaiting(app.books).waiting).toBe(1)
  // One of them by itself, with its account as chosen; back at the list the other one still has its choice, and is asked about.
  const [, look] = /href="(\/books\/statements\/read\/[^"]+)"/.exec(await (await app.get(chosen)).text())!
  const address = look!.replaceAll('&amp;', '&')
  const page = await (await app.get(address)).text()
  const form = /<form method="post"[\s\S]*?<\/form>/.exec(page)![0]
  const fields = Object.fromEntries(
    [...form.matchAll(/name="([^"]+)" value="([^"]*)"/g)].map(([, key, value]) => [key!, value!]),
  )
  const done = await app.post(address, fields)
  expect(locationOf(done)).toContain(chosen)
  const after = await (await app.get(chosen)).text()
  expect(after).toMatch(new RegExp(`<option value="${household}" selected`))
  expect((await figuresAt(chosen)).files.map(({ state }) => state)).toEqual(['seen', 'asks', 'seen'])
})

test('the account and columns that were chosen at the page of a CSV stay in the list, though nothing was read in there', async () => {
  const csv = (...rows: string[]) => ['When,Who,Out of it', ...rows].join('\n')
  const chosen = locationOf(
    await choose({
      'pantry.csv': csv('10/03/2026,Orchard Supply,12.50', '10/14/2026,Corner Bakery,7.25'),
      'b.ofx': ofx('222', movement('b1', '20261004', '25.00')),
    }),
  )
  const id = String(listAccounts(app.books).find(({ name }) => name === 'Household checking')!.id)
  const lookOf = async (name: string) => {
    const html = await (await app.get(chosen)).text()
    const link = new RegExp(`href="([^"]+)">Look at ${name}`).exec(html)![1]!
    return link.replaceAll('&amp;', '&')
  }
  const look = await lookOf('pantry.csv')
  // As the page sends its first form: all fields as they are proposed, but account and meaning of the sign.
  const [form] = browserForms(await (await app.get(look)).text(), look)
  const fields = new URLSearchParams(form!.fields)
  fields.set('account', id)
  fields.set('moneyOutIs', 'positive')
  const shown = await (await app.get(`${look.split('?')[0]}?${fields}`)).text()
  expect(shown).toContain('−$12.50')
  expect((await figuresAt(chosen)).files).toMatchObject([
    { account: 'Household checking', counts: { new: 2, seen: 0 } },
    { account: null },
  ])
  // The page by its bare address is as it was left, and the list's press reads it in so, where nothing is asked.
  const again = await (await app.get(look.split('?')[0]!)).text()
  expect(again).toMatch(new RegExp(`<option value="${id}" selected`))
  expect(again).toContain('−$12.50')
  // An account that was told by its number at the page is told in the list.
  const other = await lookOf('b.ofx')
  const farm = String(listAccounts(app.books).find(({ name }) => name === 'Farm checking')!.id)
  expect((await app.get(`${other}&account=${farm}`)).status).toBe(200)
  expect((await figuresAt(chosen)).files.map(({ account }) => account)).toEqual([
    'Household checking',
    'Farm checking',
  ])
  expect(countWaiting(app.books).waiting).toBe(0)
})

/** Day, payee, amount, balance. */
const csvOf = (...rows: string[]) => ['Date,Description,Amount,Balance', ...rows, ''].join('\n')

test('files of one account are held against each other by their days, and a row that stands twice is doubtful, not missing', async () => {
  const august = csvOf('08/03/2026,HOLLOW FEED,-10.00,990.00', '08/20/2026,TARN GROCER,-20.00,970.00')
  const september = csvOf('09/03/2026,HOLLOW FEED,-30.00,940.00', '09/21/2026,TARN GROCER,-15.00,925.00')
  const october = csvOf(
    '10/02/2026,HOLLOW FEED,-5.00,920.00',
    '10/09/2026,OX BOW MILL,-40.00,880.00',
    '10/09/2026,OX BOW MILL,-40.00,880.00',
    '10/20/2026,TARN GROCER,-30.00,850.00',
    '10/22/2026,TARN GROCER,-20.00,830.00',
    '10/28/2026,HOLLOW FEED,-10.00,820.00',
  )
  await readAlone('august.csv', august, 'Household checking')
  const both = locationOf(await choose({ 'october.csv': october, 'september.csv': september }))
  expect((await figuresAt(both)).files).toMatchObject([
    { state: 'clear', counts: { new: 5, doubtful: 1 } },
    { state: 'clear', counts: { new: 2, doubtful: 0 } },
  ])
  // Alone, October does say that a month is not there.
  const alone = locationOf(await choose({ 'october.csv': october }))
  expect(await (await app.get(alone)).text()).toContain('The last file ended with $970.00 on Aug 20, 2026')
})

test('what several files of an account share is counted once, and the like number of another bank by itself', async () => {
  await readAlone('a.ofx', ofx('111', movement('a1', '20260903', '-10.00')), 'Household checking')
  await readAlone('b.ofx', ofx('222', movement('b1', '20260904', '25.00')), 'Farm checking')
  const same = movement('x1', '20261002', '-4.00')
  // The same number at two banks is two movements, and a third file of one account holds both of the others' days.
  const chosen = locationOf(
    await choose({
      'one.ofx': ofx('111', same, movement('x2', '20261003', '-5.00')),
      'two.ofx': ofx('111', movement('x2', '20261003', '-5.00'), movement('x3', '20261004', '-6.00')),
      'all.ofx': ofx('111', same, movement('x3', '20261004', '-6.00'), movement('x4', '20261009', '-7.00')),
      'farm.ofx': ofx('222', same),
    }),
  )
  expect(await (await app.get(chosen)).text()).toContain('Read in 5 transactions')
  const done = await app.post(chosen, { formId: randomUUID() })
  expect(await (await app.get(locationOf(done))).text()).toContain(
    '5 transactions were read in from 4 statements',
  )
})
