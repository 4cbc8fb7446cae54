import fc from 'fast-check'
import { expect, test } from 'vitest'
import { addDays, day } from '#calendar/day.ts'
import type { KeptLine } from '#ledger/statements/kept-line.ts'
import { type StatementLine, textOfLine } from '#ledger/statements/statement.ts'
import { cents } from '#money/cents.ts'
import { judgeLines } from './judge-lines.ts'

const line = (
  fields: Partial<Record<'on' | 'payee' | 'number', string>> & { amount?: number } = {},
): StatementLine => ({
  fileLine: 1,
  bankNumber: fields.number ?? '',
  day: day(fields.on ?? '2024-01-05'),
  amount: cents(fields.amount ?? -300),
  payee: fields.payee ?? 'Coffee',
  memo: '',
  checkNumber: '',
})

const verdicts = (lines: readonly StatementLine[], kept: readonly KeptLine[]) =>
  judgeLines(lines, kept).map((each) => each.verdict)

/** Keeps what is new, as an import without doubtful lines does. */
const importing = (kept: readonly KeptLine[], lines: readonly StatementLine[]): KeptLine[] => [
  ...kept,
  ...judgeLines(lines, kept)
    .filter((each) => each.verdict === 'new')
    .map((each) => ({
      lineKey: each.lineKey,
      bankNumber: each.line.bankNumber,
      day: each.line.day,
      amount: each.line.amount,
      text: textOfLine(each.line),
    })),
]

test('two like lines of one day in a file both count; the same file again adds nothing', () => {
  const file = [line(), line(), line({ payee: 'Tea' })]
  const kept = importing([], file)
  expect(kept).toHaveLength(3)
  expect(verdicts(file, kept)).toEqual(['seen', 'seen', 'seen'])
})

test('a later file that has one more of the same adds one', () => {
  const kept = importing([], [line()])
  expect(verdicts([line(), line()], kept)).toEqual(['seen', 'new'])
})

test('a bank’s number makes two like lines two, wherever they lie', () => {
  const kept = importing([], [line({ number: '1' }), line({ number: '2' })])
  expect(kept).toHaveLength(2)
  expect(verdicts([line({ number: '2' }), line({ number: '3' })], kept)).toEqual(['seen', 'new'])
})

test('one number on two different movements is doubtful, within a file and across files', () => {
  const file = [line({ number: '1' }), line({ number: '1', amount: -500 }), line({ number: '1' })]
  expect(verdicts(file, [])).toEqual(['new', 'doubtful', 'doubtful'])
  const kept = importing([], [line({ number: '1' })])
  const [amended] = judgeLines([line({ number: '1', amount: -310 })], kept)
  expect(amended).toMatchObject({ verdict: 'doubtful', why: expect.stringContaining('number 1') })
})

test('a doubtful line, once taken in, is seen the next time', () => {
  const file = [line({ number: '1' }), line({ number: '1', amount: -500 })]
  const kept = judgeLines(file, []).map((each) => ({
    lineKey: each.lineKey,
    bankNumber: each.line.bankNumber,
    day: each.line.day,
    amount: each.line.amount,
    text: textOfLine(each.line),
  }))
  expect(verdicts(file, kept)).toEqual(['seen', 'seen'])
})

test('a bank that numbers anew on each download is doubted, not doubled', () => {
  const days = ['2024-01-04', '2024-01-05', '2024-01-06']
  const kept = importing(
    [],
    days.map((on, at) => line({ on, number: `a${at}` })),
  )
  const anew = [...days.map((on, at) => line({ on, number: `b${at}` })), line({ on: days[1]!, number: 'b9' })]
  expect(verdicts(anew, kept)).toEqual(['doubtful', 'doubtful', 'doubtful', 'new'])
})

test('the same account as OFX and as CSV is doubted, not doubled, however it is worded', () => {
  const kept = importing([], [line({ number: '1', payee: 'COFFEE HOUSE' })])
  expect(verdicts([line({ payee: 'Coffee house, Tarn Hollow' }), line({ amount: -301 })], kept)).toEqual([
    'doubtful',
    'new',
  ])
})

test('fillers like 0 or NONREF are no numbers', () => {
  expect(
    verdicts([line({ number: '0' }), line({ number: '0', amount: -1 }), line({ number: 'NONREF' })], []),
  ).toEqual(['new', 'new', 'new'])
})

