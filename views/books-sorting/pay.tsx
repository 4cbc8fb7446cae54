// What was paid net: the whole, from what the bank shows of it and what was taken off.
import type { Cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { Button, ButtonRow } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import {
  Checkbox,
  type FieldErrors,
  FormId,
  Hidden,
  MoneyField,
  type Option,
  Select,
} from '../parts/field.tsx'

export interface PayFields {
  /** What it can be before tax: pay of each, accounts of income, retirement savings; the likeliest of them, '' where whose pay it is must be said; and what can be taken off it. */
  gross: readonly Option[]
  whole: string
  places: readonly Option[]
  /** As the form opens: likely accounts, with the amounts of the last like payment, and empty ones. */
  taken: readonly { account: string; amount: string }[]
  /** It is chosen or proposed as pay or a pension, or was booked so before. */
  isLikely: boolean
  /** It comes out of investments that are taxed. */
  isFromBroker: boolean
}

interface PayFormProps {
  fields: PayFields
  amount: Cents
  address: string
  formId: string
  /** As it was sent; null for a form that opens. */
  sent: ((name: string) => string) | null
  errors: FieldErrors
}

export const PayForm = ({ fields, amount, address, formId, sent, errors }: PayFormProps) => {
  const value = (name: string, opening: string) => sent?.(name) ?? opening
  return (
    <details open={fields.isLikely || sent !== null}>
      <summary>Paid net: tax was withheld</summary>
      <form method="post" action={address}>
        {sent ? <ErrorSummary errors={errors} /> : null}
        <FormId value={formId} />
        <Hidden name="how" value="pay" />
        <p class="hint">
          {formatCents(amount)} came to the bank. Enter what was taken off before: the two together are booked
          as income, and tax withheld counts as paid for the year. A pay slip, or the statement of whoever
          pays a pension, a benefit or interest, has it.
        </p>
        <p class="hint">
          What pay gives to a plan at work (traditional savings) or to an employer’s health plan (premiums)
          goes here too: it is taken as taken off before tax, and is in no wages. What a pay slip takes after
          tax for these goes to cash at home here, and from there on in an entry of its own.
        </p>
        <Select
          name="pay"
          label="What it was before tax"
          options={fields.gross}
          {...(fields.whole === '' ? { empty: 'Choose whose pay it is' } : {})}
          value={value('pay', fields.whole)}
          error={errors.pay}
        />
        {fields.taken.map((row, at) => (
          <div class="field-row">
            <Select
              name={`taken.${at}.account`}
              label="Taken off for"
              options={fields.places}
              empty="Nothing more"
              value={value(`taken.${at}.account`, row.account)}
              error={errors[`taken.${at}.account`]}
            />
            <MoneyField
              name={`taken.${at}.amount`}
              label="Amount"
              value={value(`taken.${at}.amount`, row.amount)}
              error={errors[`taken.${at}.amount`]}
            />
          </div>
        ))}
        <Checkbox
          name="keep"
          label={`Propose this for the next ones of this payee that come to ${formatCents(amount)}`}
          value={value('keep', 'yes')}
        />
        <ButtonRow>
          <Button>Book the whole and what was withheld</Button>
        </ButtonRow>
      </form>
    </details>
  )
}
