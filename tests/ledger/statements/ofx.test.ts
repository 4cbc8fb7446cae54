import { expect, test } from 'vitest'
import { decodeStatement } from '#ledger/statements/reading/encoding.ts'
import { looksLikeOfx, readOfx } from '#ledger/statements/reading/ofx.ts'
import { describeBroken } from '#ledger/statements/statement.ts'

// All banks, people and payees below are invented.
const sgmlHeader = (charset = '1252', encoding = 'USASCII') =>
  `OFXHEADER:100\nDATA:OFXSGML\nVERSION:102\nSECURITY:NONE\nENCODING:${encoding}\nCHARSET:${charset}\nCOMPRESSION:NONE\nOLDFILEUID:NONE\nNEWFILEUID:NONE\n\n`

const sgml = (movements: string, header = sgmlHeader()) => `${header}<OFX>
<SIGNONMSGSRSV1><SONRS><STATUS><CODE>0<SEVERITY>INFO</STATUS><DTSERVER>20240201<LANGUAGE>ENG</SONRS></SIGNONMSGSRSV1>
<BANKMSGSRSV1><STMTTRNRS><TRNUID>1<STATUS><CODE>0<SEVERITY>INFO</STATUS>
<STMTRS><CURDEF>USD<BANKACCTFROM><BANKID>999900001<ACCTID>40-1177<ACCTTYPE>CHECKING</BANKACCTFROM>
<BANKTRANLIST><DTSTART>20240101<DTEND>20240131
${movements}
</BANKTRANLIST>
<LEDGERBAL><BALAMT>1250.75<DTASOF>20240131</LEDGERBAL>
<AVAILBAL><BALAMT>9999.00<DTASOF>20240131</AVAILBAL>
</STMTRS></STMTTRNRS></BANKMSGSRSV1></OFX>
`

const movement = (fields: Partial<Record<'day' | 'amount' | 'id' | 'name' | 'rest', string>> = {}) =>
  `<STMTTRN>
<TRNTYPE>DEBIT
<DTPOSTED>${fields.day ?? '20240105'}
<TRNAMT>${fields.amount ?? '-12.50'}
<FITID>${fields.id ?? 'A1'}
<NAME>${fields.name ?? 'Hollow Feed'}
${fields.rest ?? ''}</STMTTRN>`

const readOne = (text: string) => {
  const read = readOfx(text)
  if (!read.ok) throw new Error(describeBroken(read))
  expect(read.statements).toHaveLength(1)
  return read.statements[0]!
}

test('a plain OFX 1 statement gives its account, currency, balance and lines', () => {
  const statement = readOne(sgml(movement({ rest: '<MEMO>Layer mash\n<CHECKNUM>1041\n' })))
  expect(statement).toEqual({
    bankAccount: '40-1177',
    kind: 'bank',
    currency: 'USD',
    closing: { balance: 125_075, asOf: '2024-01-31' },
    remarks: [],
    lines: [
      {
        fileLine: 16,
        bankNumber: 'A1',
        day: '2024-01-05',
        amount: -1250,
        payee: 'Hollow Feed',
        memo: 'Layer mash',
        checkNumber: '1041',
      },
    ],
  })
})

test('an OFX 2 statement gives the same, with end tags, CDATA, comments, empty and prefixed elements', () => {
  const xml = `<?xml version="1.0" encoding="UTF-8" standalone="no"?>
<?OFX OFXHEADER="200" VERSION="211" SECURITY="NONE" OLDFILEUID="NONE" NEWFILEUID="NONE"?>
<OFX><BANKMSGSRSV1><STMTTRNRS><STMTRS><CURDEF>USD</CURDEF>
<!-- <STMTTRN> nothing here </STMTTRN> -->
<BANKACCTFROM><ACCTID>77</ACCTID></BANKACCTFROM><BANKTRANLIST>
<STMTTRN><TRNTYPE>CREDIT</TRNTYPE><DTPOSTED>20240203120000.000[-5:EST]</DTPOSTED><TRNAMT>40.00</TRNAMT>
<FITID>9</FITID><NAME><![CDATA[Beets & <greens>]]></NAME><CHECKNUM/><MEMO></MEMO></STMTTRN>
</BANKTRANLIST><LEDGERBAL><BALAMT>40.00</BALAMT><DTASOF>20240204</DTASOF></LEDGERBAL></STMTRS></STMTTRNRS></BANKMSGSRSV1></OFX>`
  expect(readOne(xml)).toMatchObject({
    bankAccount: '77',
    closing: { balance: 4000, asOf: '2024-02-04' },
    lines: [{ day: '2024-02-03', amount: 4000, payee: 'Beets & <greens>', memo: '', checkNumber: '' }],
  })
  const prefixed = xml.replaceAll(/<(\/?)([A-Z])/g, '<$1ofx:$2').replace('<![ofx:CDATA[', '<![CDATA[')
  expect(readOne(prefixed).lines).toHaveLength(1)
})

