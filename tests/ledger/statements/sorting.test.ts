import { expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { dryRun } from '#ledger/statements/dry-run.ts'
import { pairWithBooks } from '#ledger/statements/matching.ts'
import { plainPayee, withoutNumbers } from '#ledger/statements/payee-text.ts'
import { learnFrom, proposer, type SortingRule, type SortingTarget } from '#ledger/statements/sorting.ts'
import { cents } from '#money/cents.ts'

const feed: SortingTarget = { kind: 'account', accountId: 50, enterpriseId: null }
const seed: SortingTarget = { kind: 'account', accountId: 51, enterpriseId: null }
const draw: SortingTarget = { kind: 'crossing', crossingKind: 'draw', otherAccountId: 9 }

const rule = (fields: Partial<SortingRule> = {}): SortingRule => ({
  id: fields.matchText ?? 'r',
  matchKind: 'equals',
  matchText: 'hollow feed',
  onAccountId: null,
  sign: null,
  minimum: null,
  maximum: null,
  target: feed,
  priority: 0,
  learned: false,
  lastUsedAt: null,
  ...fields,
})

const line = (text: string, amount = -1000, accountId = 1) => ({ text, amount: cents(amount), accountId })
const proposed = (rules: SortingRule[], text: string, amount?: number, accountId?: number) =>
  proposer(rules)(line(text, amount, accountId))

test.for([
  ['POS DEBIT 0412 HOLLOW FEED #22 TARN HOLLOW PA', 'hollow feed tarn hollow pa'],
  ["O'Dell & Daughter  Crème-Brûlée", 'odell daughter creme brulee'],
  ['CHECK 1041', 'check'],
  ['ACH DEBIT', 'ach debit'],
  ['12/03 4471', ''],
  // What was paid to a tax office is part of who was paid; numbers that change are not (wording invented after common practice).
  ['OHIO IT1040ES 8842716', 'ohio it1040es'],
  ['OHIO IT1040 EPAY 55120', 'ohio it1040 epay'],
  ['FRANCHISE BOARD 540ES 0419', 'franchise board 540es'],
  ['IRS FORM 1040 270612345', 'irs form'],
  ['TARN MARKET #943 T0B12ES4', 'tarn market'],
])('the payee in %s is %s', ([text, plain]) => {
  expect(plainPayee(text!)).toBe(plain)
})

test('exact goes before prefix, prefix before words, whatever order the rules are in', () => {
  const rules = [
    rule({ id: 'words', matchKind: 'contains', matchText: 'feed hollow' }),
    rule({ id: 'prefix', matchKind: 'starts', matchText: 'hollow' }),
    rule({ id: 'exact', matchKind: 'equals', matchText: 'hollow feed' }),
  ]
  for (const order of [rules, [...rules].reverse()]) {
    expect(proposed(order, 'HOLLOW FEED 22')?.ruleId).toBe('exact')
    expect(proposed(order, 'HOLLOW SEED')?.ruleId).toBe('prefix')
    expect(proposed(order, 'THE FEED OF HOLLOW')?.ruleId).toBe('words')
    expect(proposed(order, 'BAKERY')).toBeNull()
  }
})

test('a prefix ends at a word and words are whole words', () => {
  expect(proposed([rule({ matchKind: 'starts', matchText: 'hol' })], 'HOLLOW FEED')).toBeNull()
  expect(proposed([rule({ matchKind: 'contains', matchText: 'fee' })], 'HOLLOW FEED')).toBeNull()
})

test('a rule keeps to its account, its direction and its bounds, both ends included', () => {
  const bounded = [rule({ onAccountId: 1, sign: 'out', minimum: cents(500), maximum: cents(1000) })]
  expect(proposed(bounded, 'hollow feed', -500)).not.toBeNull()
  expect(proposed(bounded, 'hollow feed', -1000)).not.toBeNull()
  expect(proposed(bounded, 'hollow feed', -499)).toBeNull()
  expect(proposed(bounded, 'hollow feed', -1001)).toBeNull()
  expect(proposed(bounded, 'hollow feed', 700)).toBeNull()
  expect(proposed(bounded, 'hollow feed', -700, 2)).toBeNull()
})

test('priority goes before all, a hand-made rule before a learned one, then the later choice', () => {
  const older = rule({ id: 'a', learned: true, lastUsedAt: '2024-01-01T00:00:00Z', target: seed })
  const later = rule({ id: 'b', learned: true, lastUsedAt: '2024-02-01T00:00:00Z', target: feed })
  expect(proposed([older, later], 'hollow feed')?.ruleId).toBe('b')
  expect(proposed([older, later, rule({ id: 'hand', target: draw })], 'hollow feed')?.ruleId).toBe('hand')
  const first = rule({ id: 'first', matchKind: 'contains', matchText: 'feed', priority: 1 })
  expect(proposed([older, later, first], 'hollow feed')?.ruleId).toBe('first')
})

test('a learned text helps with one that shares most of its words', () => {
  const learned = [rule({ learned: true, matchText: 'hollow feed tarn hollow pa' })]
  expect(proposed(learned, 'HOLLOW FEED OAK RIDGE PA')?.how).toBe('similar')
  expect(proposed(learned, 'PA TURNPIKE')).toBeNull()
})

test('a choice teaches a rule for its text, account and direction; the next choice changes it', () => {
  const first = learnFrom([], line('HOLLOW FEED 1'), feed)
  expect(first).toMatchObject({
    kind: 'new',
    rule: { matchText: 'hollow feed', onAccountId: 1, sign: 'out', learned: true },
  })
  const known = rule({ id: 'k', learned: true, onAccountId: 1, sign: 'out' })
  expect(learnFrom([known], line('HOLLOW FEED 2'), feed)).toEqual({ kind: 'used', ruleId: 'k' })
  expect(learnFrom([known], line('HOLLOW FEED 2'), seed)).toEqual({
    kind: 'changed',
    ruleId: 'k',
    target: seed,
  })
  expect(learnFrom([known], line('HOLLOW FEED', 900), seed).kind).toBe('new')
  expect(learnFrom([], line('CHECK 1041'), feed)).toEqual({ kind: 'nothing' })
})

test('a dry run shows what a rule would have caught, where it differs, and where another goes first', () => {
  const history = [
    { id: 1, ...line('HOLLOW FEED'), went: feed },
    { id: 2, ...line('HOLLOW FEED 7'), went: seed },
    { id: 3, ...line('HOLLOW FEED 8'), went: null },
    { id: 4, ...line('HOLLOW FEED 9'), went: 'other' as const },
    { id: 5, ...line('HOLLOW GRANGE'), went: null },
    { id: 6, ...line('BAKERY'), went: feed },
  ]
  const draft = rule({ id: 'draft', matchKind: 'starts', matchText: 'hollow' })
  const run = dryRun(draft, [rule({ id: 'grange', matchText: 'hollow grange' })], history)
  expect(run.counts).toEqual({ same: 1, different: 1, unsorted: 1, other: 1 })
  expect(run.overruled).toBe(1)
  expect(run.caught.map((each) => each.line.id)).toEqual([1, 2, 3, 4])
})

const open = (id: number, accountId: number, on: string, amount: number) => ({
  id,
  accountId,
  day: day(on),
  amount: cents(amount),
})

test('a line finds the entry the books already hold in its own account', () => {
  const postings = [
    { postingId: 100, accountId: 1, day: day('2024-01-03'), amount: cents(-4200) },
    { postingId: 101, accountId: 2, day: day('2024-01-02'), amount: cents(-4200) },
    { postingId: 102, accountId: 1, day: day('2024-01-20'), amount: cents(-4200) },
  ]
  expect(pairWithBooks([open(1, 1, '2024-01-05', -4200), open(2, 1, '2024-01-06', -4200)], postings)).toEqual(
    [{ lineId: 1, postingId: 100 }],
  )
})

test('several transactions of a payee are named without their numbers, but with the form that says what was paid', () => {
  expect(withoutNumbers('OHIO IT1040ES 8842716')).toBe('OHIO IT1040ES')
  expect(withoutNumbers('HOLLOW FEED #22')).toBe('HOLLOW FEED')
  expect(withoutNumbers('4471 12/03')).toBe('4471 12/03')
})
