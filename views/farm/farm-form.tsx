// One form for everything a farm is made of: the list of its fields draws it.
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import {
  Checkbox,
  Field,
  type FieldErrors,
  MoneyField,
  MonthField,
  type Option,
  PercentField,
  PlanFormIds,
  QuantityField,
  Select,
  TextArea,
} from '../parts/field.tsx'
import { Caution } from '../parts/message.tsx'
import type { FieldSpec, KindWords } from './field-hints.ts'

export interface FarmFormProps {
  words: KindWords
  title: string
  value: (name: string) => string
  values: (name: string) => readonly string[]
  errors: FieldErrors
  formId: string
  action: string
  back?: string
  /** The form that takes it out is booked under its own id; left out where it must stay. */
  removeFormId?: string
  planId: string
  basedOn: number
  markets: readonly Option[]
  lines: readonly Option[]
}

export const FarmFormPage = (props: FarmFormProps) => {
  const { words } = props
  const groups = [...new Set(words.fields.map((field) => field.group))]
  return (
    <>
      <PageTitle purpose={words.purpose}>{props.title}</PageTitle>
      <ErrorSummary errors={props.errors} />
      <form method="post" action={props.action} class="farm-form">
        <PlanFormIds formId={props.formId} planId={props.planId} basedOn={props.basedOn} />
        {groups.map((group) => (
          <fieldset class="group">
            <legend>{group}</legend>
            {words.fields
              .filter((field) => field.group === group)
              .map((field) => (
                <SpecField spec={field} {...props} />
              ))}
          </fieldset>
        ))}
        <ButtonRow>
          <Button>Save</Button>
          <LinkButton href={props.back ?? '/farm'} quiet>
            Leave it
          </LinkButton>
        </ButtonRow>
      </form>
      {props.removeFormId === undefined ? null : (
        <form method="post" action={`${props.action}/remove`} class="farm-remove">
          <PlanFormIds formId={props.removeFormId} planId={props.planId} basedOn={props.basedOn} />
          <p>Taking it out of the plan changes nothing in the books. The plan keeps its earlier revisions.</p>
          <Button quiet>Take this {words.one} out of the plan</Button>
        </form>
      )}
      {words.kind === 'purchases' ? (
        <Caution askWhom="a licensed tax preparer">
          What may be written off at once has limits and phases out; the depreciation class decides the rest.
        </Caution>
      ) : null}
    </>
  )
}

const SpecField = ({ spec, ...form }: FarmFormProps & { spec: FieldSpec }) => {
  const common = {
    name: spec.name,
    label: spec.label,
    value: form.value(spec.name),
    error: form.errors[spec.name],
    ...(spec.hint ? { hint: spec.hint } : {}),
  }
  switch (spec.kind) {
    case 'money':
      return <MoneyField {...common} />
    case 'quantity':
    case 'whole':
      return <QuantityField {...common} />
    case 'percent':
      return <PercentField {...common} />
    case 'month':
      return <MonthField {...common} />
    case 'checkbox':
      return <Checkbox {...common} />
    case 'steps':
    case 'level-steps':
    case 'lines':
      return <TextArea {...common} rows={3} />
    case 'choice':
      return <Select {...common} options={spec.options ?? []} />
    case 'line':
      return <Select {...common} options={form.lines} empty="Nothing in particular" />
    case 'markets':
      return <Markets spec={spec} {...form} />
    case 'seasonal':
    case 'level':
      return <Field {...common} class="wide-field" />
    default:
      return <Field {...common} />
  }
}

const Markets = ({ spec, markets, values, errors }: FarmFormProps & { spec: FieldSpec }) => (
  <fieldset class="choices">
    <legend>{spec.label}</legend>
    {spec.hint ? <p class="hint">{spec.hint}</p> : null}
    {errors[spec.name] ? <p class="field-error">{errors[spec.name]}</p> : null}
    {markets.length === 0 ? <p>The plan has no market yet.</p> : null}
    {markets.map((market) => (
      <Checkbox
        name={`${spec.name}[]`}
        label={market.label}
        checkedValue={market.value}
        checked={values(`${spec.name}[]`).includes(market.value)}
      />
    ))}
  </fieldset>
)
