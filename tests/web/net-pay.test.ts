// Pay as the bank shows it, after tax: asked about on the desk once a payee, and booked as pay before tax with what was withheld. By hand.
import { randomUUID } from 'node:crypto'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { addAccount, listAccounts } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { sortingDesk } from '#db/statements/sorting-desk.ts'
import { importStatement } from '#db/statements/statement-store.ts'
import { cents } from '#money/cents.ts'
import { surelyPaidFor } from '#today/tax/paid-for.ts'
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
  expect(html).toContain('This is what was paid out.')
  expect(html.match(/<p class="desk-acts">\s*Was tax withheld/g)).toHaveLength(1)
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

test('with the others booked first, the deposits asked about stand named and with their question, all of them', async () => {
  read([
    ['2026-01-09', 80_000, 'QUARRY PAYROLL 0109'],
    ['2026-01-23', 81_500, 'QUARRY PAYROLL 0123'],
    ['2026-02-06', 80_000, 'QUARRY PAYROLL 0206'],
    ['2026-02-14', -2500, 'TARN GROCER'],
  ])
  const first = await desk()
  const chosen = {
    ...first.fields,
    [first.name('QUARRY', 'to')]: `a:${id('Off-farm pay')}`,
    [first.name('TARN', 'to')]: `a:${id('Groceries')}`,
  }
  const asked = await (await send(chosen)).text()
  expect(asked).toContain(
    'QUARRY PAYROLL, 3 deposits, Jan 9 to Feb 6, 2026, $2,415.00 together: These are what were paid out.',
  )
  const again = deskFields(asked)
  const others = await send({ ...again.fields, others: 'yes' })
  const html = await (await app.get(others.headers.get('location')!)).text()
  expect(html).toContain(
    '3 deposits stay checked: QUARRY PAYROLL (3). Say at its row whether tax was withheld',
  )
  // The question stands there at once, and with a yes all three are booked.
  expect(html).toContain('Say what was withheld')
  expect(html.match(/<p class="desk-acts">\s*Was tax withheld/g)).toHaveLength(1)
  const now = deskFields(html)
  const line = /name="payAsPaid\[\]" value="(\d+)"/.exec(html)![1]!
  expect((await send({ ...now.fields, 'payAsPaid[]': [line] })).status).toBe(303)
  expect([balance('Off-farm pay'), balance('Groceries'), waiting().length]).toEqual([-241_500, 2500, 0])
})

test('what was withheld is entered beside what came: pay before tax is their sum, and the next like pay opens with the same', async () => {
  read([['2026-02-13', 120_000, 'CREAMERY PAYROLL']])
  const line = waiting()[0]!.id
  const address = `/books/sorting/lines/${line}`
  const html = await (await app.get(address)).text()
  expect(html).toContain('<details><summary>Paid net')
  const sent = {
    formId: randomUUID(),
    how: 'pay',
    pay: String(id('Off-farm pay')),
    'taken.0.account': String(id('Federal taxes')),
    'taken.0.amount': '150',
    'taken.1.account': String(id('Social Security and Medicare from pay')),
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
    balance('Social Security and Medicare from pay'),
    balance('Household checking'),
  ]).toEqual([-146_250, 15_000, 11_250, 120_000])
  // The year counts it as withheld without being told.
  const paid = await (await app.get('/year-pack/payments?year=2026')).text()
  expect(paid).toContain('Withheld before it was paid: 2')
  read([['2026-03-13', 120_000, 'CREAMERY PAYROLL']])
  const next = await (await app.get(`/books/sorting/lines/${waiting()[0]!.id}`)).text()
  expect(next).toContain('value="112.50"')
  expect(next).toContain('<details open=""><summary>Paid net')
  // A purchase, or a deposit of the farm, is no pay.
  read([['2026-03-14', -2000, 'TARN GROCER']])
  const purchase = waiting().find(({ payee }) => payee === 'TARN GROCER')!.id
  expect(await (await app.get(`/books/sorting/lines/${purchase}`)).text()).not.toContain('Paid net')
})

