import { afterEach, beforeEach, expect, test } from 'vitest'
import { listAccounts } from '#db/ledger/account-store.ts'
import { postEntry, voidEntry } from '#db/ledger/ledger-store.ts'
import { registerPage } from '#db/ledger/register.ts'
import { moneyOut } from '#ledger/simple-entry.ts'
import { cents } from '#money/cents.ts'
import type { ChangeFigures } from '#views/books/change-figures.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
let forms = 0
const at = '2026-03-15T12:00:00.000Z'
const formId = () => `00000000-0000-4000-8000-${String(++forms).padStart(12, '0')}`
const act = () => ({ formId: formId(), at, actor: 'test' })
const account = (name: string, side = 'farm') =>
  listAccounts(app.books).find((one) => one.name === name && one.sideId === side)!.id

const spend = (day: string, amount: number, payee: string) => {
  const lines = [{ accountId: account('Supplies'), amountCents: cents(amount) }]
  const head = { id: '', sideId: 'farm', day: day as never, payee, memo: '' }
  const done = postEntry(app.books, act(), moneyOut(head, account('Farm checking'), lines))
  if (!done.ok) throw new Error(JSON.stringify(done.problems))
  return done.result
}

beforeEach(() => {
  app = testApp({ today: '2026-03-15' })
  app.openSides()
  spend('2026-01-05', 3200, 'HOLLOW 0342')
  spend('2026-01-20', 800, 'HOLLOW 0342')
  spend('2026-02-02', 500, 'Twine maker')
})
afterEach(() => {
  app.close()
})

const register = () => `/books/accounts/${account('Farm checking')}`
const standing = () =>
  registerPage(app.books, { accountId: account('Farm checking'), filter: { withoutTakenBack: true } }).rows
const ids = () => standing().map((row) => String(row.postingId))
const query = (values: Record<string, string | string[]>) =>
  new URLSearchParams(
    Object.entries(values).flatMap(([name, value]) =>
      [value].flat().map((one) => [name, one] as [string, string]),
    ),
  ).toString()

test('every row of the register has a check, and a link ticks them all without script', async () => {
  const page = await (await app.get(register())).text()
  expect(page.match(/<input type="checkbox" name="ticked\[\]"/g)).toHaveLength(3)
  expect(page).not.toMatch(/name="ticked\[\]"[^>]* checked/)
  expect(page).toContain('aria-label="HOLLOW 0342, Jan 5, 2026, −$32.00"')
  expect(page).toContain(`href="${register()}?chosen=page"`)
  const all = await (await app.get(`${register()}?chosen=page`)).text()
  expect(all.match(/name="ticked\[\]"[^>]* checked/g)).toHaveLength(3)
  expect(all).toContain('Uncheck all')
})

test('what was reversed has no check, and can be left out of the register', async () => {
  const { entryId } = spend('2026-02-03', 100, 'Mistake')
  voidEntry(app.books, act(), entryId, '2026-02-03' as never)
  const page = await (await app.get(register())).text()
  expect(page.match(/name="ticked\[\]"/g)).toHaveLength(3)
  const figures = (await (await app.get(`${register()}.json?living=yes`)).json()) as { rows: unknown[] }
  expect(figures.rows).toHaveLength(3)
})

test('the search hands over all that it finds, and the way back keeps the search', async () => {
  const page = await (await app.get(`${register()}?text=hollow`)).text()
  const link = /href="([^"]*chosen=found[^"]*)"/.exec(page)![1]!.replaceAll('&amp;', '&')
  const chosen = await app.get(link)
  expect(chosen.status).toBe(200)
  const text = await chosen.text()
  expect(text.match(/name="ticked\[\]"[^>]* checked/g)).toHaveLength(2)
  expect(text).toContain(`href="${register()}?text=hollow"`)
  expect(text).toContain('name="back" value="text=hollow"')
})

const look = async (over: Record<string, string | string[]> = {}) => {
  const asked = { look: 'yes', lines: 'others', account: String(account('Feed')), 'ticked[]': ids(), ...over }
  const reply = await app.get(`${register()}/change.json?${query(asked)}`)
  return (await reply.json()) as ChangeFigures
}

