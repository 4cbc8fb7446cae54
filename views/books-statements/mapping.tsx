// What the columns of a CSV mean: the first rows as they are, and a choice for each thing the books need.
import { Field, type FieldErrors, Hidden, type Option, RadioGroup, Select } from '../parts/field.tsx'
import { DataTable } from '../parts/table.tsx'

export interface MappingShown {
  /** The text of each field. */
  values: Readonly<Record<string, string>>
  /** Headings, or `Column 1` where there are none. */
  columns: readonly string[]
  rows: readonly (readonly string[])[]
  /** Known from an earlier file of this account and header. */
  isRemembered: boolean
  /** The values as they were proposed: what a person changed since is kept when another account is chosen. */
  proposed: string
  /** Headings of columns that hold something and are not read. */
  unread: readonly string[]
}

export const MappingFields = ({ shown, errors }: { shown: MappingShown; errors: FieldErrors }) => {
  const options: Option[] = shown.columns.map((name, index) => ({ value: String(index), label: name }))
  const field = (name: string) => ({ name, value: shown.values[name] ?? '', error: errors[name] })
  return (
    <details class="mapping" open={!shown.isRemembered || Object.keys(errors).length > 0}>
      <summary>{shown.isRemembered ? 'The columns are read as last time' : 'What the columns mean'}</summary>
      <FirstRows shown={shown} />
      {shown.unread.length > 0 ? <p class="hint">Not read: {shown.unread.join(', ')}.</p> : null}
      <Hidden name="proposed" value={shown.proposed} />
      <div class="field-row">
        <Select {...field('dayColumn')} label="Date" options={options} />
        <Select {...field('dayOrder')} label="Dates are written" options={dayOrders} />
        <Select {...field('payeeColumn')} label="Payee or description" options={options} />
        <Select {...field('memoColumn')} label="Note" options={options} empty="None" />
      </div>
      <RadioGroup
        {...field('amountKind')}
        label="The amounts stand"
        options={[
          { value: 'signed', label: 'in one column, with a sign' },
          { value: 'two-columns', label: 'in two columns, money out and money in' },
          { value: 'marked', label: 'in one column, with a word like DR or CR in another' },
        ]}
      />
      <AmountFields kind={shown.values.amountKind ?? ''} options={options} field={field} />
      <div class="field-row">
        <Select
          {...field('decimalMark')}
          label="Cents come after"
          options={[
            { value: '.', label: 'a point: 1,234.56' },
            { value: ',', label: 'a comma: 1.234,56' },
          ]}
        />
        <Select {...field('balanceColumn')} label="Balance" options={options} empty="None" />
        <Select {...field('bankNumberColumn')} label="The bank’s own number" options={options} empty="None" />
        <Select {...field('checkNumberColumn')} label="Check number" options={options} empty="None" />
      </div>
      <div class="field-row">
        <Select
          {...field('delimiter')}
          label="Columns are divided by"
          options={[
            { value: ',', label: 'commas' },
            { value: ';', label: 'semicolons' },
            { value: 'tab', label: 'tabs' },
            { value: '|', label: 'bars' },
          ]}
        />
        <Select
          {...field('accountColumn')}
          label="Which account a row is of"
          hint="Where one file holds several"
          options={options}
          empty="All are of one"
        />
      </div>
    </details>
  )
}

interface AmountProps {
  kind: string
  options: readonly Option[]
  field: (name: string) => { name: string; value: string; error: string | undefined }
}

const AmountFields = ({ kind, options, field }: AmountProps) => {
  if (kind === 'two-columns')
    return (
      <div class="field-row">
        <Select {...field('outColumn')} label="Money out" options={options} empty="Choose" />
        <Select {...field('inColumn')} label="Money in" options={options} empty="Choose" />
      </div>
    )
  if (kind === 'marked')
    return (
      <div class="field-row">
        <Select {...field('amountColumn')} label="Amount" options={options} empty="Choose" />
        <Select {...field('markColumn')} label="Word for out or in" options={options} empty="Choose" />
        <Field
          {...field('outWords')}
          label="Money out is called"
          hint="Commas between several"
          maxlength={200}
        />
        <Field {...field('inWords')} label="Money in is called" maxlength={200} />
      </div>
    )
  return (
    <div class="field-row">
      <Select {...field('amountColumn')} label="Amount" options={options} empty="Choose" />
      <Select
        {...field('moneyOutIs')}
        label="Payments are shown"
        options={[
          { value: 'negative', label: 'with a minus' },
          { value: 'positive', label: 'without (as some cards do)' },
        ]}
      />
    </div>
  )
}

const FirstRows = ({ shown }: { shown: MappingShown }) => (
  <DataTable<readonly string[]>
    caption="The first rows of the file, as they are"
    rows={shown.rows}
    columns={shown.columns.map((name, index) => ({ title: name, cell: (row) => row[index] ?? '' }))}
  />
)

const dayOrders = [
  { value: 'month-day-year', label: 'month, day, year' },
  { value: 'day-month-year', label: 'day, month, year' },
  { value: 'year-month-day', label: 'year, month, day' },
]