// Seven hours more one fortnight: 21 × 31.75 = 666.75 and 28 × 31.75 = 889. What is taken off is the same in kind, the premium in amount.
test('pay by the hour opens with what the slip before was taken off for; what was the same twice stands with its amount', async () => {
  const opened = async () => {
    const { id: line } = waiting()[0]!
    const html = await (await app.get(`/books/sorting/lines/${line}`)).text()
    const row = (at: number) => {
      const account = new RegExp(`name="taken.${at}.account"[\\s\\S]*?</select>`).exec(html)?.[0] ?? ''
      const chosen = /<option value="(\d*)" selected/.exec(account)?.[1] ?? ''
      return [chosen, new RegExp(`name="taken.${at}.amount"[^>]*?value="([^"]*)"`).exec(html)?.[1] ?? '']
    }
    return { address: `/books/sorting/lines/${line}`, rows: Array.from({ length: 6 }, (_, at) => row(at)) }
  }
  const [federal, security, premiums] = [
    'Federal taxes',
    'Social Security and Medicare from pay',
    'Health premiums',
  ].map((name) => String(id(name)))
  const slip = async (on: string, net: number, taken: [string, string][]) => {
    read([[on, net, 'SCHOOL DISTRICT PAYROLL']])
    const form = await opened()
    const fields = taken.flatMap(([account, amount], at) => [
      [`taken.${at}.account`, account],
      [`taken.${at}.amount`, amount],
    ])
    const sent = { formId: randomUUID(), how: 'pay', pay: String(id('Off-farm pay')) }
    const reply = await app.post(form.address, { ...sent, ...Object.fromEntries(fields) })
    expect(reply.status).toBe(303)
    return form.rows
  }
  const taken = (tax: string, sixth: string): [string, string][] => [
    [premiums!, '107.30'],
    [federal!, tax],
    [security!, sixth],
  ]
  await slip('2026-02-06', 66_675 - 10_730 - 4_210 - 5_101, taken('42.10', '51.01'))
  const second = await slip('2026-02-20', 88_900 - 10_730 - 7_777 - 6_801, taken('77.77', '68.01'))
  // Of one slip nobody knows yet what stays the same.
  expect(second.slice(0, 3).map(([account, amount]) => [account, amount])).toEqual(
    expect.arrayContaining([
      [premiums, ''],
      [federal, ''],
      [security, ''],
    ]),
  )
  read([['2026-03-06', 70_000, 'SCHOOL DISTRICT PAYROLL']])
  const third = (await opened()).rows
  expect(third).toEqual(
    expect.arrayContaining([
      [premiums, '107.30'],
      [federal, ''],
      [security, ''],
    ]),
  )
  // Two taxes, Social Security, savings and a premium fit without asking for more rows.
  const html = await (await app.get((await opened()).address)).text()
  expect(html.match(/Taken off for/g)!.length).toBeGreaterThanOrEqual(6)
})

test('a pension paid net is the whole less what was withheld, proposed so for the next like it, and its tax counts as withheld', async () => {
  const household = app.books
  const added = addAccount(
    household,
    { formId: randomUUID(), at: '2026-01-02T00:00:00.000Z', actor: 'test' },
    {
      sideId: 'household',
      name: 'Pension of the county',
      kind: 'income',
      scheduleLine: '5b',
    },
  )
  expect(added.ok).toBe(true)
  read([['2026-01-30', 91_500, 'COUNTY RETIREMENT']])
  // Chosen whole on the desk, it is asked about.
  const chosen = await desk()
  const asked = await send({
    ...chosen.fields,
    [chosen.name('COUNTY', 'to')]: `a:${id('Pension of the county')}`,
  })
  expect(asked.status).toBe(422)
  const sent = {
    formId: randomUUID(),
    how: 'pay',
    pay: String(id('Pension of the county')),
    'taken.0.account': String(id('Federal taxes')),
    'taken.0.amount': '85.00',
    keep: 'yes',
  }
  const first = waiting()[0]!.id
  expect((await app.post(`/books/sorting/lines/${first}`, sent)).status).toBe(303)
  // 915.00 came and 85.00 was withheld: 1,000.00.
  expect([balance('Pension of the county'), balance('Federal taxes')]).toEqual([-100_000, 8500])
  read([
    ['2026-02-27', 91_500, 'COUNTY RETIREMENT'],
    ['2026-03-30', 93_000, 'COUNTY RETIREMENT'],
  ])
  const next = await desk()
  const page = await (await app.get('/books/sorting')).text()
  expect(page).toContain('Pension of the county, Federal taxes (less $85.00)')
  expect((await send(next.fields)).status).toBe(303)
  expect([balance('Pension of the county'), balance('Federal taxes')]).toEqual([-200_000, 17_000])
  // Another amount is no longer the same: it waits for a person.
  expect(waiting().map(({ amount }) => amount)).toEqual([93_000])
  const figures = (await (await app.get('/year-pack/payments.json?year=2026')).json()) as {
    sums: { federal: { withheld: number; estimates: number } }
  }
  expect(JSON.stringify(figures)).toContain('withheld')
  const inputs = surelyPaidFor(household, { plan: null, year: 2026, to: 'federal' })
  expect([inputs.withheld, inputs.estimates, inputs.withReturn]).toEqual([170, 0, 0])
})

