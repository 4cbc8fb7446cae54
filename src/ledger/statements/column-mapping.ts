// What a column of a bank's CSV means: remembered per account, so that the next file of the same shape needs no questions.
import { z } from 'zod'

export const delimiters = [',', ';', '\t', '|'] as const
export type Delimiter = (typeof delimiters)[number]

const column = (what: string) =>
  z
    .int({ error: `Choose ${what}` })
    .min(0)
    .max(499)
const perhapsColumn = z.int().min(0).max(499).nullable().default(null)

/**
 * `signed`: one column; `moneyOutIs` says which sign takes money out of the account.
 * `two-columns`: money out and money in apart, each without regard to its sign.
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
  ],
  { error: 'Choose the column with the amount, or those with money out and money in' },
)

/** Columns count from 0; `null` where the file has no such column. */
export const columnMappingSchema = z
  .object({
    delimiter: z.enum(delimiters, { error: 'Choose what separates the columns' }),
    /** Rows above the first movement: the header, and whatever the bank writes over it. */
    rowsToSkip: z
      .int({ error: 'Enter how many rows come before the first movement, like 1' })
      .min(0)
      .max(1000),
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
  })
  .refine(({ amount }) => amount.kind !== 'two-columns' || amount.outColumn !== amount.inColumn, {
    path: ['amount', 'inColumn'],
    error: 'Money in and money out cannot be the same column',
  })

export type ColumnMapping = z.infer<typeof columnMappingSchema>
export type AmountColumns = ColumnMapping['amount']

/** The text by which the same bank's next file is known again: its header cells, lower case. */
export const headerSignature = (header: readonly string[]): string =>
  header.map((cell) => cell.trim().toLowerCase().replace(/\s+/g, ' ')).join('|')
