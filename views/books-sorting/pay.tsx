// Pay before tax, from what the bank shows of it and what the pay slip takes off.
import type { Cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { Button, ButtonRow } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { type FieldErrors, FormId, Hidden, MoneyField, type Option, Select } from '../parts/field.tsx'

export interface PayFields {
  /** Accounts of pay, and what can be taken off it. */
  pay: readonly Option[]
  places: readonly Option[]
  /** As the form opens: likely accounts, with the amounts of the last like pay. */
  taken: readonly { account: string; amount: string }[]
  /** It is chosen or proposed as pay. */
  isLikely: boolean
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
      <summary>It is pay after tax</summary>
      <form method="post" action={address}>
        {sent ? <ErrorSummary errors={errors} /> : null}
        <FormId value={formId} />
        <Hidden name="how" value="pay" />
        <p class="hint">
          {formatCents(amount)} came to the bank. Enter what the pay slip takes off; pay before tax is booked
          as the two together, and tax withheld counts as paid for the year.
        </p>
        {fields.pay.length > 1 ? (
          <Select
            name="pay"
            label="Whose pay"
            options={fields.pay}
            value={value('pay', fields.pay[0]!.value)}
            error={errors.pay}
          />
        ) : (
          <Hidden name="pay" value={fields.pay[0]!.value} />
        )}
        {[...fields.taken, { account: '', amount: '' }].map((row, at) => (
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
        <ButtonRow>
          <Button>Book pay and what was withheld</Button>
        </ButtonRow>
      </form>
    </details>
  )
}
