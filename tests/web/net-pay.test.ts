// Pay as the bank shows it, after tax: asked about on the desk once a payee, and booked as pay before tax with what was withheld. By hand.
import { randomUUID } from 'node:crypto'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { sortingDesk } from '#db/statements/sorting-desk.ts'
import { importStatement } from '#db/statements/statement-store.ts'
import { cents } from '#money/cents.ts'
import { statementFile } from '../db/statement-file.ts'
import { deskFields } from './desk-fields.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
beforeEach(() => {
  app = testApp({ today: '2026-04-10' })
  app.openSides()
})
afterEach(() => app.close())

const id = (name: string) => listAccounts(app.books).find((one) => one.name === name)!.id
const balance = (name: string) => balancesOn(app.books).get(id(name)) ?? 0
const waiting = () => sortingDesk(app.books).lines.map(({ line }) => line)
const read = (lines: [on: string, cents: number, payee: string][]) => {
  const file = statementFile(
    lines.map(([on, amount, payee]) => ({ day: day(on), amount: cents(amount), payee })),
  )
  const act = { formId: randomUUID(), at: '2026-04-10T00:00:00.000Z', actor: 'test' }
  expect(importStatement(app.books, act, id('Household checking'), file, day('2026-04-10')).ok).toBe(true)
}
const desk = async () => deskFields(await (await app.get('/books/sorting')).text())
const send = (fields: Record<string, string | string[]>) => app.post('/books/sorting', fields)

test('pay is asked about where it is chosen first; with a yes it is booked as it came, and not asked about again', async () => {
  read([
    ['2026-02-13', 120_000, 'CREAMERY PAYROLL'],
    ['2026-02-14', 2500, 'TARN GROCER'],
  ])
  const first = await desk()
  const chosen = {
    ...first.fields,
    [first.name('CREAMERY', 'to')]: `a:${id('Off-farm pay')}`,
    [first.name('TARN', 'to')]: `a:${id('Groceries')}`,
  }
  const asked = await send(chosen)
  expect(asked.status).toBe(422)
  const html = await asked.text()
  expect(html).toContain('This is pay as it was paid out.')
  expect(html.match(/Nothing was withheld/g)).toHaveLength(1)
  expect([balance('Off-farm pay'), balance('Groceries')]).toEqual([0, 0])
  const again = deskFields(html)
  expect(again.fields[again.name('TARN', 'to')]).toBe(`a:${id('Groceries')}`)
  const line = String(waiting().find(({ payee }) => payee.startsWith('CREAMERY'))!.id)
  const yes = { ...again.fields, 'payAsPaid[]': [line] }
  for (let time = 0; time < 2; time += 1) expect((await send(yes)).status).toBe(303)
  expect([balance('Off-farm pay'), balance('Groceries')]).toEqual([-120_000, -2500])
  read([['2026-03-13', 120_000, 'CREAMERY PAYROLL']])
  expect((await send((await desk()).fields)).status).toBe(303)
  expect(balance('Off-farm pay')).toBe(-240_000)
})

test('what was withheld is entered beside what came: pay before tax is their sum, and the next like pay opens with the same', async () => {
  read([['2026-02-13', 120_000, 'CREAMERY PAYROLL']])
  const line = waiting()[0]!.id
  const address = `/books/sorting/lines/${line}`
  const html = await (await app.get(address)).text()
  expect(html).toContain('<details><summary>It is pay after tax')
  const sent = {
    formId: randomUUID(),
    how: 'pay',
    pay: String(id('Off-farm pay')),
    'taken.0.account': String(id('Federal taxes')),
    'taken.0.amount': '150',
    'taken.1.account': String(id('Social security and Medicare from pay')),
    'taken.1.amount': '112.50',
    'taken.2.account': '',
    'taken.2.amount': '',
  }
  const wrong = await app.post(address, { ...sent, 'taken.1.amount': 'much' })
  expect(wrong.status).toBe(422)
  expect(await wrong.text()).toContain('value="150"')
  const none = await app.post(address, { ...sent, 'taken.0.amount': '', 'taken.1.amount': '' })
  expect(await none.text()).toContain('Enter what was withheld.')
  for (let time = 0; time < 2; time += 1) expect((await app.post(address, sent)).status).toBe(303)
  // 1,200.00 came, 150.00 and 112.50 were withheld: 1,462.50 was earned.
  expect([
    balance('Off-farm pay'),
    balance('Federal taxes'),
    balance('Social security and Medicare from pay'),
    balance('Household checking'),
  ]).toEqual([-146_250, 15_000, 11_250, 120_000])
  // The year counts it as withheld without being told.
  const paid = await (await app.get('/year-pack/payments?year=2026')).text()
  expect(paid).toContain('kept back from pay')
  read([['2026-03-13', 120_000, 'CREAMERY PAYROLL']])
  const next = await (await app.get(`/books/sorting/lines/${waiting()[0]!.id}`)).text()
  expect(next).toContain('value="112.50"')
  expect(next).toContain('<details open=""><summary>It is pay after tax')
  // A purchase, or a deposit of the farm, is no pay.
  read([['2026-03-14', -2000, 'TARN GROCER']])
  const purchase = waiting().find(({ payee }) => payee === 'TARN GROCER')!.id
  expect(await (await app.get(`/books/sorting/lines/${purchase}`)).text()).not.toContain('pay after tax')
})
