import { expect, test } from 'vitest'
import {
  type ColumnMapping,
  columnMappingSchema,
  headerSignature,
} from '#ledger/statements/reading/column-mapping.ts'
import { readCsv } from '#ledger/statements/reading/csv.ts'
import { sketchCsv } from '#ledger/statements/reading/sketch.ts'
import { readAmount, readDay } from '#ledger/statements/reading/written-amount.ts'

const sketch = (text: string) => {
  const sketched = sketchCsv(text)
  if (!sketched.ok) throw new Error(sketched.message)
  return sketched
}

const readGuessed = (text: string, change: Partial<ColumnMapping> = {}) =>
  readCsv(text, { ...sketch(text).guess, ...change })

const essentials = (text: string) => {
  const read = readGuessed(text)
  if (!read.ok) throw new Error(`${read.fileLine} ${read.message}`)
  return read.statements[0]!.lines.map((line) => [line.day, line.amount, line.payee])
}

// Layouts of invented banks: same two movements each.
const wanted = [
  ['2024-01-25', -1250, 'Hollow Feed'],
  ['2024-01-26', 123456, 'Share payment'],
]
test.for([
  [
    'signed, month first',
    'Date,Description,Amount\n01/25/2024,Hollow Feed,-12.50\n01/26/2024,Share payment,"1,234.56"\n',
  ],
  [
    'debit and credit columns, semicolons, comma decimals, day first',
    'Datum;Details;Debit;Credit;Balance\n25.01.2024;Hollow Feed;12,50;;987,50\n26.01.2024;Share payment;;1.234,56;2.222,06\n',
  ],
  [
    'two-figure years and tabs',
    'Posted Date\tPayee\tAmount\n1/25/24\tHollow Feed\t(12.50)\n1/26/24\tShare payment\t1234.56\n',
  ],
  [
    'ISO days, a balance before the amount',
    'Balance,Amount,Date,Name\n987.50,-12.50,2024-01-25,Hollow Feed\n2222.06,1234.56,2024-01-26,Share payment\n',
  ],
  [
    'lines of the bank’s own above the header',
    'Account,40-1177\nPeriod,January\n\nDate,Check number,Description,Withdrawals,Deposits\n01/25/2024,1041,Hollow Feed,$12.50,\n01/26/2024,,Share payment,,"$1,234.56"\n',
  ],
  [
    'two money columns without a telling name',
    'When,What,A,B\n01/25/2024,Hollow Feed,12.50,\n01/26/2024,Share payment,,1234.56\n',
  ],
  [
    'a blank line under every line',
    'Date,Description,Amount\n\n01/25/2024,Hollow Feed,-12.50\n\r\n\n01/26/2024,Share payment,1234.56\n\n',
  ],
  ['no header at all', '2024-01-25,Hollow Feed,-12.50\n2024-01-26,Share payment,1234.56\n'],
  [
    'quoted, with a bar',
    '"Date"|"Description"|"Amount"\n"25 Jan 2024"|"Hollow Feed"|"-12.50"\n"26 Jan 2024"|"Share payment"|"+1234.56"\n',
  ],
  [
    'money out with its minus kept in its own column',
    'Date,Description,Debit,Credit\n01/25/2024,Hollow Feed,-12.50,0.00\n01/26/2024,Share payment,0.00,1234.56\n',
  ],
])('%s: the columns are guessed right', ([, text]) => {
  expect(essentials(text!)).toEqual(wanted)
})

test('a file with money out only still takes its two columns for what their headings say', () => {
  const text =
    'Date,Description,Withdrawals,Deposits\n01/25/2024,Hollow Feed,12.50,\n01/26/2024,Fuel,40.00,\n'
  expect(essentials(text)).toEqual([
    ['2024-01-25', -1250, 'Hollow Feed'],
    ['2024-01-26', -4000, 'Fuel'],
  ])
})

