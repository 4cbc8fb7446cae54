// How columns are found, remembered and doubted. All files are of invented banks.
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { signDoubt } from '#ledger/statements/line-signs.ts'
import { columnMappingSchema } from '#ledger/statements/reading/column-mapping.ts'
import { readCsv } from '#ledger/statements/reading/csv.ts'
import { sketchCsv } from '#ledger/statements/reading/sketch.ts'
import { readAmount, readDay } from '#ledger/statements/reading/written-amount.ts'
import { firstGap, openingOf } from '#ledger/statements/running-balance.ts'

const sketch = (text: string) => {
  const sketched = sketchCsv(text)
  if (!sketched.ok) throw new Error(sketched.message)
  return sketched
}

const statementOf = (text: string, mapping = sketch(text).guess) => {
  const read = readCsv(text, mapping)
  if (!read.ok) throw new Error(`${read.fileLine} ${read.message}`)
  return read.statements[0]!
}

const essentials = (text: string, mapping = sketch(text).guess) =>
  statementOf(text, mapping).lines.map((line) => [line.day, line.amount, line.payee])

const january = `Description,,Summary Amt.
Beginning balance as of 01/01/2025,,"1,000.00"
Total debits,,"-100.00"
Ending balance,,"900.00"

Date,Description,Amount
01/03/2025,FEED A,-40.00
01/15/2025,FEED B,-60.00
`
const april = `Date,Description,Amount
04/13/2025,FEED G,-40.00
04/15/2025,FEED H,-60.00
04/16/2025,FEED I,-61.00
04/17/2025,FEED J,-62.00
04/18/2025,FEED K,-63.00
04/19/2025,FEED L,-64.00
04/20/2025,FEED M,-65.00
`

test('columns remembered from a file with rows above its header skip no movement of one that has none', () => {
  const remembered = sketch(january).guess
  expect(statementOf(january).lines).toHaveLength(2)
  expect(statementOf(april, remembered).lines).toHaveLength(7)
  const more = `Name of the bank\nA line more\nAccount,40\n${january}`
  expect(statementOf(more, sketch(april).guess).lines.map((line) => line.payee)).toEqual(['FEED A', 'FEED B'])
})

test('what a bank writes above its header is left out row by row, but a broken movement there refuses the file', () => {
  expect(statementOf(january).remarks.map((remark) => remark.fileLine)).toEqual([1, 2, 3, 4])
  const broken = `Date,Description,Amount\n13/45/2025,FEED A,-40.00\nDate,Description,Amount\n01/15/2025,FEED B,-60.00\n`
  expect(readCsv(broken, sketch(april).guess)).toMatchObject({ ok: false, fileLine: 2 })
})

test.for([
  [
    'a total under the movements',
    '01/13/2025,Coffee,5.00,,95.00\n01/14/2025,Deposit,,100.00,195.00\n,Total,5.00,100.00,\n',
    4,
  ],
  ['a total named in the first column', '01/13/2025,Coffee,5.00,,95.00\nTotal,,5.00,0.00,\n', 3],
  ['a closing sentence', '01/13/2025,Coffee,5.00,,95.00\n"End of report, 1 transaction"\n', 3],
  [
    'the header once more',
    '01/13/2025,Coffee,5.00,,95.00\nDate,Description,Debit,Credit,Balance\n01/14/2025,Tea,6.00,,89.00\n',
    3,
  ],
] as const)('%s is left out and listed, not refused', ([, rows, fileLine]) => {
  const statement = statementOf(`Date,Description,Debit,Credit,Balance\n${rows}`)
  expect(statement.remarks.map((remark) => remark.fileLine)).toEqual([fileLine])
  expect(statement.lines[0]).toMatchObject({ payee: 'Coffee', amount: -500 })
})

test('an amount without a date that calls itself no total still refuses the file', () => {
  expect(readCsv(`${april},FEED N,-66.00\n`, sketch(april).guess)).toMatchObject({ ok: false, fileLine: 9 })
})

test.for([
  [
    'a DR and CR column',
    'Date,Description,Amount,Dr/Cr\n01/13/2025,Coffee,5.00,DR\n01/15/2025,Deposit,100.00,CR\n',
  ],
  [
    'a type column',
    'Account Number,Post Date,Transaction Type,Amount,Description\n1234,2025-01-13,DEBIT,5.00,Coffee\n1234,2025-01-15,CREDIT,100.00,Deposit\n',
  ],
] as const)('%s says which way the money went', ([, text]) => {
  expect(essentials(text)).toEqual([
    ['2025-01-13', -500, 'Coffee'],
    ['2025-01-15', 10_000, 'Deposit'],
  ])
})

