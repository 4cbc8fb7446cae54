// Loan payments through the pages: sorted from a statement or entered by hand, split by the terms of the plan's loan.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { importStatement } from '#db/statements/statement-store.ts'
import { openingEntry } from '#ledger/simple-entry.ts'
import { cents } from '#money/cents.ts'
import { planSchema } from '#plan/plan.ts'
import { act, done } from '../db/fresh-books.ts'
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

test('a payment sorted to the loan is booked as interest and principal, and the next ones are proposed so, one after the other', async () => {
  waiting(['2026-06-05', -41_100])
  const page = await (await app.get('/books/sorting')).text()
  expect(page).toContain('Term loan: interest and principal')
  const { rows } = await desk()
  const sent = {
    formId: formIdOn(page),
    'lines.0.id': String(rows[0]!.id),
    'lines.0.take': 'yes',
    'lines.0.to': `a:${account('Term loan').id}`,
  }
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
  const page = await (await app.get('/books/sorting')).text()
  const [row] = (await desk()).rows
  await app.post('/books/sorting', {
    formId: formIdOn(page),
    'lines.0.id': String(row!.id),
    'lines.0.take': 'yes',
    'lines.0.to': `a:${account('Term loan').id}`,
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
  const page = await (await app.get('/books/sorting')).text()
  const { rows } = await desk()
  await app.post('/books/sorting', {
    formId: formIdOn(page),
    ...Object.fromEntries(
      rows.flatMap((row, k) => [
        [`lines.${k}.id`, String(row.id)],
        [`lines.${k}.take`, 'yes'],
        [`lines.${k}.to`, `a:${account('Term loan').id}`],
      ]),
    ),
  })
  expect(balance('Other interest')).toBe(11_100 + 10_920)
  const pack = await (await app.get('/year-pack.json?year=2026')).text()
  expect(pack).toContain('22020')
})
