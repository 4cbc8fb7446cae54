import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { prepareRestore } from '#db/backup/restore.ts'
import { placeBeside } from '#db/data-place.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { moneyOut } from '#ledger/simple-entry.ts'
import { cents } from '#money/cents.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
let forms = 0
const at = '2026-03-15T12:00:00.000Z'
const formId = () => `00000000-0000-4000-8000-${String(++forms).padStart(12, '0')}`
const account = (name: string) => listAccounts(app.books).find((one) => one.name === name)!.id

beforeEach(() => {
  app = testApp({ today: '2026-03-15', onDisk: true })
  app.openSides()
  const draft = moneyOut(
    { id: '', sideId: 'farm', day: '2026-01-05' as never, payee: 'Country store', memo: '' },
    account('Farm checking'),
    [{ accountId: account('Supplies'), amountCents: cents(3200) }],
  )
  postEntry(app.books, { formId: formId(), at, actor: 'test' }, draft)
})
afterEach(() => {
  app.close()
})

const sendReceipt = (bytes: string, name: string) => {
  const form = new FormData()
  form.set('formId', formId())
  form.set('receipt', new File([bytes], name))
  return app.upload('/books/receipts/1', form)
}

test('a receipt is kept with its entry and comes back as it was, taken off and no longer shown', async () => {
  expect((await sendReceipt('%PDF-1.4 row cover', 'row cover.pdf')).status).toBe(303)
  const { receipts } = (await (await app.get('/books/receipts/1.json')).json()) as {
    receipts: { id: string }[]
  }
  const address = `/books/receipts/1/${receipts[0]!.id}`
  const sent = await app.get(address)
  expect(sent.headers.get('content-type')).toBe('application/pdf')
  expect(sent.headers.get('x-content-type-options')).toBe('nosniff')
  expect(await sent.text()).toBe('%PDF-1.4 row cover')
  expect((await app.post(`${address}/remove`, { formId: formId() })).status).toBe(303)
  expect((await app.get(address)).status).toBe(404)
})

test('a page dressed up as a receipt is refused, and a receipt changed on disk is not shown', async () => {
  const refused = await sendReceipt('<html><script>alert(1)</script>', 'receipt.pdf')
  expect(refused.status).toBe(422)
  expect(await refused.text()).toContain('Choose a PDF, or a photo')
  expect((await app.post('/books/receipts/1', { formId: formId() })).status).toBe(422)
  await sendReceipt('%PDF-1.4 row cover', 'receipt.pdf')
  const row = app.books.sqlite.prepare('SELECT id, content_hash AS hash FROM attachments').get() as {
    id: string
    hash: string
  }
  writeFileSync(join(placeBeside(app.books.path).attachments, row.hash.slice(0, 2), row.hash), 'other')
  expect((await app.get(`/books/receipts/1/${row.id}`)).status).toBe(404)
})

test('a receipt sent with a new entry is kept with it, by file or by camera; one that cannot be kept leaves nothing behind', async () => {
  const numbers = () =>
    app.books.sqlite.prepare('SELECT no FROM entries ORDER BY no').pluck().all() as number[]
  const entry = (name: 'receipt' | 'photo', bytes: string) => {
    const form = new FormData()
    const fields = {
      formId: formId(),
      side: 'farm',
      kind: 'out',
      day: '2026-03-02',
      payee: 'Ridge Supply',
      moneyAccount: String(account('Farm checking')),
      'lines.0.account': String(account('Supplies')),
      'lines.0.amount': '12.50',
    }
    for (const [field, value] of Object.entries(fields)) form.set(field, value)
    form.set(name, new File([bytes], 'r.pdf'))
    return form
  }
  const refused = await app.upload('/books/entry', entry('receipt', 'not a receipt'))
  expect(refused.status).toBe(422)
  const page = await refused.text()
  expect(page).toContain('Choose a PDF, or a photo')
  expect(page).toContain('value="12.50"')
  expect(numbers()).toEqual([1])
  expect(await (await app.get('/books/entry')).text()).toContain('capture="environment"')
  const form = entry('photo', '%PDF-1.4 taken')
  expect((await app.upload('/books/entry', form)).status).toBe(303)
  // The same form sent twice books once, and keeps its receipt once.
  expect((await app.upload('/books/entry', form)).status).toBe(303)
  expect(numbers()).toEqual([1, 2])
  const { receipts } = (await (await app.get('/books/receipts/2.json')).json()) as { receipts: unknown[] }
  expect(receipts).toHaveLength(1)
  const without = entry('receipt', '')
  without.set('sureAnother[]', '2026-03-02 Ridge Supply ')
  expect((await app.upload('/books/entry', without)).status).toBe(303)
})

