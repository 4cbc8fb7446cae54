// The mixed receipt: one purchase for both sides, split line by line; the crossing follows from the lines.
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import {
  DayField,
  Field,
  type FieldErrors,
  FormId,
  fieldOf,
  Hidden,
  type Option,
  RadioGroup,
  Select,
} from '../parts/field.tsx'
import { SameEntryBox } from '../parts/same-entry.tsx'
import { Lines, type TypedValues } from './lines.tsx'

export interface ReceiptFormProps {
  typed: TypedValues
  errors: FieldErrors
  lineCount: number
  moneyOptions: readonly Option[]
  reasonOptions: readonly Option[]
  enterprises: readonly Option[]
}

export const ReceiptForm = (props: ReceiptFormProps) => (
  <>
    <PageTitle purpose="One purchase that serves both sides: give each line its own account, and the crossing between the sides is made from them.">
      Mixed receipt
    </PageTitle>
    <form method="post" action="/books/receipt" data-books-once>
      <ErrorSummary errors={props.errors} />
      <FormId value={props.typed.value('formId')} />
      <Hidden name="rows" value={String(props.lineCount)} />
      <div class="field-row">
        <DayField {...fieldOf(props, 'day')} label="Day" />
        <Field {...fieldOf(props, 'payee')} label="Paid to" />
      </div>
      <SameEntryBox typed={props.typed} error={props.errors.day} />
      <Select
        {...fieldOf(props, 'paidFrom')}
        label="Paid from"
        hint="The side this account belongs to paid for the other one."
        options={props.moneyOptions}
        empty="Choose"
      />
      <Lines
        {...props}
        count={props.lineCount}
        options={props.reasonOptions}
        legend="The lines of the receipt"
        accountLabel="For"
      />
      <RadioGroup
        name="crossAs"
        label="The part paid for the other side is"
        value={props.typed.value('crossAs') || 'equity'}
        error={props.errors.crossAs}
        options={[
          { value: 'equity', label: 'a draw or a contribution', hint: 'it need not be paid back' },
          { value: 'loan', label: 'a loan between sides', hint: 'it is to be paid back' },
        ]}
      />
      <Field {...fieldOf(props, 'memo')} label="Note" />
      <ButtonRow>
        <Button>Record it on both sides</Button>
        <LinkButton quiet href="/books">
          Cancel
        </LinkButton>
      </ButtonRow>
    </form>
  </>
)
