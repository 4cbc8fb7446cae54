// A file without the bank's number of its account, chosen for the wrong one: doubted by the balance it begins with, and by days that are known.
// Two accounts of one invented bank, whose files look alike; each sum by hand.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { importQuestions } from '#db/statements/import-questions.ts'
import { importStatement } from '#db/statements/statement-store.ts'
import { cents } from '#money/cents.ts'
import { act, freshBooks, on, type TestBooks } from './fresh-books.ts'
import { statementFile } from './statement-file.ts'

let books: TestBooks
beforeEach(() => {
  books = freshBooks()
})
afterEach(() => books.close())

type Lines = [day: string, cents: number, payee: string][]
const file = (lines: Lines, closing?: [balance: number, day: string]) =>
  statementFile(
    lines.map(([day, amount, payee]) => ({ day: on(day), amount: cents(amount), payee })),
    { closing: closing ? { balance: cents(closing[0]), asOf: on(closing[1]) } : null },
  )
const account = (name: string) => books.account(name.startsWith('Farm') ? 'farm' : 'household', name)
const read = (name: string, given: ReturnType<typeof file>) =>
  expect(importStatement(books, act(), account(name).id, given, on('2026-12-01')).ok).toBe(true)
const asked = (name: string, given: ReturnType<typeof file>) =>
  importQuestions(books, account(name), given).filter(({ key }) => key === 'opening' || key === 'days')

const october: Lines = [
  ['2026-10-02', -4000, 'TARN GROCER'],
  ['2026-10-09', -1500, 'MILL POND ELECTRIC'],
  ['2026-10-20', 90_000, 'PAY'],
]
const november: Lines = [
  ['2026-11-03', -4100, 'TARN GROCER'],
  ['2026-11-10', -1600, 'MILL POND ELECTRIC'],
]
const farmOctober: Lines = [
  ['2026-10-03', -7000, 'VALLEY GRAIN'],
  ['2026-10-12', 21_000, 'MARKET'],
  ['2026-10-19', -2500, 'FERRY CRATES'],
]

test('a file that begins where the last one of another account ended is asked about, and not in that account', () => {
  read('Household checking', file(october, [184_500, '2026-10-31']))
  read('Farm checking', file(farmOctober, [61_500, '2026-10-31']))
  // 1,845.00 less 41.00 and 16.00 is 1,788.00.
  const next = file(november, [178_800, '2026-11-30'])
  expect(asked('Farm checking', next)).toEqual([
    {
      key: 'opening',
      says: 'It begins with $1,845.00, and so did the last file of Household checking end: it may be the file of Household checking.',
    },
  ])
  expect(asked('Household checking', next)).toEqual([])
  // A balance as of a day before its last transaction says nothing of where it began.
  expect(asked('Farm checking', file(november, [178_800, '2026-11-09']))).toEqual([])
})

test('transactions of days that files covered, and none of them known, are asked about; one known is enough', () => {
  read('Household checking', file(october))
  expect(asked('Household checking', file(farmOctober))).toEqual([
    {
      key: 'days',
      says: 'Files of Household checking were read before for Oct 3, 2026 to Oct 19, 2026, and none of the 3 transactions that this one has there is among theirs: it may be another account’s.',
    },
  ])
  // The bank dates the electric bill two days later in this export: known all the same.
  const known: Lines = [...farmOctober, ['2026-10-11', -1500, 'MILL POND ELEC']]
  expect(asked('Household checking', file(known))).toEqual([])
  // Two alone, or days that no file covered, are no reason.
  expect(asked('Household checking', file(farmOctober.slice(0, 2)))).toEqual([])
  expect(asked('Household checking', file(november))).toEqual([])
})