test('a row broken over two lines by a quoted note keeps the line numbers right', () => {
  const text = 'Date,Description,Amount\n01/25/2024,"Hollow\nFeed",-12.50\n01/26/2024,x,1\n13/45/2024,y,1\n'
  expect(readGuessed(text, { dayOrder: 'month-day-year' })).toMatchObject({ ok: false, fileLine: 5 })
  expect(readGuessed(text.replace('13/45', '01/27'))).toMatchObject({
    ok: true,
    statements: [{ lines: [{ fileLine: 2, payee: 'Hollow Feed' }, { fileLine: 4 }, { fileLine: 5 }] }],
  })
})

test.for([
  [
    'a date that is none',
    '01/25/2024,a,1\n02/30/2024,b,2\n',
    3,
    '“02/30/2024” is not a date written as month, day, year',
  ],
  ['no date', '01/25/2024,a,1\n,b,2\n', 3, 'There is no date in column 1'],
  ['an amount that is none', '01/25/2024,a,1\n01/26/2024,b,2x\n', 3, '“2x” is not an amount'],
  ['a quotation mark left open', '01/25/2024,a,1\n01/26/2024,"b,2\n', 3, 'quotation mark'],
] as const)('%s refuses the file, saying the line and why', ([, rows, fileLine, message]) => {
  const read = readCsv(`Date,Description,Amount\n${rows}`, {
    ...sketch('Date,Description,Amount\n01/25/2024,a,1\n').guess,
  })
  expect(read).toMatchObject({ ok: false, fileLine })
  expect(read.ok ? '' : read.message).toContain(message)
})

test('each row knows its line, past blank lines and line breaks within quotes', () => {
  const read = readGuessed(
    'Date,Description,Amount\n\n01/25/2024,"Hollow\nFeed, ""new""",-12.50\n\n\n01/26/2024,Share,1.00\n01/27/2024,Bad,1.0x\n',
  )
  expect(read).toMatchObject({ ok: false, fileLine: 8 })
  const short = readGuessed(
    'Date,Description,Amount\n01/25/2024,"Hollow\nFeed",-12.50\n\n01/26/2024,Share,1.00\n',
  )
  expect(short.ok && short.statements[0]!.lines.map((line) => line.fileLine)).toEqual([2, 5])
})

test('totals, blank rows and rows where no money moved are left out and said', () => {
  const text =
    'Date,Description,Amount\n01/25/2024,a,1\n\n01/26/2024,notice,\n01/27/2024,waived fee,0.00\n,Total,\n'
  const read = readGuessed(text)
  expect(read.ok && read.statements[0]!.lines).toHaveLength(1)
  expect(read.ok && read.statements[0]!.remarks.map((remark) => remark.fileLine)).toEqual([4, 5, 6])
})

test('money out may be written as plus, as cards do', () => {
  const text = 'Date,Description,Amount\n01/25/2024,Hollow Feed,12.50\n'
  const amount = { kind: 'signed', column: 2, moneyOutIs: 'positive' } as const
  const read = readGuessed(text, { amount })
  expect(read.ok && read.statements[0]!.lines[0]!.amount).toBe(-1250)
})

test('a row with money both out and in is refused', () => {
  const text = 'Date,Description,Debit,Credit\n01/25/2024,a,1,\n01/25/2024,b,1,2\n'
  expect(readGuessed(text)).toMatchObject({
    ok: false,
    fileLine: 3,
    message: expect.stringContaining('both'),
  })
})

test('the closing balance is the newest movement’s, whichever way the file runs', () => {
  const header = 'Date,Description,Amount,Balance\n'
  const rows = ['01/25/2024,a,1.00,11.00', '01/26/2024,b,2.00,13.00']
  const closing = (lines: string[]) => {
    const read = readGuessed(header + lines.join('\n'))
    return read.ok && read.statements[0]!.closing
  }
  expect(closing(rows)).toEqual({ balance: 1300, asOf: '2024-01-26' })
  expect(closing([...rows].reverse())).toEqual({ balance: 1300, asOf: '2024-01-26' })
})