test('a word that is in neither list, or that contradicts a minus, refuses the row; a word cannot say both', () => {
  const text = 'Date,Description,Amount,Dr/Cr\n01/13/2025,Coffee,5.00,DR\n01/15/2025,Hold,1.00,XX\n'
  const amount = { kind: 'marked', column: 2, markColumn: 3, outWords: 'DR', inWords: 'CR' } as const
  const mapping = { ...sketch(text).guess, amount }
  expect(readCsv(text, mapping)).toMatchObject({
    ok: false,
    fileLine: 3,
    message: expect.stringContaining('“XX”'),
  })
  expect(readCsv(text.replace('1.00,XX', '-1.00,CR'), mapping)).toMatchObject({ ok: false, fileLine: 3 })
  const both = columnMappingSchema.safeParse({ ...mapping, amount: { ...amount, inWords: 'CR, dr' } })
  expect(both.error?.issues[0]?.message).toContain('cannot say both')
})

test('the payee is the description, not the word for how the money moved', () => {
  const text = `Details,Posting Date,Description,Amount,Type,Balance,Check or Slip #
DEBIT,01/31/2025,"HOLLOW FEED MILL 0131",-45.67,DEBIT_CARD,954.33,,
DEBIT,01/30/2025,"CREEK GAS 0456 FUEL",-60.00,DEBIT_CARD,1000.00,,
CREDIT,01/28/2025,"SQ *FARM STAND",300.00,MISC_CREDIT,1060.00,,
`
  expect(essentials(text).map(([, , payee]) => payee)).toEqual([
    'HOLLOW FEED MILL 0131',
    'CREEK GAS 0456 FUEL',
    'SQ *FARM STAND',
  ])
})

test('with a name and a description both are kept', () => {
  const text = 'Date,Name,Description,Amount\n01/15/2025,Hollow Feed,Layer mash 50 lb,-40.00\n'
  expect(statementOf(text).lines[0]).toMatchObject({ payee: 'Layer mash 50 lb', memo: 'Hollow Feed' })
})

test('without a header the amount is the column whose steps the balance takes, not the account’s number', () => {
  const text = `123456789\tEUR\t20250103\t1000,00\t995,00\t20250103\t-5,00\tBEA Supermarkt
123456789\tEUR\t20250115\t995,00\t2495,00\t20250115\t1500,00\tSalaris
`
  expect(essentials(text)).toEqual([
    ['2025-01-03', -500, 'BEA Supermarkt'],
    ['2025-01-15', 150_000, 'Salaris'],
  ])
})

test('of gross and net, the one that moves the balance is taken; where nothing tells, it is asked', () => {
  const header = '"Date","Name","Gross","Fee","Net","Balance"\n'
  const text = `${header}"01/13/2025","Customer A","100.00","-3.20","96.80","96.80"\n"01/14/2025","Bank","-96.80","0.00","-96.80","0.00"\n`
  expect(essentials(text)).toEqual([
    ['2025-01-13', 9680, 'Customer A'],
    ['2025-01-14', -9680, 'Bank'],
  ])
  const unsure = sketch('Date,Name,First,Second\n01/13/2025,A,100.00,96.80\n01/14/2025,B,50.00,48.10\n')
  expect(unsure.doubts).toMatchObject([{ about: 'amountColumn', says: expect.stringContaining('“Second”') }])
})

test('dates that fit two orders are read the way that makes the file short, and asked about', () => {
  const dayFirst = sketch('Date,Description,Amount\n05/01/2025,A,-1.00\n06/01/2025,B,-2.00\n')
  expect(dayFirst.guess.dayOrder).toBe('day-month-year')
  expect(dayFirst.doubts).toMatchObject([
    {
      about: 'dayOrder',
      says: expect.stringContaining('Jan 5, 2025 to Jan 6, 2025, not as May 1, 2025 to Jun 1, 2025'),
    },
  ])
  const monthFirst = sketch('Date,Description,Amount\n01/03/2025,A,-1.00\n01/05/2025,B,-2.00\n')
  expect(monthFirst.guess.dayOrder).toBe('month-day-year')
  expect(monthFirst.doubts).toHaveLength(1)
  expect(sketch(april).doubts).toEqual([])
  expect(sketch('Date,Description,Amount\n01/01/2025,A,-1.00\n').doubts).toEqual([])
})

test('a weekday before the date, and a plus or minus behind the amount', () => {
  const text =
    'Date,Description,Amount\n"Fri, Jan 3, 2025",Coffee,5.00-\n"Tuesday Dec 31, 2024",Deposit,100.00+\n'
  expect(essentials(text)).toEqual([
    ['2025-01-03', -500, 'Coffee'],
    ['2024-12-31', 10_000, 'Deposit'],
  ])
  expect(readAmount('+5.00+')).toBeNull()
  expect(readDay('Sat', 'month-day-year')).toBeNull()
})

test('fractions of a cent are rounded half away from zero, and said', () => {
  const text =
    'Date,Description,Amount\n01/13/2025,Fuel,-12.345\n01/14/2025,Interest,0.0149\n01/15/2025,Tea,-3.00\n'
  const statement = statementOf(text)
  expect(statement.lines.map((line) => line.amount)).toEqual([-1235, 1, -300])
  expect(statement.remarks.map((remark) => remark.fileLine)).toEqual([2, 3])
})

