import { expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { month } from '#calendar/month.ts'
import type { Account } from '#ledger/account.ts'
import { type BulkChange, type ChosenEntry, changeProblems, fateOf } from '#ledger/bulk-change.ts'
import type { EntryGround } from '#ledger/entry.ts'
import { cents } from '#money/cents.ts'

const account = (id: number, name: string, more: Partial<Account> = {}): Account => ({
  id,
  sideId: 'farm',
  number: id,
  name,
  kind: 'expense',
  cashRole: 'none',
  scheduleLine: null,
  purpose: null,
  taxKind: null,
  savingsKind: null,
  personId: null,
  propertyLoan: null,
  currentKind: null,
  contraKind: null,
  enterpriseId: null,
  crossingRole: null,
  crossingSideId: null,
  systemRole: null,
  bankKey: null,
  note: '',
  archivedAt: null,
  ...more,
})

const checking = account(1, 'Farm checking', { kind: 'asset', cashRole: 'cash' })
const feed = account(2, 'Feed')
const supplies = account(3, 'Supplies')
const groceries = account(4, 'Groceries', { sideId: 'household' })
const draws = account(5, 'Draws', { kind: 'equity', crossingRole: 'draws', crossingSideId: 'household' })
const oldCard = account(6, 'Old card', { kind: 'liability', cashRole: 'cash', archivedAt: '2026-01-01' })
const all = [checking, feed, supplies, groceries, draws, oldCard]
const ground: EntryGround = {
  account: (id) => all.find((one) => one.id === id),
  closedThrough: () => month(2025, 12),
  opensOn: () => null,
}

type Lines = [accountId: number, amount: number, memo?: string, enterprise?: string | null][]

/** Posting ids are 101, 102 … in the order of the lines. */
const chosen = (lines: Lines, more: Partial<ChosenEntry> & { onDay?: string } = {}): ChosenEntry => ({
  entry: {
    no: 7,
    id: 'seven',
    sideId: 'farm',
    day: day(more.onDay ?? '2026-02-03'),
    payee: 'HOLLOW 0342',
    memo: '',
    source: 'statement',
    lines: lines.map(([accountId, amount, memo = '', enterpriseId = null], index) => ({
      postingId: 101 + index,
      accountId,
      amountCents: cents(amount),
      memo,
      enterpriseId,
      batchId: null,
      crossingId: null,
    })),
  },
  registerAccountId: checking.id,
  chosen: new Set([102]),
  reversedByNo: null,
  reconciledOn: new Map(),
  namedByBank: new Set(),
  ...more,
})

const change = (over: Partial<BulkChange>): BulkChange => ({
  lines: 'others',
  accountId: null,
  enterpriseId: null,
  payee: null,
  memo: null,
  ...over,
})

const bought: Lines = [
  [supplies.id, 4200],
  [checking.id, -4200],
]

const accountsAfter = (facts: ChosenEntry, over: Partial<BulkChange>) => {
  const fate = fateOf(facts, change(over), ground)
  return fate.ok ? fate.replacement.lines.map((line) => line.accountId) : fate.why
}

test('from the bank’s register, the other side of an entry goes to another account and the money stays', () => {
  expect(accountsAfter(chosen(bought), { accountId: feed.id })).toEqual([feed.id, checking.id])
})

test('from the register of a cost, the checked line alone moves, though another of the same account is beside it', () => {
  const facts = chosen(
    [
      [supplies.id, 3000, 'hay'],
      [supplies.id, 1200, 'twine'],
      [checking.id, -4200],
    ],
    { registerAccountId: supplies.id, chosen: new Set([101]) },
  )
  expect(accountsAfter(facts, { lines: 'chosen', accountId: feed.id })).toEqual([
    feed.id,
    supplies.id,
    checking.id,
  ])
})

test('payee, note and enterprise change and everything else stays', () => {
  const fate = fateOf(
    chosen(bought),
    change({ payee: 'Hollow Feed', memo: 'Ewe ration', enterpriseId: 'sheep' }),
    ground,
  )
  expect(fate).toMatchObject({
    ok: true,
    replacement: {
      payee: 'Hollow Feed',
      memo: 'Ewe ration',
      day: '2026-02-03',
      source: 'statement',
      lines: [
        { accountId: supplies.id, amountCents: 4200, enterpriseId: 'sheep' },
        { accountId: checking.id, amountCents: -4200, enterpriseId: null },
      ],
    },
  })
})

test('the note that a line has of its own is the one that changes', () => {
  const facts = chosen(
    [
      [supplies.id, 4200, 'twine'],
      [checking.id, -4200],
    ],
    { registerAccountId: supplies.id, chosen: new Set([101]) },
  )
  expect(fateOf(facts, change({ memo: 'baling twine' }), ground)).toMatchObject({
    ok: true,
    replacement: { memo: '', lines: [{ memo: 'baling twine' }, { memo: '' }] },
  })
})

test('an enterprise is taken away by an empty one', () => {
  const facts = chosen([
    [supplies.id, 4200, '', 'sheep'],
    [checking.id, -4200],
  ])
  expect(fateOf(facts, change({ enterpriseId: '' }), ground)).toMatchObject({
    ok: true,
    replacement: { lines: [{ enterpriseId: null }, { enterpriseId: null }] },
  })
})

test.for<[string, ChosenEntry, Partial<BulkChange>, string]>([
  [
    'in a closed month',
    chosen(bought, { onDay: '2025-12-31' }),
    { accountId: feed.id },
    'These books are closed through December 2025. Reopen the month first',
  ],
  [
    'reversed already',
    chosen(bought, { reversedByNo: 9 }),
    { accountId: feed.id },
    'It was reversed already, by entry 9',
  ],
  [
    'split over several accounts',
    chosen([
      [supplies.id, 4000],
      [feed.id, 200],
      [checking.id, -4200],
    ]),
    { accountId: feed.id },
    'It is split over several accounts. Correct it by itself',
  ],
  [
    'reconciled where it would leave',
    chosen(bought, { reconciledOn: new Map([[102, day('2026-02-28')]]) }),
    { lines: 'chosen', accountId: feed.id },
    'Its line in Farm checking is reconciled with the statement of Feb 28, 2026',
  ],
  [
    'named by the bank where it would leave',
    chosen(bought, { namedByBank: new Set([102]) }),
    { lines: 'chosen', accountId: feed.id },
    "The bank's own file has this line in Farm checking. Correct it by itself if the bank is wrong",
  ],
  [
    'all in one account afterwards',
    chosen(bought),
    { lines: 'chosen', accountId: supplies.id },
    'All of it would then stand in Supplies',
  ],
  ['that stays the same', chosen(bought), { accountId: supplies.id }, 'Nothing about it would change'],
  [
    'with a line in an account archived',
    chosen([
      [supplies.id, 4200],
      [oldCard.id, -4200],
    ]),
    { payee: 'Hollow Feed' },
    '“Old card” was archived. Choose another account, or bring it back',
  ],
])('an entry %s stays as it is and says why', ([, facts, over, why]) => {
  expect(fateOf(facts, change(over), ground)).toEqual({ ok: false, why })
})

test('a reversal and half of a crossing stay as they are', () => {
  const reversal = chosen(bought)
  expect(
    accountsAfter({ ...reversal, entry: { ...reversal.entry, source: 'reversal' } }, { payee: 'x' }),
  ).toBe('It takes another entry back')
  const lines = reversal.entry.lines.map((line, index) => (index === 0 ? { ...line, crossingId: 'c' } : line))
  expect(accountsAfter({ ...reversal, entry: { ...reversal.entry, lines } }, { payee: 'x' })).toContain(
    'half of a crossing',
  )
})

test('what a finished statement holds may still change its other side, its payee and its note', () => {
  const facts = chosen(bought, {
    reconciledOn: new Map([[102, day('2026-02-28')]]),
    namedByBank: new Set([102]),
  })
  expect(accountsAfter(facts, { accountId: feed.id, payee: 'Hollow Feed' })).toEqual([feed.id, checking.id])
})

test.for<[string, Partial<BulkChange>, string]>([
  ['nothing asked', {}, 'Say what to change'],
  ['an account of other books', { accountId: groceries.id }, 'is in other books'],
  ['an account that stands for the other side', { accountId: draws.id }, 'Record a crossing instead'],
  ['an account archived', { accountId: oldCard.id }, 'was archived'],
  ['the register itself', { accountId: checking.id }, 'Choose another account'],
  ['no account', { accountId: 99 }, 'Choose an account from the list'],
])('%s is said at the field of the account', ([, over, says]) => {
  const problems = changeProblems(change(over), checking, ground)
  expect(problems).toHaveLength(1)
  expect(problems[0]).toMatchObject({ path: 'account', message: expect.stringContaining(says) })
})
