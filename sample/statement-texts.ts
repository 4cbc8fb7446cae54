// Writes movements as banks do: OFX 1 without end tags for the farm, OFX 2 for savings, a CSV with two money columns for the household.
import { type Day, firstDayOf, lastDayOf } from '#calendar/day.ts'
import { addMonths, type Month, monthText } from '#calendar/month.ts'
import { makeMovements } from './movements.ts'
import { type BankAccountName, firstMonth, type Movement, openingCents, sampleMonths } from './sample-bank.ts'

export interface StatementText {
  account: BankAccountName
  fileName: string
  text: string
}

const monthsPerFile = 6

/** Each account's files, oldest first. Each begins a week before its half-year, as people download them: overlapping. */
export const makeStatements = (): StatementText[] => {
  const numbered = withNumbersAndBalances(makeMovements())
  const starts = sampleMonths.filter((each) => (each - firstMonth) % monthsPerFile === 0)
  return (['farm', 'household', 'savings'] as const).flatMap((account) =>
    starts.map((start) => statementText(account, start, numbered)),
  )
}

interface NumberedMovement extends Movement {
  number: string
  balance: number
}

const withNumbersAndBalances = (movements: readonly Movement[]): NumberedMovement[] => {
  const balances = { ...openingCents }
  const perDay = new Map<string, number>()
  return movements.map((each) => {
    balances[each.account] += each.cents
    const key = `${each.account}${each.day}`
    const onDay = (perDay.get(key) ?? 0) + 1
    perDay.set(key, onDay)
    const number = `${each.day.replaceAll('-', '')}${String(onDay).padStart(3, '0')}`
    return { ...each, number, balance: balances[each.account] }
  })
}

const statementText = (
  account: BankAccountName,
  start: Month,
  movements: readonly NumberedMovement[],
): StatementText => {
  const end = addMonths(start, monthsPerFile - 1)
  const from = `${monthText(addMonths(start, -1))}-24` as Day
  const to = lastDayOf(end)
  const own = movements.filter((each) => each.account === account && each.day >= from && each.day <= to)
  const span = { from: start === firstMonth ? firstDayOf(start) : from, to }
  const write = { farm: ofx1, household: csv, savings: ofx2 }[account]
  const ending = account === 'household' ? 'csv' : 'ofx'
  return {
    account,
    fileName: `${account}-${monthText(start)}-to-${monthText(end)}.${ending}`,
    text: write(own, span),
  }
}

interface Span {
  from: Day
  to: Day
}

const ofx1 = (movements: readonly NumberedMovement[], span: Span): string => `OFXHEADER:100
DATA:OFXSGML
VERSION:102
SECURITY:NONE
ENCODING:USASCII
CHARSET:1252
COMPRESSION:NONE
OLDFILEUID:NONE
NEWFILEUID:NONE

<OFX>
<SIGNONMSGSRSV1><SONRS><STATUS><CODE>0<SEVERITY>INFO</STATUS><DTSERVER>${packed(span.to)}120000[-5:EST]<LANGUAGE>ENG</SONRS></SIGNONMSGSRSV1>
<BANKMSGSRSV1><STMTTRNRS><TRNUID>0<STATUS><CODE>0<SEVERITY>INFO</STATUS>
<STMTRS><CURDEF>USD
<BANKACCTFROM><BANKID>000000000<ACCTID>00-2207<ACCTTYPE>CHECKING</BANKACCTFROM>
<BANKTRANLIST><DTSTART>${packed(span.from)}<DTEND>${packed(span.to)}
${movements
  .map(
    (each) => `<STMTTRN>
<TRNTYPE>${each.check ? 'CHECK' : each.cents < 0 ? 'DEBIT' : 'CREDIT'}
<DTPOSTED>${packed(each.day)}120000[-5:EST]
<TRNAMT>${dollars(each.cents)}
<FITID>F${each.number}
${each.check ? `<CHECKNUM>${each.check}\n` : ''}<NAME>${escaped(each.payee).slice(0, 32)}
${each.memo ? `<MEMO>${escaped(each.memo)}\n` : ''}</STMTTRN>`,
  )
  .join('\n')}
</BANKTRANLIST>
<LEDGERBAL><BALAMT>${dollars(movements.at(-1)?.balance ?? 0)}<DTASOF>${packed(span.to)}120000[-5:EST]</LEDGERBAL>
</STMTRS></STMTTRNRS></BANKMSGSRSV1></OFX>
`

const ofx2 = (
  movements: readonly NumberedMovement[],
  span: Span,
): string => `<?xml version="1.0" encoding="UTF-8" standalone="no"?>
<?OFX OFXHEADER="200" VERSION="211" SECURITY="NONE" OLDFILEUID="NONE" NEWFILEUID="NONE"?>
<OFX><SIGNONMSGSRSV1><SONRS><STATUS><CODE>0</CODE><SEVERITY>INFO</SEVERITY></STATUS><DTSERVER>${packed(span.to)}</DTSERVER><LANGUAGE>ENG</LANGUAGE></SONRS></SIGNONMSGSRSV1>
<BANKMSGSRSV1><STMTTRNRS><TRNUID>0</TRNUID><STATUS><CODE>0</CODE><SEVERITY>INFO</SEVERITY></STATUS><STMTRS><CURDEF>USD</CURDEF>
<BANKACCTFROM><BANKID>000000000</BANKID><ACCTID>00-4419</ACCTID><ACCTTYPE>SAVINGS</ACCTTYPE></BANKACCTFROM>
<BANKTRANLIST><DTSTART>${packed(span.from)}</DTSTART><DTEND>${packed(span.to)}</DTEND>
${movements
  .map(
    (each) =>
      `<STMTTRN><TRNTYPE>${each.payee === 'INTEREST PAID' ? 'INT' : 'XFER'}</TRNTYPE><DTPOSTED>${packed(each.day)}</DTPOSTED><TRNAMT>${dollars(each.cents)}</TRNAMT><FITID>S${each.number}</FITID><NAME>${escaped(each.payee)}</NAME><MEMO>${escaped(each.memo)}</MEMO></STMTTRN>`,
  )
  .join('\n')}
</BANKTRANLIST><LEDGERBAL><BALAMT>${dollars(movements.at(-1)?.balance ?? 0)}</BALAMT><DTASOF>${packed(span.to)}</DTASOF></LEDGERBAL></STMTRS></STMTTRNRS></BANKMSGSRSV1></OFX>
`

/** Newest first, as many banks write, with a line of the bank's own on top. */
const csv = (movements: readonly NumberedMovement[], span: Span): string =>
  [
    `Account ending 1180,${slashed(span.from)} to ${slashed(span.to)}`,
    'Posted Date,Description,Note,Withdrawals,Deposits,Balance',
    ...[...movements]
      .reverse()
      .map((each) =>
        [
          slashed(each.day),
          each.payee,
          quoted(each.memo),
          each.cents < 0 ? dollars(-each.cents) : '',
          each.cents > 0 ? dollars(each.cents) : '',
          dollars(each.balance),
        ].join(','),
      ),
    '',
  ].join('\n')

const packed = (day: Day): string => day.replaceAll('-', '')

const slashed = (day: Day): string => `${day.slice(5, 7)}/${day.slice(8)}/${day.slice(0, 4)}`

const dollars = (cents: number): string =>
  `${cents < 0 ? '-' : ''}${Math.floor(Math.abs(cents) / 100)}.${String(Math.abs(cents) % 100).padStart(2, '0')}`

const escaped = (text: string): string => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;')

const quoted = (text: string): string => (/[",]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text)
