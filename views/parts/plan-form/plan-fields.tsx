// The fields of a plan's form, as the schema makes them: plain ones in rows, lists of rows, month strips, boxes.

import { createContext, useContext } from 'hono/jsx'
import type { FormNode, ListNode, VariantsNode } from '#plan/form/nodes.ts'
import { shownNames, variantsIn } from '#plan/form/nodes.ts'
import { sectionsOf } from '#plan/form/sections.ts'
import type { FormSum } from '#plan/form/sums.ts'
import { asWords } from '../as-words.ts'
import { Button } from '../button.tsx'
import { Checkbox, type FieldErrors, fieldId, Hidden, Select } from '../field.tsx'
import { refreshes } from '../htmx.ts'
import { SureBox } from '../sure-box.tsx'
import { FormSums } from './form-sums.tsx'
import { MonthStrip } from './month-strip.tsx'
import { rowHolds, rowName } from './row-words.ts'
import { Seldom, unfolded } from './seldom.tsx'
import { OwnPage, PlainField, Ticks } from './single-fields.tsx'
import { UsualNote } from './usual.tsx'

interface NodesProps {
  nodes: readonly FormNode[]
  errors: FieldErrors
  /** Worked out from the fields, each beside those of its heading. */
  sums?: readonly FormSum[] | undefined
}

/** All fields of a form, the names of the lists and boxes among them, and the yes that a doubt asks for. */
export const PlanFields = (props: NodesProps) => (
  <>
    <Shown nodes={props.nodes} />
    <Nodes {...props} />
    <SureBox errors={props.errors} />
  </>
)

const Shown = ({ nodes }: { nodes: readonly FormNode[] }) => (
  <>
    {shownNames(nodes).map((name) => (
      <Hidden name="shown[]" value={name} />
    ))}
  </>
)

/** Where the form is sent; empty where a kind's own fields come with a press of the button alone. */
export const SentTo = createContext('')

/** The own fields of each chosen kind, as parts that an answer shows in place. */
export const kindParts = (nodes: readonly FormNode[], errors: FieldErrors) =>
  Object.fromEntries(
    variantsIn(nodes).map((node) => [kindPart(node), () => <KindFields node={node} errors={errors} />]),
  )

/** Without the dots of a field within another: in an address of a part they would be classes. */
const kindPart = ({ name }: VariantsNode): string => `${fieldId(name).replaceAll('.', '-')}-fields`

/** Fields under one heading stand together; what has no heading and is more than a field stands by itself, in its place. */
const Nodes = ({ nodes, errors, sums = [] }: NodesProps) => (
  <>
    {sectionsOf(nodes).map(({ under, own }) =>
      under === '' ? (
        <Rows nodes={own} errors={errors} />
      ) : (
        <Seldom nodes={own} errors={errors} name={under}>
          {(isFolded) => (
            <fieldset class="group plan-rows">
              <legend class={isFolded ? 'hidden-text' : undefined}>{under}</legend>
              <Rows nodes={isFolded ? own.map(unfolded) : own} errors={errors} />
              <FormSums sums={sums.filter((one) => one.under === under)} nodes={nodes} />
            </fieldset>
          )}
        </Seldom>
      ),
    )}
  </>
)

/** Plain fields stand in rows; boxes, groups and lists below each other. */
const Rows = ({ nodes, errors }: NodesProps) => {
  const plain = nodes.filter((node) => node.kind === 'field')
  const flags = nodes.filter((node) => node.kind === 'flag')
  const others = nodes.filter((node) => node.kind !== 'field' && node.kind !== 'flag')
  return (
    <>
      {plain.length > 0 ? (
        <div class="field-row">
          {plain.map((node) => (
            <Node node={node} errors={errors} />
          ))}
        </div>
      ) : null}
      {flags.length > 0 ? (
        <div class="short-rows">
          {flags.map((node) => (
            <div>
              <Node node={node} errors={errors} />
            </div>
          ))}
        </div>
      ) : null}
      {others.map((node) => (
        <Node node={node} errors={errors} />
      ))}
    </>
  )
}

const Node = ({ node, errors }: { node: FormNode; errors: FieldErrors }) => {
  switch (node.kind) {
    case 'hidden':
      return <Hidden name={node.name} value={node.value} />
    case 'field':
      return node.usual ? (
        <div>
          <PlainField node={node} error={errors[node.name]} />
          <UsualNote usual={node.usual} of={node.label} />
        </div>
      ) : (
        <PlainField node={node} error={errors[node.name]} />
      )
    case 'flag':
      return (
        <>
          <Checkbox {...node} error={errors[node.name]} />
          <UsualNote usual={node.usual} of={node.label} />
        </>
      )
    case 'months':
      return <MonthStrip node={node} errors={errors} />
    case 'ticks':
      return <Ticks node={node} error={errors[node.name]} />
    case 'page':
      return <OwnPage node={node} />
    case 'list':
      return (
        <Seldom nodes={[node]} errors={errors} name={node.label}>
          {(isFolded) => <List node={node} errors={errors} isNamed={!isFolded} />}
        </Seldom>
      )
    case 'variants':
      return <Variants node={node} errors={errors} />
    case 'group':
      return (
        <Seldom nodes={[node]} errors={errors} name={node.label}>
          {(isFolded) => (
            <Group node={node} error={errors[node.name]} isNamed={!isFolded}>
              <Nodes nodes={node.children} errors={errors} />
            </Group>
          )}
        </Seldom>
      )
  }
}

