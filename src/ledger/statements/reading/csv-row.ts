// One row of a bank's CSV under a column mapping: a movement, words between the movements, a total, or a movement that is broken.
import { type Cents, cents } from '#money/cents.ts'
import type { StatementLine, StatementRemark } from '../statement.ts'
import { type ColumnMapping, wordsListed } from './column-mapping.ts'
import { readAmount, readAmountRounded, readDay } from './written-amount.ts'

export interface CsvRow {
  /** Line of the file on which the row starts, from 1. */
  fileLine: number
  cells: string[]
}

export type ReadRow =
  /** `remark` when something about the movement is to be said. */
  | { kind: 'movement'; line: StatementLine; remark: StatementRemark | null }
  /** A notice that moves nothing. */
  | { kind: 'nothing'; message: string }
  /** A heading, or words between the movements. */
  | { kind: 'text' }
  /** A sum or a balance without a day of its own. */
  | { kind: 'total' }
  /** A row that looks like a movement and cannot be read as one. `isDated` when it even has the shape of a date. */
  | { kind: 'broken'; message: string; isDated: boolean }

export const readRow = ({ fileLine, cells }: CsvRow, mapping: ColumnMapping): ReadRow => {
  const cell = (column: number | null): string => (column === null ? '' : (cells[column] ?? '').trim())
  const dayText = cell(mapping.dayColumn)
  const amount = amountFrom(cell, mapping)
  if (amount !== 'empty' && isPending(cells, mapping)) return { kind: 'nothing', message: pendingSaid }
  const day = readDay(dayText, mapping.dayOrder)
  if (!day) return withoutDay(dayText, amount, cells, mapping)
  if (amount === 'empty') return { kind: 'nothing', message: 'The amount is empty. Left out' }
  if ('refusal' in amount) return { kind: 'broken', message: amount.refusal, isDated: true }
  if (amount.value === 0) return { kind: 'nothing', message: 'No money moved (the amount is 0). Left out' }
  const balanceText = cell(mapping.balanceColumn)
  const balance = readAmount(balanceText, mapping.decimalMark)
  const doubts = [
    ...(amount.isRounded
      ? [`“${shown(amount.written)}” has a fraction of a cent. It is rounded to the cent`]
      : []),
    ...(balance === null && !saysNoBalance.test(balanceText)
      ? [
          `The balance “${shown(balanceText)}” is not an amount with “${mapping.decimalMark}” as its decimal mark. The transaction is read without it`,
        ]
      : []),
  ]
  return {
    kind: 'movement',
    line: {
      fileLine,
      bankNumber: cell(mapping.bankNumberColumn),
      day,
      amount: amount.value,
      payee: cell(mapping.payeeColumn).replace(/\s+/g, ' '),
      memo: cell(mapping.memoColumn).replace(/\s+/g, ' '),
      checkNumber: cell(mapping.checkNumberColumn),
      ...(balance === null ? {} : { balance }),
    },
    remark: doubts.length === 0 ? null : { fileLine, message: doubts.join('. '), isRead: true },
  }
}

/** Nothing, or what banks write in place of nothing (common practice). */
const saysNoBalance = /^(?:[-\u2013\u2014.*]*|n\/?a|none|null)$/i

/** A cell that says nothing else, beside the texts of the movement: in place of its day, or in a column for how it stands. */
const isPending = (cells: readonly string[], { payeeColumn, memoColumn }: ColumnMapping): boolean =>
  cells.some((cell, at) => at !== payeeColumn && at !== memoColumn && pendingCell.test(cell))

const pendingCell = /^\s*(pending|not posted|unposted)\s*$/i
const pendingSaid = 'Pending: the bank has not booked it yet. Left out until a later file has it'

const withoutDay = (
  dayText: string,
  amount: ReadAmount,
  cells: readonly string[],
  mapping: ColumnMapping,
): ReadRow => {
  const hasAmount = amount !== 'empty' && ('value' in amount || /\d/.test(amount.written))
  if (!hasAmount) return { kind: 'text' }
  const isDated = dateShape.test(dayText)
  const firstFilled = cells.find((each) => each.trim() !== '') ?? ''
  const isTotal = cells.some((each) => totalWords.test(each)) || totalBegins.test(firstFilled)
  if (!isDated && isTotal) return { kind: 'total' }
  const message =
    dayText === ''
      ? `There is no date in column ${mapping.dayColumn + 1}`
      : `“${shown(dayText)}” is not a date written as ${mapping.dayOrder.replaceAll('-', ', ')}`
  return { kind: 'broken', message, isDated }
}

