// Reads OFX 1 (SGML) and 2 (XML) bank and card statements. A broken movement refuses the whole file, with its line and why.

import { type BrokenFile, brokenFile, type ReadStatements, type Statement } from '../statement.ts'
import { type OfxElement, visitElements } from './ofx-elements.ts'
import { movementLine, type OpenMovement, readOfxDay, shown } from './ofx-movement.ts'
import { onePerAccount, withoutCorrected } from './whole-statements.ts'
import { readAmount } from './written-amount.ts'

/** True when the text looks like OFX of any version, however its header is written. */
export const looksLikeOfx = (text: string): boolean =>
  /^\s*OFXHEADER\s*:/i.test(text.slice(0, 500)) || /<\?OFX\b|<(\w+:)?OFX\b/i.test(text.slice(0, 4000))

/**
 * Statements in file order. Source of the elements read: the OFX 1.6 and 2.2 specifications, section 11 (banking; from memory).
 * The day of a movement is the one written, whatever the time zone after it: it is the bank's own day (common practice).
 */
export const readOfx = (text: string): ReadStatements => {
  const reader = new StatementReader()
  visitElements(text, (element) => reader.take(element))
  return reader.finish()
}

const movementFields = new Set([
  'DTPOSTED',
  'DTUSER',
  'TRNAMT',
  'FITID',
  'CORRECTFITID',
  'CORRECTACTION',
  'CHECKNUM',
  'NAME',
  'MEMO',
])
/** Aggregates inside a movement whose NAME or ACCTID is not the movement's own. */
const foreignParts = new Set(['BANKACCTTO', 'CCACCTTO', 'CURRENCY', 'ORIGCURRENCY', 'IMAGEDATA'])
const statementKinds = new Map<string, Statement['kind']>([
  ['STMTRS', 'bank'],
  ['CCSTMTRS', 'card'],
  ['INVSTMTRS', 'investment'],
])
const lists = new Set(['BANKTRANLIST', 'INVTRANLIST'])
/** Trades and income of an investment account (section 13): securities change hands, no line of a bank. */
const trade =
  /^(BUY|SELL)(DEBT|MF|OPT|OTHER|STOCK)$|^(CLOSUREOPT|INCOME|INVEXPENSE|JRNLFUND|JRNLSEC|MARGININTEREST|REINVEST|RETOFCAP|SPLIT|TRANSFER)$/

class StatementReader {
  #statements: Statement[] = []
  #current: Statement | null = null
  #movement: OpenMovement | null = null
  #broken: BrokenFile | null = null
  #listOpenSince = 0
  #foreign = ''
  #balance: 'LEDGERBAL' | 'AVAILBAL' | null = null
  #balanceText = ''
  #sawOfx = false
  #status: Map<string, string> | null = null
  #bankError: string | null = null

