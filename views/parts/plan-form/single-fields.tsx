// The single fields of a plan's form: a plain one by what it holds, ticks, and what has a page of its own.
import type { FieldNode, FormNode, PageNode } from '#plan/form/nodes.ts'
import { worded } from '../as-words.ts'
import {
  DayField,
  Field,
  fieldId,
  MoneyField,
  MonthField,
  PercentField,
  QuantityField,
  Select,
} from '../field.tsx'

export const PlainField = ({ node, error }: { node: FieldNode; error: string | undefined }) => {
  const { name, label, hint, value } = node
  const props = { name, label, hint, value, error, placeholder: node.whenEmpty }
  if (node.of === 'choice')
    return (
      <Select
        {...props}
        options={node.options.map(worded)}
        {...(node.optional ? { empty: 'Not entered' } : {})}
      />
    )
  if (node.of === 'money') return <MoneyField {...props} />
  if (node.of === 'percent') return <PercentField {...props} />
  if (node.of === 'number') return <QuantityField {...props} />
  if (node.of === 'month') return <MonthField {...props} />
  if (node.of === 'day') return <DayField {...props} />
  return <Field {...props} />
}

export const Ticks = ({
  node,
  error,
}: {
  node: Extract<FormNode, { kind: 'ticks' }>
  error: string | undefined
}) => (
  <fieldset class="choices" id={fieldId(node.name)} tabindex={-1}>
    <legend>{node.label}</legend>
    {node.hint === '' ? null : <p class="hint">{node.hint}</p>}
    {error ? <p class="field-error">{error}</p> : null}
    {node.options.length === 0 ? <p>The plan has none yet.</p> : null}
    {node.options.map(({ value, label }, place) => (
      <div class="choice">
        <input
          type="checkbox"
          id={`${fieldId(node.name)}-${place}`}
          name={`${node.name}[]`}
          value={value}
          checked={node.chosen.includes(value)}
        />
        <label for={`${fieldId(node.name)}-${place}`}>{label}</label>
      </div>
    ))}
  </fieldset>
)

export const OwnPage = ({ node }: { node: PageNode }) => (
  <p>
    {node.label}: {node.entries === 0 ? 'nothing yet' : `${node.entries} years`}.{' '}
    {node.of === '' ? (
      'It can be filled in once this is saved.'
    ) : (
      <a href={`/runway/plan/${node.page}/${node.of}`}>
        Fill it in<span class="hidden-text">: {node.label}</span>
      </a>
    )}
  </p>
)
