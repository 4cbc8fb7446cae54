// The twelve months behind a figure as a small line: what it was is in the words and tables beside it.
import { extent } from 'd3-array'
import { scaleLinear } from 'd3-scale'
import { line } from 'd3-shape'

export interface TrendProps {
  /** Oldest first. */
  values: readonly number[]
  /** Whose money it is. */
  of: 'household' | 'farm'
  /** Dotted across: what the values are held against. */
  reference?: number | undefined
}

const width = 120
const height = 36
const edge = 5

export const Trend = ({ values, of, reference }: TrendProps) => {
  if (values.length < 2) return null
  const [low, high] = extent([...values, ...(reference === undefined ? [] : [reference])]) as [number, number]
  const y = scaleLinear([low, high === low ? low + 1 : high], [height - edge, edge])
  const x = scaleLinear([0, values.length - 1], [edge, width - edge])
  const draw = line<number>(
    (_, at) => x(at),
    (value) => y(value),
  ).digits(1)
  return (
    <svg class={`trend ${of}`} viewBox={`0 0 ${width} ${height}`} aria-hidden="true" focusable="false">
      {reference === undefined ? null : (
        <line class="trend-reference" x1={edge} x2={width - edge} y1={y(reference)} y2={y(reference)} />
      )}
      <path class="trend-line" d={draw([...values]) ?? ''} />
      <circle class="trend-now" cx={x(values.length - 1)} cy={y(values.at(-1)!)} r={3.5} />
    </svg>
  )
}
