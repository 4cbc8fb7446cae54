// Loan payments through the pages: sorted from a statement or entered by hand, split by the terms of the plan's loan.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { changeAccount } from '#db/ledger/account-change.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { importStatement } from '#db/statements/statement-store.ts'
import { loanRows } from '#farm/loans.ts'
import { openingEntry } from '#ledger/simple-entry.ts'
import { cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { planSchema } from '#plan/plan.ts'
import { currentPlan } from '#today/current-plan.ts'
import { loanBook } from '#today/loan-terms.ts'
import { act, done } from '../db/fresh-books.ts'
import { filledForm } from './browser-form.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
afterEach(() => app.close())

const account = (name: string, side = 'farm') =>
  listAccounts(app.books).find((one) => one.sideId === side && one.name === name)!

/** A term loan of 18,500 at 7.2 % for a tractor, and a mortgage without terms. */
beforeEach(() => {
  app = testApp({ today: '2026-09-20' })
  app.openSides()
  const head = { id: 'opening', sideId: 'farm' as const, day: day('2026-06-01'), payee: '', memo: '' }
  const opening = openingEntry(head, account('Opening balances').id, [
    { account: account('Farm checking'), balanceCents: cents(900_000) },
    { account: account('Term loan'), balanceCents: cents(1_850_000) },
  ])
  done(postEntry(app.books, act(), opening!))
  const loan = { id: 'loan-2200', name: 'Tractor', principal: 18_500, start: '2026-05', bookAccount: 2200 }
  app.savePlan(
    planSchema.parse({
      startMonth: '2026-06',
      farm: { loans: [{ ...loan, yearlyRate: 0.072, paymentPerMonth: 411 }] },
    }),
  )
})

const waiting = (...lines: [string, number][]) =>
  done(
    importStatement(
      app.books,
      act(),
      account('Farm checking').id,
      {
        format: 'ofx',
        fileName: 'loan.ofx',
        contentHash: JSON.stringify(lines),
        statement: {
          bankAccount: '',
          kind: 'bank',
          currency: 'USD',
          closing: null,
          remarks: [],
          lines: lines.map(([on, amount]) => ({
            fileLine: 1,
            bankNumber: on,
            day: day(on),
            amount: cents(amount),
            payee: 'Prairie Farm Credit',
            memo: '',
            checkNumber: '',
          })),
        },
        mappingId: null,
      },
      day('2026-09-20'),
    ),
  )

const balance = (name: string) =>
  app.books.sqlite
    .prepare('SELECT coalesce(sum(amount_cents), 0) FROM postings WHERE account_id = ?')
    .pluck()
    .get(account(name).id) as number

const formIdOn = (page: string) => /name="formId" value="([^"]+)"/.exec(page)![1]!
interface Desk {
  rows: { id: number; proposal: { value: string; says: string } | null }[]
}
const desk = async () => (await (await app.get('/books/sorting.json')).json()) as Desk
const firstRowTo = async (place: string) => {
  const row = `g.n${(await desk()).rows[0]!.id}`
  return { [`${row}.take`]: 'yes', [`${row}.to`]: place }
}

test('a payment sorted to the loan is booked as interest and principal, and the next ones are proposed so, one after the other', async () => {
  waiting(['2026-06-05', -41_100])
  const page = await (await app.get('/books/sorting')).text()
  expect(page).toContain('Term loan: interest and principal')
  const sent = {
    ...(await filledForm(app, '/books/sorting', { go: '' })),
    ...(await firstRowTo(`a:${account('Term loan').id}`)),
  }
  // Chosen and kept, it stands under the name it was chosen by, and under no other.
  await app.post('/books/sorting', { ...sent, go: 'find' })
  const kept = await (await app.get('/books/sorting')).text()
  expect(kept).toMatch(/<option[^>]* selected[^>]*>Term loan: interest and principal<\/option>/)
  expect(kept).not.toMatch(/>Term loan<\/option>/)
  const reply = await app.post('/books/sorting', sent)
  expect(reply.status).toBe(303)
  expect(balance('Other interest')).toBe(11_100)
  expect(balance('Term loan')).toBe(-1_820_000)
  waiting(['2026-07-06', -41_100], ['2026-08-05', -41_100])
  // 18,200 × 0.072 ÷ 12 = 109.20; then 17,898.20 × 0.072 ÷ 12 = 107.39.
  expect((await desk()).rows.map((row) => row.proposal?.says)).toEqual([
    'Term loan: interest $109.20, principal $301.80',
    'Term loan: interest $107.39, principal $303.61',
  ])
})

