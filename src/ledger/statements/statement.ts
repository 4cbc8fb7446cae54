// What any bank file becomes once read: one statement per bank account, lines in file order, or the line that is broken and why.
import type { Day } from '#calendar/day.ts'
import type { Cents } from '#money/cents.ts'

export interface StatementLine {
  /** Line of the file, from 1, for messages. */
  fileLine: number
  /** The bank's own number for the movement (FITID in OFX), `''` when the file gives none. */
  bankNumber: string
  day: Day
  /** Into the account positive, out of it negative. For a card, a purchase is negative. */
  amount: Cents
  payee: string
  memo: string
  checkNumber: string
  /** The account's balance after the movement as the file states it, where it has such a column. */
  balance?: Cents
  /** The line of the same account that the bank corrects by this one. */
  correction?: { bankNumber: string; action: 'replace' | 'delete' }
}

/** Something the reader left out or took with a grain of salt: shown in the preview, never silent. */
export interface StatementRemark {
  fileLine: number
  message: string
  /** The transaction is read all the same; otherwise the line is left out. */
  isRead?: true
}

export interface Statement {
  /** What the file calls the account, for recognizing it next time; `''` for CSV. */
  bankAccount: string
  kind: 'bank' | 'card' | 'investment'
  /** ISO 4217 as the file writes it, `''` when it does not. */
  currency: string
  /** The balance the bank states, if it does. */
  closing: { balance: Cents; asOf: Day } | null
  lines: StatementLine[]
  remarks: StatementRemark[]
}

/** `fileLine` is 0 when the trouble is with the file as a whole. */
export interface BrokenFile {
  ok: false
  fileLine: number
  message: string
}

export type ReadStatements = { ok: true; statements: Statement[] } | BrokenFile

export const brokenFile = (fileLine: number, message: string): BrokenFile => ({
  ok: false,
  fileLine,
  message,
})

/** `Line 12: …`, or the message alone when it is about the whole file. */
export const describeBroken = (broken: BrokenFile): string =>
  broken.fileLine > 0 ? `Line ${broken.fileLine}: ${broken.message}` : broken.message

/** The payee and the memo as one text, without saying the same thing twice. */
export const textOfLine = (line: Pick<StatementLine, 'payee' | 'memo'>): string => {
  if (line.memo === '' || line.payee.includes(line.memo)) return line.payee
  return line.payee === '' || line.memo.startsWith(line.payee) ? line.memo : `${line.payee} ${line.memo}`
}

/** A line that was booked nowhere on purpose, and why. */
export interface SetAsideLine {
  id: number
  account: string
  day: Day
  amount: Cents
  payee: string
  memo: string
  note: string
}
