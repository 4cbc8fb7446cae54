// Guesses what a bank's CSV columns mean from their headings and contents. A guess is only ever shown, to be confirmed.

import { saysOnlyHow } from '../payee-text.ts'
import type { ColumnMapping, Delimiter } from './column-mapping.ts'
import type { CsvRow } from './csv-row.ts'
import { guessAmount } from './guess-amount.ts'
import { guessDays } from './guess-days.ts'
import {
  firstTitled,
  isAmount,
  isDayInAnyOrder,
  isOddAmount,
  mostly,
  type Table,
  titled,
} from './titled-columns.ts'

export interface GuessDoubt {
  about: 'dayOrder' | 'amountColumn'
  says: string
}

export interface Guess {
  guess: ColumnMapping
  doubts: GuessDoubt[]
  /** The dates tell their order by themselves. */
  isDayOrderWritten: boolean
}

const headings = {
  /** Surest first: the day on which the bank booked it, as its statement has it, before the day of a purchase or of interest. */
  day: [
    /\b(post(ed|ing)?|book(ed|ing))\b|^buchung/i,
    /^(?!.*\b(value|effective)\b).*\bdate\b|^day$|^datum$|^fecha$/i,
    /\bdate\b/i,
  ],
  /** Surest first: “Details” may hold DEBIT and CREDIT beside a column called “Description”. */
  payee: [
    /payee|description|merchant|counterparty|omschrijving|verwendungszweck|libell|concepto/i,
    /name/i,
    /details|particulars/i,
  ],
  memo: /memo|note|reference|remark|category|type/i,
  bankNumber: /^(transaction\s*)?(id|number|no\.?)$|fitid|unique|reference (id|number)/i,
  check: /che(ck|que)/i,
  /** Whose row it is, its number before its name; never the account on the other side of a payment. */
  account: [
    /^(own |my |from )?(account|acct)\.?\s*(number|no\.?|nr\.?|#|id)$|^auftragskonto$|^iban auftragskonto$/i,
    /^(own |my )?(account|acct)\.?(\s*name)?$|^(eigen )?rekening$/i,
  ],
}

export const guessColumns = (
  delimiter: Delimiter,
  header: readonly string[],
  rows: readonly CsvRow[],
  columnCount: number,
): Guess => {
  const columns = Array.from({ length: columnCount }, (_, at) =>
    rows.map((row) => (row.cells[at] ?? '').trim()),
  )
  const table: Table = { header, columns, all: columns.map((_, at) => at) }
  const dayColumns = table.all.filter((at) => mostly(columns[at]!, isDayInAnyOrder))
  const dayColumn = firstTitled(table, headings.day, dayColumns) ?? dayColumns[0] ?? 0
  const days = guessDays(columns[dayColumn]!)
  const accountColumn = firstTitled(table, headings.account, table.all) ?? null
  const others = table.all.filter((at) => !dayColumns.includes(at) && at !== accountColumn)
  const plain = others.filter((at) => mostly(columns[at]!, isAmount))
  // Where no column has plain amounts, one of figures is still it: a name never is.
  const money = plain.length > 0 ? plain : others.filter((at) => mostly(columns[at]!, isOddAmount))
  const checkNumberColumn = titled(table, headings.check) ?? null
  const bankNumberColumn = titled(table, headings.bankNumber) ?? null
  const taken = [checkNumberColumn, bankNumberColumn]
  const found = guessAmount(
    table,
    money.filter((at) => !taken.includes(at)),
    { column: dayColumn, order: days.order },
  )
  const { amount } = found
  const texts = table.all.filter(
    (at) =>
      !dayColumns.includes(at) &&
      !money.includes(at) &&
      !taken.includes(at) &&
      at !== accountColumn &&
      !(amount.kind === 'marked' && amount.markColumn === at),
  )
  const payeeColumn = guessPayee(table, texts) ?? Math.min(1, columnCount - 1)
  const rest = texts.filter((at) => at !== payeeColumn)
  return {
    guess: {
      delimiter,
      dayColumn,
      dayOrder: days.order,
      amount,
      decimalMark: found.decimalMark,
      payeeColumn,
      memoColumn: titledPayee(table, rest) ?? titled(table, headings.memo, rest) ?? null,
      bankNumberColumn,
      checkNumberColumn,
      balanceColumn: found.balanceColumn,
      accountColumn,
    },
    doubts: [
      ...(plain.length > 0 ? [] : oddDoubt(columns, money)),
      ...(days.doubt === null ? [] : [{ about: 'dayOrder' as const, says: days.doubt }]),
      ...(found.doubt === null ? [] : [{ about: 'amountColumn' as const, says: found.doubt }]),
    ],
    isDayOrderWritten: days.isWritten,
  }
}

const titledPayee = (table: Table, among: readonly number[]): number | undefined =>
  firstTitled(
    table,
    headings.payee,
    among.filter((at) => !table.columns[at]!.every(saysOnlyHow)),
  )

const guessPayee = (table: Table, texts: readonly number[]): number | undefined => {
  const telling = texts.filter((at) => !table.columns[at]!.every(saysOnlyHow))
  return titledPayee(table, telling) ?? longest(telling, table) ?? longest(texts, table)
}

const oddDoubt = (columns: Table['columns'], money: readonly number[]): GuessDoubt[] => {
  const text = money.flatMap((at) => columns[at]!).find(isOddAmount)
  return text === undefined
    ? []
    : [
        {
          about: 'amountColumn',
          says: `“${text}” is an odd amount: it has a fraction of a cent, or a mark between thousands. It is taken with “.” before the cents and rounded.`,
        },
      ]
}

const longest = (among: readonly number[], { columns }: Table): number | undefined => {
  const length = (at: number) => columns[at]!.join('').length
  return [...among].sort((one, other) => length(other) - length(one) || one - other)[0]
}
