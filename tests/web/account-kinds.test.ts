// An account's own words decide what it is; what it cannot be is refused at its field, and older books that hold it open everywhere.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { month } from '#calendar/month.ts'
import { changeAccount } from '#db/ledger/account-change.ts'
import { listAccounts, listSides } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { listRules, saveRule } from '#db/statements/sorting-rule-store.ts'
import { listStanding, startStanding } from '#db/transfers/standing-store.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { moneyIn, moneyOut } from '#ledger/simple-entry.ts'
import { cents } from '#money/cents.ts'
import { currentPlan } from '#today/current-plan.ts'
import { booksYear } from '#today/tax/books-year.ts'
import { undecidedIn } from '#today/tax/paid-for.ts'
import { act, done, on, type TestBooks, withAccounts } from '../db/fresh-books.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
let books: TestBooks
let forms = 0
const formId = () => `00000000-0000-4000-8000-${String(++forms).padStart(12, '0')}`

beforeEach(() => {
  app = testApp({ today: '2026-05-20' })
  app.openSides()
  books = withAccounts(app.books)
})
afterEach(() => app.close())

const account = (name: string) => books.account('farm', name)
const spend = (side: 'farm' | 'household', from: string, on_: string, cents_: number) => {
  const head = { id: '', sideId: side, day: on('2026-04-10'), payee: 'Someone', memo: '' }
  const lines = [{ accountId: books.account(side, on_).id, amountCents: cents(cents_) }]
  done(postEntry(books, act(), moneyOut(head, books.account(side, from).id, lines)))
}
const form = (more: Record<string, string>) => ({
  formId: formId(),
  side: 'farm',
  kind: 'expense',
  name: 'Feed',
  number: '5160',
  note: '',
  ...more,
})

test.each(['1c', '3b', '4b', '5c', '6b', '9', '33', '99', '32g', '2', '4a'])(
  'a cost of the farm with line %s is refused at its field, with what was chosen kept',
  async (line) => {
    const reply = await app.post(`/settings/accounts/${account('Feed').id}`, form({ scheduleLine: line }))
    expect(reply.status).toBe(422)
    const html = await reply.text()
    expect(html).toContain('href="#f-scheduleLine"')
    expect(html).toMatch(new RegExp(`<option value="${line}" selected`))
    expect(account('Feed').scheduleLine).toBe('16')
  },
)

test('books that hold such lines already open everywhere, count the money, say so, and are put right', async () => {
  spend('farm', 'Farm checking', 'Feed', 123_400)
  books.sqlite.exec("UPDATE accounts SET schedule_line = '9' WHERE name = 'Feed'")
  books.sqlite.exec("UPDATE accounts SET schedule_line = '6b' WHERE name = 'Crop insurance received'")
  const { farm } = booksYear(books, 2026)
  expect(farm!.form.totalExpensesCents).toBe(123_400)
  for (const path of ['/now', '/year-pack?year=2026', '/settings/calendar', '/runway', '/settings/accounts'])
    expect([path, (await app.get(path)).status]).toEqual([path, 200])
  const pack = await (await app.get('/year-pack/print?year=2026')).text()
  expect(pack).toContain('“Feed” has line 9 of Schedule F, which no such account can have')
  const page = await (await app.get(`/settings/accounts/${account('Feed').id}`)).text()
  expect(page).toContain('9, which such an account cannot have')
  expect(
    (await app.post(`/settings/accounts/${account('Feed').id}`, form({ scheduleLine: '16' }))).status,
  ).toBe(303)
  expect(booksYear(books, 2026).farm!.form.strayAccounts.map(({ name }) => name)).toEqual([
    'Crop insurance received',
  ])
})

test('whose tax a payment is follows what the account says, not what it is called', () => {
  const paid = () => undecidedIn(books, { plan: null, year: 2026, to: 'federal' })
  spend('household', 'Household checking', 'Federal taxes', 90_000)
  spend('household', 'Household checking', 'State and local income taxes', 40_000)
  expect(paid()).toBe(900)
  done(
    changeAccount(books, act(), books.account('household', 'Federal taxes'), {
      name: 'Oregon income tax',
    }),
  )
  expect(paid()).toBe(900)
  const oregon = books.account('household', 'Oregon income tax')
  done(changeAccount(books, act(), oregon, { purpose: 'tax', taxKind: 'state' }))
  expect(paid()).toBe(0)
  const other = books.account('household', 'State and local income taxes')
  done(changeAccount(books, act(), other, { name: 'Statewide power', purpose: 'tax', taxKind: 'federal' }))
  expect(paid()).toBe(400)
})

test('saving an account leaves what its form does not show, also what older books hold there', async () => {
  await app.post('/settings/sides/new', { formId: formId(), name: 'Lessons' })
  const { id } = books.account('venture-lessons', 'Travel')
  books.sqlite.prepare("UPDATE accounts SET purpose = 'living', bank_key = 'b1' WHERE id = ?").run(id)
  const page = await (await app.get(`/settings/accounts/${id}`)).text()
  expect(page).not.toContain('name="purpose"')
  const typed = { ...form({ name: 'Travel', number: '5100', scheduleLine: '24a' }), side: 'venture-lessons' }
  expect((await app.post(`/settings/accounts/${id}`, typed)).status).toBe(303)
  expect(books.account('venture-lessons', 'Travel')).toMatchObject({
    purpose: 'living',
    bankKey: 'b1',
    scheduleLine: '24a',
  })
})

test('an account for income taxes must say whose they are', async () => {
  const { id, number } = books.account('household', 'Federal taxes')
  const typed = {
    ...form({ name: 'Federal taxes', number: String(number), purpose: 'tax', taxKind: '' }),
    side: 'household',
  }
  const reply = await app.post(`/settings/accounts/${id}`, typed)
  expect(reply.status).toBe(422)
  expect(await reply.text()).toContain('href="#f-taxKind"')
})

