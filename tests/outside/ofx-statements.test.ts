// Statement downloads as the standard lays them out. Source of the structure: the OFX specifications 1.6 (SGML) and 2.2 (XML),
// sections 2 (headers, sign-on), 11 (bank and card statements) and 13 (investment statements); order and names of the elements are
// from memory of them, not copied, and every bank, number and amount is invented.
import { expect, test } from 'vitest'
import { readOfx } from '#ledger/statements/reading/ofx.ts'

const read = (text: string) => {
  const all = readOfx(text)
  if (!all.ok) throw new Error(`${all.fileLine} ${all.message}`)
  return all.statements
}

const sgmlHeader = `OFXHEADER:100
DATA:OFXSGML
VERSION:160
SECURITY:NONE
ENCODING:USASCII
CHARSET:1252
COMPRESSION:NONE
OLDFILEUID:NONE
NEWFILEUID:NONE

`
const signOn = `<SIGNONMSGSRSV1><SONRS>
<STATUS><CODE>0<SEVERITY>INFO</STATUS>
<DTSERVER>20250203101003.000[-5:EST]<LANGUAGE>ENG
<DTPROFUP>20240101000000<DTACCTUP>20240101000000
<FI><ORG>INVENTED<FID>1001</FI>
</SONRS></SIGNONMSGSRSV1>
`

test('a bank statement of 1.6: end tags of values left out, check and cash machine, ledger and available balance', () => {
  const [statement, ...others] = read(`${sgmlHeader}<OFX>
${signOn}<BANKMSGSRSV1><STMTTRNRS>
<TRNUID>1001
<STATUS><CODE>0<SEVERITY>INFO</STATUS>
<STMTRS><CURDEF>USD
<BANKACCTFROM><BANKID>000000017<ACCTID>990017<ACCTTYPE>CHECKING</BANKACCTFROM>
<BANKTRANLIST><DTSTART>20250101<DTEND>20250131
<STMTTRN><TRNTYPE>CHECK<DTPOSTED>20250104<TRNAMT>-200.00<FITID>00002<CHECKNUM>1000</STMTTRN>
<STMTTRN><TRNTYPE>ATM<DTPOSTED>20250120<DTUSER>20250119<TRNAMT>-300.00<FITID>00003<NAME>CASH MACHINE<MEMO>Mill Street</STMTTRN>
<STMTTRN><TRNTYPE>XFER<DTPOSTED>20250122<TRNAMT>45.5<FITID>00004
<BANKACCTTO><BANKID>000000017<ACCTID>990025<ACCTTYPE>SAVINGS</BANKACCTTO></STMTTRN>
</BANKTRANLIST>
<LEDGERBAL><BALAMT>200.29<DTASOF>202501311120</LEDGERBAL>
<AVAILBAL><BALAMT>180.29<DTASOF>202501311120</AVAILBAL>
</STMTRS></STMTTRNRS></BANKMSGSRSV1>
</OFX>
`)
  expect(others).toEqual([])
  expect(statement).toMatchObject({
    bankAccount: '990017',
    kind: 'bank',
    currency: 'USD',
    closing: { balance: 20_029, asOf: '2025-01-31' },
  })
  expect(statement!.lines.map((line) => [line.day, line.amount, line.bankNumber, line.checkNumber])).toEqual([
    ['2025-01-04', -20_000, '00002', '1000'],
    ['2025-01-20', -30_000, '00003', ''],
    ['2025-01-22', 4550, '00004', ''],
  ])
  expect(statement!.lines[1]).toMatchObject({ payee: 'CASH MACHINE', memo: 'Mill Street' })
})

const xmlHeader = `<?xml version="1.0" encoding="UTF-8" standalone="no"?>
<?OFX OFXHEADER="200" VERSION="220" SECURITY="NONE" OLDFILEUID="NONE" NEWFILEUID="NONE"?>
`

