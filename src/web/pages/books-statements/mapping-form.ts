// The mapping form: text fields to a column mapping and back. Columns are counted from 0 inside, from 1 for people.
import {
  type ColumnMapping,
  columnMappingSchema,
  usualWords,
} from '#ledger/statements/reading/column-mapping.ts'
import { type FormErrors, formWords, type TypedForm } from '#web/forms/form.ts'

export const mappingNames = [
  'delimiter',
  'dayColumn',
  'dayOrder',
  'amountKind',
  'amountColumn',
  'moneyOutIs',
  'outColumn',
  'inColumn',
  'markColumn',
  'outWords',
  'inWords',
  'decimalMark',
  'payeeColumn',
  'memoColumn',
  'bankNumberColumn',
  'checkNumberColumn',
  'balanceColumn',
  'accountColumn',
] as const
export type MappingName = (typeof mappingNames)[number]

/** What the form shows for a mapping. */
export const mappingValues = (mapping: ColumnMapping): Record<MappingName, string> => {
  const { amount } = mapping
  const column = (value: number | null) => (value === null ? '' : String(value))
  return {
    delimiter: mapping.delimiter === '\t' ? 'tab' : mapping.delimiter,
    dayColumn: column(mapping.dayColumn),
    dayOrder: mapping.dayOrder,
    amountKind: amount.kind,
    amountColumn: amount.kind === 'two-columns' ? '' : column(amount.column),
    moneyOutIs: amount.kind === 'signed' ? amount.moneyOutIs : 'negative',
    outColumn: amount.kind === 'two-columns' ? column(amount.outColumn) : '',
    inColumn: amount.kind === 'two-columns' ? column(amount.inColumn) : '',
    markColumn: amount.kind === 'marked' ? column(amount.markColumn) : '',
    outWords: amount.kind === 'marked' ? amount.outWords : usualWords.out,
    inWords: amount.kind === 'marked' ? amount.inWords : usualWords.into,
    decimalMark: mapping.decimalMark,
    payeeColumn: column(mapping.payeeColumn),
    memoColumn: column(mapping.memoColumn),
    bankNumberColumn: column(mapping.bankNumberColumn),
    checkNumberColumn: column(mapping.checkNumberColumn),
    balanceColumn: column(mapping.balanceColumn),
    accountColumn: column(mapping.accountColumn),
  }
}

export const mappingFrom = (
  typed: TypedForm,
): { ok: true; mapping: ColumnMapping } | { ok: false; errors: FormErrors } => {
  const whole = (name: MappingName) => {
    const text = typed.value(name).trim()
    return /^\d{1,4}$/.test(text) ? Number.parseInt(text, 10) : undefined
  }
  const perhaps = (name: MappingName) => whole(name) ?? null
  const parsed = columnMappingSchema.safeParse(
    {
      delimiter: typed.value('delimiter') === 'tab' ? '\t' : typed.value('delimiter'),
      dayColumn: whole('dayColumn'),
      dayOrder: typed.value('dayOrder'),
      amount: {
        kind: typed.value('amountKind'),
        column: whole('amountColumn'),
        moneyOutIs: typed.value('moneyOutIs'),
        outColumn: whole('outColumn'),
        inColumn: whole('inColumn'),
        markColumn: whole('markColumn'),
        // The usual words stand in fields that the kind chosen before did not show.
        outWords: typed.value('outWords') || usualWords.out,
        inWords: typed.value('inWords') || usualWords.into,
      },
      decimalMark: typed.value('decimalMark'),
      payeeColumn: whole('payeeColumn'),
      memoColumn: perhaps('memoColumn'),
      bankNumberColumn: perhaps('bankNumberColumn'),
      checkNumberColumn: perhaps('checkNumberColumn'),
      balanceColumn: perhaps('balanceColumn'),
      accountColumn: perhaps('accountColumn'),
    },
    { error: formWords },
  )
  if (parsed.success) return { ok: true, mapping: parsed.data }
  const errors: Record<string, string> = {}
  for (const issue of parsed.error.issues) errors[fieldOf(issue.path.map(String))] ??= issue.message
  return { ok: false, errors }
}

const fieldOf = (path: readonly string[]): string => {
  if (path[0] !== 'amount') return path[0] ?? ''
  return path[1] === undefined || path[1] === 'column' ? 'amountColumn' : path[1]
}
