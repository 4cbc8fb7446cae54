// Small multiples: one little picture a thing, the same months in each, bars for what was and a line for what was expected.
import { scaleBand, scaleLinear } from 'd3-scale'
import { dollarsShort, round } from './chart-frame.tsx'

export interface SmallBarsProps {
  name: string
  /** The picture in words; the page has the table of all of them. */
  summary: string
  /** Dollars by month, oldest first. */
  values: readonly number[]
  /** What was expected of each month; null where nothing was. */
  expected: readonly (number | null)[] | null
  first: string
  last: string
}

const size = { width: 240, height: 112, top: 20, bottom: 24 }

export const SmallBars = (props: SmallBarsProps) => (
  <li class="small-bars chart">
    <h3>{props.name}</h3>
    <svg
      viewBox={`0 0 ${size.width} ${size.height}`}
      role="img"
      aria-label={`${props.name}. ${props.summary}`}
    >
      <Drawing {...props} />
    </svg>
    <p>{props.summary}</p>
  </li>
)

const Drawing = ({ values, expected, first, last }: SmallBarsProps) => {
  const known = (expected ?? []).flatMap((one) => one ?? [])
  const largest = Math.max(...values, ...known, 0)
  const y = scaleLinear(
    [Math.min(...values, ...known, 0), largest || 1],
    [size.height - size.bottom, size.top],
  )
  const x = scaleBand(
    values.map((_, at) => at),
    [0, size.width],
  ).padding(0.2)
  return (
    <>
      <text x={0} y={size.top - 5}>
        {dollarsShort(Math.round(largest))}
      </text>
      <line class="axis" x1={0} x2={size.width} y1={round(y(0))} y2={round(y(0))} />
      {values.map((value, at) => (
        <rect
          class="bar"
          x={round(x(at)!)}
          width={round(x.bandwidth())}
          y={round(y(Math.max(value, 0)))}
          height={round(Math.abs(y(value) - y(0)))}
        />
      ))}
      {(expected ?? []).map((one, at) =>
        one === null ? null : (
          <line
            class="expected"
            x1={round(x(at)! - x.step() * 0.1)}
            x2={round(x(at)! + x.bandwidth() + x.step() * 0.1)}
            y1={round(y(one))}
            y2={round(y(one))}
          />
        ),
      )}
      <text x={0} y={size.height - 5}>
        {first}
      </text>
      <text x={size.width} y={size.height - 5} text-anchor="end">
        {last}
      </text>
    </>
  )
}
