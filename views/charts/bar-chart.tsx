// Bars by name: side by side or stacked, up and down from the zero line.
import { scaleBand, scaleLinear } from 'd3-scale'
import { formatDollars } from '#money/format.ts'
import type { ToldDollars } from '../parts/dollars.tsx'
import { DataTable } from '../parts/table.tsx'
import { Grid, leftFor, uprightTicks } from './axes.tsx'
import {
  type Axis,
  ChartFrame,
  dollarsShort,
  isMoneyAxis,
  type Legends,
  round,
  type Size,
  type Tone,
} from './chart-frame.tsx'
import { cutTo, inRows, rowHeight, widthOf } from './text-width.ts'

export interface BarSeries {
  name: string
  tone: Tone
  values: readonly number[]
}

export interface BarChartProps {
  id: string
  title: string
  summary: string
  isSaidAbove?: boolean
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
    isSaidAbove={props.isSaidAbove}
    legend={legendsOf(props.series)}
    draw={(size) => <Drawing {...props} size={size} />}
    footBelow={(size) => footBelow(namesOf(props.categories, size))}
    table={<BarTable {...props} />}
    isMoney={isMoneyAxis(props.y)}
    unit={props.y?.unit}
    dollars={props.dollars}
  />
)

const Drawing = (props: BarChartProps & { size: Size }) => {
  const { categories } = props
  const bars = categories.flatMap((_, index) => barsOf(props, index))
  const edges = [...bars.flatMap((bar) => [bar.from, bar.to]), props.mark?.atY ?? 0]
  const y = scaleLinear(
    [Math.min(0, ...edges), Math.max(0, ...edges) || 1],
    [props.size.height - props.size.bottom, props.size.top],
  )
  y.nice(5)
  const format = props.y?.formatShort ?? dollarsShort
  const yTicks = uprightTicks(y, edges, format)
  const size = { ...props.size, left: leftFor(yTicks.map(format)) }
  const x = scaleBand(
    categories.map((_, index) => index),
    [size.left, size.width - size.right],
  ).padding(0.25)
  const wide = props.isStacked ? x.bandwidth() : x.bandwidth() / props.series.length
  return (
    <>
      <Grid size={size} ticks={yTicks} y={y} format={format} />
      {bars.map((bar) => (
        <rect
          class={`bar tone-${bar.tone}`}
          x={round(x(bar.category)! + (props.isStacked ? 0 : bar.order * wide))}
          y={round(y(Math.max(bar.from, bar.to)))}
          width={round(Math.max(wide - 1, 1))}
          height={round(Math.abs(y(bar.from) - y(bar.to)))}
        />
      ))}
      <Names
        of={namesOf(categories, size)}
        at={(index) => x(index)! + x.bandwidth() / 2}
        y={size.height - size.bottom + 20}
        width={size.width}
      />
      {props.mark ? <MarkLine mark={props.mark} y={y(props.mark.atY)} size={size} /> : null}
    </>
  )
}

const Names = (props: {
  of: ReturnType<typeof namesOf>
  at: (index: number) => number
  y: number
  width: number
}) => {
  const { names, every, isStaggered } = props.of
  return (
    <>
      {names.map((rows, index) => {
        if (!isStaggered && index % every !== 0) return null
        const half = Math.max(...rows.map((row) => widthOf(row))) / 2
        const x = Math.min(Math.max(props.at(index), half), props.width - half - 1)
        const lower = isStaggered && index % 2 === 1 ? 2 * rowHeight : 0
        return rows.map((row, place) => (
          <text x={round(x)} y={props.y + lower + place * rowHeight} text-anchor="middle">
            {row}
          </text>
        ))
      })}
    </>
  )
}

const MarkLine = ({ mark, y, size }: { mark: { says: string }; y: number; size: Size }) => (
  <g>
    <line class="mark" x1={size.left} x2={size.width - size.right} y1={round(y)} y2={round(y)} />
    <text
      class="mark-name"
      x={size.width - size.right - 4}
      y={round(y - 5 < size.top ? y + 16 : y - 5)}
      text-anchor="end"
    >
      {mark.says}
    </text>
  </g>
)

const nameGap = 8

/** Names in one row or two, every how many of them there is room for; a few long ones are staggered in place of left out. */
function namesOf(categories: readonly string[], size: Size) {
  const room = (size.width - size.left - size.right) / Math.max(1, categories.length)
  const longest = (rows: readonly string[][]) =>
    Math.max(0, ...rows.flat().map((row) => widthOf(row))) + nameGap
  const rows = categories.map((name) => inRows(name))
  const isStaggered = longest(rows) > room && categories.length <= 8
  const most = (isStaggered ? 2 : 1) * room
  const names =
    isStaggered && longest(rows) > most
      ? rows.map((one) => one.map((row) => cutTo(row, most - nameGap)))
      : rows
  return { names, every: Math.ceil(longest(names) / room), isStaggered }
}

const footBelow = ({ names, isStaggered }: ReturnType<typeof namesOf>): number =>
  (names.some((rows) => rows.length > 1) ? rowHeight : 0) + (isStaggered ? 2 * rowHeight : 0)

const legendsOf = (series: readonly BarSeries[]): Legends => {
  const items = series.length > 1 ? series.map((one) => ({ ...one, mark: 'bar' as const })) : []
  return { wide: items, narrow: items }
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
        cell: (row: { index: number }) => (props.y?.format ?? formatDollars)(one.values[row.index] ?? 0),
      })),
    ]}
  />
)