test.for([
  ['20240105', '2024-01-05'],
  ['20240105120000', '2024-01-05'],
  ['20240105235959.000[-5:EST]', '2024-01-05'],
  ['20240105000000[0:GMT]', '2024-01-05'],
  ['20240105120000[+5.30]', '2024-01-05'],
  ['20240105 [-8:PST]', '2024-01-05'],
  ['2024-01-05', '2024-01-05'],
  ['20240229', '2024-02-29'],
])('the day written %s is the bank’s own day %s', ([written, day]) => {
  expect(readOne(sgml(movement({ day: written! }))).lines[0]!.day).toBe(day)
})

test.for([
  ['-12.50', -1250],
  ['+12.50', 1250],
  ['12', 1200],
  ['-.5', -50],
  ['-12,50', -1250],
  ['1,234.56', 123_456],
  ['1.234,56', 123_456],
  ['-1,234', -123_400],
  ['-12.5000', -1250],
  ['$-12.50', -1250],
  ['12.34.56', null],
  ['-12.50-', null],
])('the amount written %s is %s cents', ([written, amount]) => {
  const read = readOfx(sgml(movement({ amount: written as string })))
  expect(read.ok ? read.statements[0]!.lines[0]!.amount : null).toBe(amount)
})

test('end tags left out, of movements too, lose nothing', () => {
  const open = [movement({ id: 'A' }), movement({ id: 'B' }), movement({ id: 'C' })].join('\n')
  const statement = readOne(sgml(open.replaceAll('</STMTTRN>', '')))
  expect(statement.lines.map((line) => line.bankNumber)).toEqual(['A', 'B', 'C'])
  expect(statement.closing?.balance).toBe(125_075)
})

test('an element left empty does not swallow the next one', () => {
  const statement = readOne(sgml(movement({ name: '', rest: '<MEMO>Check 12\n' })))
  expect(statement.lines[0]).toMatchObject({ payee: '', memo: 'Check 12' })
})

test('all on one line, the header too', () => {
  const text = sgml(movement(), sgmlHeader().replaceAll('\n', ' ')).replaceAll('\n', '')
  expect(looksLikeOfx(text)).toBe(true)
  expect(readOne(text).lines).toHaveLength(1)
})

test('entities are unescaped once; a lone & or < stays', () => {
  const payee = (name: string) => readOne(sgml(movement({ name }))).lines[0]!.payee
  expect(payee('Seed &amp; Feed')).toBe('Seed & Feed')
  expect(payee('Seed & Feed')).toBe('Seed & Feed')
  expect(payee('Seed &amp;amp; Feed')).toBe('Seed &amp; Feed')
  expect(payee('5 < 6 &lt;7&gt; &#39;x&#x27; &nbsp;y')).toBe("5 < 6 <7> 'x' y")
})

test('names inside PAYEE and accounts inside BANKACCTTO are told apart from the movement’s own', () => {
  const rest = `<PAYEE><NAME>Inner Name<ADDR1>1 Lane</PAYEE>
<BANKACCTTO><BANKID>1<ACCTID>OTHER</BANKACCTTO>
<CURRENCY><CURRATE>1.0<CURSYM>USD</CURRENCY><MEMO>after</MEMO>`
  const statement = readOne(sgml(movement({ rest })))
  expect(statement.bankAccount).toBe('40-1177')
  expect(statement.lines[0]).toMatchObject({ payee: 'Hollow Feed', memo: 'after' })
  expect(readOne(sgml(movement({ name: '', rest }))).lines[0]!.payee).toBe('Inner Name')
})

test('bank tags of a bank’s own, with dots, are passed over', () => {
  expect(readOne(sgml(movement({ rest: '<TARN.BRANCH>3\n<MEMO>m\n' }))).lines[0]!.memo).toBe('m')
})

test('an empty or zero amount is left out and said', () => {
  const statement = readOne(
    sgml([movement({ amount: '' }), movement({ amount: '0.00' }), movement()].join('\n')),
  )
  expect(statement.lines).toHaveLength(1)
  expect(statement.remarks.map((remark) => remark.fileLine)).toEqual([16, 23])
})

test('several accounts in one file are several statements, cards among them', () => {
  const two = `${sgmlHeader()}<OFX><BANKMSGSRSV1><STMTTRNRS><STMTRS><BANKACCTFROM><ACCTID>1</BANKACCTFROM><BANKTRANLIST>${movement()}</BANKTRANLIST></STMTRS></STMTTRNRS></BANKMSGSRSV1>
<CREDITCARDMSGSRSV1><CCSTMTTRNRS><CCSTMTRS><CCACCTFROM><ACCTID>2</CCACCTFROM><BANKTRANLIST>${movement()}${movement({ id: 'A2' })}</BANKTRANLIST></CCSTMTRS></CCSTMTTRNRS></CREDITCARDMSGSRSV1></OFX>`
  const read = readOfx(two)
  expect(read.ok && read.statements.map((each) => [each.bankAccount, each.kind, each.lines.length])).toEqual([
    ['1', 'bank', 1],
    ['2', 'card', 2],
  ])
})