const standing = (from: number, to: number) =>
  done(
    startStanding(books, act(), {
      name: 'Monthly draw',
      kind: 'draw',
      fromAccountId: from,
      toAccountId: to,
      amountCents: cents(50_000),
      dayOfMonth: 1,
      firstMonth: month(2026, 6),
      lastMonth: null,
      posting: 'automatic',
      memo: '',
    }),
  )

test('an account with money, a transfer and a rule on it says so before it is archived, and they end with it', async () => {
  const checking = account('Farm checking')
  standing(checking.id, books.account('household', 'Household checking').id)
  spend('farm', 'Farm checking', 'Feed', 123_400)
  done(
    saveRule(books, act(), null, {
      matchKind: 'contains',
      matchText: 'hollow',
      onAccountId: checking.id,
      sign: 'out',
      minimum: null,
      maximum: null,
      target: { kind: 'account', accountId: account('Feed').id, enterpriseId: null },
      priority: 0,
    }),
  )
  const typed = {
    ...form({ name: 'Farm checking', number: '1000', kind: 'asset', cashRole: 'cash', archived: 'yes' }),
  }
  const asked = await app.post(`/settings/accounts/${checking.id}`, typed)
  expect(asked.status).toBe(422)
  const html = await asked.text()
  expect(html).toContain('“Farm checking” has −$1,234.00 on it')
  expect(html).toContain('the standing transfer “Monthly draw” ends')
  expect(html).toContain('1 sorting rule is archived')
  expect(html).toContain('name="anyway"')
  expect(account('Farm checking').archivedAt).toBeNull()
  expect((await app.post(`/settings/accounts/${checking.id}`, { ...typed, anyway: 'yes' })).status).toBe(303)
  expect(account('Farm checking').archivedAt).not.toBeNull()
  expect([listStanding(books), listRules(books)]).toEqual([[], []])
  expect(verifyBooks(books.sqlite).findings).toEqual([])
})

test('two ventures of one name are refused, whatever the case, also by renaming', async () => {
  const add = (name: string) => app.post('/settings/sides/new', { formId: formId(), name })
  expect((await add('Repair bench')).status).toBe(303)
  for (const name of ['Repair bench', ' repair BENCH ', 'Wrenfold']) {
    const reply = await add(name)
    expect([name, reply.status]).toEqual([name, 422])
    expect(await reply.text()).toContain('href="#f-name"')
  }
  expect((await add('Lessons')).status).toBe(303)
  const lessons = listSides(books).find(({ name }) => name === 'Lessons')!
  const rename = (name: string) => app.post(`/settings/sides/${lessons.id}`, { formId: formId(), name })
  expect((await rename('Repair Bench')).status).toBe(422)
  expect((await rename('Fiddle lessons')).status).toBe(303)
  expect(listSides(books).map(({ name }) => name)).toContain('Fiddle lessons')
})

test('a venture is archived from its page, which says what hangs on it; house and farm cannot be', async () => {
  await app.post('/settings/sides/new', { formId: formId(), name: 'Lessons' })
  const lessons = listSides(books).find(({ name }) => name === 'Lessons')!
  standing(
    books.account(lessons.id, 'Venture checking').id,
    books.account('household', 'Household checking').id,
  )
  const page = await (await app.get(`/settings/sides/${lessons.id}`)).text()
  expect(page).toContain('the standing transfer “Monthly draw” ends')
  const typed = { name: 'Lessons', archived: 'yes' }
  const post = (id: string, more = {}) =>
    app.post(`/settings/sides/${id}`, { formId: formId(), ...typed, ...more })
  expect((await post(lessons.id)).status).toBe(422)
  expect((await post(lessons.id, { anyway: 'yes' })).status).toBe(303)
  expect(listSides(books).map(({ id }) => id)).toEqual(['farm', 'household'])
  expect(listStanding(books)).toEqual([])
  expect((await post('farm', { name: 'Wrenfold' })).status).toBe(422)
  expect(
    (await app.post(`/settings/sides/${lessons.id}`, { formId: formId(), name: 'Lessons' })).status,
  ).toBe(303)
  expect(listSides(books).map(({ id }) => id)).toContain(lessons.id)
  expect(verifyBooks(books.sqlite).findings).toEqual([])
})

test('the first run takes savings into the plan by what each account is, whatever its number', async () => {
  const named = (name: string) =>
    listAccounts(books).find((one) => one.sideId === 'household' && one.name === name)!
  done(changeAccount(books, act(), named('Retirement, Roth'), { number: 1700 }))
  done(changeAccount(books, act(), named('Retirement, traditional'), { number: 1310 }))
  const { saveSavings } = await import('#web/pages/start/start-savings.ts')
  const put = (name: string, dollars: number) => {
    const head = { id: '', sideId: 'household', day: on('2026-04-10'), payee: 'Opening', memo: '' }
    const opening = books.account('household', 'Other income').id
    done(
      postEntry(
        books,
        act(),
        moneyIn(head, named(name).id, [{ accountId: opening, amountCents: cents(dollars * 100) }]),
      ),
    )
  }
  put('Retirement, Roth', 7000)
  put('Retirement, traditional', 3000)
  put('Savings', 900)
  const days = { first: on('2026-05-01'), today: on('2026-05-20') }
  expect(saveSavings(books, act(), { ...days, earns: new Map() })).toEqual([])
  const current = currentPlan(books)
  if (current.status !== 'read') throw new Error('no plan')
  expect(current.plan.savings.accounts.map(({ kind, balance }) => [kind, balance])).toEqual([
    ['cash', 900],
    ['traditional', 3000],
    ['roth', 7000],
  ])
})
