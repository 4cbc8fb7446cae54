// One form for everything a farm is made of: the list of its fields draws it.
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import {
  Checkbox,
  Field,
  type FieldErrors,
  FormId,
  Hidden,
  MoneyField,
  MonthField,
  type Option,
  PercentField,
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
  back?: { href: string; says: string }
  /** The form that takes it out is booked under its own id; left out where it must stay. */
  removeFormId?: string
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
        <FormId value={props.formId} />
        <Hidden name="basedOn" value={String(props.basedOn)} />
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
          <LinkButton href={props.back?.href ?? '/farm'} quiet>
            {props.back?.says ?? 'Back to the farm'}
          </LinkButton>
        </ButtonRow>
      </form>
      {props.removeFormId === undefined ? null : (
        <form method="post" action={`${props.action}/remove`} class="farm-remove">
          <FormId value={props.removeFormId} />
          <Hidden name="basedOn" value={String(props.basedOn)} />
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

/** Someone saved meanwhile: both versions at hand. */
export const NewerRevisionPage = ({
  theirs,
  typed,
  back,
}: {
  theirs: { revisionNo: number; savedAt: string; note: string; savedBy: string }
  typed: readonly { label: string; value: string; now: string }[]
  back: string
}) => (
  <>
    <PageTitle purpose="Nothing was written over.">The plan was saved meanwhile</PageTitle>
    <p>
      Revision {theirs.revisionNo} was saved at {theirs.savedAt.slice(0, 16).replace('T', ' ')} while this
      form was open{theirs.note ? `: ${theirs.note}` : ''}. Below stands what you typed beside what the plan
      now says. Open the form again and type over what should change.
    </p>
    <div class="table-frame">
      <table>
        <caption class="hidden-text">Both versions</caption>
        <thead>
          <tr>
            <th scope="col">Field</th>
            <th scope="col">What you typed</th>
            <th scope="col">The plan now</th>
          </tr>
        </thead>
        <tbody>
          {typed.map((row) => (
            <tr>
              <th scope="row">{row.label}</th>
              <td>{row.value}</td>
              <td>{row.value === row.now ? 'the same' : row.now}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
    <ButtonRow>
      <LinkButton href={back}>Open the form again</LinkButton>
    </ButtonRow>
  </>
)
