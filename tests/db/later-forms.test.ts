// Lines that come back in another form, and imports taken back as one act. All banks and payees are invented.
import { beforeEach, expect, test } from 'vitest'
import { monthOfDay } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import type { Books } from '#db/open.ts'
import { checklistOf, closeMonth } from '#db/reconcile/closing-store.ts'
import { reconcileLines } from '#db/reconcile/reconcile-reader.ts'
import { changeTicks, finishReconciliation, startReconciliation } from '#db/reconcile/reconcile-store.ts'
import { accountOfBank, bankKeysOf } from '#db/statements/bank-keys.ts'
import { listSetAside, takeUpLine } from '#db/statements/set-aside.ts'
import { sortingDesk } from '#db/statements/sorting-desk.ts'
import { type Sorting, sortLines } from '#db/statements/sorting-store.ts'
import { importStatement, listStatements } from '#db/statements/statement-store.ts'
import { planTakeBack, takeBackImport } from '#db/statements/take-back.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { moneyOut, openingEntry } from '#ledger/simple-entry.ts'
import type { StatementLine } from '#ledger/statements/statement.ts'
import { cents } from '#money/cents.ts'
import { act, done, freshBooks, on, type TestBooks } from './fresh-books.ts'

let books: TestBooks
beforeEach(() => {
  books = freshBooks()
})

const line = (day: string, amount: number, payee: string, bankNumber: string): StatementLine => ({
  fileLine: 1,
  bankNumber,
  day: on(day),
  amount: cents(amount),
  payee,
  memo: '',
  checkNumber: '',
})

let files = 0
const read = (account: string, lines: StatementLine[], bankAccount = '') =>
  done(
    importStatement(
      books,
      act(),
      id(account),
      {
        format: 'ofx',
        fileName: 'bank.ofx',
        contentHash: `hash-${++files}`,
        statement: { bankAccount, kind: 'bank', currency: 'USD', closing: null, lines, remarks: [] },
        mappingId: null,
      },
      on('2026-01-31'),
    ),
  )

const id = (name: string) => listAccounts(books).find((each) => each.name === name)!.id
const waiting = () => sortingDesk(books).lines.map(({ line }) => `${line.payee} ${line.state}`)
const lineId = (payee: string) => sortingDesk(books).lines.find(({ line }) => line.payee === payee)!.line.id
const target = (name: string) => ({ kind: 'account', accountId: id(name), enterpriseId: null }) as const
const sort = (...sortings: Sorting[]) => done(sortLines(books, act(), sortings))
const book = (payee: string, name = 'Feed') =>
  sort({ lineId: lineId(payee), kind: 'target', target: target(name) })
const balance = (name: string) => balancesOn(books).get(id(name)) ?? 0
const sound = (of: Books) => expect(verifyBooks(of.sqlite).findings).toEqual([])

const january = [
  line('2026-01-10', -500, 'Before', 'x0'),
  line('2026-01-12', -2340, 'PENDING FEED STORE', 'P1'),
  line('2026-01-14', -800, 'After', 'x1'),
]
const later = [
  january[0]!,
  line('2026-01-13', -2340, 'FEED STORE #22 PA', 'T1'),
  january[2]!,
  line('2026-01-16', -900, 'More', 'x2'),
]

test('a pending line that comes back counts once: while it waits, the later form waits in its place', () => {
  read('Farm checking', january)
  expect(read('Farm checking', later)).toMatchObject({ newLines: 1, seenLines: 2, replacedLines: 1 })
  expect(waiting()).toEqual([
    'Before unsorted',
    'FEED STORE #22 PA unsorted',
    'After unsorted',
    'More unsorted',
  ])
  expect(listSetAside(books)).toMatchObject([
    { payee: 'PENDING FEED STORE', note: expect.stringContaining('Jan 13, 2026') },
  ])
  // Both files again, in either order, add nothing.
  expect(read('Farm checking', january)).toMatchObject({ newLines: 0, seenLines: 3, doubtfulLines: 0 })
  expect(read('Farm checking', later)).toMatchObject({ newLines: 0, seenLines: 4, replacedLines: 0 })
})