  take({ name, value, fileLine }: OfxElement): boolean {
    if (this.#foreign !== '') {
      if (name === `/${this.#foreign}`) this.#foreign = ''
      else if (name === 'STMTTRN' || name === '/STMTTRN' || listEnds.has(name)) this.#foreign = ''
      else return true
    }
    if (this.#movement && this.#takeMovementPart(name, value)) return this.#broken === null
    if (name === 'OFX') this.#sawOfx = true
    else if (statementKinds.has(name)) this.#openStatement(name)
    else if (lists.has(name)) this.#listOpenSince = fileLine
    else if (name === 'STATUS') this.#status = new Map()
    else if (this.#status) this.#takeStatusPart(this.#status, name, value)
    else if (name === 'STMTTRN') this.#openMovement(fileLine)
    else this.#takeStatementPart(name, value, fileLine)
    return this.#broken === null
  }

  finish(): ReadStatements {
    if (this.#broken) return this.#broken
    if (this.#listOpenSince > 0) {
      return brokenFile(
        this.#listOpenSince,
        'The list of transactions that starts here never ends, so the file was cut short. Download it again',
      )
    }
    this.#closeMovement()
    if (this.#broken) return this.#broken
    if (!this.#sawOfx) return brokenFile(1, 'This is not an OFX file: it has no <OFX> element')
    if (this.#statements.length === 0) {
      return brokenFile(
        0,
        this.#bankError ??
          'The file holds no bank or card statement. Ask the bank for the account’s transactions as OFX',
      )
    }
    const statements = onePerAccount(this.#statements).map(withoutCorrected)
    if (statements.every(({ kind, lines }) => kind === 'investment' && lines.length === 0))
      return brokenFile(
        0,
        'This is the statement of an investment account. It holds trades but no cash transaction, so there is nothing to read in',
      )
    return { ok: true, statements }
  }

  #openStatement(name: string): void {
    this.#closeMovement()
    this.#current = {
      bankAccount: '',
      kind: statementKinds.get(name) ?? 'bank',
      currency: '',
      closing: null,
      lines: [],
      remarks: [],
    }
    this.#statements.push(this.#current)
  }

  #openMovement(fileLine: number): void {
    if (!this.#current) this.#openStatement('STMTRS')
    this.#movement = { fileLine, fields: new Map() }
  }

  /** True when the element belonged to the movement. */
  #takeMovementPart(name: string, value: string): boolean {
    const movement = this.#movement!
    if (foreignParts.has(name)) {
      this.#foreign = name
      return true
    }
    if (movementFields.has(name)) {
      // An element written twice (NAME, then again inside PAYEE): the first with text stands.
      if (value !== '' && !movement.fields.get(name)) movement.fields.set(name, value)
      else if (!movement.fields.has(name)) movement.fields.set(name, value)
      return true
    }
    if (name === '/STMTTRN') {
      this.#closeMovement()
      return true
    }
    // End tags are often left out: whatever belongs to the list or the statement ends the movement.
    const ends = name === 'STMTTRN' || endsMovement.has(name) || statementKinds.has(name) || trade.test(name)
    if (ends) this.#closeMovement()
    return !ends
  }

  #takeStatementPart(name: string, value: string, fileLine: number): void {
    if (listEnds.has(name)) this.#listOpenSince = 0
    const statement = this.#current
    if (!statement) return
    if (statement.kind === 'investment' && trade.test(name))
      statement.remarks.push({
        fileLine,
        message: `A trade or income of the investment account (${name}), no cash transaction of a bank. Left out`,
      })
    else if (name === 'CURDEF') statement.currency = value.toUpperCase()
    else if (name === 'ACCTID' && statement.bankAccount === '') statement.bankAccount = value
    else if (name === 'LEDGERBAL' || name === 'AVAILBAL') this.#balance = name
    else if (name === '/LEDGERBAL' || name === '/AVAILBAL') this.#balance = null
    else if (this.#balance === 'LEDGERBAL' && name === 'BALAMT') this.#balanceText = value
    else if (this.#balance === 'LEDGERBAL' && name === 'DTASOF')
      this.#closeBalance(statement, value, fileLine)
  }

  /** A bank that cannot answer says so in a STATUS of severity ERROR (section 3.1.5 of 1.6; from memory). */
  #takeStatusPart(status: Map<string, string>, name: string, value: string): void {
    if (['CODE', 'SEVERITY', 'MESSAGE'].includes(name)) status.set(name, value)
    else this.#status = null
    if (status.get('SEVERITY')?.toUpperCase() !== 'ERROR') return
    const said = status.get('MESSAGE')
    this.#bankError = `The bank’s file holds no statement but an error: ${said ? `“${shown(said, 200)}”` : 'without words'} (code ${status.get('CODE') ?? 'not entered'})`
  }

  #closeBalance(statement: Statement, asOfText: string, fileLine: number): void {
    const asOf = readOfxDay(asOfText)
    const balance = readAmount(this.#balanceText)
    if (asOf && balance !== null) statement.closing = { balance, asOf }
    else
      statement.remarks.push({ fileLine, message: 'The closing balance could not be read and is left out' })
  }

  #closeMovement(): void {
    const movement = this.#movement
    this.#movement = null
    if (!movement || this.#broken) return
    const read = movementLine(movement)
    if ('remark' in read) this.#current!.remarks.push({ fileLine: movement.fileLine, message: read.remark })
    else if ('refusal' in read) this.#broken = brokenFile(movement.fileLine, read.refusal)
    else {
      this.#current!.lines.push(read.line)
      if (read.rounded)
        this.#current!.remarks.push({
          fileLine: movement.fileLine,
          message: `“${shown(read.rounded)}” has a fraction of a cent. It is rounded to the cent`,
        })
    }
  }
}

const listEnds = new Set([
  '/BANKTRANLIST',
  '/INVTRANLIST',
  '/STMTRS',
  '/CCSTMTRS',
  '/INVSTMTRS',
  '/OFX',
  'LEDGERBAL',
  'AVAILBAL',
  'INVPOSLIST',
  'INVBAL',
])
const endsMovement = new Set([
  ...listEnds,
  ...lists,
  'STMTTRNRS',
  'CCSTMTTRNRS',
  'INVSTMTTRNRS',
  'INVBANKTRAN',
  '/INVBANKTRAN',
])
