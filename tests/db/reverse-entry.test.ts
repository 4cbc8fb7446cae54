// An entry reversed from its own page, and that undone: the bank's line, the draw of the month and the goods hang on it again.
// All names and numbers are invented.
import { beforeEach, expect, test } from 'vitest'
import { month } from '#calendar/month.ts'
import { reverseEntry } from '#db/acts/reverse-entry.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { listCrossings } from '#db/ledger/crossing-store.ts'
import { entriesOfCrossing, entryByNo, entryOfPosting, standInFor } from '#db/ledger/entry-reader.ts'
import { writeGoods } from '#db/notebook/field-notes.ts'
import { settleGoods, waitingGoods } from '#db/notebook/settle-notes.ts'
import { closeMonth } from '#db/reconcile/closing-store.ts'
import { sortingDesk } from '#db/statements/sorting-desk.ts'
import { sortLines } from '#db/statements/sorting-store.ts'
import { importStatement } from '#db/statements/statement-store.ts'
import { dueTransfers, postOccurrence, startStanding } from '#db/transfers/standing-store.ts'
import { lastUndoable, listActs, undoChange } from '#db/undo.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { cents } from '#money/cents.ts'
import { act, done, freshBooks, on, type TestBooks } from './fresh-books.ts'

let books: TestBooks
beforeEach(() => {
  books = freshBooks()
})

const id = (name: string) => listAccounts(books).find((each) => each.name === name)!.id
const balance = (name: string) => balancesOn(books).get(id(name)) ?? 0
const today = on('2026-01-31')
const january = month(2026, 1)
const undoLast = () => undoChange(books, act(), lastUndoable(books, 'test')!.id, today)
const sound = () => expect(verifyBooks(books.sqlite).findings).toEqual([])

const bookedFeed = () => {
  done(
    importStatement(
      books,
      act(),
      id('Farm checking'),
      {
        format: 'ofx',
        fileName: 'bank.ofx',
        contentHash: 'one',
        statement: {
          bankAccount: '',
          kind: 'bank',
          currency: 'USD',
          closing: null,
          lines: [
            {
              fileLine: 1,
              bankNumber: 'f1',
              day: on('2026-01-12'),
              amount: cents(-8745),
              payee: 'Ridge feed',
              memo: '',
              checkNumber: '',
            },
          ],
          remarks: [],
        },
        mappingId: null,
      },
      today,
    ),
  )
  sortFeed('Feed')
  return entryOfPosting(books, lineNow().posting_id!)
}
const sortFeed = (account: string) =>
  done(
    sortLines(books, act(), [
      {
        lineId: sortingDesk(books).lines[0]!.line.id,
        kind: 'target',
        target: { kind: 'account', accountId: id(account), enterpriseId: null },
      },
    ]),
  )
const lineNow = () =>
  books.sqlite.prepare('SELECT state, posting_id, note FROM statement_lines').get() as {
    state: string
    posting_id: number | null
    note: string
  }

test('the bank’s line waits, and is booked as before once the reversal is undone', () => {
  const entry = bookedFeed()
  done(reverseEntry(books, act(), entry.id, today))
  expect([balance('Feed'), lineNow().state]).toEqual([0, 'unsorted'])
  expect(listActs(books)[0]).toMatchObject({ kind: 'entry.reversed', isTakenBack: false })
  done(undoLast())
  expect([balance('Feed'), balance('Farm checking'), lineNow().state, lineNow().note]).toEqual([
    8745,
    -8745,
    'posted',
    '',
  ])
  const again = standInFor(books, entry.no)!
  expect(entryOfPosting(books, lineNow().posting_id!).no).toBe(again.no)
  expect(again).toMatchObject({ day: '2026-01-12', payee: 'Ridge feed' })
  expect(listActs(books)[0]).toMatchObject({ kind: 'entry.reversed', isTakenBack: true })
  sound()
})

test('a line that was sorted again since is named, and nothing is booked twice', () => {
  done(reverseEntry(books, act(), bookedFeed().id, today))
  const reversal = lastUndoable(books, 'test')!
  sortFeed('Supplies')
  expect(undoChange(books, act(), reversal.id, today)).toMatchObject({
    ok: false,
    problems: [{ message: expect.stringContaining('“Ridge feed” was sorted again since') }],
  })
  expect([balance('Feed'), balance('Supplies')]).toEqual([0, 8745])
  sound()
})

