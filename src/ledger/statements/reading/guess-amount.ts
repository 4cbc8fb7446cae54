// Where the money stands in a bank's CSV: by headings, by a balance beside it, by words for out and in, by its looks.
import { anyOf } from '#money/lists.ts'
import { balanceSays, balanceSteps } from '../running-balance.ts'
import { type AmountColumns, otherWords, usualWords, wordsListed } from './column-mapping.ts'
import { isAmount, type Table, titled } from './titled-columns.ts'
import { type DayOrder, type DecimalMark, readAmount, readDay } from './written-amount.ts'

const headings = {
  amount: /amount|sum\b|value$/i,
  net: /^net\b/i,
  out: /debit|withdraw|money out|paid out|outgoing|charge|^out$/i,
  into: /credit|deposit|money in|paid in|incoming|^in$/i,
  balance: /balance|\bbal\b|saldo|solde/i,
}

export interface FoundAmount {
  amount: AmountColumns
  balanceColumn: number | null
  decimalMark: DecimalMark
  doubt: string | null
}

/** Where the money stands: by headings, by two columns that fill each other, by the balance beside it, by its looks. */
export const guessAmount = (
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
        : `More than one column could be the amount. “${titleOf(table, column)}” is taken, not ${anyOf(
            others.map((at) => `“${titleOf(table, at)}”`),
          )}.`,
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
  for (const markColumn of table.all) {
    const texts = new Set(table.columns[markColumn]!.map((text) => text.toLowerCase()))
    const words = [usualWords, ...otherWords].find(({ out, into }) =>
      isWithin(texts, [...wordsListed(out), ...wordsListed(into)]),
    )
    if (words) return { kind: 'marked', column, markColumn, outWords: words.out, inWords: words.into }
  }
  return null
}

const isWithin = (texts: ReadonlySet<string>, words: readonly string[]): boolean =>
  texts.size > 0 && [...texts].every((text) => words.includes(text))

const guessDecimalMark = (texts: readonly string[]): DecimalMark => {
  const fits = (mark: DecimalMark) =>
    texts.filter((text) => isAmount(text) && readAmount(text, mark) !== null).length
  return fits(',') > fits('.') ? ',' : '.'
}