test('a line opened by itself shows its parts, and other ones can be booked in their place', async () => {
  waiting(['2026-06-05', -41_100])
  await app.post('/books/sorting', {
    ...(await filledForm(app, '/books/sorting', { go: '' })),
    ...(await firstRowTo(`a:${account('Term loan').id}`)),
  })
  waiting(['2026-07-06', -41_100])
  const [next] = (await desk()).rows
  const line = await (await app.get(`/books/sorting/lines/${next!.id}`)).text()
  expect(line).toContain('value="109.20"')
  expect(line).toContain('value="301.80"')
  const changed = await app.post(`/books/sorting/lines/${next!.id}`, {
    formId: formIdOn(line),
    how: 'split',
    'parts.0.account': String(account('Other interest').id),
    'parts.0.amount': '112.00',
    'parts.1.account': String(account('Term loan').id),
    'parts.1.amount': '',
  })
  expect(changed.status).toBe(303)
  expect(balance('Other interest')).toBe(11_100 + 11_200)
})

test('a payment entered by hand is shown with its interest first, and booked as the lines then say', async () => {
  const sent = {
    formId: '00000000-0000-4000-8000-000000000001',
    side: 'farm',
    kind: 'out',
    day: '2026-06-05',
    payee: 'Prairie Farm Credit',
    memo: '',
    moneyAccount: String(account('Farm checking').id),
    'lines.0.account': String(account('Term loan').id),
    'lines.0.amount': '411',
  }
  const asked = await app.post('/books/entry', sent)
  expect(asked.status).toBe(422)
  const page = await asked.text()
  expect(page).toContain('a part of this is interest')
  expect(page).toContain('value="111.00"')
  expect(balance('Term loan')).toBe(-1_850_000)
  const shown = {
    ...sent,
    loanShown: 'yes',
    'lines.0.account': String(account('Other interest').id),
    'lines.0.amount': '111.00',
    'lines.1.account': String(account('Term loan').id),
    'lines.1.amount': '300.00',
  }
  expect((await app.post('/books/entry', shown)).status).toBe(303)
  expect([balance('Other interest'), balance('Term loan')]).toEqual([11_100, -1_820_000])
})

test('the year pack’s Schedule F has the interest on its line, and the loan stands with what is still owed', async () => {
  waiting(['2026-06-05', -41_100], ['2026-07-06', -41_100])
  await app.post('/books/sorting', {
    ...(await filledForm(app, '/books/sorting', { go: '' })),
    ...(await firstRowTo(`a:${account('Term loan').id}`)),
  })
  expect(balance('Other interest')).toBe(11_100 + 10_920)
  const pack = await (await app.get('/year-pack.json?year=2026')).text()
  expect(pack).toContain('22020')
})

test('a loan’s account takes its rate and payment; a loan of the plan without an account is tied to it, not planned twice', async () => {
  const mortgage = account('Mortgage', 'household')
  const register = await (await app.get(`/books/accounts/${mortgage.id}`)).text()
  expect(register).toContain(`/books/accounts/${mortgage.id}/loan`)
  const planned = planSchema.parse({
    startMonth: '2026-06',
    household: {
      loans: [
        { id: 'home', name: 'Home', principal: 90_000, yearlyRate: 0.05, months: 200, start: '2026-05' },
      ],
    },
  })
  app.savePlan(planned, { basedOn: 1 })
  const address = `/books/accounts/${mortgage.id}/loan`
  const page = await (await app.get(address)).text()
  expect(page).toContain('<option value="home"')
  const form = { formId: formIdOn(page), planId: 'ours', basedOn: '2' }
  const wrong = await app.post(address, { ...form, rate: '6', payment: '' })
  expect(wrong.status).toBe(422)
  expect(await wrong.text()).toContain('href="#f-payment"')
  const sent = {
    ...form,
    rate: '6.125',
    payment: '640',
    escrow: '215.50',
    planLoan: 'home',
    realEstate: 'yes',
  }
  expect((await app.post(address, sent)).status).toBe(303)
  const current = currentPlan(app.books)
  if (current.status !== 'read') throw new Error(current.status)
  expect(current.plan.household.loans).toMatchObject([
    {
      id: 'home',
      yearlyRate: 0.06125,
      paymentPerMonth: 640,
      escrowPerMonth: 215.5,
      onRealEstate: true,
      bookAccount: 2100,
      months: 200,
    },
  ])
  expect(await (await app.get(address)).text()).toContain('value="6.125"')
  expect((await app.get(`/books/accounts/${account('Feed').id}/loan`)).status).toBe(404)
})

