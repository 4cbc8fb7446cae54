// Bars by name: side by side or stacked, up and down from the zero line.
import { scaleBand, scaleLinear } from 'd3-scale'
import type { ToldDollars } from '../parts/dollars.tsx'
import { DataTable } from '../parts/table.tsx'
import {
  type Axis,
  ChartFrame,
  dollarsShort,
  Grid,
  isMoneyAxis,
  round,
  type Size,
  type Tone,
} from './chart-frame.tsx'

export interface BarSeries {
  name: string
  tone: Tone
  values: readonly number[]
}

export interface BarChartProps {
  id: string
  title: string
  summary: string
  /** The name under each group of bars, and what they are called in the table. */
  categories: readonly string[]
  categoryTitle: string
  series: readonly BarSeries[]
  isStacked?: boolean
  y?: Axis
  /** A level line with a few words. */
  mark?: { atY: number; says: string }
  /** Told in these dollars, whichever the page shows. */
  dollars?: ToldDollars | undefined
}

export const BarChart = (props: BarChartProps) => (
  <ChartFrame
    id={props.id}
    title={props.title}
    summary={props.summary}
    legend={props.series.length > 1 ? props.series.map((one) => ({ ...one, mark: 'bar' as const })) : []}
    draw={(size) => <Drawing {...props} size={size} />}
    footBelow={(size) => footBelow(namesOf(props.categories, size))}
    table={<BarTable {...props} />}
    isMoney={isMoneyAxis(props.y)}
    dollars={props.dollars}
  />
)

const Drawing = (props: BarChartProps & { size: Size }) => {
  const { size, categories } = props
  const bars = categories.flatMap((_, index) => barsOf(props, index))
  const edges = [...bars.flatMap((bar) => [bar.from, bar.to]), props.mark?.atY ?? 0]
  const y = scaleLinear(
    [Math.min(0, ...edges), Math.max(0, ...edges) || 1],
    [size.height - size.bottom, size.top],
  )
  y.nice(5)
  const x = scaleBand(
    categories.map((_, index) => index),
    [size.left, size.width - size.right],
  ).padding(0.25)
  const { names, every, isStaggered } = namesOf(categories, size)
  const baseline = size.height - size.bottom + 16
  const wide = props.isStacked ? x.bandwidth() : x.bandwidth() / props.series.length
  return (
    <>
      <Grid size={size} ticks={y.ticks(5)} y={y} format={props.y?.formatShort ?? dollarsShort} />
      {bars.map((bar) => (
        <rect
          class={`bar tone-${bar.tone}`}
          x={round(x(bar.category)! + (props.isStacked ? 0 : bar.order * wide))}
          y={round(y(Math.max(bar.from, bar.to)))}
          width={round(Math.max(wide - 1, 1))}
          height={round(Math.abs(y(bar.from) - y(bar.to)))}
        />
      ))}
      {names.map((rows, index) =>
        isStaggered || index % every === 0
          ? rows.map((row, place) => (
              <text
                x={round(x(index)! + x.bandwidth() / 2)}
                y={baseline + (isStaggered && index % 2 === 1 ? 2 * rowHeight + 2 : 0) + place * rowHeight}
                text-anchor="middle"
              >
                {row}
              </text>
            ))
          : null,
      )}
      {props.mark ? <MarkLine mark={props.mark} y={y(props.mark.atY)} size={size} /> : null}
    </>
  )
}

const MarkLine = ({ mark, y, size }: { mark: { says: string }; y: number; size: Size }) => (
  <g>
    <line class="mark" x1={size.left} x2={size.width - size.right} y1={round(y)} y2={round(y)} />
    <text class="mark-name" x={size.width - size.right - 4} y={round(y - 5)} text-anchor="end">
      {mark.says}
    </text>
  </g>
)

const rowHeight = 13

/** Names in one row or two, every how many of them there is room for; a few long ones are staggered in place of left out. */
function namesOf(categories: readonly string[], size: Size) {
  const names = categories.map(twoRows)
  const longest = Math.max(4, ...names.flat().map((row) => row.length))
  const every = Math.ceil((categories.length * longest * 8) / (size.width - size.left - size.right))
  return { names, every, isStaggered: every === 2 && categories.length <= 8 }
}

const footBelow = ({ names, isStaggered }: ReturnType<typeof namesOf>): number =>
  (names.some((rows) => rows.length > 1) ? rowHeight - 6 : 0) + (isStaggered ? 2 * rowHeight + 2 : 0)

/** A name of several words stands in two rows of about the same length. */
function twoRows(name: string): string[] {
  const words = name.split(' ')
  if (name.length < 10 || words.length < 2) return [name]
  const half = name.length / 2
  let first = words[0]!
  let taken = 1
  while (taken < words.length - 1 && first.length + words[taken]!.length / 2 < half) {
    first += ` ${words[taken]}`
    taken += 1
  }
  return [first, words.slice(taken).join(' ')]
}

interface Bar {
  category: number
  order: number
  tone: Tone
  from: number
  to: number
}

/** Stacked bars grow away from zero on both sides: what comes in upwards, what goes out downwards. */
function barsOf(props: BarChartProps, category: number): Bar[] {
  let up = 0
  let down = 0
  return props.series.map((one, order) => {
    const value = one.values[category] ?? 0
    const from = props.isStacked ? (value < 0 ? down : up) : 0
    if (value < 0) down += value
    else up += value
    return { category, order, tone: one.tone, from, to: from + value }
  })
}

const BarTable = (props: BarChartProps) => (
  <DataTable
    caption={props.title}
    rows={props.categories.map((name, index) => ({ name, index }))}
    columns={[
      { title: props.categoryTitle, isHeader: true, cell: (row) => row.name },
      ...props.series.map((one) => ({
        title: one.name,
        isNumber: true,
        cell: (row: { index: number }) => (props.y?.format ?? dollarsShort)(one.values[row.index] ?? 0),
      })),
    ]}
  />
)
