// Why books and statement differ: each of the usual mistakes made once, the difference reckoned by hand, and found again.
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { type BookedLine, explainApart, type UnbookedLine } from '#ledger/reconcile-apart.ts'
import { cents } from '#money/cents.ts'

let next = 1
const booked = (on: string, payee: string, amount: number, more: Partial<BookedLine> = {}): BookedLine => ({
  postingId: next,
  entryNo: next++,
  day: day(on),
  payee,
  amountCents: cents(amount),
  isCounted: true,
  isOfFile: true,
  ...more,
})
const typed = (...given: Parameters<typeof booked>): BookedLine => ({ ...booked(...given), isOfFile: false })
const inFile = (on: string, payee: string, amount: number, isSetAside = false): UnbookedLine => ({
  lineId: next++,
  day: day(on),
  payee,
  amountCents: cents(amount),
  isSetAside,
})

/** What is found, in short: the kind with the payees or the right amount. */
const found = (
  apart: number,
  lines: readonly BookedLine[],
  more: { unbooked?: UnbookedLine[]; openingCents?: number } = {},
) =>
  explainApart({
    cents: cents(apart),
    lines,
    unbooked: more.unbooked ?? [],
    openingCents: more.openingCents === undefined ? null : cents(more.openingCents),
  }).map((one) => {
    if (one.kind === 'missing') return ['missing', ...one.unbooked.map(({ payee }) => payee)]
    if (one.kind === 'opening') return ['opening', one.cents]
    if (one.kind === 'uncounted' || one.kind === 'twice')
      return [one.kind, ...one.lines.map(({ payee }) => payee)]
    return [one.kind, one.line.payee, ...('shouldBe' in one ? [one.shouldBe] : [])]
  })

const rest = [booked('2026-10-02', 'Rent', -85_000), booked('2026-10-15', 'Market', 61_250)]

test('nothing is explained where nothing differs, and nothing is made up where no line explains it', () => {
  expect(found(0, rest)).toEqual([])
  expect(found(1_234, rest)).toEqual([])
})

test('missing: the statement has a charge of 42.50 that waits to be sorted, so the books have 42.50 more', () => {
  const unbooked = [inFile('2026-10-20', 'Feed', -4_250), inFile('2026-10-21', 'Gas', -3_000)]
  expect(found(4_250, rest, { unbooked })).toEqual([['missing', 'Feed']])
  // 42.50 and 30.00 are missing together.
  expect(found(7_250, rest, { unbooked })).toEqual([['missing', 'Feed', 'Gas']])
  expect(found(4_250, rest, { unbooked: [inFile('2026-10-20', 'Fee', -4_250, true)] })).toEqual([
    ['missing', 'Fee'],
  ])
})

test('not checked yet: one line, or two of 10.00 and 15.50 where 25.50 is left', () => {
  const open = [
    booked('2026-10-20', 'Tea', -1_000, { isCounted: false }),
    booked('2026-10-21', 'Bread', -1_550, { isCounted: false }),
  ]
  expect(found(1_550, [...rest, ...open])).toEqual([['uncounted', 'Bread']])
  expect(found(2_550, [...rest, ...open])).toEqual([['uncounted', 'Tea', 'Bread']])
  // Twice the amount of one line is not that line with itself.
  expect(found(2_000, [...rest, open[0]!])).toEqual([])
})

test('twice: typed by hand on the 20th and read from the file on the 22nd; the typed one is the one too many', () => {
  const pair = [typed('2026-10-20', 'feed mill', -4_250), booked('2026-10-22', 'HOLLOW FEED 0022', -4_250)]
  expect(found(-4_250, [...rest, ...pair])[0]).toEqual(['twice', 'HOLLOW FEED 0022', 'feed mill'])
  // A rent of each month is not there twice.
  const monthly = [booked('2026-09-02', 'Rent', -85_000), ...rest]
  expect(found(-85_000, monthly)).toEqual([])
})