test('CR alone, CR LF and a byte-order mark change nothing, line numbers included', () => {
  const text = sgml(movement({ name: 'Crème' }))
  const expected = readOne(text)
  const through = (bytes: Buffer) => readOne(decodeStatement(bytes).text)
  expect(through(Buffer.from(text.replaceAll('\n', '\r'), 'utf8'))).toEqual(expected)
  expect(through(Buffer.from(text.replaceAll('\n', '\r\n'), 'utf8'))).toEqual(expected)
  expect(through(Buffer.from(`\ufeff${text}`, 'utf8'))).toEqual(expected)
  expect(through(Buffer.from(`\ufeff${text}`, 'utf16le'))).toEqual(expected)
  expect(through(Buffer.from(text, 'utf16le'))).toEqual(expected)
  expect(through(Buffer.from(text, 'latin1'))).toEqual(expected)
})

test('the header’s character set is used, unless the bytes are plainly UTF-8', () => {
  const name = 'Café Ziegenkäse'
  const inCp437 = Buffer.concat([
    Buffer.from(sgml(movement({ name: 'Caf' }), sgmlHeader('437')).split('Caf')[0]!, 'latin1'),
    Buffer.from('Caf', 'latin1'),
    Buffer.from([0x82]),
    Buffer.from(sgml('', '').slice(-20), 'latin1'),
  ])
  expect(decodeStatement(inCp437)).toMatchObject({ encoding: '437' })
  expect(decodeStatement(inCp437).text).toContain('<NAME>Café')
  const claimsAscii = Buffer.from(sgml(movement({ name })), 'utf8')
  expect(readOne(decodeStatement(claimsAscii).text).lines[0]!.payee).toBe(name)
  const latin = Buffer.from(sgml(movement({ name }), sgmlHeader('ISO-8859-1')), 'latin1')
  expect(readOne(decodeStatement(latin).text).lines[0]!.payee).toBe(name)
  const windows = Buffer.concat([Buffer.from('x,'), Buffer.from([0x92, 0x80])])
  expect(decodeStatement(windows).text).toBe('x,’€')
})

test.for([
  ['a date that is none', sgml(movement({ day: '20240231' })), 16, '“20240231” is not a date'],
  ['no date at all', sgml(movement({ day: '' })), 16, 'has no date'],
  [
    'letters for an amount',
    sgml(`${movement()}\n${movement({ amount: 'twelve' })}`),
    23,
    '“twelve” is not an amount',
  ],
  ['more than books can hold', sgml(movement({ amount: '99999999999999' })), 16, 'is not an amount'],
  ['no amount', sgml(movement().replace(/<TRNAMT>.*\n/, '')), 16, 'has no amount'],
  ['a file cut short', sgml(`${movement()}\n${movement()}`).slice(0, -250), 15, 'cut short'],
] as const)('%s refuses the file, saying the line and why', ([, text, fileLine, message]) => {
  const read = readOfx(text)
  expect(read).toMatchObject({ ok: false, fileLine })
  expect(read.ok ? '' : read.message).toContain(message)
})

test('a file that is no statement says so', () => {
  expect(readOfx('hello')).toMatchObject({ ok: false, message: expect.stringContaining('no <OFX> element') })
  expect(readOfx(`${sgmlHeader()}<OFX></OFX>`)).toMatchObject({
    ok: false,
    message: expect.stringContaining('holds no bank or card statement'),
  })
  expect(looksLikeOfx('Date,Amount\n2024-01-05,3')).toBe(false)
})

test('a hundred thousand movements are read in linear time', () => {
  const many = (count: number) =>
    sgml(Array.from({ length: count }, (_, n) => movement({ id: `F${n}` })).join('\n'))
  const time = (text: string) => {
    const start = performance.now()
    readOne(text)
    return performance.now() - start
  }
  const [small, large] = [many(10_000), many(100_000)]
  time(small)
  // Tenfold the file takes about tenfold the time; forty is room for a busy machine.
  expect(time(large)).toBeLessThan(Math.max(40 * time(small), 400))
})

test('a fraction of a cent is rounded, half away from zero, and said', () => {
  const statement = readOne(
    sgml(`${movement({ amount: '-1.005' })}${movement({ id: 'A2', amount: '2.0049' })}`),
  )
  expect(statement.lines.map((line) => line.amount)).toEqual([-101, 200])
  expect(statement.remarks).toHaveLength(2)
})

