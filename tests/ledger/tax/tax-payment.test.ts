// As what a payment of tax counts and for which year, before anybody said so.
import { expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { readingsOf, type TaxMove, withRefunds } from '#ledger/tax/tax-payment.ts'
import { cents } from '#money/cents.ts'

const move = (on: string, more: Partial<TaxMove> = {}): TaxMove => ({
  postingId: 1,
  entryNo: 1,
  day: day(on),
  payee: '',
  memo: '',
  account: 'Federal taxes',
  office: 'federal',
  amountCents: cents(150_000),
  postedAt: `${on}T12:00:00.000Z`,
  isKeptFromPay: false,
  said: null,
  ...more,
})

const read = (on: string, more: Partial<TaxMove> = {}) =>
  readingsOf(move(on, more)).map(({ use, taxYear }) => `${use} ${taxYear}`)

// 26 USC 6654(c)(2): installments fall due on April 15, June 15, September 15 and January 15 of the next year; 6072(a): the return on April 15.
test.each([
  ['2026-01-02', ['estimate 2025']],
  ['2026-01-15', ['estimate 2025']],
  ['2026-01-29', ['balance 2025']],
  ['2026-03-01', ['balance 2025']],
  ['2026-04-14', ['balance 2025', 'estimate 2026']],
  ['2026-04-30', ['balance 2025', 'estimate 2026']],
  ['2026-06-15', ['estimate 2026']],
  ['2026-12-30', ['estimate 2026']],
])('paid on %s: %s', (on, readings) => {
  expect(read(on)).toEqual(readings)
})

test('words of the forms decide where they say so', () => {
  expect(read('2026-04-15', { memo: '1040-ES' })).toEqual(['estimate 2026'])
  expect(read('2026-04-15', { memo: '1040-V' })).toEqual(['balance 2025'])
  expect(read('2026-04-15', { payee: 'US TREASURY 1040ES 2026' })).toEqual(['estimate 2026'])
  expect(read('2026-04-15', { memo: 'tax for 2025' })).toEqual(['balance 2025'])
  expect(read('2026-10-10', { memo: 'balance of 2025, filed on extension' })).toEqual(['balance 2025'])
  expect(read('2026-06-15', { memo: 'confirmation 2031-4477' })).toEqual(['estimate 2026'])
})

// The same words say the same of the state's, of the federal and of the city's tax, as banks cut them.
test.each([
  ['federal', 'IRS USATAXPYMT EST TAX'],
  ['state', 'WI DEPT REVENUE EST TAX'],
  ['state', 'MN DEPT OF REVEN EST. INCOME TAX'],
  ['state', 'NYS DTF TAX EST 8841'],
  ['local', 'CITY OF LARKFORD ESTIMATED TAX'],
] as const)('%s: “%s” paid in April is an installment of its own year', (office, payee) => {
  const account = 'Income taxes'
  expect(read('2026-04-14', { office, account, payee })).toEqual(['estimate 2026'])
  expect(read('2026-01-14', { office, account, payee })).toEqual(['estimate 2025'])
})

test('tax on real estate, shortened, is no installment', () => {
  const payee = 'COUNTY REAL EST TAX'
  expect(read('2026-04-14', { office: 'state', payee })).toEqual(['balance 2025', 'estimate 2026'])
})

test('what is kept back from pay is of the year of the pay, in spring too (26 USC 31)', () => {
  expect(read('2026-04-10', { isKeptFromPay: true })).toEqual(['withheld 2026'])
  expect(read('2026-01-09', { isKeptFromPay: true, payee: 'bonus of 2025' })).toEqual(['withheld 2026'])
})

test('what comes back is of the year before, or of the one it names', () => {
  expect(read('2026-05-20', { amountCents: cents(-80_000) })).toEqual(['refund 2025'])
  expect(read('2026-05-20', { amountCents: cents(-80_000), memo: 'amended 2023' })).toEqual(['refund 2023'])
})

// One account for both is usual: the words of the payment tell the city's from the state's.
test.each([
  ['CITY OF MILLBROOK INCOME TAX', 'local'],
  ['Tarn Township earned income tax', 'local'],
  ['LOCAL TAX BUREAU', 'local'],
  ['SCHOOL DISTRICT INCOME TAX', 'local'],
  ['STATE INCOME TAX', 'state'],
  ['DEPT OF REVENUE JEFFERSON CITY TAX', 'state'],
  ['TAX COMMISSION SALT LAKE CITY', 'state'],
  ['State of Ohio estimated', 'state'],
  ['Treasurer', 'state'],
])('tax of state and city on one account: %s is %s', (payee, office) => {
  const read = readingsOf(move('2026-06-15', { office: 'state', account: 'State and local taxes', payee }))
  expect(read.map((one) => one.office)).toEqual([office])
})

test('what was said goes before all of it', () => {
  const said = { use: 'balance', office: 'state', state: 'OH', taxYear: 2024 } as const
  expect(readingsOf(move('2026-04-15', { isKeptFromPay: true, said }))).toEqual([said])
})

test('after a refund for the year before, nothing is paid with its return: April is the first installment of the new year', () => {
  const [payment, refund] = withRefunds([
    move('2026-04-15'),
    move('2026-03-20', { amountCents: cents(-30_000) }),
  ])
  expect(readingsOf(payment!).map(({ use, taxYear }) => `${use} ${taxYear}`)).toEqual(['estimate 2026'])
  expect(readingsOf(refund!)[0].use).toBe('refund')
  // Another office’s refund says nothing of it.
  const [federal] = withRefunds([
    move('2026-04-15'),
    move('2026-03-20', { office: 'state', amountCents: cents(-30_000) }),
  ])
  expect(readingsOf(federal!)).toHaveLength(2)
})

test.each([
  ['OHIO DEPT OF TAXATION', 'OH'],
  ['OH DEPT OF REVENUE', 'OH'],
  ['State of West Virginia', 'WV'],
  ['Kansas City earnings', null],
  ['Washington County treasurer', null],
  ['Vermont and Maine', null],
  ['estimated tax', null],
  ['IN TAX PAYMENT', null],
] as const)('the words “%s” name the state %s', (payee, state) => {
  expect(readingsOf(move('2026-06-15', { office: 'state', account: 'State taxes', payee }))[0].state).toBe(
    state,
  )
})

test('the account names the state too; an employer named after one does not', () => {
  expect(readingsOf(move('2026-06-15', { office: 'state', account: 'Ohio income tax' }))[0].state).toBe('OH')
  const wages = {
    office: 'state',
    account: 'State taxes',
    isKeptFromPay: true,
    payee: 'Ohio Bell Works',
  } as const
  expect(readingsOf(move('2026-06-15', wages))[0].state).toBeNull()
})

test('what one state gave back says nothing of another’s return', () => {
  const state = (on: string, payee: string, amount: number) =>
    move(on, { office: 'state', account: 'State taxes', payee, amountCents: cents(amount) })
  const [, own, other] = withRefunds([
    state('2026-04-02', 'State of Ohio', -20_000),
    state('2026-04-10', 'State of Vermont', 30_000),
    state('2026-04-10', 'State of Ohio', 30_000),
  ])
  expect(readingsOf(own!).map(({ use }) => use)).toEqual(['balance', 'estimate'])
  expect(readingsOf(other!).map(({ use }) => use)).toEqual(['estimate'])
})