test('sign: a refund of 18.00 entered as spent leaves the books 36.00 short', () => {
  expect(found(-3_600, [...rest, typed('2026-10-09', 'Refund', -1_800)])).toEqual([['sign', 'Refund']])
  expect(found(-3_600, [...rest, booked('2026-10-09', 'Refund', -1_800)])).toEqual([])
})

test('transposed: 27.15 typed for 72.15 leaves 45.00; 45.27 for 36.27 leaves nine dollars and is no swap', () => {
  // Typed −27.15, the bank has −72.15: the books have 45.00 more.
  expect(found(4_500, [...rest, typed('2026-10-09', 'Vet', -2_715)])).toEqual([['transposed', 'Vet', -7_215]])
  expect(found(-900, [...rest, typed('2026-10-09', 'Vet', -4_527)])).toEqual([])
  expect(found(900, [...rest, typed('2026-10-09', 'Vet', -4_527)])).toEqual([['transposed', 'Vet', -5_427]])
  // 1.05 for 10.05 is no swap of neighbors, 0.95 for 9.05 none either; 0.19 for 0.91 is one.
  expect(found(72, [...rest, typed('2026-10-09', 'Vet', -19)])).toEqual([['transposed', 'Vet', -91]])
})

test('slipped: 1,250.00 typed for 125.00 leaves 1,125.00', () => {
  expect(found(-112_500, [...rest, typed('2026-10-09', 'Plumber', -125_000)])).toEqual([
    ['slipped', 'Plumber', -12_500],
  ])
})

test('extra: typed by hand and never charged', () => {
  expect(found(-2_222, [...rest, typed('2026-10-09', 'Void check', -2_222)])).toEqual([
    ['extra', 'Void check'],
  ])
})

test('opening: the files say that 1,500.00 was there before the first transaction, the books say nothing', () => {
  expect(found(-150_000, rest, { openingCents: 150_000 })).toEqual([['opening', 150_000]])
  expect(found(-150_001, rest, { openingCents: 150_000 })).toEqual([])
})

test('whatever is told would make books and statement meet', () => {
  const line = fc.record({
    amount: fc.integer({ min: -400, max: 400 }).filter((one) => one !== 0),
    date: fc.integer({ min: 1, max: 28 }),
    isCounted: fc.boolean(),
    isOfFile: fc.boolean(),
  })
  fc.assert(
    fc.property(
      fc.array(line, { maxLength: 12 }),
      fc.array(fc.integer({ min: -400, max: 400 }), { maxLength: 4 }),
      fc.integer({ min: -500, max: 500 }),
      (made, file, apart) => {
        const lines = made.map(({ amount, date, ...more }) =>
          booked(`2026-10-${String(date).padStart(2, '0')}`, 'A', amount, more),
        )
        const unbooked = file.map((amount) => inFile('2026-10-09', 'F', amount))
        for (const one of explainApart({ cents: cents(apart), lines, unbooked, openingCents: null })) {
          const sum = (some: readonly { amountCents: number }[]) =>
            some.reduce((total, { amountCents }) => total + amountCents, 0)
          const change = {
            missing: () => ('unbooked' in one ? sum(one.unbooked) : 0),
            uncounted: () => ('lines' in one ? sum(one.lines) : 0),
            opening: () => 0,
            twice: () => ('lines' in one ? -one.lines[1]!.amountCents : 0),
            sign: () => ('line' in one ? -2 * one.line.amountCents : 0),
            transposed: () => ('shouldBe' in one ? one.shouldBe - one.line.amountCents : 0),
            slipped: () => ('shouldBe' in one ? one.shouldBe - one.line.amountCents : 0),
            extra: () => ('line' in one ? -one.line.amountCents : 0),
          }[one.kind]()
          expect(apart + change).toBe(0)
        }
      },
    ),
    { seed: 20261129, numRuns: 500 },
  )
})
