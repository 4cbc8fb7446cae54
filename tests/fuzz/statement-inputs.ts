// Inputs for the fuzz tests: sound bank files bent in ways that banks, mail programs and malice bend them.
import fc from 'fast-check'
import { anyText } from './any-text.ts'

const ofx1 = `OFXHEADER:100
DATA:OFXSGML
VERSION:102
ENCODING:USASCII
CHARSET:1252

<OFX><BANKMSGSRSV1><STMTTRNRS><STMTRS><CURDEF>USD<BANKACCTFROM><ACCTID>00-1</BANKACCTFROM>
<BANKTRANLIST><DTSTART>20240101<DTEND>20240131
<STMTTRN><TRNTYPE>DEBIT<DTPOSTED>20240105120000[-5:EST]<TRNAMT>-12.50<FITID>1<NAME>Feed &amp; Seed<MEMO>a &lt; b</STMTTRN>
<STMTTRN>
<TRNTYPE>CREDIT
<DTPOSTED>20240106
<TRNAMT>1,234.56
<FITID>2
<NAME>Market
<STMTTRN><TRNTYPE>CHECK<DTPOSTED>20240107<TRNAMT>-5<FITID>3<CHECKNUM>104<BANKACCTTO><ACCTID>9</BANKACCTTO></STMTTRN>
</BANKTRANLIST><LEDGERBAL><BALAMT>99.00<DTASOF>20240131</LEDGERBAL></STMTRS></STMTTRNRS></BANKMSGSRSV1></OFX>`

const ofx2 = `<?xml version="1.0" encoding="UTF-8"?><?OFX OFXHEADER="200" VERSION="211"?><OFX><CREDITCARDMSGSRSV1><CCSTMTTRNRS><CCSTMTRS><CURDEF>USD</CURDEF><CCACCTFROM><ACCTID>2</ACCTID></CCACCTFROM><BANKTRANLIST><!-- c --><STMTTRN><DTPOSTED>20240203</DTPOSTED><TRNAMT>40.00</TRNAMT><FITID>9</FITID><NAME><![CDATA[A & <B>]]></NAME><MEMO/></STMTTRN></BANKTRANLIST></CCSTMTRS></CCSTMTTRNRS></CREDITCARDMSGSRSV1></OFX>`

const csvs = [
  'Date,Description,Amount\n01/25/2024,"Feed, Hollow",-12.50\n01/26/2024,Market,"1,234.56"\n',
  'Datum;Text;Debit;Credit;Balance\n25.01.2024;Feed;12,50;;987,50\n26.01.2024;Market;;1.234,56;2.222,06\n',
  'a\tb\tc\n2024-01-05\tx\t(3.00)\n2024-01-06\ty\t4 CR\n',
]

const awkward = [
  '',
  '\u0000',
  '\r',
  '\n\n\n',
  '"',
  '""""',
  '<',
  '</',
  '<STMTTRN>',
  '</STMTTRN>',
  '<OFX>',
  '<![CDATA[',
  ']]>',
  '<!--',
  '&#x110000;',
  '&#0;',
  '&&&',
  ',,,,,',
  ';;;',
  '99999999999999999999',
  '-',
  '1e308',
  'NaN',
  '0x10',
  '2024-02-30',
  '00000000',
  '\ufeff',
  '\ud800',
  '\u202e',
  '٣٤',
  'é'.repeat(50),
  'A'.repeat(5000),
  '<A>'.repeat(300),
]

const seed = fc.constantFrom(ofx1, ofx2, ...csvs)

interface Bend {
  at: number
  cut: number
  put: string
}

const bend: fc.Arbitrary<Bend> = fc.record({
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  cut: fc.oneof(fc.constant(0), fc.integer({ min: 0, max: 12 }), fc.integer({ min: 0, max: 2000 })),
  put: fc.oneof(fc.constantFrom(...awkward), anyText(20), seed),
})

const bent = (text: string, bends: readonly Bend[]): string =>
  bends.reduce((now, { at, cut, put }) => {
    const from = Math.floor(at * now.length)
    return (now.slice(0, from) + put + now.slice(from + cut)).slice(0, 60_000)
  }, text)

const encodings = ['utf8', 'latin1', 'utf16le'] as const

/** Bytes of a bent file, or of no file at all. */
export const statementBytes: fc.Arbitrary<Uint8Array> = fc.oneof(
  {
    weight: 8,
    arbitrary: fc
      .tuple(seed, fc.array(bend, { maxLength: 5 }), fc.constantFrom(...encodings), fc.boolean())
      .map(([text, bends, encoding, mark]) =>
        Buffer.from(`${mark ? '\ufeff' : ''}${bent(text, bends)}`, encoding),
      ),
  },
  { weight: 1, arbitrary: fc.uint8Array({ maxLength: 400 }) },
)

/** Text as a person, a paste or malice puts it into a field. */
export const fieldText: fc.Arbitrary<string> = fc.oneof(
  fc.constantFrom(
    ...awkward,
    '<script>alert(1)</script>',
    "'; DROP TABLE entries; --",
    '../../etc/passwd',
    '-0',
    '1',
    '12.34',
    '1,234.56',
    '2026-02-30',
    '2026-11-25',
    '2026-13',
    '2026-11',
    'yes',
    'farm',
    'household',
    '1e999',
    '9'.repeat(400),
    'constructor',
    '__proto__',
    '00000000-0000-4000-8000-000000000000',
  ),
  fc.integer({ min: -5, max: 200 }).map(String),
  anyText(30),
)
