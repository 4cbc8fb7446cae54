// Guesses what a bank's CSV columns mean from their headings and contents. A guess is only ever shown, to be confirmed.

import { saysOnlyHow } from '../payee-text.ts'
import { balanceSays, balanceSteps } from '../running-balance.ts'
import {
  type AmountColumns,
  type ColumnMapping,
  type Delimiter,
  usualWords,
  wordsListed,
} from './column-mapping.ts'
import type { CsvRow } from './csv-row.ts'
import { guessDays } from './guess-days.ts'
import {
  type DayOrder,
  type DecimalMark,
  dayOrders,
  readAmount,
  readAmountRounded,
  readDay,
} from './written-amount.ts'

export interface GuessDoubt {
  about: 'dayOrder' | 'amountColumn'
  says: string
}

export interface Guess {
  guess: ColumnMapping
  doubts: GuessDoubt[]
}

const headings = {
  day: /\b(post(ed|ing)?|transaction|booking|value|effective)?\s*date\b|^day$|^datum$/i,
  /** Surest first: “Details” may hold DEBIT and CREDIT beside a column called “Description”. */
  payee: [/payee|description|merchant|counterparty/i, /name/i, /details|particulars/i],
  memo: /memo|note|reference|remark|category|type/i,
  amount: /amount|sum\b|value$/i,
  net: /^net\b/i,
  out: /debit|withdraw|money out|paid out|outgoing|charge|^out$/i,
  into: /credit|deposit|money in|paid in|incoming|^in$/i,
  balance: /balance/i,
  bankNumber: /^(transaction\s*)?(id|number|no\.?)$|fitid|unique|reference (id|number)/i,
  check: /che(ck|que)/i,
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
  const dayColumn = titled(table, headings.day, dayColumns) ?? dayColumns[0] ?? 0
  const days = guessDays(columns[dayColumn]!)
  const others = table.all.filter((at) => !dayColumns.includes(at))
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
    },
    doubts: [
      ...(plain.length > 0 ? [] : oddDoubt(columns, money)),
      ...(days.doubt === null ? [] : [{ about: 'dayOrder' as const, says: days.doubt }]),
      ...(found.doubt === null ? [] : [{ about: 'amountColumn' as const, says: found.doubt }]),
    ],
  }
}

interface Table {
  header: readonly string[]
  columns: readonly (readonly string[])[]
  /** Numbers of all columns. */
  all: readonly number[]
}

const titled = ({ header, all }: Table, pattern: RegExp, among = all): number | undefined =>
  among.find((at) => pattern.test(header[at] ?? ''))

const titledPayee = (table: Table, among: readonly number[]): number | undefined =>
  headings.payee
    .map((pattern) =>
      titled(
        table,
        pattern,
        among.filter((at) => !table.columns[at]!.every(saysOnlyHow)),
      ),
    )
    .find((at) => at !== undefined)

const guessPayee = (table: Table, texts: readonly number[]): number | undefined => {
  const telling = texts.filter((at) => !table.columns[at]!.every(saysOnlyHow))
  return titledPayee(table, telling) ?? longest(telling, table) ?? longest(texts, table)
}

interface FoundAmount {
  amount: AmountColumns
  balanceColumn: number | null
  decimalMark: DecimalMark
  doubt: string | null
}

/** Where the money stands: by headings, by two columns that fill each other, by the balance beside it, by its looks. */
const guessAmount = (
  table: Table,
  money: readonly number[],
  days: { column: number; order: DayOrder },
): FoundAmount => {
  const titledBalance = titled(table, headings.balance, money) ?? null
  const amounts = money.filter((at) => at !== titledBalance && !isNumbering(table, at))
  const decimalMark = guessDecimalMark(amounts.flatMap((at) => table.columns[at]!))
  const pair = twoColumns(table, amounts)
  if (pair) return { amount: pair, balanceColumn: titledBalance, decimalMark, doubt: null }
  const borne = borneByBalance(table, amounts, titledBalance, days, decimalMark)
  const titledAmount = titled(table, headings.amount, amounts) ?? titled(table, headings.net, amounts)
  const candidates = amounts.filter((at) => at !== borne?.balanceColumn)
  const column = borne?.column ?? titledAmount ?? bySign(table, candidates, decimalMark) ?? money[0] ?? 1
  const others = candidates.filter((at) => at !== column && table.columns[at]!.some(hasCents))
  const isSaid = borne !== null || titledAmount !== undefined
  const amount: AmountColumns = borne
    ? { kind: 'signed', column, moneyOutIs: borne.isTurned ? 'positive' : 'negative' }
    : (markedBy(table, column, decimalMark) ?? { kind: 'signed', column, moneyOutIs: 'negative' })
  return {
    amount,
    balanceColumn: titledBalance ?? borne?.balanceColumn ?? null,
    decimalMark,
    doubt:
      isSaid || others.length === 0
        ? null
        : `More than one column could be the amount. “${titleOf(table, column)}” is taken, not ${others
            .map((at) => `“${titleOf(table, at)}”`)
            .join(' or ')}.`,
  }
}

const titleOf = ({ header }: Table, at: number): string => header[at]?.trim() || `Column ${at + 1}`

/** Long whole numbers, as accounts and references have them; money of such a size has cents somewhere. */
const isNumbering = (table: Table, at: number): boolean =>
  !headings.amount.test(table.header[at] ?? '') &&
  table.columns[at]!.every((text) => text === '' || /^\d{6,}$/.test(text))