test.for(['plain', 'sealed', 'json'])(
  'a %s file made on the page restores to the same books',
  async (kind) => {
    const words = 'six words that nobody knows'
    const sent = await app.post('/settings/backups/file', {
      formId: formId(),
      kind,
      passphrase: words,
      again: words,
    })
    expect(sent.headers.get('content-disposition')).toMatch(
      /^attachment; filename="dooryard-2026-03-15\.(sqlite|dooryard|json)"$/,
    )
    const folder = placeBeside(app.books.path).folder
    const file = join(folder, 'carried-away')
    writeFileSync(file, Buffer.from(await sent.arrayBuffer()))
    await expect.poll(() => readdirSync(folder).filter((name) => name.endsWith('.half'))).toEqual([])
    if (kind !== 'plain' && kind !== 'json') expect(readFileSync(file).includes('Country store')).toBe(false)
    const prepared = prepareRestore(file, {
      file: join(folder, 'again.sqlite'),
      backups: join(folder, 'b'),
      attachments: join(folder, 'a'),
      now: new Date(0),
      passphrase: words,
    })
    expect(prepared).toMatchObject({ ok: true })
    rmSync(file)
  },
)

test('an encrypted file needs a passphrase of some length, typed twice alike', async () => {
  const send = (passphrase: string, again: string) =>
    app.post('/settings/backups/file', { formId: formId(), kind: 'sealed', passphrase, again })
  expect(await (await send('short', 'short')).text()).toContain('Enter 8 letters or more')
  const differing = await send('six words that nobody knows', 'six words')
  expect(differing.status).toBe(422)
  expect(await differing.text()).not.toContain('six words that')
})

test('the books are proved on the page, and what does not hold is named', async () => {
  expect(await (await app.post('/settings/backups/verify', { formId: formId() })).text()).toContain(
    'Everything holds',
  )
  app.books.sqlite.exec('UPDATE account_months SET sum_cents = 1')
  expect(await (await app.post('/settings/backups/verify', { formId: formId() })).text()).toContain(
    'The kept sum is 1',
  )
})

test('what was just recorded can be reversed from the notice, once', async () => {
  const cookie = { cookie: 'dooryard-browser=browser-12345678' }
  const posted = await app.post(
    '/books/entry',
    {
      formId: formId(),
      side: 'farm',
      kind: 'out',
      day: '2026-03-02',
      moneyAccount: String(account('Farm checking')),
      'lines.0.account': String(account('Supplies')),
      'lines.0.amount': '5',
    },
    cookie,
  )
  const page = await (await app.get(posted.headers.get('location')!, cookie)).text()
  const action = /action="(\/undo\/\d+[^"]*)"/.exec(page)![1]!
  expect((await app.post(action, { formId: formId() }, cookie)).status).toBe(303)
  expect(balancesOn(app.books).get(account('Supplies'))).toBe(3200)
  await app.post(action, { formId: formId() }, cookie)
  expect(balancesOn(app.books).get(account('Supplies'))).toBe(3200)
})

test('a full disk is said on the page with what to do, and nothing is stored', async () => {
  const pages = app.books.sqlite.pragma('page_count', { simple: true }) as number
  app.books.sqlite.pragma(`max_page_count = ${pages}`)
  let last: Response | undefined
  for (let count = 0; count < 200 && last?.status !== 503; count += 1)
    last = await app.post('/books/entry', {
      formId: formId(),
      side: 'farm',
      kind: 'out',
      day: '2026-03-02',
      memo: 'x'.repeat(450),
      moneyAccount: String(account('Farm checking')),
      'lines.0.account': String(account('Supplies')),
      'lines.0.amount': '5',
    })
  expect(last!.status).toBe(503)
  expect(await last!.text()).toContain('The disk is full')
})
