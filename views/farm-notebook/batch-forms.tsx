// What can be done on a batch's page: note losses, weights and sales, and tie lines of the books to it.
import { dayName } from '#calendar/day.ts'
import type { Cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import type { BatchFigures } from '#today/farm/batch-figures.ts'
import { Button } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import {
  DayField,
  Field,
  type FieldErrors,
  FormId,
  fieldOf,
  neverRestored,
  type Option,
  QuantityField,
  Select,
} from '../parts/field.tsx'
import { Fold } from '../parts/fold.tsx'
import { BatchHeads } from './batch-heads.tsx'
import { BatchHours } from './batch-hours.tsx'

export interface BatchFormsProps {
  figures: BatchFigures
  typed: { value(name: string): string }
  errors: FieldErrors
  markets: readonly Option[]
  newFormId(): string
}

const markNames: readonly Option[] = [
  { value: 'lost', label: 'Lost' },
  { value: 'sold', label: 'Sold' },
  { value: 'processed', label: 'Processed' },
  { value: 'weighed', label: 'Weighed' },
]

export const BatchForms = (props: BatchFormsProps) => (
  <>
    <section class="no-print" aria-labelledby="mark-title">
      <h2 id="mark-title">Write down</h2>
      <ErrorSummary errors={props.errors} />
      <form method="post" action={`/farm/batches/${props.figures.batch.id}/mark`}>
        <FormId value={props.typed.value('formId') || props.newFormId()} />
        <div class="field-row">
          <Select {...fieldOf(props, 'kind')} label="What happened" options={markNames} />
          <QuantityField {...fieldOf(props, 'quantity')} label="How many" />
          <QuantityField {...fieldOf(props, 'pounds')} label="Pounds, all of them" hint="If weighed" />
          <DayField {...fieldOf(props, 'day')} label="Day" />
        </div>
        <div class="field-row">
          <Select
            {...fieldOf(props, 'market')}
            label="Sold where"
            options={props.markets}
            empty="From the farm"
          />
          <Field {...fieldOf(props, 'note')} label="Note" />
        </div>
        <Button>Note it</Button>
      </form>
      <p>
        Hours, and what went to the kitchen or was bartered, are written in{' '}
        <a href="/farm/notebook">the notebook</a>.
      </p>
    </section>
    <Untied {...props} />
    <BatchHeads {...props} />
    <BatchHours {...props} />
  </>
)

const Untied = ({ figures: { batch, untied, enterprise }, newFormId }: BatchFormsProps) => (
  <section class="no-print" aria-labelledby="tie-title">
    <h2 id="tie-title">Costs and sales that may be its</h2>
    {untied.count === 0 ? (
      <p>
        The books hold no sales or costs of {enterprise}, or of no enterprise, from three months before{' '}
        {dayName(batch.startedDay)} on that belong to no batch. Choose the batch beside the account when you
        enter or sort.
      </p>
    ) : (
      <form method="post" action={`/farm/batches/${batch.id}/tie`} {...neverRestored}>
        <FormId value={newFormId()} />
        <Fold
          name="Lines of no batch"
          holds={String(untied.count)}
          isOpen={untied.count <= 10 || untied.before > 0}
        >
          <ul class="written">
            {untied.lines.map((line) => (
              <li>
                <span class="choice">
                  <input
                    type="checkbox"
                    id={`tie-${line.postingId}`}
                    name="tie[]"
                    value={String(line.postingId)}
                  />
                  <label for={`tie-${line.postingId}`}>
                    {dayName(line.day)}, {line.payee || line.memo || `entry ${line.entryNo}`},{' '}
                    {line.accountName}
                    {line.enterpriseId === null ? <span class="hint"> names no enterprise</span> : null}
                  </label>
                </span>
                <span class="notebook-sum">
                  <a href={`/books/entries/${line.entryNo}`}>
                    {formatCents((0 - line.amountCents) as Cents)}
                    <span class="hidden-text"> of {line.payee || line.memo || `entry ${line.entryNo}`}</span>
                  </a>
                </span>
              </li>
            ))}
          </ul>
          <UntiedPages batch={batch} untied={untied} />
          <p class="hint">
            A bill that only in part is the batch’s: open it by its amount and split it under “What was it
            for?”. Each part is then in this list by itself.
          </p>
        </Fold>
        <Button quiet>Tie what is checked</Button>
      </form>
    )}
  </section>
)

const UntiedPages = ({ batch, untied }: Pick<BatchFigures, 'batch' | 'untied'>) => {
  const { lines, count, before, nearer, farther } = untied
  const page = (after: number) => `/farm/batches/${batch.id}?after=${after}#tie-title`
  return lines.length === count ? null : (
    <nav class="pager" aria-label="Pages of these lines">
      <span>
        {before + 1} to {before + lines.length} of {count}, nearest its first day first
      </span>
      {nearer === null ? null : <a href={page(nearer)}>Nearer</a>}
      {farther === null ? null : <a href={page(farther)}>Farther</a>}
    </nav>
  )
}