const hasCents = (text: string): boolean => /[.,]\d{2}\D*$/.test(text) && /[1-9]/.test(text)

const twoColumns = (table: Table, amounts: readonly number[]): AmountColumns | null => {
  // A short file may hold money out only: its other column is empty, and known by its heading alone.
  const empty = table.all.filter((at) => table.columns[at]!.every((text) => text === ''))
  const named = table.header.length > 0 ? [...amounts, ...empty] : []
  const outColumn = titled(table, headings.out, named)
  const inColumn = titled(
    table,
    headings.into,
    named.filter((at) => at !== outColumn),
  )
  if (outColumn !== undefined && inColumn !== undefined) return { kind: 'two-columns', outColumn, inColumn }
  const pair = fillingEachOther(table, amounts)
  return pair && { kind: 'two-columns', outColumn: pair[0], inColumn: pair[1] }
}

/** Two columns of which every row fills one: money out and money in, most banks in this order. */
const fillingEachOther = (table: Table, amounts: readonly number[]): [number, number] | null => {
  const filled = (text: string) => text !== ''
  for (const [index, one] of amounts.entries()) {
    const first = table.columns[one]!
    for (const other of amounts.slice(index + 1)) {
      const second = table.columns[other]!
      if (!first.every(filled) && first.every((text, row) => filled(text) !== filled(second[row]!)))
        return [one, other]
    }
  }
  return null
}

/** The column whose amounts are the steps of a balance beside it: of the titled balance, else of any column that is one. */
const borneByBalance = (
  table: Table,
  amounts: readonly number[],
  titledBalance: number | null,
  days: { column: number; order: DayOrder },
  mark: DecimalMark,
): { column: number; balanceColumn: number; isTurned: boolean } | null => {
  const read = (at: number) => table.columns[at]!.map((text) => readAmount(text, mark))
  const dayTexts = table.columns[days.column]!
  const isTitled = titled(table, headings.amount, amounts) !== undefined
  // Where a step bears two columns, gross and net of no fee, the net one is what arrives.
  const net = titled(table, headings.net, amounts)
  const inTurn = net === undefined ? amounts : [net, ...amounts]
  for (const balanceColumn of titledBalance !== null ? [titledBalance] : isTitled ? [] : amounts) {
    const balances = read(balanceColumn)
    for (const column of inTurn) {
      if (column === balanceColumn) continue
      const sizes = read(column)
      const steps = sizes.flatMap((amount, row) => {
        const day = readDay(dayTexts[row] ?? '', days.order)
        return amount === null || day === null ? [] : [{ day, amount, balance: balances[row] ?? null }]
      })
      const says = balanceSays(balanceSteps(steps))
      if (says !== 'nothing') return { column, balanceColumn, isTurned: says === 'turned' }
    }
  }
  return null
}

/** A column with a minus in it, else one with cents, else the first. */
const bySign = (table: Table, among: readonly number[], mark: DecimalMark): number | undefined =>
  among.find((at) => table.columns[at]!.some((text) => (readAmount(text, mark) ?? 0) < 0)) ??
  among.find((at) => table.columns[at]!.some(hasCents)) ??
  among[0]

/** A column of words for out and in beside amounts that bear no sign themselves. */
const markedBy = (table: Table, column: number, mark: DecimalMark): AmountColumns | null => {
  if (table.columns[column]!.some((text) => (readAmount(text, mark) ?? 0) < 0)) return null
  const known = new Set([...wordsListed(usualWords.out), ...wordsListed(usualWords.into)])
  const markColumn = table.all.find((at) => {
    const texts = table.columns[at]!
    return texts.length > 0 && texts.every((text) => known.has(text.toLowerCase()))
  })
  return markColumn === undefined
    ? null
    : { kind: 'marked', column, markColumn, outWords: usualWords.out, inWords: usualWords.into }
}

const guessDecimalMark = (texts: readonly string[]): DecimalMark => {
  const fits = (mark: DecimalMark) =>
    texts.filter((text) => isAmount(text) && readAmount(text, mark) !== null).length
  return fits(',') > fits('.') ? ',' : '.'
}

export const isAmount = (text: string): boolean =>
  /\d/.test(text) && !isDayInAnyOrder(text) && readAmount(text) !== null

/** With a fraction of a cent, or with thousands set apart as elsewhere: `12.345`. */
const isOddAmount = (text: string): boolean =>
  !isDayInAnyOrder(text) && (['.', ','] as const).some((mark) => readAmountRounded(text, mark) !== null)

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

export const isDayInAnyOrder = (text: string): boolean =>
  /\d/.test(text) &&
  !/^[-+]?[\d]{1,3}(,\d{3})*[.,]\d+$/.test(text) &&
  dayOrders.some((order) => readDay(text, order) !== null)

/** Half of the filled cells, and at least one. */
const mostly = (texts: readonly string[], test: (text: string) => boolean): boolean => {
  const filled = texts.filter((text) => text !== '')
  return filled.length > 0 && filled.filter(test).length * 2 > filled.length
}

const longest = (among: readonly number[], { columns }: Table): number | undefined => {
  const length = (at: number) => columns[at]!.join('').length
  return [...among].sort((one, other) => length(other) - length(one) || one - other)[0]
}
