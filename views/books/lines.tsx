// The rows of an entry: one fieldset per line, so that each input has its label on every screen.
import type { Child } from 'hono/jsx'
import { BatchSelect } from '../farm-notebook/batch-select.tsx'
import { Field, type FieldErrors, fieldId, MoneyField, type Option, Select } from '../parts/field.tsx'

export interface TypedValues {
  value(name: string): string
}

interface LinesProps {
  typed: TypedValues
  errors: FieldErrors
  count: number
  options: readonly Option[]
  enterprises: readonly Option[]
  /** Left out where no batch is under way. */
  batches?: readonly Option[]
  legend: string
  isJournal?: boolean
  accountLabel?: string
}

export const Lines = (props: LinesProps) => (
  <fieldset class="group" id={fieldId('lines')} tabindex={-1}>
    <legend>{props.legend}</legend>
    {props.errors.lines ? <p class="field-error">{props.errors.lines}</p> : null}
    {Array.from({ length: props.count }, (_, index) => (
      <Line {...props} index={index} />
    ))}
    {props.count < mostLines ? (
      <p>
        <button type="submit" class="button quiet small" name="more" value="yes" formnovalidate>
          Add lines
        </button>
      </p>
    ) : (
      <p class="hint">This form holds {mostLines} lines. Put the rest into an entry of its own.</p>
    )}
  </fieldset>
)

/** More would make a page of some megabytes: each line offers all accounts. */
export const mostLines = 60

const Line = (props: LinesProps & { index: number }) => {
  const at = `lines.${props.index}`
  const common = (name: string, label: Child) => ({
    name: `${at}.${name}`,
    label: (
      <>
        {label}
        <span class="hidden-text">, line {props.index + 1}</span>
      </>
    ),
    value: props.typed.value(`${at}.${name}`),
    error: props.errors[`${at}.${name}`] ?? (name === 'account' ? props.errors[at] : undefined),
  })
  return (
    <div class="field-row entry-line">
      <Select
        {...common('account', props.accountLabel ?? 'Account')}
        options={props.options}
        empty="Choose"
      />
      {props.isJournal ? (
        <>
          <MoneyField {...common('debit', 'Debit')} />
          <MoneyField {...common('credit', 'Credit')} />
        </>
      ) : (
        <MoneyField {...common('amount', 'Amount')} />
      )}
      {props.enterprises.length > 0 ? (
        <Select {...common('enterprise', 'Enterprise')} options={props.enterprises} empty="None" />
      ) : null}
      <BatchSelect {...common('batch', 'Batch')} batches={props.batches ?? []} />
      <Field {...common('memo', 'Note')} />
    </div>
  )
}