/** What may have been meant as a date: figures, a mark, something; eight figures; a month's name beside figures. */
const dateShape =
  /^\s*(\d{1,4}\s*[./-]\s*\w|\d{8}\b|(\d{1,2}\s+)?(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]{0,6}\.?\s+\d)/i

const totalWords = /\b(sub-?totals?|totals?|sums?|balances?)\b/i

/** As banks elsewhere begin such a row: German, French, Spanish, Portuguese, Italian, Dutch, Scandinavian (common practice). */
const totalBegins =
  /^\s*"?((anfangs|end|schluss|abschluss|ausgangs|eind|begin|slut|start)?saldo|salden|saldi|saldos|(zwischen|gesamt|end)?summe|insgesamt|gesamt(betrag)?|kontostand|soldes?|sous-total|totau?x|somme|suma|sumas|soma|somma|summa|totales|totais|totali?|totale|totaal|totalt|sum)(?![\p{L}\p{N}])/iu

type ReadAmount =
  | { value: Cents; written: string; isRounded: boolean }
  | 'empty'
  | { refusal: string; written: string }

const amountFrom = (cell: (column: number) => string, { amount, decimalMark }: ColumnMapping): ReadAmount => {
  const read = (written: string): ReadAmount => {
    if (written === '') return 'empty'
    const exact = readAmount(written, decimalMark)
    if (exact !== null) return { value: exact, written, isRounded: false }
    const rounded = readAmountRounded(written, decimalMark)
    if (rounded !== null) return { value: rounded, written, isRounded: true }
    return {
      refusal: `“${shown(written)}” is not an amount with “${decimalMark}” as its decimal mark`,
      written,
    }
  }
  if (amount.kind === 'two-columns') return fromTwo(read(cell(amount.outColumn)), read(cell(amount.inColumn)))
  const one = read(cell(amount.column))
  if (one === 'empty' || 'refusal' in one) return one
  if (amount.kind === 'marked') return withMark(one, cell(amount.markColumn), amount)
  return amount.moneyOutIs === 'positive' ? { ...one, value: cents(-one.value) } : one
}

const fromTwo = (out: ReadAmount, into: ReadAmount): ReadAmount => {
  if (out === 'empty' && into === 'empty') return 'empty'
  for (const each of [out, into]) if (each !== 'empty' && 'refusal' in each) return each
  const size = (each: ReadAmount) => (each !== 'empty' && 'value' in each ? Math.abs(each.value) : 0)
  const told = (size(out) === 0 ? into : out) as Exclude<ReadAmount, 'empty' | { refusal: string }> | 'empty'
  const { written, isRounded } =
    told === 'empty'
      ? { written: '', isRounded: false }
      : { written: told.written, isRounded: told.isRounded }
  return size(out) !== 0 && size(into) !== 0
    ? { refusal: 'The row has money both out and in: only one can be right', written }
    : { value: cents(size(into) - size(out)), written, isRounded }
}

const withMark = (
  one: Exclude<ReadAmount, 'empty' | { refusal: string }>,
  mark: string,
  words: { outWords: string; inWords: string },
): ReadAmount => {
  if (one.value === 0) return one
  const word = mark.toLowerCase()
  const isOut = wordsListed(words.outWords).includes(word)
  if (!isOut && !wordsListed(words.inWords).includes(word))
    return {
      refusal: `“${shown(mark)}” is neither among the words for money out nor among those for money in`,
      written: one.written,
    }
  if (!isOut && one.value < 0)
    return { refusal: `The amount has a minus, but “${shown(mark)}” says money in`, written: one.written }
  const size = Math.abs(one.value)
  return { ...one, value: cents(isOut ? -size : size) }
}

const shown = (text: string): string => (text.length > 40 ? `${text.slice(0, 40)}…` : text)
