// One movement of an OFX file (STMTTRN): from its fields as written to a line, a remark, or why it cannot be read.
import type { Day } from '#calendar/day.ts'
import type { StatementLine } from '../statement.ts'
import { readAmount, readAmountRounded, readDay } from './written-amount.ts'

export interface OpenMovement {
  fileLine: number
  fields: Map<string, string>
}

export type ReadMovement =
  | { line: StatementLine; rounded: string | null }
  | { remark: string }
  | { refusal: string }

export const movementLine = ({ fileLine, fields }: OpenMovement): ReadMovement => {
  const dayText = fields.get('DTPOSTED') || fields.get('DTUSER') || ''
  const amountText = fields.get('TRNAMT')
  if (amountText === undefined) return { refusal: 'The transaction that starts here has no amount (TRNAMT)' }
  if (amountText === '') return { remark: 'The amount is empty: a notice, not a transaction. Left out' }
  const exact = readAmount(amountText)
  const amount = exact ?? readAmountRounded(amountText, '.')
  if (amount === null) return { refusal: `“${shown(amountText)}” is not an amount (TRNAMT)` }
  if (amount === 0) return { remark: 'No money moved (the amount is 0). Left out' }
  if (dayText === '') return { refusal: 'The transaction that starts here has no date (DTPOSTED)' }
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
      ...correctionIn(fields),
    },
    rounded: exact === null ? amountText : null,
  }
}

const correctionIn = (fields: ReadonlyMap<string, string>): Pick<StatementLine, 'correction'> => {
  const bankNumber = fields.get('CORRECTFITID') ?? ''
  if (bankNumber === '') return {}
  const isDelete = fields.get('CORRECTACTION')?.toUpperCase() === 'DELETE'
  return { correction: { bankNumber, action: isDelete ? 'delete' : 'replace' } }
}

/** `20240105`, `20240105120000.000[-5:EST]`; some banks write `2024-01-05`. */
export const readOfxDay = (written: string): Day | null => {
  const packed = /^(\d{8})(\d{4}(\d{2})?)?(\.\d+)?\s*(\[.*)?$/.exec(written.trim())
  return readDay(packed ? packed[1]! : written, 'year-month-day')
}

const squeezed = (text: string): string => (/\s\s|\n|\t/.test(text) ? text.replace(/\s+/g, ' ') : text)

export const shown = (text: string, most = 40): string =>
  text.length > most ? `${text.slice(0, most)}…` : text
