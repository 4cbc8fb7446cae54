// Twelve months in one value: a small field under each month's letter, one field for the same in every month, the year's total.
import { monthNames } from '#calendar/month.ts'
import { parseQuantity } from '#money/parse.ts'
import type { MonthsNode } from '#plan/form/nodes.ts'
import { Field, type FieldErrors, fieldId, QuantityField } from '../field.tsx'
import { UsualNote } from './usual.tsx'

export const MonthStrip = ({ node, errors }: { node: MonthsNode; errors: FieldErrors }) => {
  const heights = barHeights(node)
  return (
    <fieldset class="strip" id={fieldId(node.name)} tabindex={-1}>
      <legend>{node.label}</legend>
      {node.hint === '' ? null : <p class="hint">{node.hint}</p>}
      {errors[node.name] ? <p class="field-error">{errors[node.name]}</p> : null}
      <div class="strip-months">
        {monthNames.map((month, k) => (
          <Field
            name={`${node.name}.m${k + 1}`}
            label={
              <>
                <MonthBar height={heights[k]!} />
                <span aria-hidden="true">{month[0]}</span>
                <span class="hidden-text">{month}</span>
              </>
            }
            value={node.months[k]}
            error={errors[`${node.name}.m${k + 1}`]}
            inputmode="decimal"
          />
        ))}
      </div>
      <div class="strip-one">
        <QuantityField
          name={`${node.name}.one`}
          label={node.isEachMonth ? 'Same every month' : 'Or a year’s total, the same every month'}
          value={node.one}
          placeholder={node.months.every((text) => text === '') ? node.whenEmpty : ''}
          error={errors[`${node.name}.one`]}
        />
        {node.isEachMonth ? null : (
          <p>
            Total in a year:{' '}
            <span data-total>
              {node.total === null ? '' : node.total.toLocaleString('en-US', { maximumFractionDigits: 2 })}
            </span>
          </p>
        )}
      </div>
      <UsualNote usual={node.usual} of={node.label} />
    </fieldset>
  )
}

const tallest = 24

/** The season at a glance: the script lets it follow what is typed. What it shows stands in the fields. */
const MonthBar = ({ height }: { height: number }) => (
  <svg class="strip-bar" viewBox={`0 0 10 ${tallest}`} preserveAspectRatio="none" aria-hidden="true">
    <rect data-bar x="0" width="10" y={tallest - height} height={height} />
  </svg>
)

const barHeights = ({ months, one }: MonthsNode): number[] => {
  const typed = months.some((text) => text !== '') ? months : months.map(() => one)
  const figures = typed.map((text) => {
    const read = parseQuantity(text)
    return read.ok ? Math.max(0, read.value) : 0
  })
  const most = Math.max(...figures)
  return figures.map((value) => (most > 0 ? Math.round((tallest * value * 10) / most) / 10 : 0))
}