const invested = (cash: string) =>
  `<INVSTMTMSGSRSV1><INVSTMTTRNRS><INVSTMTRS><DTASOF>20240131<CURDEF>USD<INVACCTFROM><BROKERID>b<ACCTID>INV77</INVACCTFROM>
<INVTRANLIST><DTSTART>20240101<DTEND>20240131
<BUYSTOCK><INVBUY><INVTRAN><FITID>i1<DTTRADE>20240110</INVTRAN><SECID><UNIQUEID>1<UNIQUEIDTYPE>CUSIP</SECID><UNITS>10<UNITPRICE>50<TOTAL>-500.00<SUBACCTSEC>CASH<SUBACCTFUND>CASH</INVBUY><BUYTYPE>BUY</BUYSTOCK>
<INCOME><INVTRAN><FITID>i2<DTTRADE>20240115</INVTRAN><SECID><UNIQUEID>1<UNIQUEIDTYPE>CUSIP</SECID><INCOMETYPE>DIV<TOTAL>25.00<SUBACCTSEC>CASH<SUBACCTFUND>CASH</INCOME>
${cash}</INVTRANLIST><INVBAL><AVAILCASH>525.00<MARGINBALANCE>0<SHORTBALANCE>0</INVBAL></INVSTMTRS></INVSTMTTRNRS></INVSTMTMSGSRSV1>`
const cash = `<INVBANKTRAN>${movement({ id: 'i3', day: '20240120', amount: '1000.00', name: 'Deposit to brokerage' })}<SUBACCTFUND>CASH</INVBANKTRAN>`

test('an investment account beside a bank account is a statement of its own: its cash lands nowhere else, its trades are said', () => {
  const read = readOfx(sgml(movement()).replace('</OFX>', `${invested(cash)}</OFX>`))
  if (!read.ok) throw new Error(describeBroken(read))
  expect(read.statements.map((each) => [each.kind, each.bankAccount, each.lines.length])).toEqual([
    ['bank', '40-1177', 1],
    ['investment', 'INV77', 1],
  ])
  expect(read.statements[1]!.lines[0]).toMatchObject({ payee: 'Deposit to brokerage', amount: 100_000 })
  expect(read.statements[1]!.remarks.map((remark) => remark.message)).toEqual([
    expect.stringContaining('BUYSTOCK'),
    expect.stringContaining('INCOME'),
  ])
})

test('an investment statement alone is named for what it is; without cash movements it is refused in words', () => {
  expect(readOne(`<OFX>${invested(cash)}</OFX>`)).toMatchObject({ kind: 'investment', bankAccount: 'INV77' })
  const read = readOfx(`<OFX>${invested('')}</OFX>`)
  expect(read.ok ? '' : read.message).toContain('investment account')
})

test('two statements of one account in a file are one, with the later balance', () => {
  const part = (name: string, balance: string, day: string) =>
    `<STMTTRNRS><STMTRS><BANKACCTFROM><ACCTID>C1</BANKACCTFROM><BANKTRANLIST>${movement({ id: name, name })}</BANKTRANLIST><LEDGERBAL><BALAMT>${balance}<DTASOF>${day}</LEDGERBAL></STMTRS></STMTTRNRS>`
  const statement = readOne(`<OFX>${part('May', '2', '20240531')}${part('April', '1', '20240430')}</OFX>`)
  expect(statement.lines.map((line) => line.payee)).toEqual(['May', 'April'])
  expect(statement.closing).toEqual({ balance: 200, asOf: '2024-05-31' })
})

// CORRECTFITID and CORRECTACTION: OFX 1.6, section 11.4.2 (from memory).
test.for(['REPLACE', 'DELETE'])(
  'a line that the file itself corrects (%s) is left out and said',
  (action) => {
    const statement = readOne(
      sgml(
        movement() +
          movement({ id: 'B', amount: '-13.00', rest: `<CORRECTFITID>A1\n<CORRECTACTION>${action}\n` }),
      ),
    )
    expect(statement.lines).toMatchObject([
      { bankNumber: 'B', correction: { bankNumber: 'A1', action: action.toLowerCase() } },
    ])
    expect(statement.remarks).toMatchObject([
      { fileLine: 16, message: expect.stringContaining('corrects this line') },
    ])
  },
)

test('the bank’s own words stand in the refusal of a file that holds an error instead of a statement', () => {
  const read = readOfx(
    '<OFX><SIGNONMSGSRSV1><SONRS><STATUS><CODE>15500<SEVERITY>ERROR<MESSAGE>Your password has expired</STATUS></SONRS></SIGNONMSGSRSV1></OFX>',
  )
  expect(read).toMatchObject({ ok: false })
  expect(read.ok ? '' : read.message).toContain('“Your password has expired” (code 15500)')
})
