// The plan's forms: one page a section, every field of the document, rows added and taken out without losing what was typed.
import type { FormNode, PlanSection } from '#plan/form-fields.ts'
import { PageTitle } from '../layout.tsx'
import { asWords, worded } from '../parts/as-words.ts'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import {
  Checkbox,
  DayField,
  Field,
  type FieldErrors,
  Hidden,
  MoneyField,
  MonthField,
  PercentField,
  PlanFormIds,
  QuantityField,
  Select,
  TextArea,
} from '../parts/field.tsx'
import { Caution } from '../parts/message.tsx'
import { sectionNames } from './plan-sections.tsx'

export const PlanSectionPage = (props: {
  section: PlanSection
  form: FormNode
  errors: FieldErrors
  formId: string
  planId: string
  basedOn: number
}) => (
  <>
    <PageTitle purpose={sectionNames[props.section].purpose}>{sectionNames[props.section].title}</PageTitle>
    <p>
      <a href="/runway/plan">All sections</a>
    </p>
    <form method="post" action={`/runway/plan/${props.section}`} class="plan-rows">
      <ErrorSummary errors={props.errors} />
      <PlanFormIds {...props} />
      {/* Return in a field must save, not press the first row's button. */}
      <button type="submit" class="hidden-text" tabindex={-1}>
        Save
      </button>
      <Node node={props.form} errors={props.errors} depth={0} />
      <ButtonRow>
        <Button>Save this section</Button>
        <LinkButton href="/runway/plan" quiet>
          Leave it
        </LinkButton>
      </ButtonRow>
    </form>
    {canHurt.has(props.section) ? (
      <Caution>What stands here decides tax, cover and retirement in every year of the plan.</Caution>
    ) : null}
  </>
)

const canHurt: ReadonlySet<PlanSection> = new Set(['household', 'health', 'savings', 'tax'])

interface NodeProps {
  node: FormNode
  errors: FieldErrors
  depth: number
}

const Node = ({ node, errors, depth }: NodeProps) => {
  switch (node.kind) {
    case 'hidden':
      return <Hidden name={node.name} value={node.value} />
    case 'flag':
      return (
        <Checkbox
          name={node.name}
          label={node.label}
          hint={node.hint}
          checked={node.checked}
          error={errors[node.name]}
        />
      )
    case 'field':
      return <FieldNode node={node} error={errors[node.name]} />
    case 'group':
      return depth === 0 ? (
        <Nodes nodes={node.children} errors={errors} depth={depth + 1} />
      ) : (
        <fieldset class="group">
          <legend>{node.label}</legend>
          {node.hint === '' ? null : <p class="hint">{node.hint}</p>}
          <Nodes nodes={node.children} errors={errors} depth={depth + 1} />
        </fieldset>
      )
    case 'variants':
      return (
        <fieldset class="group">
          <legend>{node.label}</legend>
          <div class="field-row">
            <Select
              name={node.name}
              label="Kind"
              value={node.value}
              options={node.options.map((value) => ({ value, label: asWords(value) }))}
              error={errors[node.name]}
            />
            <Button quiet name="show" value={node.name}>
              Show its fields
            </Button>
          </div>
          <Nodes nodes={node.children} errors={errors} depth={depth + 1} />
        </fieldset>
      )
    case 'list':
      return (
        <fieldset class="group plan-rows" id={`f-${node.name}`} tabindex={-1}>
          <legend>{node.label}</legend>
          {errors[node.name] ? <p class="field-error">{errors[node.name]}</p> : null}
          {node.rows.map((row, place) => (
            <Row
              row={row}
              name={`${node.name}.${place}`}
              called={rowName(row, node.label, place)}
              errors={errors}
              depth={depth}
            />
          ))}
          <Button quiet small name="add" value={node.name}>
            Add<span class="hidden-text"> to {node.label}</span>
          </Button>
        </fieldset>
      )
  }
}

/** A short row stands open in one line; a long one opens by its name, and stands open when something in it is wrong or it is new. */
const Row = (props: {
  row: readonly FormNode[]
  name: string
  called: string
  errors: FieldErrors
  depth: number
}) => {
  const { row, name, called, errors, depth } = props
  const remove = (
    <Button quiet small name="remove" value={name} label={`Take out ${called}`}>
      Take out
    </Button>
  )
  const fields = row.filter((node) => node.kind !== 'hidden')
  if (fields.length <= 3 && fields.every((node) => node.kind === 'field'))
    return (
      <div class="field-row">
        {row.map((node) => (
          <Node node={node} errors={errors} depth={depth} />
        ))}
        {remove}
      </div>
    )
  const isWrong = Object.keys(errors).some((path) => path.startsWith(`${name}.`))
  const isNew = row.every(
    (node) => node.kind !== 'field' || !node.name.endsWith('.name') || node.value === '',
  )
  return (
    <details class="plan-row" open={isWrong || isNew}>
      <summary>{called}</summary>
      <div class="plan-rows">
        <Nodes nodes={row} errors={errors} depth={depth + 1} />
        {remove}
      </div>
    </details>
  )
}

/** Plain fields stand in rows; groups and lists below each other. */
const Nodes = ({
  nodes,
  errors,
  depth,
}: {
  nodes: readonly FormNode[]
  errors: FieldErrors
  depth: number
}) => {
  const plain: FormNode[] = nodes.filter(
    (node) => (node.kind === 'field' && node.of !== 'lines') || node.kind === 'hidden',
  )
  const flags: FormNode[] = nodes.filter((node) => node.kind === 'flag')
  const others = nodes.filter(
    (node) => node.kind !== 'field' && node.kind !== 'hidden' && node.kind !== 'flag',
  )
  return (
    <>
      {plain.length > 0 ? (
        <div class="field-row">
          {plain.map((node) => (
            <Node node={node} errors={errors} depth={depth} />
          ))}
        </div>
      ) : null}
      {[...flags, ...others].map((node) => (
        <Node node={node} errors={errors} depth={depth} />
      ))}
    </>
  )
}

const FieldNode = ({
  node,
  error,
}: {
  node: Extract<FormNode, { kind: 'field' }>
  error: string | undefined
}) => {
  const props = { name: node.name, label: node.label, hint: node.hint, value: node.value, error }
  if (node.of === 'choice')
    return (
      <Select
        {...props}
        options={node.options.map(worded)}
        {...(node.optional ? { empty: 'Not said' } : {})}
      />
    )
  if (node.of === 'money') return <MoneyField {...props} />
  if (node.of === 'percent') return <PercentField {...props} />
  if (node.of === 'number') return <QuantityField {...props} />
  if (node.of === 'month') return <MonthField {...props} />
  if (node.of === 'day') return <DayField {...props} />
  if (node.of === 'lines') return <TextArea {...props} rows={6} />
  return <Field {...props} />
}

const rowName = (row: readonly FormNode[], label: string, place: number): string => {
  const named = row.find(
    (node) => node.kind === 'field' && (node.name.endsWith('.name') || node.name.endsWith('.from')),
  )
  return named?.kind === 'field' && named.value !== '' ? named.value : `${label} ${place + 1}`
}