const checking = { kind: 'asset', name: 'Farm checking' } as const
const card = { kind: 'liability', name: 'Farm card' } as const

test('a running balance that goes the other way turns the guess, whichever way the file runs', () => {
  const rows = ['01/13/2025,A,5.00,95.00', '01/14/2025,B,6.00,89.00', '01/15/2025,DEPOSIT,-50.00,139.00']
  for (const ordered of [rows, [...rows].reverse()]) {
    const text = `Date,Description,Amount,Balance\n${ordered.join('\n')}\n`
    const { guess } = sketch(text)
    expect(statementOf(text).lines.find((line) => line.payee === 'DEPOSIT')!.amount).toBe(5000)
    const amount = { kind: 'signed', column: 2, moneyOutIs: 'negative' } as const
    expect(signDoubt(statementOf(text, { ...guess, amount }).lines, checking)).toContain('balance')
    expect(signDoubt(statementOf(text).lines, checking)).toBeNull()
    // A card that writes what is owed: the same balance says the opposite.
    expect(signDoubt(statementOf(text, { ...guess, amount }).lines, card)).toBeNull()
  }
})

test('without a balance, what the lines say is held against the kind of the account', () => {
  const cardFile =
    'Date,Description,Amount\n01/13/2025,FEED STORE,45.67\n01/20/2025,PAYMENT THANK YOU,-100.00\n'
  expect(signDoubt(statementOf(cardFile).lines, card)).toContain('Payments and refunds')
  const turned = {
    ...sketch(cardFile).guess,
    amount: { kind: 'signed', column: 2, moneyOutIs: 'positive' },
  } as const
  expect(signDoubt(statementOf(cardFile, turned).lines, card)).toBeNull()
  const bankFile =
    'Date,Description,Amount\n01/14/2025,ELECTRIC CO,-80.00\n01/15/2025,MARKET DEPOSIT,300.00\n'
  expect(signDoubt(statementOf(bankFile, turned).lines, checking)).toContain('Deposits')
  expect(signDoubt(statementOf(bankFile).lines, checking)).toBeNull()
  const plain = 'Date,Description,Amount\n01/13/2025,A,4.00\n01/14/2025,B,5.00\n01/15/2025,C,6.00\n'
  expect(signDoubt(statementOf(plain).lines, card)).toContain('mostly charged')
})

test('a day whose lines do not lead from one balance to the next has a line missing, however the day is ordered', () => {
  const header = 'Date,Description,Amount,Balance\n'
  const rows = [
    '01/13/2025,A,-5.00,95.00',
    '01/14/2025,B,-6.00,89.00',
    '01/14/2025,C,-7.00,82.00',
    '01/15/2025,D,10.00,92.00',
    '01/16/2025,E,-2.00,90.00',
  ]
  const linesOf = (some: readonly string[]) => statementOf(`${header}${some.join('\n')}\n`).lines
  expect(firstGap(linesOf(rows))).toBeNull()
  expect(openingOf(linesOf(rows))).toEqual({ balance: 10_000, day: '2025-01-13' })
  expect(openingOf(linesOf([...rows].reverse()))).toEqual({ balance: 10_000, day: '2025-01-13' })
  const without = rows.filter((row) => !row.includes(',D,'))
  for (const some of [without, [...without].reverse()])
    expect(firstGap(linesOf(some))).toEqual({ day: '2025-01-16', missing: 1000 })
})

test('whatever a bank writes between, above and under its rows: each movement is read, each other row is said', () => {
  const movement = fc
    .tuple(fc.integer({ min: 13, max: 28 }), fc.integer({ min: 1, max: 99_999 }), fc.boolean())
    .map(
      ([date, size, isOut]) => `01/${date}/2025,Payee ${size},${isOut ? '-' : ''}${(size / 100).toFixed(2)}`,
    )
  const other = fc.constantFrom(
    'Date,Description,Amount',
    ',Total,100.00',
    'Ending balance,,900.00',
    '"End of report, 2 transactions",,',
    '01/20/2025,notice,',
    '01/20/2025,waived fee,0.00',
    'Account,40-1177,',
  )
  const rows = fc.array(fc.oneof({ weight: 3, arbitrary: movement }, other), { minLength: 1, maxLength: 40 })
  const { guess } = sketch(april)
  fc.assert(
    fc.property(rows, (made) => {
      const all = ['Date,Description,Amount', ...made]
      const read = readCsv(`${all.join('\n')}\n`, guess)
      if (!read.ok) throw new Error(`${read.fileLine} ${read.message}`)
      const { lines, remarks } = read.statements[0]!
      expect(lines).toHaveLength(
        made.filter((row) => /^01.*\.\d\d$/.test(row) && !row.endsWith(',0.00')).length,
      )
      // One row, the header, is neither.
      expect(new Set([...lines, ...remarks].map((each) => each.fileLine)).size).toBe(all.length - 1)
    }),
    { seed: 20261128, numRuns: 300 },
  )
})