test('a look says what is booked, what stays and why, and what balances do', async () => {
  const { entryId } = spend('2026-02-10', 900, 'Reversed meanwhile')
  const chosen = ids()
  voidEntry(app.books, act(), entryId, '2026-02-10' as never)
  const { preview } = await look({ 'ticked[]': chosen, payee: 'Hollow Feed' })
  expect(preview!.booked.map((row) => row.says)).toEqual(
    Array(3).fill(['From Supplies to Feed', 'With whom becomes “Hollow Feed”']),
  )
  expect(preview!.staying).toMatchObject([
    { payee: 'Reversed meanwhile', amountCents: -900, why: 'It was reversed already, by entry 5' },
  ])
  expect(preview!.effects).toMatchObject([
    { name: 'Supplies', changeCents: -4500 },
    { name: 'Feed', changeCents: 4500 },
  ])
  const page = await (
    await app.get(
      `${register()}/change?${query({ look: 'yes', lines: 'others', payee: 'x', 'ticked[]': chosen })}`,
    )
  ).text()
  expect(page).toContain('Book these 3 changes')
  expect(page).toContain('1 entry stays as it is, for the reason below')
  expect(page).toContain('No balance changes.')
  const csv = /href="([^"]*table=staying)"/.exec(page)![1]!.replaceAll('&amp;', '&')
  expect(await (await app.get(csv)).text()).toContain('"It was reversed already, by entry 5"')
})

test('nothing checked, nothing asked and a strange account are said with what was typed kept', async () => {
  const none = await app.get(`${register()}/change?${query({ look: 'yes', lines: 'others', payee: 'x' })}`)
  expect(none.status).toBe(422)
  expect(await none.text()).toContain('href="#f-ticked">Check the lines to change on the register first')
  const nothing = await app.get(
    `${register()}/change?${query({ look: 'yes', lines: 'others', 'ticked[]': ids() })}`,
  )
  expect(nothing.status).toBe(422)
  expect(await nothing.text()).toContain('href="#f-account">Say what to change')
  const strange = await app.get(
    `${register()}/change?${query({
      look: 'yes',
      lines: 'others',
      account: String(account('Groceries', 'household')),
      memo: 'kept',
      'ticked[]': ids(),
    })}`,
  )
  expect(strange.status).toBe(422)
  const text = await strange.text()
  expect(text).toContain('is in other books')
  expect(text).toContain('value="kept"')
})

const cookie = 'dooryard-browser=kitchen-table'
const book = (over: Record<string, string | string[]> = {}) => {
  const form = {
    formId: formId(),
    lines: 'others',
    account: String(account('Feed')),
    enterprise: '',
    payee: 'Hollow Feed',
    memo: '',
    back: 'text=hollow&evil=1',
    'ticked[]': ids(),
    ...over,
  }
  return app.post(`${register()}/change`, form, { cookie })
}

test('booked once however often it is sent, it leads back to the search and offers to take all of it back', async () => {
  const form = { formId: formId(), 'ticked[]': ids() }
  const reply = await book(form)
  expect(reply.status).toBe(303)
  const address = reply.headers.get('location')!
  expect(address).toMatch(new RegExp(`^${register()}\\?text=hollow&notice=`))
  expect((await book(form)).status).toBe(303)
  expect(standing().map((row) => row.payee)).toEqual(Array(3).fill('Hollow Feed'))
  const page = await (await app.get(address, { cookie })).text()
  expect(page).toContain('3 entries are reversed and recorded again.')
  const undo = /action="(\/undo\/\d+[^"]*)"/.exec(page)![1]!
  const undone = await app.post(undo, { formId: formId() }, { cookie })
  expect(undone.status).toBe(303)
  expect(standing().map((row) => row.payee)).toEqual(['Twine maker', 'HOLLOW 0342', 'HOLLOW 0342'])
  expect(standing().map((row) => row.others[0]!.name)).toEqual(Array(3).fill('Supplies'))
})

test('another body under the same id is a conflict that says so, and books nothing', async () => {
  const id = formId()
  const chosen = ids()
  await book({ formId: id, 'ticked[]': chosen.slice(0, 1) })
  const before = ids()
  const second = await book({ formId: id, 'ticked[]': chosen.slice(1) })
  expect(second.status).toBe(409)
  expect(await second.text()).toContain('This form was sent before with other content')
  expect(ids()).toEqual(before)
})

test('when another screen was quicker, nothing is booked and the page shows what can be now', async () => {
  const chosen = ids()
  const [newest] = standing()
  voidEntry(app.books, act(), newest!.entryId, newest!.day)
  const reply = await book({ 'ticked[]': chosen })
  expect(reply.status).toBe(409)
  const page = await reply.text()
  expect(page).toContain('Nothing was changed: since you looked, entry 3 must stay as it is')
  expect(page).toContain('Book these 2 changes')
  expect(standing().map((row) => row.payee)).toEqual(['HOLLOW 0342', 'HOLLOW 0342'])
})

test('forms without a number, with strange enterprises and of no account are told what to do', async () => {
  const lost = await book({ formId: 'x' })
  expect(lost.status).toBe(422)
  expect(await lost.text()).toContain('This form has lost its number')
  const strange = await book({ enterprise: 'e:dragons' })
  expect(strange.status).toBe(422)
  expect(await strange.text()).toContain('Choose an enterprise from the list')
  expect((await app.get('/books/accounts/99999/change')).status).toBe(404)
  expect((await app.post('/books/accounts/99999/change', { formId: formId() })).status).toBe(404)
})