test('an earlier form that is brought back and its later form are two movements from then on', () => {
  read('Farm checking', january)
  read('Farm checking', later)
  done(takeUpLine(books, act(), listSetAside(books)[0]!.id))
  expect(waiting()).toHaveLength(5)
  sound(books)
  // Were they still held to be one, the books would say so.
  books.sqlite.exec(
    "UPDATE statement_lines SET corrects_id = (SELECT id FROM statement_lines WHERE bank_id = 'P1') WHERE bank_id = 'T1'",
  )
  expect(verifyBooks(books.sqlite).findings.map((finding) => finding.check)).toContain(
    'later-forms-count-once',
  )
})

test('a correction set aside and brought back is a movement of its own; one that only takes a line back is not listed', () => {
  read('Farm checking', [line('2026-01-13', -500, 'Coffee', 'a')])
  book('Coffee')
  read('Farm checking', [correction('replace', -550)])
  const doubtful = lineId('Coffee')
  sort({ lineId: doubtful, kind: 'ignore', note: 'booked right already' })
  done(takeUpLine(books, act(), doubtful))
  expect(waiting()).toEqual(['Coffee unsorted'])
  sound(books)
  read('Farm reserve', [line('2026-01-13', -500, 'Tea', 'a')])
  read('Farm reserve', [{ ...correction('delete', -500), payee: 'Tea' }])
  expect(listSetAside(books).map((each) => each.note)).toEqual(['The bank took it back'])
})

test('when the pending line was booked, the later form stands for the same entry', () => {
  read('Farm checking', january)
  book('PENDING FEED STORE')
  read('Farm checking', later)
  expect(waiting()).toEqual(['Before unsorted', 'After unsorted', 'More unsorted'])
  expect(balance('Feed')).toBe(2340)
  sound(books)
})

const correction = (action: 'replace' | 'delete', amount: number): StatementLine => ({
  ...line('2026-01-15', amount, 'Coffee', 'b'),
  correction: { bankNumber: 'a', action },
})

test('the bank’s correction of a waiting line replaces it, or reverses it', () => {
  read('Farm checking', [line('2026-01-13', -500, 'Coffee', 'a')])
  read('Farm checking', [correction('replace', -550)])
  expect(sortingDesk(books).lines.map((each) => each.line.amount)).toEqual([-550])
  read('Farm reserve', [line('2026-01-13', -500, 'Coffee', 'a')])
  read('Farm reserve', [correction('delete', -500)])
  expect(sortingDesk(books).waiting).toBe(1)
})

test.for([
  ['replace', -550, ['Coffee unsorted'], 0],
  ['delete', -500, [], 0],
] as const)(
  'a correction (%s) of a booked line waits for a yes, then the entry is reversed',
  ([action, amount, after, feed]) => {
    read('Farm checking', [line('2026-01-13', -500, 'Coffee', 'a')])
    book('Coffee')
    expect(read('Farm checking', [correction(action, amount)])).toMatchObject({ doubtfulLines: 1 })
    expect(balance('Feed')).toBe(500)
    sort({ lineId: lineId('Coffee'), kind: 'replace' })
    expect(waiting()).toEqual(after)
    expect(balance('Feed')).toBe(feed)
    sound(books)
  },
)