test('an empty file and one with a single column are refused', () => {
  expect(sketchCsv('')).toMatchObject({ ok: false })
  expect(sketchCsv('\n\n')).toMatchObject({ ok: false, message: 'The file is empty' })
  expect(sketchCsv('just some text\nand more')).toMatchObject({
    ok: false,
    message: expect.stringContaining('one column'),
  })
})

test('a header is known again however it is spaced or capitalized', () => {
  expect(headerSignature(['Posted  Date', ' AMOUNT '])).toBe(headerSignature(['posted date', 'Amount']))
})

test('a mapping must say which column is which', () => {
  const guess = sketch('Date,Description,Debit,Credit\n01/25/2024,a,1,\n01/26/2024,b,,1\n').guess
  expect(columnMappingSchema.parse(JSON.parse(JSON.stringify(guess)))).toEqual(guess)
  const twice = { ...guess, amount: { kind: 'two-columns', outColumn: 2, inColumn: 2 } }
  expect(columnMappingSchema.safeParse(twice).error?.issues[0]?.message).toContain(
    'cannot be the same column',
  )
  expect(columnMappingSchema.safeParse({ ...guess, amount: { kind: 'signed' } }).success).toBe(false)
})

test.for([
  ['(12.50)', undefined, -1250],
  ['12.50-', undefined, -1250],
  ['12.50 DR', undefined, -1250],
  ['12.50 CR', undefined, 1250],
  ['−12.50', undefined, -1250],
  ["1'234.50", undefined, 123_450],
  ['1 234,50', undefined, 123_450],
  ['$1,234.50', undefined, 123_450],
  ['-$12.50', undefined, -1250],
  ['1.234', ',', 123_400],
  ['1.234', '.', null],
  ['12,34,567.00', undefined, null],
  ['--5', undefined, null],
  ['', undefined, null],
  ['1e5', undefined, null],
  ['٣', undefined, null],
] as const)('an amount written %s with mark %s reads as %s', ([written, mark, amount]) => {
  expect(readAmount(written, mark)).toBe(amount)
})

test.for([
  ['1/5/2024', 'month-day-year', '2024-01-05'],
  ['1/5/2024', 'day-month-year', '2024-05-01'],
  ['05.01.24', 'day-month-year', '2024-01-05'],
  ['Jan 5, 2024', 'day-month-year', '2024-01-05'],
  ['5-Jan-2024', 'month-day-year', '2024-01-05'],
  ['2024/1/5 09:30', 'month-day-year', '2024-01-05'],
  ['20240105', 'month-day-year', '2024-01-05'],
  ['01/05/2024 12:00:00 AM', 'month-day-year', '2024-01-05'],
  ['2023-02-29', 'year-month-day', null],
  ['13/13/2024', 'month-day-year', null],
  ['0', 'month-day-year', null],
  ['1/2', 'month-day-year', null],
] as const)('a day written %s as %s is %s', ([written, order, expected]) => {
  expect(readDay(written, order)).toBe(expected)
})

test('a total under a word of another language is left out and listed', () => {
  const rows = '01.06.2026;Markt;-7,00\n13.06.2026;Futter;-1.200,00\n'
  for (const word of [
    'Saldo',
    'Endsaldo',
    'Summe',
    'Solde',
    'Suma',
    'Totale',
    'Totaal',
    'Kontostand am Ende',
  ]) {
    const read = readGuessed(`Datum;Text;Betrag\n${rows}${word};;-1.207,00\n`)
    expect([word, read.ok && read.statements[0]!.remarks]).toEqual([
      word,
      [{ fileLine: 4, message: 'A total or a balance without a date. Left out' }],
    ])
  }
  // A word that only begins like one is a movement whose date is broken.
  expect(readGuessed(`Datum;Text;Betrag\n${rows}Saldorf;;-1,00\n`)).toMatchObject({ ok: false, fileLine: 4 })
})

