// A thing given for a thing is a sale at what is got for it, by hand; what takes a sold thing off the books is none.
import { expect, test } from 'vitest'
import { type KeptPosting, soldInKind } from '#ledger/tax/sold-in-kind.ts'
import { cents } from '#money/cents.ts'

const [machinery, stock, taken, sales] = [1, 2, 3, 4]
const of = { sales: new Set([sales]), got: new Set([machinery, stock]) }
const entry = (entryNo: number, lines: [number, number][], reverses = false): KeptPosting[] =>
  lines.map(([accountId, amount]) => ({ entryNo, reverses, accountId, amountCents: cents(amount) }))
const inKind = (...postings: KeptPosting[][]) => soldInKind(postings.flat(), of).get(sales) ?? 0

test('a heifer given for a used baler of 1,900 is sold for 1,900, and taken back for nothing', () => {
  const trade = entry(1, [
    [machinery, 190_000],
    [sales, -190_000],
  ])
  expect(inKind(trade)).toBe(190_000)
  const back = entry(
    2,
    [
      [machinery, -190_000],
      [sales, 190_000],
    ],
    true,
  )
  expect(inKind(trade, back)).toBe(0)
})

test('neither the cost taken off, with what was written off or in two entries, nor a gain booked with it is a price', () => {
  // A tractor that cost 10,000, of which 4,000 is written off.
  expect(
    inKind(
      entry(1, [
        [taken, 400_000],
        [sales, 600_000],
        [machinery, -1_000_000],
      ]),
    ),
  ).toBe(0)
  expect(
    inKind(
      entry(1, [
        [sales, 1_000_000],
        [machinery, -1_000_000],
      ]),
      entry(2, [
        [taken, 400_000],
        [sales, -400_000],
      ]),
    ),
  ).toBe(0)
})

test('of a cow and a loader that go for a trailer of 5,000 no more than the trailer is taken', () => {
  expect(
    inKind(
      entry(1, [
        [machinery, 500_000],
        [stock, -120_000],
        [taken, 100_000],
        [sales, -480_000],
      ]),
    ),
  ).toBe(380_000)
})