test('lines before the opening balances and after today wait as doubtful and are let in by a yes', () => {
  const accounts = [{ account: books.account('farm', 'Farm checking'), balanceCents: cents(100_000) }]
  const head = { id: 'o', sideId: 'farm', day: on('2026-01-05'), payee: '', memo: '' }
  done(postEntry(books, act(), openingEntry(head, books.account('farm', 'Opening balances').id, accounts)!))
  read('Farm checking', [
    line('2009-12-20', -500, 'Long ago', '1'),
    line('2026-01-08', -700, 'Normal', '2'),
    line('2027-12-20', -600, 'In the future', '3'),
  ])
  expect(waiting().sort()).toEqual(['In the future doubtful', 'Long ago doubtful', 'Normal unsorted'])
  sort({ lineId: lineId('In the future'), kind: 'genuine' })
  expect(waiting()).toContain('In the future unsorted')
})

test('an account without opening balances of its own goes by the first ones of its side', () => {
  for (const [name, day] of [
    ['Farm checking', '2026-01-05'],
    ['Farm reserve', '2026-01-20'],
  ] as const) {
    const balances = [{ account: books.account('farm', name), balanceCents: cents(100_000) }]
    const head = { id: 'o', sideId: 'farm', day: on(day), payee: '', memo: '' }
    done(postEntry(books, act(), openingEntry(head, books.account('farm', 'Opening balances').id, balances)!))
  }
  read('Cash box', [line('2026-01-04', -100, 'Early', '1'), line('2026-01-06', -200, 'Late', '2')])
  read('Farm reserve', [line('2026-01-19', -300, 'Held', '1')])
  expect(waiting().sort()).toEqual(['Early doubtful', 'Held doubtful', 'Late unsorted'])
})

test('an import is reversed as one act: its entries are reversed, its lines gone, the account forgotten; read anew it is new', () => {
  const { statementId } = read('Household checking', january, '7711')
  book('Before', 'Groceries')
  sort({ lineId: lineId('After'), kind: 'ignore', note: 'x' })
  expect(planTakeBack(books, statementId)).toEqual({ ok: true, lines: 3, entries: 1 })
  expect(done(takeBackImport(books, act(), statementId))).toEqual({ lines: 3, entries: 1 })
  expect(balance('Groceries')).toBe(0)
  expect(balance('Household checking')).toBe(0)
  expect(sortingDesk(books).waiting).toBe(0)
  expect(listStatements(books)).toEqual([])
  expect(accountOfBank(books, '7711')).toBeNull()
  sound(books)
  expect(read('Farm checking', january, '7711').newLines).toBe(3)
  expect(read('Household checking', january).newLines).toBe(3)
  expect(takeBackImport(books, act(), statementId)).toMatchObject({ ok: false })
})

test('the number of a new card is learned beside the old one, and forgotten with the file that taught it', () => {
  read('Household checking', january, '7711')
  const { statementId, learnedKey } = read('Household checking', later, '8822')
  expect(learnedKey).toBe('other')
  expect(read('Household checking', later, '8822').learnedKey).toBeNull()
  expect(['7711', '8822'].map((key) => accountOfBank(books, key))).toEqual(
    [1, 1].map(() => id('Household checking')),
  )
  // Another account's number stays its own, whatever is read where.
  expect(read('Farm checking', january, '8822').learnedKey).toBeNull()
  expect(bankKeysOf(books, id('Farm checking'))).toEqual([])
  sound(books)
  done(takeBackImport(books, act(), statementId))
  expect(bankKeysOf(books, id('Household checking'))).toEqual(['7711'])
  sound(books)
})

test('an entry that was there without the import stays; a line that had taken a place gives it back', () => {
  const head = { id: '', sideId: 'farm', day: on('2026-01-16'), payee: 'More', memo: '' }
  done(
    postEntry(
      books,
      act(),
      moneyOut(head, id('Farm checking'), [{ accountId: id('Feed'), amountCents: cents(900) }]),
    ),
  )
  read('Farm checking', january)
  book('PENDING FEED STORE')
  const { statementId } = read('Farm checking', later)
  const more = sortingDesk(books).lines.find(({ line }) => line.payee === 'More')!
  if (more.proposal?.kind !== 'entry') throw new Error('No entry is proposed')
  sort({ lineId: more.line.id, kind: 'entry', postingId: more.proposal.postingId })
  done(takeBackImport(books, act(), statementId))
  expect(balance('Feed')).toBe(900 + 2340)
  expect(listSetAside(books)).toEqual([])
  expect(waiting()).toEqual(['Before unsorted', 'After unsorted'])
  sound(books)
})

