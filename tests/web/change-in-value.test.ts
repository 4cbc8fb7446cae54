// What investments gained or lost in a month, booked by one press of the month's page. A house of its own, by hand.
import { randomUUID } from 'node:crypto'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { lastFinished } from '#db/reconcile/reconcile-reader.ts'
import { sortingDesk } from '#db/statements/sorting-desk.ts'
import { sortLines } from '#db/statements/sorting-store.ts'
import { importStatement } from '#db/statements/statement-store.ts'
import { cents } from '#money/cents.ts'
import { act, done } from '../db/fresh-books.ts'
import { statementFile } from '../db/statement-file.ts'
import { browserForms, fieldsOf } from './browser-form.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
beforeEach(() => {
  app = testApp({ today: '2026-11-06' })
  app.openSides()
})
afterEach(() => app.close())
const idOf = (name: string) =>
  listAccounts(app.books, { sideId: 'household' }).find((one) => one.name === name)!.id

/** 20,000.00 in September, 500.00 put in on Oct 5, and what the file says for Oct 30. */
const invested = (says: number) => {
  const funds = idOf('Taxable investments')
  const lines = [
    { accountId: funds, amountCents: cents(2_000_000) },
    { accountId: idOf('Opening balances'), amountCents: cents(-2_000_000) },
  ]
  const head = { sideId: 'household' as const, payee: '', memo: '', source: 'opening' as const }
  done(postEntry(app.books, act(), { ...head, day: day('2026-09-30'), lines }))
  const line = { bankNumber: 'a1', day: day('2026-10-05'), amount: cents(50_000), payee: 'MOVED IN' }
  const file = statementFile([line], { closing: { balance: cents(says), asOf: day('2026-10-30') } })
  done(importStatement(app.books, act(), funds, file, day('2026-11-06')))
  const target = { kind: 'account' as const, accountId: idOf('Household checking'), enterpriseId: null }
  const sortings = sortingDesk(app.books).lines.map((one) => ({
    lineId: one.line.id,
    kind: 'target' as const,
    target,
  }))
  done(sortLines(app.books, act(), sortings))
  return funds
}

const valueForm = async () => {
  const html = await (await app.get('/month?month=2026-10')).text()
  return { html, form: browserForms(html, '/month').find(({ action }) => action === '/month/value') }
}

test('a gain of the month is booked by one press, once, and the account is reconciled with it', async () => {
  const funds = invested(2_093_512)
  const { html, form } = await valueForm()
  // 20,500.00 in the books, 20,935.12 by the file.
  expect(html).toContain('the books have $435.12 less than the file says for Oct 30, 2026')
  expect(html).toContain('Book $435.12 as change in value')
  const fields = fieldsOf(form!)
  for (const _ of [1, 2]) expect((await app.post('/month/value', fields)).status).toBe(303)
  const held = balancesOn(app.books, day('2026-10-30'))
  expect(held.get(funds)).toBe(2_093_512)
  expect(held.get(idOf('Change in value of investments'))).toBe(-43_512)
  expect(lastFinished(app.books, funds)).toMatchObject({ statementDay: '2026-10-30', state: 'finished' })
  expect((await valueForm()).form).toBeUndefined()
})

test('a loss goes the other way; what changed since the page was shown is refused; money in a bank has no such press', async () => {
  const funds = invested(1_990_000)
  const { html, form } = await valueForm()
  expect(html).toContain('Book −$600.00 as change in value')
  const lines = [
    { accountId: funds, amountCents: cents(-100) },
    { accountId: idOf('Groceries'), amountCents: cents(100) },
  ]
  const head = { sideId: 'household' as const, payee: '', memo: '', source: 'form' as const }
  done(postEntry(app.books, act(), { ...head, day: day('2026-10-20'), lines }))
  const fields = fieldsOf(form!)
  const refused = await app.post('/month/value', fields)
  expect(refused.status).toBe(422)
  expect(await refused.text()).toContain('say something else by now')
  expect(balancesOn(app.books).get(idOf('Change in value of investments'))).toBeUndefined()
  // The press as it is offered now.
  expect((await app.post('/month/value', fieldsOf((await valueForm()).form!))).status).toBe(303)
  expect(balancesOn(app.books).get(idOf('Change in value of investments'))).toBe(59_900)
  const other = String(fields.value).replace(/^\d+/, String(idOf('Household checking')))
  expect((await app.post('/month/value', { ...fields, formId: randomUUID(), value: other })).status).toBe(422)
})