test('a file whose only amount is odd is asked about by its amount, never by its payee', () => {
  const text = '06/03/2026,Odd amount,12.345\n'
  expect(sketch(text)).toMatchObject({
    guess: { amount: { kind: 'signed', column: 2 }, payeeColumn: 1, decimalMark: '.' },
    doubts: [
      { about: 'amountColumn', says: expect.stringContaining('“12.345” is an odd amount') },
      { about: 'dayOrder' },
    ],
  })
  const read = readGuessed(text)
  expect(read.ok && read.statements[0]).toMatchObject({
    lines: [{ amount: 1235, payee: 'Odd amount' }],
    remarks: [{ fileLine: 1, message: expect.stringContaining('“12.345” has a fraction of a cent') }],
  })
})

test('a quotation mark that is not closed never hides a transaction: its line and the hidden one are named', () => {
  const mapping = sketch('Date,Who,Amount\n10/01/2026,Feed,-1.00\n10/02/2026,Seed,-2.00\n').guess
  const rows = (...more: string[]) => ['Date,Who,Amount', '10/01/2026,Feed,-1.00', ...more, ''].join('\n')
  // The row alone looks like one of Orchard for 7.25: its own 12.50 and the line between would be gone.
  for (const text of [
    rows('10/03/2026,"Orchard,-12.50', '10/04/2026,"Bakery",-7.25', '10/05/2026,Mill,-3.00'),
    rows('10/03/2026,"Orchard,-12.50', '10/04/2026,Oats,-8.00', '10/05/2026,"Mill",-3.00'),
  ])
    expect(readCsv(text, mapping)).toMatchObject({
      ok: false,
      fileLine: 3,
      message: expect.stringContaining('line 4, a transaction of its own, would be lost'),
    })
  // A text over several lines is one transaction.
  const long = readCsv(rows('10/03/2026,"Orchard\nunder the hill, gate 2",-12.50'), mapping)
  expect(long.ok && long.statements[0]!.lines.map(({ amount, fileLine }) => [fileLine, amount])).toEqual([
    [2, -100],
    [3, -1250],
  ])
})

test('a balance that cannot be read is said with its line, and one that is not there is not', () => {
  const text = [
    'Date,Who,Amount,Balance',
    '10/01/2026,Feed,-1.00,99.00',
    '10/02/2026,Seed,-2.00,9?.00',
    '10/03/2026,Hay,-3.00,-',
    '10/04/2026,Oats,-4.00,',
    '',
  ].join('\n')
  const read = readGuessed(text, { balanceColumn: 3 })
  if (!read.ok) throw new Error(read.message)
  const [{ lines, remarks, closing }] = read.statements as [(typeof read.statements)[number]]
  expect(lines.map(({ balance }) => balance)).toEqual([9900, undefined, undefined, undefined])
  expect(remarks).toEqual([
    { fileLine: 3, message: expect.stringContaining('The balance “9?.00” is not an amount'), isRead: true },
  ])
  expect(closing).toBeNull()
})

test.each([
  [['2026-01-02', '2026-03-04'], 'year-month-day'],
  [['20260102'], 'year-month-day'],
  [['2026/1/2 09:30', '2026/02/30'], 'year-month-day'],
  [['Jan 2, 2026', 'Mar 4, 2026'], 'month-day-year'],
  [['2 Jan 2026', '4-Mar-2026'], 'day-month-year'],
  [['1/25/2026'], 'month-day-year'],
  [['25.01.2026'], 'day-month-year'],
])('of dates like %s the order that is shown is the one they are written in', (texts, order) => {
  const text = `Date,Payee,Amount\n${texts.map((one) => `"${one}",Feed,-1.00\n`).join('')}`
  expect(sketch(text)).toMatchObject({ guess: { dayOrder: order }, doubts: [] })
})
