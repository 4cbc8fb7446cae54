// Putting right what was mistyped of a statement under way: its last day, its balance, its note. The ticks stay.
import { centsToDecimalText } from '#money/format.ts'
import type { ReconcileFigures } from '#today/reconcile/figures.ts'
import { Button } from '../parts/button.tsx'
import { DayField, Field, type FieldErrors, FormId, Hidden, MoneyField } from '../parts/field.tsx'

export interface ChangeStatementProps {
  figures: ReconcileFigures
  formId: string
  /** What was typed, when the form comes back. */
  typed: { value(name: string): string } | null
  errors: FieldErrors
}

export const ChangeStatement = ({ figures, formId, typed, errors }: ChangeStatementProps) => {
  const stands = {
    statementDay: figures.statementDay as string,
    balance: centsToDecimalText(figures.statementBalanceCents),
    note: figures.note,
  }
  const value = (name: keyof typeof stands) => typed?.value(name) ?? stands[name]
  return (
    <details open={typed !== null}>
      <summary>Change the statement date or balance</summary>
      <form method="post" action={`/books/reconcile/${figures.id}/change`}>
        <FormId value={formId} />
        {/* What this screen shows: when the other one changed it meanwhile, neither change is lost unseen. */}
        <Hidden name="seen.statementDay" value={stands.statementDay} />
        <Hidden name="seen.balance" value={stands.balance} />
        <Hidden name="seen.note" value={stands.note} />
        <div class="field-row">
          <DayField
            name="statementDay"
            label="Last day on the statement"
            value={value('statementDay')}
            error={errors.statementDay}
          />
          <MoneyField
            name="balance"
            label="Balance on that day"
            value={value('balance')}
            error={errors.balance}
          />
          <Field name="note" label="Note" value={value('note')} error={errors.note} />
        </div>
        <p class="hint">
          The balance as the statement prints it{figures.account.isDebt ? '; on a card, what is owed' : ''}.
          What was checked stays, but for lines that come after the last day.
        </p>
        <Button quiet>Save changes</Button>
      </form>
    </details>
  )
}