const numbered = fc.array(
  fc.record({
    days: fc.integer({ min: 0, max: 9 }),
    amount: fc.constantFrom(-300, -500, 800),
    payee: fc.constantFrom('Coffee', 'Tea'),
  }),
  { minLength: 1, maxLength: 40 },
)

const inDayOrder = (rows: readonly { days: number; amount: number; payee: string }[]) =>
  [...rows].sort((one, other) => one.days - other.days)

test('any file cut into overlapping pieces, read in any order, gives the same lines: by number, cut anywhere', () => {
  fc.assert(
    fc.property(numbered, fc.array(fc.tuple(fc.nat(40), fc.nat(40)), { maxLength: 6 }), (rows, cuts) => {
      const file = inDayOrder(rows).map((row, at) =>
        line({
          on: addDays(day('2024-01-01'), row.days),
          amount: row.amount,
          payee: row.payee,
          number: `N${at}`,
        }),
      )
      // Cut anywhere, the middle of a day too; the last three make sure that together they cover the file.
      const third = Math.ceil(file.length / 3)
      const pieces = [
        ...cuts.map(([from, length]) => file.slice(from, from + length)),
        file.slice(third),
        file.slice(0, third + 1),
        file.slice(third - 1, third * 2),
      ]
      const kept = pieces.reduce(importing, [] as KeptLine[])
      expect(kept.map((each) => each.lineKey).sort()).toEqual(
        file.map((each) => `n:${each.bankNumber}`).sort(),
      )
    }),
    { seed: 20261125, numRuns: 300 },
  )
})

test('any file without numbers, cut between days with overlaps, in any order, gives the same lines as the whole', () => {
  fc.assert(
    fc.property(numbered, fc.array(fc.tuple(fc.nat(9), fc.nat(9)), { maxLength: 6 }), (rows, spans) => {
      const file = inDayOrder(rows).map((row) =>
        line({ on: addDays(day('2024-01-01'), row.days), amount: row.amount, payee: row.payee }),
      )
      const between = (from: number, to: number) =>
        file.filter((each) => {
          const at = Number(each.day.slice(8)) - 1
          return at >= from && at <= to
        })
      // The spans overlap as they like; four more make sure that together they cover the file.
      const pieces = [
        ...spans.map(([from, more]) => between(from, from + more)),
        between(5, 9),
        between(0, 2),
        between(2, 6),
      ]
      const kept = pieces.reduce(importing, [] as KeptLine[])
      const sorted = (lines: readonly KeptLine[]) => lines.map((each) => each.lineKey).sort()
      expect(sorted(kept)).toEqual(sorted(importing([], file)))
    }),
    { seed: 20261125, numRuns: 300 },
  )
})

/** A month of purchases, numbered from 1 as some banks do anew each month. */
const month = (on: string, payee: string, cents: number) =>
  Array.from({ length: 20 }, (_, at) =>
    line({
      on: addDays(day(on), at),
      number: String(at + 1),
      amount: -100 * (at + 1) - cents,
      payee: `${payee} ${at + 1}`,
    }),
  )

test('numbers that start anew each month are no doubt: both months are new', () => {
  const kept = importing([], month('2025-01-01', 'Shop', 10))
  const february = month('2025-02-01', 'Store', 20)
  expect(new Set(verdicts(february, kept))).toEqual(new Set(['new']))
  const both = importing(kept, february)
  expect(both).toHaveLength(40)
  expect(new Set(verdicts(february, both))).toEqual(new Set(['seen']))
  expect(new Set(verdicts(month('2025-01-01', 'Shop', 10), both))).toEqual(new Set(['seen']))
})

test('two like purchases under one number are both kept: the second waits for a person, and is seen the next time', () => {
  const file = [line({ number: 'a' }), line({ number: 'a' })]
  expect(verdicts(file, [])).toEqual(['new', 'doubtful'])
  const keys = judgeLines(file, []).map((each) => each.lineKey)
  expect(new Set(keys).size).toBe(2)
  const kept = keys.map((lineKey) => ({ ...importing([], [file[0]!])[0]!, lineKey }))
  expect(verdicts(file, kept)).toEqual(['seen', 'seen'])
})

