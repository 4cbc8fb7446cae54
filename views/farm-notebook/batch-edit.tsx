// The form that starts a batch, changes it or ends it.
import { isCountedByHead } from '#farm/notebook/whole-heads.ts'
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
  MoneyField,
  type Option,
  QuantityField,
  Select,
} from '../parts/field.tsx'
import { EmptyState } from '../parts/message.tsx'

export interface BatchEditProps {
  /** Null starts a new one. */
  batch: { id: string; name: string; size: number; unit: string } | null
  /** How many of it no note tells of. */
  untold: number
  enterprises: readonly Option[]
  typed: { value(name: string): string }
  errors: FieldErrors
}

export const BatchEditPage = (props: BatchEditProps) => (
  <>
    <PageTitle purpose="One lot of an enterprise: 150 broilers, a litter, a season’s bed.">
      {props.batch ? props.batch.name : 'Start a batch'}
    </PageTitle>
    {props.enterprises.length === 0 ? (
      <EmptyState href="/farm/enterprises/new" action="Add an enterprise">
        A batch belongs to an enterprise of the plan, and the plan has none yet.
      </EmptyState>
    ) : (
      <form method="post" action={props.batch ? `/farm/batches/${props.batch.id}/edit` : '/farm/batches/new'}>
        <ErrorSummary errors={props.errors} />
        <FormId value={props.typed.value('formId')} />
        <Hidden name="basedOn" value={props.typed.value('basedOn')} />
        <div class="field-row">
          <Select {...fieldOf(props, 'enterprise')} label="Enterprise" options={props.enterprises} />
          <Field {...fieldOf(props, 'name')} label="Name" hint="Like “Broilers, May 2027”" />
        </div>
        <div class="field-row">
          <QuantityField {...fieldOf(props, 'size')} label="How many at the start" hint="Like 150" />
          <Field
            {...fieldOf(props, 'unit')}
            label="Of what"
            hint="Like birds, beds, lambs"
            class="short-field words-field"
          />
          <DayField {...fieldOf(props, 'startedDay')} label="Started" />
        </div>
        <div class="field-row">
          <Field {...fieldOf(props, 'place')} label="Place" hint="If you want it" />
          <MoneyField
            {...fieldOf(props, 'hopedPrice')}
            label="Hoped price of one"
            hint="For what is left to sell"
          />
        </div>
        {props.batch ? <End {...props} batch={props.batch} /> : null}
        <Field {...fieldOf(props, 'note')} label="Note" />
        <ButtonRow>
          <Button>{props.batch ? 'Save the batch' : 'Start the batch'}</Button>
          <LinkButton quiet href={props.batch ? `/farm/batches/${props.batch.id}` : '/farm/batches'}>
            Cancel
          </LinkButton>
        </ButtonRow>
      </form>
    )}
  </>
)

const End = ({ batch, ...props }: BatchEditProps & { batch: NonNullable<BatchEditProps['batch']> }) => (
  <fieldset class="group">
    <legend>If it has ended</legend>
    <DayField
      {...fieldOf(props, 'endedDay')}
      label="Ended"
      hint="The day of the last sale; empty while it goes on"
    />
    {props.untold > 0 ? (
      <>
        <p>
          No note says what became of {props.untold} of {batch.size} {batch.unit}. As it ends, say what became
          of them.
        </p>
        <div class="field-row">
          <QuantityField {...fieldOf(props, 'restSold')} label="Sold" />
          <QuantityField {...fieldOf(props, 'restLost')} label="Lost" />
          <QuantityField {...fieldOf(props, 'restKitchen')} label="Used at home" />
          <QuantityField
            {...fieldOf(props, 'kept')}
            label="Kept on the farm"
            hint={isCountedByHead(batch.unit) ? 'To breed or to lay' : 'For seed, or left standing'}
          />
        </div>
      </>
    ) : null}
  </fieldset>
)