test('a card statement of 2.2: purchases negative, a payee in parts, the balance owed', () => {
  const [statement] = read(`${xmlHeader}<OFX>
<CREDITCARDMSGSRSV1><CCSTMTTRNRS><TRNUID>1002</TRNUID>
<STATUS><CODE>0</CODE><SEVERITY>INFO</SEVERITY></STATUS>
<CCSTMTRS><CURDEF>USD</CURDEF>
<CCACCTFROM><ACCTID>5000000000000017</ACCTID></CCACCTFROM>
<BANKTRANLIST><DTSTART>20250101</DTSTART><DTEND>20250131</DTEND>
<STMTTRN><TRNTYPE>DEBIT</TRNTYPE><DTPOSTED>20250107120000.000[-5:EST]</DTPOSTED><TRNAMT>-61.25</TRNAMT><FITID>c1</FITID><SIC>5999</SIC>
<PAYEE><NAME>Seed &amp; Twine</NAME><ADDR1>1 Invented Road</ADDR1><CITY>Nowhere</CITY><STATE>OH</STATE><POSTALCODE>00000</POSTALCODE><PHONE>0</PHONE></PAYEE></STMTTRN>
<STMTTRN><TRNTYPE>CREDIT</TRNTYPE><DTPOSTED>20250115</DTPOSTED><TRNAMT>+100.00</TRNAMT><FITID>c2</FITID><NAME>PAYMENT</NAME></STMTTRN>
</BANKTRANLIST>
<LEDGERBAL><BALAMT>-161.25</BALAMT><DTASOF>20250131</DTASOF></LEDGERBAL>
</CCSTMTRS></CCSTMTTRNRS></CREDITCARDMSGSRSV1>
</OFX>
`)
  expect(statement).toMatchObject({
    bankAccount: '5000000000000017',
    kind: 'card',
    closing: { balance: -16_125, asOf: '2025-01-31' },
  })
  expect(statement!.lines.map(({ day, amount, payee }) => [day, amount, payee])).toEqual([
    ['2025-01-07', -6125, 'Seed & Twine'],
    ['2025-01-15', 10_000, 'PAYMENT'],
  ])
})

test('an investment statement of 2.2: its cash movements are read, a purchase of shares is named and left out', () => {
  const [statement] = read(`${xmlHeader}<OFX>
<INVSTMTMSGSRSV1><INVSTMTTRNRS><TRNUID>1003</TRNUID>
<STATUS><CODE>0</CODE><SEVERITY>INFO</SEVERITY></STATUS>
<INVSTMTRS><DTASOF>20250131</DTASOF><CURDEF>USD</CURDEF>
<INVACCTFROM><BROKERID>invented.example</BROKERID><ACCTID>770017</ACCTID></INVACCTFROM>
<INVTRANLIST><DTSTART>20250101</DTSTART><DTEND>20250131</DTEND>
<BUYSTOCK><INVBUY><INVTRAN><FITID>i1</FITID><DTTRADE>20250108</DTTRADE></INVTRAN>
<SECID><UNIQUEID>000000000</UNIQUEID><UNIQUEIDTYPE>CUSIP</UNIQUEIDTYPE></SECID>
<UNITS>10</UNITS><UNITPRICE>20.00</UNITPRICE><TOTAL>-200.00</TOTAL><SUBACCTSEC>CASH</SUBACCTSEC><SUBACCTFUND>CASH</SUBACCTFUND></INVBUY><BUYTYPE>BUY</BUYTYPE></BUYSTOCK>
<INVBANKTRAN><STMTTRN><TRNTYPE>CREDIT</TRNTYPE><DTPOSTED>20250116</DTPOSTED><TRNAMT>1000.00</TRNAMT><FITID>i2</FITID><NAME>DEPOSIT</NAME></STMTTRN><SUBACCTFUND>CASH</SUBACCTFUND></INVBANKTRAN>
</INVTRANLIST>
</INVSTMTRS></INVSTMTTRNRS></INVSTMTMSGSRSV1>
</OFX>
`)
  expect(statement).toMatchObject({ bankAccount: '770017', kind: 'investment' })
  expect(statement!.lines.map(({ day, amount, payee }) => [day, amount, payee])).toEqual([
    ['2025-01-16', 100_000, 'DEPOSIT'],
  ])
  expect(statement!.remarks).toHaveLength(1)
})
