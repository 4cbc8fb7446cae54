import { expect, test } from 'vitest'
import { month } from '#calendar/month.ts'
import { changeAccount } from '#db/ledger/account-change.ts'
import { addSide, listAccounts } from '#db/ledger/account-store.ts'
import { balanceOn, balancesOn } from '#db/ledger/balances.ts'
import { findCrossing, listCrossings, postCrossing, postReceipt } from '#db/ledger/crossing-store.ts'
import { findEntry } from '#db/ledger/entry-reader.ts'
import { householdMonths, spendableOn } from '#db/ledger/household-months.ts'
import { latestEntries } from '#db/ledger/latest-entries.ts'
import { correctEntry, postEntry, voidEntry } from '#db/ledger/ledger-store.ts'
import { registerPage } from '#db/ledger/register.ts'
import { moneyOut, openingEntry } from '#ledger/simple-entry.ts'
import { cents } from '#money/cents.ts'
import { act, done, freshBooks, on, type TestBooks } from './fresh-books.ts'

const seeds = (books: TestBooks, id = 'x', amount = 4500) =>
  moneyOut(
    { id, sideId: 'farm', day: on('2026-01-10'), payee: 'Seed house', memo: 'Carrots and chard' },
    books.account('farm', 'Farm checking').id,
    [{ accountId: books.account('farm', 'Seeds and plants').id, amountCents: cents(amount) }],
  )

test('an entry posted twice from the same form is booked once, and another body under its id is a conflict', () => {
  const books = freshBooks()
  const first = postEntry(books, act('form-a'), seeds(books))
  const again = postEntry(books, act('form-a'), seeds(books))
  expect(first).toMatchObject({ ok: true, repeated: false })
  expect(again).toMatchObject({ ok: true, repeated: true })
  expect(done(again)).toEqual(done(first))
  expect(postEntry(books, act('form-a'), seeds(books, 'x', 4600))).toMatchObject({
    ok: false,
    kind: 'conflict',
  })
  expect(balanceOn(books, books.account('farm', 'Farm checking').id, on('2026-12-31'))).toBe(-4500)
})

test('every mistake in an entry names its field and says what to do', () => {
  const books = freshBooks()
  const draft = seeds(books)
  const problemsOf = (change: Partial<typeof draft>) => {
    const outcome = postEntry(books, act(), { ...draft, ...change })
    return outcome.ok ? [] : outcome.problems
  }
  const [seedLine, cashLine] = draft.lines
  expect(problemsOf({ lines: [seedLine!] })).toEqual([{ path: 'lines', message: 'Enter at least two lines' }])
  expect(problemsOf({ lines: [seedLine!, { ...cashLine!, amountCents: cents(-4400) }] })).toEqual([
    {
      path: 'lines',
      message:
        'The lines do not balance: debits are larger than credits by $1.00. Change a line so that both are equal',
    },
  ])
  expect(problemsOf({ lines: [{ ...seedLine!, accountId: 9999 }, cashLine!] })[0]).toMatchObject({
    path: 'lines.0.account',
  })
  const groceries = books.account('household', 'Groceries').id
  expect(problemsOf({ lines: [{ ...seedLine!, accountId: groceries }, cashLine!] })[0]?.message).toContain(
    'record a crossing',
  )
  expect(problemsOf({ lines: [{ ...seedLine!, amountCents: cents(0) }, cashLine!] })[0]).toMatchObject({
    path: 'lines.0.amount',
  })
  expect(problemsOf({ memo: 'x'.repeat(501) })[0]).toMatchObject({ path: 'memo' })
})

test("an owner's draw lands in both books with equal halves, whatever side is looked at", () => {
  const books = freshBooks()
  const checking = books.account('farm', 'Farm checking')
  const savings = books.account('household', 'Savings')
  const draft = {
    kind: 'draw' as const,
    day: on('2026-02-01'),
    amountCents: cents(120000),
    fromAccountId: checking.id,
    toAccountId: savings.id,
    memo: '',
  }
  const { crossingId, entryIds } = done(postCrossing(books, act('draw-1'), draft))
  expect(done(postCrossing(books, act('draw-1'), draft)).entryIds).toEqual(entryIds)
  const balances = balancesOn(books)
  expect(balances.get(checking.id)).toBe(-120000)
  expect(balances.get(savings.id)).toBe(120000)
  expect(findCrossing(books, crossingId)!.halves.map((half) => [half.sideId, half.accountName])).toEqual([
    ['farm', 'Farm checking'],
    ['household', 'Savings'],
  ])
  expect(
    latestEntries(books)
      .map((entry) => entry.sideId)
      .sort(),
  ).toEqual(['farm', 'household'])
})

test('a draw that does not reach the household is refused at its field', () => {
  const books = freshBooks()
  const outcome = postCrossing(books, act(), {
    kind: 'draw',
    day: on('2026-02-01'),
    amountCents: cents(100),
    fromAccountId: books.account('household', 'Savings').id,
    toAccountId: books.account('farm', 'Farm checking').id,
    memo: '',
  })
  expect(outcome).toMatchObject({ ok: false, problems: [{ path: 'toAccount' }] })
})

