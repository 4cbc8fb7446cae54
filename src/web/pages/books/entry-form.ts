// The forms for an entry: money out, money in, money moved, or debits and credits. What is typed becomes a draft the ledger checks.
import { z } from 'zod'
import type { SideId } from '#ledger/account.ts'
import type { DraftLine, EntryDraft } from '#ledger/entry.ts'
import { moneyIn, moneyMoved, moneyOut, type SimpleLine } from '#ledger/simple-entry.ts'
import { addCents, type Cents, cents, negateCents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import {
  bookedDay,
  choice,
  formIdField,
  money,
  moneyAboveZero,
  moneyOrZero,
  optionalText,
  rowId,
} from '#web/forms/fields.ts'
import { type Checked, checkForm, type TypedForm } from '#web/forms/form.ts'

export const entryKinds = ['out', 'in', 'moved', 'journal'] as const
export type EntryKind = (typeof entryKinds)[number]

const head = {
  formId: formIdField(),
  kind: choice(entryKinds, 'Choose what kind of entry this is'),
  day: bookedDay(),
  payee: optionalText(),
  memo: optionalText(500),
}

const chooseAccount = 'Choose an account from the list'

const simpleLine = z.object({
  account: rowId(chooseAccount),
  amount: money(),
  memo: optionalText(500),
  enterprise: optionalText(80),
  batch: optionalText(80),
})

/** The lines of money out or in, or of a receipt. One may be below zero, as a discount on the others; all together may not. */
export const simpleLines = () =>
  z
    .array(simpleLine)
    .min(1, { error: 'Enter at least one line' })
    .check(({ value, issues }) => {
      const total = addCents(...value.map((line) => line.amount))
      if (total >= 0) return
      issues.push({
        code: 'custom',
        path: [value.findIndex((line) => line.amount < 0), 'amount'],
        message: `This comes to ${formatCents(total)}. Money that came back, like a refund, is recorded as Money in with a plain amount, and money given back as Money out`,
        input: '',
      })
    })

const simpleForm = z.object({
  ...head,
  moneyAccount: rowId('Choose the account the money is in'),
  lines: simpleLines(),
})

const movedForm = z.object({
  ...head,
  fromAccount: rowId(chooseAccount),
  toAccount: rowId(chooseAccount),
  amount: moneyAboveZero(),
})

const journalLine = z
  .object({
    account: rowId(chooseAccount),
    debit: moneyOrZero(),
    credit: moneyOrZero(),
    memo: optionalText(500),
    enterprise: optionalText(80),
    batch: optionalText(80),
  })
  .refine((line) => (line.debit === 0) !== (line.credit === 0), {
    error: 'Enter a debit or a credit, not both and not neither',
    path: ['debit'],
  })

const journalForm = z.object({
  ...head,
  lines: z.array(journalLine).min(2, { error: 'Enter at least two lines' }),
})

/** Reads the typed entry for one side. Blank rows at the end are left out before checking. */
export function entryFromForm(typed: TypedForm, sideId: SideId): Checked<EntryDraft> {
  const filled = withoutBlankLines(typed)
  switch (typed.value('kind')) {
    case 'moved': {
      const checked = checkForm(movedForm, filled)
      if (!checked.ok) return checked
      const { fromAccount, toAccount, amount } = checked.value
      if (fromAccount === toAccount) return { ok: false, errors: { toAccount: 'Choose another account' } }
      return { ok: true, value: moneyMoved(headOf(checked.value, sideId), fromAccount, toAccount, amount) }
    }
    case 'journal': {
      const checked = checkForm(journalForm, filled)
      if (!checked.ok) return checked
      const lines = checked.value.lines.map(journalDraftLine)
      return { ok: true, value: { ...headOf(checked.value, sideId), source: 'form', lines } }
    }
    default: {
      const checked = checkForm(simpleForm, filled)
      if (!checked.ok) return checked
      const make = checked.value.kind === 'in' ? moneyIn : moneyOut
      const lines = checked.value.lines.map(simpleDraftLine)
      return { ok: true, value: make(headOf(checked.value, sideId), checked.value.moneyAccount, lines) }
    }
  }
}

export const simpleDraftLine = (line: z.output<typeof simpleLine>): SimpleLine => ({
  accountId: line.account,
  amountCents: line.amount,
  memo: line.memo,
  enterpriseId: line.enterprise || null,
  batchId: line.batch || null,
})

/** Drops rows in which nothing was typed, from the end, so that spare rows do not count as mistakes. */
export function withoutBlankLines(typed: TypedForm, names: readonly string[] = lineInputs): TypedForm {
  const rows = typed.nested.lines
  if (!Array.isArray(rows)) return { ...typed, nested: { ...typed.nested, lines: [] } }
  const isBlank = (row: unknown) => {
    const texts = (row ?? {}) as Record<string, unknown>
    return names.every((name) => String(texts[name] ?? '').trim() === '')
  }
  const lines = [...(rows as unknown[])]
  while (lines.length > 0 && isBlank(lines.at(-1))) lines.pop()
  return { ...typed, nested: { ...typed.nested, lines } }
}

const lineInputs = ['amount', 'debit', 'credit', 'account', 'memo'] as const

const headOf = (
  value: { formId: string; day: EntryDraft['day']; payee: string; memo: string },
  sideId: SideId,
) => ({ id: value.formId, sideId, day: value.day, payee: value.payee, memo: value.memo })

const journalDraftLine = (line: z.output<typeof journalLine>): DraftLine => ({
  accountId: line.account,
  amountCents: addCents(line.debit, negateCents(line.credit)),
  memo: line.memo,
  enterpriseId: line.enterprise || null,
  batchId: line.batch || null,
})

/** The typed lines added up as far as they can be read, for the line under the form. */
export function totalsTyped(typed: TypedForm): { debit: Cents; credit: Cents } {
  const rows = Array.isArray(typed.nested.lines) ? (typed.nested.lines as Record<string, unknown>[]) : []
  const sum = (name: string) =>
    cents(
      rows.reduce((total, row) => {
        const parsed = moneyOrZero().safeParse(String(row?.[name] ?? ''))
        return total + (parsed.success ? parsed.data : 0)
      }, 0),
    )
  return { debit: cents(sum('debit') + sum('amount')), credit: sum('credit') }
}

/** What a correction left without an entry of its own. */
export const freedSays = (lines: number): string =>
  lines > 0
    ? ` The bank’s ${lines === 1 ? 'line' : `${lines} lines`} it was booked from ${lines === 1 ? 'is' : 'are'} of another amount or account and ${lines === 1 ? 'is' : 'are'} doubtful now: decide under Books, Sort transactions, so that nothing counts twice.`
    : ''