const first = (payee: string, number: string) => [
  line({ on: '2025-01-10', payee: 'Before', number: number && 'x0' }),
  line({ on: '2025-01-12', payee, amount: -2340, number }),
  line({ on: '2025-01-14', payee: 'After', number: number && 'x1' }),
]

test.for([
  ['under a new number, a day later', 'PENDING FEED STORE', 'P1', '2025-01-13', 'FEED STORE #22 PA', 'T1'],
  ['without numbers, in other words', 'PENDING CREEK GAS 0123', '', '2025-01-12', 'CREEK GAS 0123 TARN', ''],
] as const)(
  'a pending line that comes back %s takes its own place',
  ([, was, oldNumber, on, payee, number]) => {
    const kept = importing([], first(was, oldNumber))
    const later = [
      line({ on: '2025-01-10', payee: 'Before', number: number && 'x0' }),
      line({ on, payee, amount: -2340, number }),
      line({ on: '2025-01-14', payee: 'After', number: number && 'x1' }),
      line({ on: '2025-01-16', payee: 'Later', number: number && 'x2' }),
    ]
    const judged = judgeLines(later, kept)
    expect(judged.map((each) => each.verdict)).toEqual(['seen', 'replaces', 'seen', 'new'])
    expect(judged[1]!.earlier!.text).toBe(was)
  },
)

test('a pending line that comes back with another amount, or a plain one in other words, is asked about', () => {
  const tip = [
    first('PENDING DINER', 'P1')[0]!,
    line({ on: '2025-01-13', payee: 'DINER TARN', amount: -2800, number: 'T' }),
    first('', 'x')[2]!,
  ]
  expect(judgeLines(tip, importing([], first('PENDING DINER', 'P1')))[1]).toMatchObject({
    verdict: 'doubtful',
    earlier: { text: 'PENDING DINER' },
  })
  const plain = [
    first('', 'x')[0]!,
    line({ on: '2025-01-13', payee: 'DINER TARN', amount: -2340, number: 'T' }),
    first('', 'x')[2]!,
  ]
  expect(judgeLines(plain, importing([], first('DINER', 'P1')))[1]).toMatchObject({ verdict: 'doubtful' })
  // A line of the file's last day may be missing because the file was cut there.
  expect(verdicts(plain.slice(0, 2), importing([], first('DINER', 'P1').slice(1, 2)))).toEqual([
    'new',
    'doubtful',
  ])
  const last = importing(
    [],
    [line({ on: '2025-01-13', payee: 'PENDING DINER', amount: -2340, number: 'P1' })],
  )
  expect(verdicts(plain.slice(0, 2), last)).toEqual(['new', 'new'])
})

test('the bank’s own correction replaces or reverses the line it names; what is booked with another amount is asked', () => {
  const kept = importing([], [line({ number: 'a', amount: -500 })])
  const correction = (action: 'replace' | 'delete', amount = -550) => ({
    ...line({ number: 'b', amount, on: '2024-01-07' }),
    correction: { bankNumber: 'a', action },
  })
  const booked = kept.map((each) => ({ ...each, state: 'booked' as const }))
  const verdictOf = (given: StatementLine, among: readonly KeptLine[]) =>
    judgeLines([given], among)[0]!.verdict
  expect(verdictOf(correction('replace'), kept)).toBe('replaces')
  expect(verdictOf(correction('delete'), kept)).toBe('replaces')
  expect(verdictOf(correction('replace', -500), booked)).toBe('replaces')
  expect(verdictOf(correction('replace'), booked)).toBe('doubtful')
  expect(verdictOf(correction('delete'), booked)).toBe('doubtful')
  expect(verdictOf(correction('replace'), [])).toBe('new')
  expect(verdictOf(correction('delete'), [])).toBe('seen')
})

test('lines before the opening balances and after today wait with the reason', () => {
  const bounds = { from: day('2025-01-01'), through: day('2025-01-31') }
  const file = ['2024-12-31', '2025-01-01', '2025-01-31', '2025-02-01'].map((on) => line({ on }))
  const judged = judgeLines(file, [], bounds)
  expect(judged.map((each) => each.verdict)).toEqual(['doubtful', 'new', 'new', 'doubtful'])
  expect(judged[0]!.why).toContain('opening balances of Jan 1, 2025')
  expect(judged[3]!.why).toContain('had not come when it was read in on Jan 31, 2025')
})
