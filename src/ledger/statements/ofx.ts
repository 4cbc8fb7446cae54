// Reads OFX 1 (SGML) and 2 (XML) bank and card statements. A broken movement refuses the whole file, with its line and why.
import type { Day } from '#calendar/day.ts'
import { type OfxElement, visitElements } from './ofx-elements.ts'
import {
  type BrokenFile,
  brokenFile,
  type ReadStatements,
  type Statement,
  type StatementLine,
} from './statement.ts'
import { readAmount, readDay } from './written-amount.ts'

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

interface OpenMovement {
  fileLine: number
  fields: Map<string, string>
}

const movementFields = new Set(['DTPOSTED', 'DTUSER', 'TRNAMT', 'FITID', 'CHECKNUM', 'NAME', 'MEMO'])
/** Aggregates inside a movement whose NAME or ACCTID is not the movement's own. */
const foreignParts = new Set(['BANKACCTTO', 'CCACCTTO', 'CURRENCY', 'ORIGCURRENCY', 'IMAGEDATA'])
const statementNames = new Set(['STMTRS', 'CCSTMTRS'])

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

  take({ name, value, fileLine }: OfxElement): boolean {
    if (this.#foreign !== '') {
      if (name === `/${this.#foreign}`) this.#foreign = ''
      else if (name === 'STMTTRN' || name === '/STMTTRN' || name === '/BANKTRANLIST') this.#foreign = ''
      else return true
    }
    if (this.#movement && this.#takeMovementPart(name, value)) return this.#broken === null
    if (name === 'OFX') this.#sawOfx = true
    else if (statementNames.has(name)) this.#openStatement(name)
    else if (name === 'BANKTRANLIST') this.#listOpenSince = fileLine
    else if (name === 'STMTTRN') this.#openMovement(fileLine)
    else this.#takeStatementPart(name, value, fileLine)
    return this.#broken === null
  }

  finish(): ReadStatements {
    if (this.#broken) return this.#broken
    if (this.#listOpenSince > 0) {
      return brokenFile(
        this.#listOpenSince,
        'The list of movements that starts here never ends, so the file was cut short. Download it again',
      )
    }
    this.#closeMovement()
    if (this.#broken) return this.#broken
    if (!this.#sawOfx) return brokenFile(1, 'This is not an OFX file: it has no <OFX> element')
    if (this.#statements.length === 0) {
      return brokenFile(
        0,
        'The file holds no bank or card statement. Ask the bank for the account’s transactions as OFX',
      )
    }
    return { ok: true, statements: this.#statements }
  }

  #openStatement(name: string): void {
    this.#closeMovement()
    this.#current = {
      bankAccount: '',
      kind: name === 'STMTRS' ? 'bank' : 'card',
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
    const ends = name === 'STMTTRN' || endsMovement.has(name) || statementNames.has(name)
    if (ends) this.#closeMovement()
    return !ends
  }

  #takeStatementPart(name: string, value: string, fileLine: number): void {
    if (listEnds.has(name)) this.#listOpenSince = 0
    const statement = this.#current
    if (!statement) return
    if (name === 'CURDEF') statement.currency = value.toUpperCase()
    else if (name === 'ACCTID' && statement.bankAccount === '') statement.bankAccount = value
    else if (name === 'LEDGERBAL' || name === 'AVAILBAL') this.#balance = name
    else if (name === '/LEDGERBAL' || name === '/AVAILBAL') this.#balance = null
    else if (this.#balance === 'LEDGERBAL' && name === 'BALAMT') this.#balanceText = value
    else if (this.#balance === 'LEDGERBAL' && name === 'DTASOF')
      this.#closeBalance(statement, value, fileLine)
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
    const read = lineFrom(movement)
    if ('remark' in read) this.#current!.remarks.push({ fileLine: movement.fileLine, message: read.remark })
    else if ('refusal' in read) this.#broken = brokenFile(movement.fileLine, read.refusal)
    else this.#current!.lines.push(read.line)
  }
}

const listEnds = new Set(['/BANKTRANLIST', '/STMTRS', '/CCSTMTRS', '/OFX', 'LEDGERBAL', 'AVAILBAL'])
const endsMovement = new Set([...listEnds, 'BANKTRANLIST', 'STMTTRNRS', 'CCSTMTTRNRS'])

type ReadMovement = { line: StatementLine } | { remark: string } | { refusal: string }

const lineFrom = ({ fileLine, fields }: OpenMovement): ReadMovement => {
  const dayText = fields.get('DTPOSTED') || fields.get('DTUSER') || ''
  const amountText = fields.get('TRNAMT')
  if (amountText === undefined) return { refusal: 'The movement that starts here has no amount (TRNAMT)' }
  if (amountText === '') return { remark: 'The amount is empty: a notice, not a movement. Left out' }
  const amount = readAmount(amountText)
  if (amount === null) return { refusal: `“${shown(amountText)}” is not an amount (TRNAMT)` }
  if (amount === 0) return { remark: 'No money moved (the amount is 0). Left out' }
  if (dayText === '') return { refusal: 'The movement that starts here has no date (DTPOSTED)' }
  const day = readOfxDay(dayText)
  if (!day) return { refusal: `“${shown(dayText)}” is not a date (DTPOSTED)` }
  return {
    line: {
      fileLine,
      bankNumber: fields.get('FITID') ?? '',
      day,
      amount,
      payee: squeezed(fields.get('NAME') ?? ''),
      memo: squeezed(fields.get('MEMO') ?? ''),
      checkNumber: fields.get('CHECKNUM') ?? '',
    },
  }
}

/** `20240105`, `20240105120000.000[-5:EST]`; some banks write `2024-01-05`. */
const readOfxDay = (written: string): Day | null => {
  const packed = /^(\d{8})(\d{4}(\d{2})?)?(\.\d+)?\s*(\[.*)?$/.exec(written.trim())
  return readDay(packed ? packed[1]! : written, 'year-month-day')
}

const squeezed = (text: string): string => (/\s\s|\n|\t/.test(text) ? text.replace(/\s+/g, ' ') : text)

const shown = (text: string): string => (text.length > 40 ? `${text.slice(0, 40)}…` : text)
