import fc from 'fast-check'
import { expect, test } from 'vitest'
import { addDays, day } from '#calendar/day.ts'
import { judgeLines, type KeptLine } from '#ledger/statements/seeing-twice.ts'
import { type StatementLine, textOfLine } from '#ledger/statements/statement.ts'
import { cents } from '#money/cents.ts'

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
  expect(verdicts(file, [])).toEqual(['new', 'doubtful', 'seen'])
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