test('a loan that the plan does not know is taken in as it stands today: 12,000 owed, the first payment this month', async () => {
  const other = account('Other loans', 'household')
  const head = { sideId: 'household' as const, payee: '', memo: '', source: 'form' as const }
  const lines = [
    { accountId: account('Vehicles', 'household').id, amountCents: cents(1_200_000) },
    { accountId: other.id, amountCents: cents(-1_200_000) },
  ]
  done(postEntry(app.books, act(), { ...head, day: day('2026-08-28'), lines }))
  const address = `/books/accounts/${other.id}/loan`
  const form = { formId: formIdOn(await (await app.get(address)).text()), planId: 'ours', basedOn: '1' }
  const tooSmall = await app.post(address, { ...form, rate: '12', payment: '100' })
  expect(tooSmall.status).toBe(422)
  expect(await tooSmall.text()).toContain('Interest alone is $120.00 a month')
  const second = { ...form, formId: '00000000-0000-4000-8000-000000000077', rate: '5', payment: '350' }
  expect((await app.post(address, second)).status).toBe(303)
  const current = currentPlan(app.books)
  if (current.status !== 'read') throw new Error(current.status)
  expect(current.plan.household.loans).toMatchObject([
    { id: 'loan-2200', principal: 12_000, start: '2026-08', bookAccount: 2200 },
  ])
})

test('payments booked whole against a loan are said in the pack until interest is booked, and what falls due is told by the terms', async () => {
  const whole = {
    sideId: 'farm' as const,
    payee: '',
    memo: '',
    source: 'form' as const,
    day: day('2026-06-05'),
    lines: [
      { accountId: account('Term loan').id, amountCents: cents(41_100) },
      { accountId: account('Farm checking').id, amountCents: cents(-41_100) },
    ],
  }
  done(postEntry(app.books, act(), whole))
  const gaps = async () =>
    ((await (await app.get('/year-pack.json?year=2026')).json()) as { gaps: { says: string }[] }).gaps
      .map((gap) => gap.says)
      .filter((says) => says.includes('no interest is booked'))
  expect(await gaps()).toEqual([expect.stringContaining('“Term loan”: $411.00 was paid on it')])
  // By hand: each month 0.6 % on what is owed, less 411.
  const rows = loanRows({ principal: 18_089, yearlyRate: 0.072, paymentPerMonth: 411 }).slice(0, 12)
  const due = rows.reduce((sum, row) => sum + row.principal, 0)
  let owed = 18_089
  for (let k = 0; k < 12; k += 1) owed = owed * 1.006 - 411
  expect(due).toBeCloseTo(18_089 - owed, 6)
  expect(await (await app.get('/year-pack/inputs?year=2026')).text()).toContain(
    `by its terms ${formatCents(cents(Math.round(due * 100)))} of it falls due`,
  )
  const lines = [
    { accountId: account('Other interest').id, amountCents: cents(11_100) },
    { accountId: account('Term loan').id, amountCents: cents(-11_100) },
  ]
  done(postEntry(app.books, act(), { ...whole, lines }))
  expect(await gaps()).toEqual([])
})

test('which accounts a loan on the house has is what they say of themselves, whatever their numbers', async () => {
  const terms = { principal: 100_000, start: '2026-05', yearlyRate: 0.06, paymentPerMonth: 700 }
  const home = {
    id: 'home',
    name: 'Home',
    bookAccount: 2100,
    onRealEstate: true,
    escrowPerMonth: 200,
    ...terms,
  }
  app.savePlan(planSchema.parse({ startMonth: '2026-06', household: { loans: [home] } }), { basedOn: 1 })
  const change = (name: string, changed: Parameters<typeof changeAccount>[3]) =>
    done(changeAccount(app.books, act(), account(name, 'household'), changed))
  change('Mortgage interest', { number: 5999 })
  change('Home insurance and property tax', { number: 5998 })
  const interestAndEscrow = () => {
    const found = loanBook(app.books).get(account('Mortgage', 'household').id)!
    return [found.interestAccountId, found.escrow?.accountId]
  }
  expect(interestAndEscrow()).toEqual([
    account('Mortgage interest', 'household').id,
    account('Home insurance and property tax', 'household').id,
  ])
  change('Mortgage interest', { propertyLoan: null })
  change('Other loan interest', { propertyLoan: 'interest' })
  change('Home insurance and property tax', { propertyLoan: null })
  change('Utilities', { propertyLoan: 'escrow' })
  expect(interestAndEscrow()).toEqual([
    account('Other loan interest', 'household').id,
    account('Utilities', 'household').id,
  ])
})

test('terms not yet known are asked with the box for house or land checked for the loan on it alone', async () => {
  const box = async (name: string, side: string) => {
    const page = await (await app.get(`/books/accounts/${account(name, side).id}/loan`)).text()
    return / checked(?=[ >=])/.test(/<input[^>]*name="realEstate"[^>]*>/.exec(page)![0])
  }
  expect(await box('Mortgage', 'household')).toBe(true)
  expect(await box('Other loans', 'household')).toBe(false)
  expect(await box('Operating loan', 'farm')).toBe(false)
})
