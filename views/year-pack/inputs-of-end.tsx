// Forms of a year's end: what each thing is worth on its last day, and what the cash books do not show.
import { dayName } from '#calendar/day.ts'
import { accrualDefinitions, accrualKinds } from '#ledger/reports/accrual.ts'
import { formatCents } from '#money/format.ts'
import { Button, ButtonRow } from '../parts/button.tsx'
import { Field, FormId, fieldOf, Hidden, MoneyField, Select } from '../parts/field.tsx'
import { Fold } from '../parts/fold.tsx'
import { OverClosed } from '../parts/over-closed.tsx'
import { DataTable } from '../parts/table.tsx'
import type { InputForm, PackInputs } from './inputs-shape.ts'

interface ThingValuesProps {
  year: number
  things: PackInputs['things']
  form: InputForm
  formId: string
}

export const ThingValues = ({ year, things, form, formId }: ThingValuesProps) =>
  things.length === 0 ? null : (
    <section id="things" aria-labelledby="things-title">
      <h2 id="things-title">Stock and equipment at market on December 31, {year}</h2>
      <form method="post" class="pack-form" action={`/year-pack/inputs/things?year=${year}`}>
        <FormId value={form.typed.value('formId') || formId} />
        <div class="value-fields">
          {things.map((thing) => (
            <MoneyField
              {...fieldOf(form, `value.${thing.id}`)}
              label={thing.name}
              hint={`Cost ${formatCents(thing.costCents)}. ${
                thing.before === null
                  ? 'Empty: not valued.'
                  : `Empty: the ${formatCents(thing.before.amountCents)} of ${thing.before.day ? dayName(thing.before.day) : 'no known day'} stays.`
              }`}
            />
          ))}
        </div>
        <OverClosed typed={form.typed} errors={form.errors} />
        <ButtonRow>
          <Button quiet>Save the values of that day</Button>
        </ButtonRow>
      </form>
    </section>
  )

interface AccrualFormProps {
  inputs: PackInputs
  form: InputForm
  formId: string
  removal: (id: string) => string
}

export const AccrualForm = ({ inputs, form, formId, removal }: AccrualFormProps) => (
  <section id="year-end" aria-labelledby="year-end-title">
    <h2 id="year-end-title">Not in the cash books, {inputs.year}</h2>
    <p>
      Counted only on the accrual-adjusted basis: what changed between the beginning and the end of the year.
      The end of the year before is this year’s beginning.
    </p>
    {inputs.accruals.length > 0 ? <Accruals inputs={inputs} form={form} removal={removal} /> : null}
    <Fold
      name="Add an item"
      holds={inputs.accruals.length === 0 ? 'none yet' : `${inputs.accruals.length} above`}
      isOpen={isTypedIn(form)}
    >
      <form method="post" class="pack-form" action={`/year-pack/inputs/items?year=${inputs.year}`}>
        <FormId value={form.typed.value('formId') || formId} />
        <Select
          {...fieldOf(form, 'side')}
          label="Books"
          options={inputs.sides.map((side) => ({ value: side.id, label: side.name }))}
        />
        <Select
          {...fieldOf(form, 'at')}
          label="When"
          options={[
            { value: 'end', label: `At the end of ${inputs.year}` },
            { value: 'begin', label: `At its beginning, the end of ${inputs.year - 1}` },
          ]}
        />
        <Select
          {...fieldOf(form, 'kind')}
          label="Kind"
          options={accrualKinds.map((kind) => ({ value: kind, label: accrualDefinitions[kind].says }))}
        />
        <Field
          {...fieldOf(form, 'name')}
          label="What"
          hint="Like: unsold garlic, seed bought for next year, restaurant invoice"
        />
        <MoneyField {...fieldOf(form, 'amount')} label="Amount" />
        {form.typed.value('removing') === '' ? <OverClosed typed={form.typed} errors={form.errors} /> : null}
        <ButtonRow>
          <Button quiet>Add</Button>
        </ButtonRow>
      </form>
    </Fold>
  </section>
)

/** One that came back with what was typed; taking an item out types into its own form. */
const isTypedIn = ({ typed }: InputForm): boolean =>
  typed.value('removing') === '' && ['name', 'amount'].some((name) => typed.value(name) !== '')

const Accruals = ({ inputs, form, removal }: Omit<AccrualFormProps, 'formId'>) => (
  <DataTable
    caption="Items of this year’s beginning and end"
    rows={inputs.accruals}
    stack
    columns={[
      { title: 'What', isHeader: true, cell: (item) => item.name },
      { title: 'Kind', cell: (item) => accrualDefinitions[item.kind].says },
      { title: 'Books', cell: (item) => item.side },
      { title: 'At', cell: (item) => (item.at === 'end' ? 'the end' : 'the beginning') },
      { title: 'Amount', isNumber: true, cell: (item) => formatCents(item.amountCents) },
      {
        title: 'Remove',
        cell: (item) => (
          <form method="post" action={`/year-pack/inputs/items/${item.id}/remove?year=${inputs.year}`}>
            <FormId value={removal(item.id)} />
            <Hidden name="side" value={item.sideId} />
            <Hidden name="removing" value={item.id} />
            {form.typed.value('removing') === item.id ? (
              <OverClosed typed={form.typed} errors={form.errors} />
            ) : null}
            <Button quiet small label={`Remove: ${item.name}`}>
              Remove
            </Button>
          </form>
        ),
      },
    ]}
  />
)