test('a mixed receipt paid by the household splits line by line and makes the contribution itself', () => {
  const books = freshBooks()
  const result = done(
    postReceipt(books, act('receipt-1'), {
      day: on('2026-03-04'),
      payee: 'Country store',
      memo: '',
      paidFromAccountId: books.account('household', 'Household card').id,
      lines: [
        { accountId: books.account('household', 'Groceries').id, amountCents: cents(2310) },
        { accountId: books.account('farm', 'Supplies').id, amountCents: cents(5405), memo: 'Row cover' },
        { accountId: books.account('farm', 'Seeds and plants').id, amountCents: cents(-400), memo: 'Coupon' },
      ],
    }),
  )
  expect(result.entryIds).toHaveLength(2)
  const crossing = findCrossing(books, result.crossingIds[0]!)!
  expect(crossing).toMatchObject({
    kind: 'contribution',
    amountCents: 5005,
    fromSideId: 'household',
    toSideId: 'farm',
  })
  const balances = balancesOn(books)
  expect(balances.get(books.account('household', 'Household card').id)).toBe(-7315)
  expect(balances.get(books.account('farm', 'Supplies').id)).toBe(5405)
})

test('taking a crossing back from either half takes both back, and only once', () => {
  const books = freshBooks()
  const { entryIds, crossingId } = done(
    postCrossing(books, act(), {
      kind: 'contribution',
      day: on('2026-02-01'),
      amountCents: cents(50000),
      fromAccountId: books.account('household', 'Savings').id,
      toAccountId: books.account('farm', 'Farm checking').id,
      memo: 'Start money',
    }),
  )
  expect(done(voidEntry(books, act(), entryIds[1]!, on('2026-02-05'))).entryIds).toHaveLength(2)
  expect([...balancesOn(books).values()].every((balance) => balance === 0)).toBe(true)
  expect(findCrossing(books, crossingId)!.reversedById).not.toBeNull()
  expect(voidEntry(books, act(), entryIds[0]!, on('2026-02-05'))).toMatchObject({
    ok: false,
    kind: 'conflict',
  })
  expect(householdMonths(books, month(2026, 2), month(2026, 2))[0]!.contributionCents).toBe(0)
})

test('a corrected entry leaves the first one and its reversal in the register', () => {
  const books = freshBooks()
  const { entryId } = done(postEntry(books, act(), seeds(books)))
  const corrected = done(correctEntry(books, act(), entryId, seeds(books, 'x', 4700)))
  const page = registerPage(books, { accountId: books.account('farm', 'Farm checking').id })
  expect(page.rows.map((row) => row.amountCents)).toEqual([-4700, 4500, -4500])
  expect(page.rows.map((row) => row.balanceCents)).toEqual([-4700, 0, -4500])
  expect(page.rows.map((row) => row.isReversed)).toEqual([false, false, true])
  expect(latestEntries(books).map((entry) => entry.isReversed)).toEqual([false, false, true])
  expect(findEntry(books, corrected.entryId)!.correctsNo).toBe(findEntry(books, entryId)!.no)
})

test('opening balances are held against opening equity, debts included', () => {
  const books = freshBooks()
  const savings = books.account('household', 'Savings')
  const mortgage = books.account('household', 'Mortgage')
  const draft = openingEntry(
    { id: 'o', sideId: 'household', day: on('2026-01-01'), payee: '', memo: 'Opening balances' },
    books.account('household', 'Opening balances').id,
    [
      { account: savings, balanceCents: cents(6_000_000) },
      { account: mortgage, balanceCents: cents(9_000_000) },
    ],
  )!
  done(postEntry(books, act(), draft))
  expect(balancesOn(books).get(mortgage.id)).toBe(-9_000_000)
  expect(balancesOn(books).get(books.account('household', 'Opening balances').id)).toBe(3_000_000)
  expect(spendableOn(books, on('2026-01-31'))).toBe(6_000_000)
})

test('a venture has its own books and crosses to the household by accounts made when first needed', () => {
  const books = freshBooks()
  const { sideId } = done(addSide(books, act(), { kind: 'venture', name: 'Cheese classes' }))
  const checking = listAccounts(books, { sideId }).find((account) => account.name === 'Venture checking')!
  done(
    postCrossing(books, act(), {
      kind: 'draw',
      day: on('2026-02-01'),
      amountCents: cents(9900),
      fromAccountId: checking.id,
      toAccountId: books.account('household', 'Household checking').id,
      memo: '',
    }),
  )
  expect(listAccounts(books, { sideId }).map((account) => account.name)).toContain(
    "Owner's draws to The house",
  )
  expect(listCrossings(books, { sideId })).toHaveLength(1)
  expect(householdMonths(books, month(2026, 2), month(2026, 2))[0]).toMatchObject({
    drawCents: 0,
    ventureCents: 9900,
    bySide: [{ sideId, drawCents: 9900 }],
  })
})

test('an account archived takes no new entries', () => {
  const books = freshBooks()
  const seedsAccount = books.account('farm', 'Seeds and plants')
  done(changeAccount(books, act(), seedsAccount, { archived: true }))
  expect(postEntry(books, act(), seeds(books))).toMatchObject({ problems: [{ path: 'lines.0.account' }] })
  const opening = books.account('farm', 'Opening balances')
  expect(changeAccount(books, act(), opening, { archived: true })).toMatchObject({ ok: false })
})

test('a search finds words of payee and memo, the last one by its beginning, and nothing typed breaks it', () => {
  const books = freshBooks()
  done(postEntry(books, act(), seeds(books)))
  const accountId = books.account('farm', 'Farm checking').id
  const found = (text: string) => registerPage(books, { accountId, filter: { text } }).rows.length
  expect([found('seed'), found('chard car'), found('house'), found('hous'), found('turnip')]).toEqual([
    1, 1, 1, 1, 0,
  ])
  for (const text of ['"', "' OR 1=1 --", 'AND', '*', 'NEAR(', '(((', 'payee:x'])
    expect(found(text)).toBeGreaterThanOrEqual(0)
})