test('in a month that was closed since, nothing is booked by a press', () => {
  const entry = bookedFeed()
  done(reverseEntry(books, act(), entry.id, today))
  const reversal = lastUndoable(books, 'test')!
  // The line is skipped, so that the month can be closed.
  done(
    sortLines(books, act(), [
      { lineId: sortingDesk(books).lines[0]!.line.id, kind: 'ignore', note: 'did not happen' },
    ]),
  )
  done(closeMonth(books, act(), { sideId: 'farm', month: january, note: '' }, on('2026-02-05')))
  // A press has no day to choose.
  expect(undoChange(books, act(), reversal.id, today)).toMatchObject({
    ok: false,
    problems: [{ message: 'These books are closed through January 2026. Reopen the month first' }],
  })
  expect(balance('Feed')).toBe(0)
})

test('what was reversed once its month was closed is booked again on the day of the reversal, and the bank’s line hangs on it', () => {
  const entry = bookedFeed()
  done(closeMonth(books, act(), { sideId: 'farm', month: january, note: '' }, on('2026-02-05')))
  done(reverseEntry(books, act(), entry.id, on('2026-02-05')))
  const reversal = lastUndoable(books, 'test')!
  done(undoChange(books, act(), reversal.id, on('2026-02-09')))
  const again = standInFor(books, entry.no)!
  expect(again.day).toBe('2026-02-05')
  expect(entryOfPosting(books, lineNow().posting_id!).no).toBe(again.no)
  expect([balance('Feed'), balance('Farm checking')]).toEqual([8745, -8745])
  sound()
})

test('a month’s draw is due again after its reversal, and recorded again once that is undone', () => {
  const standingId = done(
    startStanding(books, act(), {
      name: 'Draw of the month',
      kind: 'draw',
      fromAccountId: id('Farm checking'),
      toAccountId: id('Household checking'),
      amountCents: cents(61_000),
      dayOfMonth: 10,
      firstMonth: january,
      lastMonth: null,
      posting: 'confirm',
      memo: '',
    }),
  ).standingId
  done(postOccurrence(books, act(), standingId, january))
  const due = () => dueTransfers(books, today).map((one) => one.month)
  expect(due()).toEqual([])
  const [no] = entriesOfCrossing(books, listCrossings(books, {})[0]!.id)
  done(reverseEntry(books, act(), entryByNo(books, no!)!.id, today))
  expect([due(), balance('Household checking')]).toEqual([[january], 0])
  done(undoLast())
  expect([due(), balance('Household checking'), balance('Farm checking')]).toEqual([[], 61_000, -61_000])
  sound()
})

test.for([
  ['the kitchen', 'kitchen', 'Groceries', ''],
  ['hay for the farm', 'bartered', 'Feed', 'Hay'],
] as const)(
  'goods for %s wait after a reversal, and are booked once more with it undone',
  ([, kind, account, tradedFor]) => {
    done(
      writeGoods(books, act('goods'), {
        kind,
        day: on('2026-01-20'),
        what: 'Eggs',
        quantity: 4,
        unit: 'dozen',
        enterpriseId: null,
        batchId: null,
        headClass: null,
        tradedFor,
        herdId: null,
        unitPriceCents: null,
      }),
    )
    const settled = done(
      settleGoods(books, act(), {
        id: waitingGoods(books)[0]!.id,
        unitPriceCents: cents(550),
        fromAccountId: kind === 'kitchen' ? id('Value of goods used at home') : id('Eggs and poultry sold'),
        toAccountId: id(account),
      }),
    )
    const no = 'entryNo' in settled ? settled.entryNo : entriesOfCrossing(books, settled.crossingId)[0]!
    done(reverseEntry(books, act(), entryByNo(books, no)!.id, today))
    expect([waitingGoods(books).length, balance(account)]).toEqual([1, 0])
    done(undoLast())
    expect([waitingGoods(books).length, balance(account)]).toEqual([0, 2200])
    // It hangs on the entry that stands now: with that reversed it waits again.
    done(reverseEntry(books, act(), standInFor(books, no)!.id, today))
    expect(waitingGoods(books).length).toBe(1)
    sound()
  },
)