test('interest with backup withholding and a withdrawal from retirement savings are booked whole; a refund with interest stays a refund', async () => {
  read([
    ['2026-02-02', 7600, 'OXBOW CREDIT UNION'],
    ['2026-02-03', 90_000, 'IRA CUSTODIAN'],
    ['2026-03-03', 51_000, 'TAX OFFICE'],
  ])
  const book = async (payee: string, gross: string, withheld: string) => {
    const line = waiting().find((one) => one.payee === payee)!.id
    const sent = {
      formId: randomUUID(),
      how: 'pay',
      pay: String(id(gross)),
      'taken.0.account': String(id('Federal taxes')),
      'taken.0.amount': withheld,
    }
    expect((await app.post(`/books/sorting/lines/${line}`, sent)).status).toBe(303)
  }
  // 24 percent of 100.00 (26 USC 3406(a)(1), by the fourth lowest rate: memory); 10 percent of 1,000.00.
  await book('OXBOW CREDIT UNION', 'Interest and dividends', '24')
  await book('IRA CUSTODIAN', 'Retirement, traditional', '100')
  expect([balance('Interest and dividends'), balance('Retirement, traditional')]).toEqual([-10_000, -100_000])
  const refund = waiting()[0]!.id
  const split = {
    formId: randomUUID(),
    how: 'split',
    'parts.0.account': String(id('Federal taxes')),
    'parts.0.amount': '500',
    'parts.1.account': String(id('Interest and dividends')),
    'parts.1.amount': '',
  }
  expect((await app.post(`/books/sorting/lines/${refund}`, split)).status).toBe(303)
  expect(surelyPaidFor(app.books, { plan: null, year: 2026, to: 'federal' }).withheld).toBe(124)
  expect(surelyPaidFor(app.books, { plan: null, year: 2025, to: 'federal' }).refunded).toBe(500)
})

test('where the other parts are too much the empty one stays empty and follows when they are corrected; what was given back is typed', async () => {
  read([
    ['2026-02-02', -8000, 'FERRY MARKET'],
    ['2026-03-02', -8000, 'FERRY MARKET'],
    ['2026-04-02', -8000, 'FERRY MARKET'],
  ])
  const [line] = waiting()
  const address = `/books/sorting/lines/${line!.id}`
  const sent = {
    formId: randomUUID(),
    how: 'split',
    'parts.0.account': String(id('Groceries')),
    'parts.0.amount': '95.00',
    'parts.1.account': String(id('Household goods')),
    'parts.1.amount': '',
    keep: 'yes',
  }
  const asked = await app.post(address, sent)
  expect(asked.status).toBe(422)
  const html = await asked.text()
  expect(html).toContain('The other parts are $15.00 more than the $80.00')
  expect(html).toContain('If this part was given back, enter it as -15.00.')
  expect(html).toMatch(/name="parts\.1\.amount"[^>]* value=""/)
  // A digit turned around is put right: the rest is what is left of the bill, without emptying anything.
  expect(html).toMatch(/name="parts\.0\.amount"[^>]* value="95\.00"/)
  expect((await app.post(address, { ...sent, keep: '', 'parts.0.amount': '59.00' })).status).toBe(303)
  expect([balance('Groceries'), balance('Household goods')]).toEqual([5900, 2100])
  const next = `/books/sorting/lines/${waiting()[0]!.id}`
  const back = { ...sent, formId: randomUUID(), 'parts.1.amount': '-15.00' }
  expect((await app.post(next, back)).status).toBe(303)
  expect([balance('Groceries'), balance('Household goods')]).toEqual([15_400, 600])
  expect((await send((await desk()).fields)).status).toBe(303)
  expect([balance('Groceries'), balance('Household goods')]).toEqual([24_900, -900])
})

test('what is asked of pay names its payee, keeps no other waiting, and a proposal kept for the next ones reaches those that wait', async () => {
  read([
    ['2026-02-13', 120_000, 'CREAMERY PAYROLL'],
    ['2026-02-27', 120_000, 'CREAMERY PAYROLL'],
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
  expect(html).toContain(
    'CREAMERY PAYROLL, 2 deposits, Feb 13 to Feb 27, 2026, $2,400.00 together: These are what were paid out.',
  )
  const others = { ...deskFields(html).fields, others: 'yes' }
  const booked = await send(others)
  const says = await (await app.get(booked.headers.get('location')!)).text()
  // What is asked about stays checked, and is not called unchecked.
  expect(says).toContain('2 deposits stay checked')
  expect(says).not.toContain('not checked and stay')
  expect((await send(others)).status).toBe(303)
  expect([balance('Groceries'), waiting().length]).toEqual([-2500, 2])
  const sent = {
    formId: randomUUID(),
    how: 'pay',
    pay: String(id('Off-farm pay')),
    'taken.0.account': String(id('Federal taxes')),
    'taken.0.amount': '150',
    keep: 'yes',
  }
  expect((await app.post(`/books/sorting/lines/${waiting()[0]!.id}`, sent)).status).toBe(303)
  // The second check goes as the first one did: 1,350.00 each, 150.00 of it withheld.
  expect((await send((await desk()).fields)).status).toBe(303)
  expect([balance('Off-farm pay'), balance('Federal taxes')]).toEqual([-270_000, 30_000])
})