test('nothing is reversed while part of it lies in a closed month', () => {
  const { statementId } = read('Farm checking', january)
  for (const payee of ['Before', 'PENDING FEED STORE', 'After']) book(payee)
  done(
    closeMonth(
      books,
      act(),
      { sideId: 'farm', month: monthOfDay(on('2026-01-10')), note: '' },
      on('2026-02-03'),
    ),
  )
  const refused = takeBackImport(books, act(), statementId)
  expect(refused).toMatchObject({
    ok: false,
    problems: [{ message: expect.stringContaining('closed month') }],
  })
  expect(balance('Feed')).toBe(3640)
})

test('nothing is reversed while the other account of one of its entries is reconciled with it', () => {
  const { statementId } = read('Savings', [line('2026-01-20', 45_000, 'Put aside', 's1')])
  book('Put aside', 'Household checking')
  const { reconciliationId } = done(
    startReconciliation(books, act(), {
      accountId: id('Household checking'),
      statementDay: on('2026-01-31'),
      statementBalanceCents: cents(-45_000),
    }),
  )
  const tick = reconcileLines(books, reconciliationId).map(({ postingId }) => postingId)
  done(changeTicks(books, reconciliationId, { tick, untick: [] }))
  done(finishReconciliation(books, act(), reconciliationId))
  const refusal = {
    ok: false,
    problems: [
      {
        path: '',
        message:
          'Part of it is on the reconciled statement of Household checking of Jan 31, 2026. Reopen that reconciliation first',
      },
    ],
  }
  expect(planTakeBack(books, statementId)).toMatchObject(refusal)
  expect(takeBackImport(books, act(), statementId)).toMatchObject(refusal)
  expect(balance('Savings')).toBe(45_000)
})

test('a month of which no statement was read is not called sorted: it is to be looked at, or has no lines', () => {
  const items = (side: string, month: string) =>
    checklistOf(books, side, monthOfDay(on(`${month}-01`)), on('2026-06-15'))
      .filter((item) => item.id === 'lines' || item.id === 'unread')
      .map(({ id, state, text }) => [id, state, text])
  read('Farm checking', january)
  for (const payee of ['Before', 'PENDING FEED STORE', 'After']) book(payee)
  expect(items('farm', '2026-01')).toEqual([['lines', 'done', 'Every transaction is sorted']])
  expect(items('farm', '2025-12')).toEqual([['lines', 'done', 'No transactions in December 2025']])
  const unread = (month: string) => [
    ['lines', 'done', `No transactions in ${month} 2026`],
    ['unread', 'look', 'Nothing was read for this month: Farm checking'],
  ]
  expect(items('farm', '2026-02')).toEqual(unread('February'))
  expect(items('household', '2026-02')).toEqual([['lines', 'done', 'No transactions in February 2026']])
  // An earlier file leaves a gap; one file over both months fills it, though the month between was quiet.
  const stamps = line('2025-11-20', -100, 'Stamps', 'x9')
  read('Farm checking', [stamps])
  expect(items('farm', '2025-12')).toEqual([
    ['lines', 'stops', '1 transaction is not sorted. Sort it first'],
    ['unread', 'look', 'Nothing was read for this month: Farm checking'],
  ])
  book('Stamps')
  expect(items('farm', '2025-12')).toEqual([
    ['lines', 'done', 'No transactions in December 2025'],
    ['unread', 'look', 'Nothing was read for this month: Farm checking'],
  ])
  read('Farm checking', [stamps, january[0]!])
  expect(items('farm', '2025-12')).toEqual([['lines', 'done', 'No transactions in December 2025']])
})
