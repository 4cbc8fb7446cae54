// Which lines are halves of one transfer. All payees are invented.
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { addDays, day, dayNumber } from '#calendar/day.ts'
import type { OwnAccount } from '#ledger/statements/transfer-words.ts'
import { pairTransfers, type TransferLine } from '#ledger/statements/transfers.ts'
import { cents } from '#money/cents.ts'

const own = new Map<number, OwnAccount>([
  [1, { names: ['farm', 'checking'], bankNumber: '00559922', isOwed: false }],
  [2, { names: ['household', 'checking'], bankNumber: '00774411', isOwed: false }],
  [3, { names: ['household', 'card'], bankNumber: '', isOwed: true }],
  [4, { names: ['household', 'savings'], bankNumber: '00881234', isOwed: false }],
])

let ids = 0
const line = (accountId: number, on: string, amount: number, text: string): TransferLine => ({
  id: ++ids,
  accountId,
  day: day(on),
  amount: cents(amount),
  text,
})

/** The pairs as texts, for reading. */
const paired = (...lines: TransferLine[]) => {
  const text = (id: number) => lines.find((each) => each.id === id)!.text
  return pairTransfers(lines, own).map((pair) => [text(pair.outLineId), text(pair.inLineId), pair.isTold])
}

test('one amount alone makes no transfer, whatever the days', () => {
  expect(
    paired(
      line(1, '2025-01-10', -5000, 'FEED STORE 22 PA'),
      line(2, '2025-01-13', 5000, 'PHONE PAY FROM AUNT MAY'),
      line(1, '2025-01-16', -10_000, 'CHECK 1001'),
      line(2, '2025-01-18', 10_000, 'REFUND CLOTHING STORE'),
    ),
  ).toEqual([])
})

test('words that say transfer, or name the other account alone, make one', () => {
  expect(
    paired(
      line(1, '2025-01-12', -50_000, 'ONLINE TRANSFER TO ...4411'),
      line(2, '2025-01-13', 50_000, 'ONLINE TRANSFER FROM ...9922'),
      line(1, '2025-01-20', -60_000, 'Draw'),
      line(2, '2025-01-20', 60_000, 'From farm'),
      line(4, '2025-01-22', -70_000, 'To checking'),
      line(2, '2025-01-23', 70_000, 'DEPOSIT'),
    ),
  ).toEqual([
    ['Draw', 'From farm', true],
    ['ONLINE TRANSFER TO ...4411', 'ONLINE TRANSFER FROM ...9922', true],
    ['To checking', 'DEPOSIT', true],
  ])
  // A name within someone else's is no name of one's own account.
  expect(
    paired(line(2, '2025-01-12', -5000, 'FARM SUPPLY STORE'), line(1, '2025-01-12', 5000, 'DEPOSIT')),
  ).toEqual([])
})

test('a line that names the number of a third account is not paired with another one', () => {
  expect(
    paired(
      line(1, '2025-01-12', -50_000, 'TRANSFER TO ...1234'),
      line(2, '2025-01-12', 50_000, 'TRANSFER IN'),
    ),
  ).toEqual([])
})

test('money does not arrive before it leaves, but on a card, which writes the payment first', () => {
  expect(
    paired(line(1, '2025-02-10', -6000, 'TRANSFER OUT'), line(2, '2025-02-08', 6000, 'TRANSFER IN')),
  ).toEqual([])
  expect(
    paired(line(2, '2025-02-10', -6000, 'CARD PAYMENT'), line(3, '2025-02-08', 6000, 'PAYMENT THANK YOU')),
  ).toEqual([['CARD PAYMENT', 'PAYMENT THANK YOU', true]])
  expect(
    paired(
      line(2, '2025-02-10', -8000, 'ELECTRIC CO PAYMENT'),
      line(3, '2025-02-10', 8000, 'PAYMENT THANK YOU'),
    ),
  ).toEqual([])
})

test('an uncommon amount in one line of each account is proposed, but a person must look', () => {
  const pair = [
    line(1, '2025-03-03', -123_456, 'BRANCH 12'),
    line(2, '2025-03-05', 123_456, 'COUNTER 7 WREN'),
  ]
  expect(paired(...pair)).toEqual([['BRANCH 12', 'COUNTER 7 WREN', false]])
  // With a second line of that amount near by, nothing bears it.
  expect(paired(...pair, line(4, '2025-03-06', -123_456, 'WELL DRILLER'))).toEqual([])
})

test('a line that a rule sends to one account is paired with no other', () => {
  const out = { ...line(1, '2025-01-12', -50_000, 'TRANSFER'), onlyWith: 4 }
  expect(paired(out, line(2, '2025-01-12', 50_000, 'TRANSFER'))).toEqual([])
  expect(paired(out, line(4, '2025-01-13', 50_000, 'TRANSFER IN'))).toEqual([
    ['TRANSFER', 'TRANSFER IN', true],
  ])
})

test('pairs are honest: each line once, opposite amounts, two accounts, days in order; and no open pair that words tell is left', () => {
  const lines = fc.array(
    fc.record({
      accountId: fc.constantFrom(1, 2, 4),
      days: fc.integer({ min: 0, max: 20 }),
      amount: fc.constantFrom(-500, 500, -900, 900),
      text: fc.constantFrom('TRANSFER', 'CHECK 12', 'FEED STORE'),
    }),
    { maxLength: 60 },
  )
  fc.assert(
    fc.property(lines, (rows) => {
      const all = rows.map((row, id) => ({
        ...row,
        id,
        day: addDays(day('2024-01-01'), row.days),
        amount: cents(row.amount),
      }))
      const pairs = pairTransfers(all, own)
      const used = pairs.flatMap((pair) => [pair.outLineId, pair.inLineId])
      expect(new Set(used).size).toBe(used.length)
      const fits = (out: TransferLine, into: TransferLine) => {
        const gap = dayNumber(into.day) - dayNumber(out.day)
        const texts = [out.text, into.text]
        return (
          out.amount < 0 &&
          into.amount === -out.amount &&
          into.accountId !== out.accountId &&
          gap >= 0 &&
          gap <= 5 &&
          texts.includes('TRANSFER') &&
          !texts.includes('FEED STORE')
        )
      }
      for (const { outLineId, inLineId } of pairs) expect(fits(all[outLineId]!, all[inLineId]!)).toBe(true)
      const left = all.filter((each) => !used.includes(each.id))
      expect(left.some((out) => left.some((into) => fits(out, into)))).toBe(false)
    }),
    { seed: 20261125, numRuns: 300 },
  )
})
