// What a column of a bank's CSV means: remembered per account and header, so that its next file needs no questions; where the header stands is found in each file.
import { z } from 'zod'

export const delimiters = [',', ';', '\t', '|'] as const
export type Delimiter = (typeof delimiters)[number]

const column = (what: string) =>
  z
    .int({ error: `Choose ${what}` })
    .min(0)
    .max(499)
const perhapsColumn = z.int().min(0).max(499).nullable().default(null)

const directionWords = (what: string) =>
  z
    .string()
    .trim()
    .max(200)
    .refine((text) => wordsListed(text).length > 0, { error: `Enter the words for ${what}, like DR` })

/**
 * `signed`: one column; `moneyOutIs` says which sign takes money out of the account.
 * `two-columns`: money out and money in apart, each without regard to its sign.
 * `marked`: one column, and a word in another says out or in, like DR and CR; words of one direction with commas between.
 */
const amountColumnsSchema = z.discriminatedUnion(
  'kind',
  [
    z.object({
      kind: z.literal('signed'),
      column: column('the column with the amount'),
      moneyOutIs: z.enum(['negative', 'positive'], {
        error: 'Say whether money out is written as minus or plus',
      }),
    }),
    z.object({
      kind: z.literal('two-columns'),
      outColumn: column('the column with money out'),
      inColumn: column('the column with money in'),
    }),
    z.object({
      kind: z.literal('marked'),
      column: column('the column with the amount'),
      markColumn: column('the column with the word for out or in'),
      outWords: directionWords('money out'),
      inWords: directionWords('money in'),
    }),
  ],
  { error: 'Choose the column with the amount, or those with money out and money in' },
)

/** Columns count from 0; `null` where the file has no such column. */
export const columnMappingSchema = z
  .object({
    delimiter: z.enum(delimiters, { error: 'Choose what separates the columns' }),
    dayColumn: column('the column with the date'),
    dayOrder: z.enum(['year-month-day', 'month-day-year', 'day-month-year'], {
      error: 'Choose the order of day, month and year',
    }),
    amount: amountColumnsSchema,
    decimalMark: z.enum(['.', ','], { error: 'Choose the decimal mark' }),
    payeeColumn: column('the column with the payee or description'),
    memoColumn: perhapsColumn,
    bankNumberColumn: perhapsColumn,
    checkNumberColumn: perhapsColumn,
    balanceColumn: perhapsColumn,
    /** Names the account of each row, where one file holds several. */
    accountColumn: perhapsColumn,
  })
  .refine(({ amount }) => amount.kind !== 'two-columns' || amount.outColumn !== amount.inColumn, {
    path: ['amount', 'inColumn'],
    error: 'Money in and money out cannot be the same column',
  })
  .refine(
    ({ amount }) =>
      amount.kind !== 'marked' ||
      !wordsListed(amount.outWords).some((word) => wordsListed(amount.inWords).includes(word)),
    { path: ['amount', 'inWords'], error: 'A word cannot say both out and in' },
  )

export type ColumnMapping = z.infer<typeof columnMappingSchema>
export type AmountColumns = ColumnMapping['amount']

/** What banks write most for the two directions (common practice). */
export const usualWords = { out: 'debit, dr, withdrawal, out', into: 'credit, cr, deposit, in' }

/** Rarer ones, of which a file uses one pair (common practice): a letter, a sign, Dutch and German words. */
export const otherWords = [
  { out: 'd', into: 'c' },
  { out: '-', into: '+' },
  { out: 'af', into: 'bij' },
  { out: 's, soll', into: 'h, haben' },
]

/** `DR, Debit` → `dr`, `debit`. */
export const wordsListed = (text: string): string[] =>
  text
    .split(',')
    .map((word) => word.trim().toLowerCase())
    .filter((word) => word !== '')

/** The text by which the same bank's next file is known again: its header cells, lower case. */
export const headerSignature = (header: readonly string[]): string =>
  header.map((cell) => cell.trim().toLowerCase().replace(/\s+/g, ' ')).join('|')

/** Columns with something in them that a mapping does not read, from 0. */
export const unreadColumns = (
  mapping: ColumnMapping,
  rows: readonly { cells: readonly string[] }[],
): number[] => {
  const { amount } = mapping
  const read = [
    mapping.dayColumn,
    mapping.payeeColumn,
    mapping.memoColumn,
    mapping.bankNumberColumn,
    mapping.checkNumberColumn,
    mapping.balanceColumn,
    mapping.accountColumn,
    ...(amount.kind === 'two-columns' ? [amount.outColumn, amount.inColumn] : [amount.column]),
    ...(amount.kind === 'marked' ? [amount.markColumn] : []),
  ]
  const filled = new Set(
    rows.flatMap(({ cells }) => cells.flatMap((cell, at) => (cell.trim() === '' ? [] : [at]))),
  )
  return [...filled].filter((at) => !read.includes(at)).sort((one, other) => one - other)
}