const Group = (props: {
  node: { name: string; label: string; hint: string }
  error: string | undefined
  /** False where a fold around it says its name. */
  isNamed?: boolean
  children: unknown
}) => (
  <fieldset class="group plan-rows" id={fieldId(props.node.name)} tabindex={-1}>
    <legend class={props.isNamed === false ? 'hidden-text' : undefined}>{props.node.label}</legend>
    {props.node.hint === '' ? null : <p class="hint">{props.node.hint}</p>}
    {props.error ? <p class="field-error">{props.error}</p> : null}
    {props.children}
  </fieldset>
)

interface VariantsProps {
  node: VariantsNode
  errors: FieldErrors
}

const Variants = ({ node, errors }: VariantsProps) => {
  const sentTo = useContext(SentTo)
  return (
    <Group node={{ ...node, name: `${node.name}-kind`, hint: '' }} error={undefined}>
      <div
        class="field-row"
        {...(sentTo === ''
          ? {}
          : {
              ...refreshes(kindPart(node), { post: sentTo }, 'change'),
              'hx-vals': JSON.stringify({ show: node.name }),
            })}
      >
        <Select
          name={node.name}
          label="Kind"
          value={node.value}
          options={node.options.map(({ value, label }) => ({ value, label: label || asWords(value) }))}
          error={errors[node.name]}
        />
        <Button quiet name="show" value={node.name}>
          Show its fields
        </Button>
      </div>
      <KindFields node={node} errors={errors} />
    </Group>
  )
}

const KindFields = ({ node, errors }: VariantsProps) => (
  <div id={kindPart(node)} class="plan-rows">
    {node.hint === '' ? null : <p class="hint">{node.hint}</p>}
    <Shown nodes={node.children} />
    <Nodes nodes={node.children} errors={errors} />
  </div>
)

interface ListProps {
  node: ListNode
  errors: FieldErrors
  isNamed: boolean
}

const List = ({ node, errors, isNamed }: ListProps) => (
  <Group node={node} error={errors[node.name]} isNamed={isNamed}>
    {node.isFixed && node.rows.length === 0 ? <p>The plan has none to name here yet.</p> : null}
    {node.isFixed ? (
      <FixedRows node={node} errors={errors} />
    ) : (
      <div class={node.rows.every(isShort) ? 'short-rows' : 'plan-rows'}>
        {node.rows.map((row, place) => (
          <Row
            row={row}
            name={`${node.name}.${place}`}
            called={rowName(row, node.label, place)}
            errors={errors}
          />
        ))}
      </div>
    )}
    {node.isFixed ? null : (
      <Button quiet small name="add" value={node.name}>
        Add<span class="hidden-text"> to {node.label}</span>
      </Button>
    )}
  </Group>
)

const FixedRows = ({ node, errors }: { node: ListNode; errors: FieldErrors }) => (
  <Rows nodes={node.rows.flat()} errors={errors} />
)

/** A short row stands open in one line; a long one opens by its name, and stands open when something in it is wrong or it is new. */
const Row = (props: { row: readonly FormNode[]; name: string; called: string; errors: FieldErrors }) => {
  const { row, name, called, errors } = props
  const remove = (
    <Button quiet small name="remove" value={name} label={`Remove ${called}`}>
      Remove
    </Button>
  )
  if (isShort(row))
    return (
      <div class="field-row">
        {row.map((node) => (
          <Node node={node} errors={errors} />
        ))}
        {remove}
      </div>
    )
  const isWrong = Object.keys(errors).some((path) => path.startsWith(`${name}.`))
  const isNew = row.every(
    (node) => node.kind !== 'field' || !/\.(name|from)$/.test(node.name) || node.value === '',
  )
  return (
    <details class="plan-row" open={isWrong || isNew}>
      <summary>
        <span class="fold-name">{called}</span> <span class="fold-holds">{rowHolds(row)}</span>
      </summary>
      <div class="plan-rows">
        <Nodes nodes={row} errors={errors} />
        {remove}
      </div>
    </details>
  )
}

const isShort = (row: readonly FormNode[]): boolean => {
  const fields = row.filter((node) => node.kind !== 'hidden')
  return fields.length <= 3 && fields.every((node) => node.kind === 'field')
}
