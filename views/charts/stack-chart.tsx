// Areas one upon the other: what a year's whole is made of, year by year. Each has its name inside, where it is thick enough.
import { scaleLinear } from 'd3-scale'
import { area } from 'd3-shape'
import { formatDollars } from '#money/format.ts'
import type { ToldDollars } from '../parts/dollars.tsx'
import { DataTable } from '../parts/table.tsx'
import { fixGrid, fixTicks, Grid, leftFor, Rail, type Tick, ticksOf, uprightTicks } from './axes.tsx'
import {
  type Axis,
  dollarsShort,
  isMoneyAxis,
  LaidOutFrame,
  type LegendItem,
  round,
  type Size,
  type Tone,
} from './chart-frame.tsx'
import { labelBoard, type Place } from './label-board.ts'
import { rowHeight, widthOf } from './text-width.ts'

export interface StackSeries {
  name: string
  tone: Tone
  /** Zero or more, one for each year. */
  values: readonly number[]
}

export interface StackChartProps {
  id: string
  title: string
  summary: string
  years: readonly number[]
  series: readonly StackSeries[]
  y?: Axis
  dollars?: ToldDollars | undefined
}

export const StackChart = (props: StackChartProps) => (
  <LaidOutFrame
    id={props.id}
    title={props.title}
    summary={props.summary}
    layoutOf={(size) => layoutOf(props, size)}
    draw={(layout) => <Drawing {...props} layout={layout} />}
    table={<YearsTable {...props} />}
    isMoney={isMoneyAxis(props.y)}
    dollars={props.dollars}
    unit={props.y?.unit}
  />
)

interface Slice {
  year: number
  from: number
  to: number
}

interface Layout {
  size: Size
  x: (year: number) => number
  y: (value: number) => number
  xTicks: readonly Tick[]
  yTicks: readonly number[]
  areas: readonly { series: StackSeries; slices: readonly Slice[]; name: Place | null }[]
  legend: readonly LegendItem[]
}

function layoutOf(chart: StackChartProps, whole: Size): Layout {
  const { years, series } = chart
  const sums = years.map((_, at) => series.reduce((sum, one) => sum + amountOf(one, at), 0))
  const y = scaleLinear([0, Math.max(1, ...sums)], [whole.height - whole.bottom, whole.top]).nice(5)
  const format = chart.y?.formatShort ?? dollarsShort
  const yTicks = uprightTicks(y, sums, format)
  const size = { ...whole, left: leftFor(yTicks.map(format)) }
  const first = years[0] ?? 0
  const last = years.at(-1) ?? first
  const x = scaleLinear([first, last === first ? first + 1 : last], [size.left, size.width - size.right])
  const xTicks = ticksOf(String, [first, last], x, size)
  const board = labelBoard(size.width, size.height)
  fixGrid(board, size, yTicks, y, format)
  fixTicks(board, xTicks, size.height - size.bottom)
  const areas = stacked(chart).map(({ series: one, slices }) => ({
    series: one,
    slices,
    name: board.put([one.name], placesIn(slices, widthOf(one.name, true), x, y), { isBold: true }),
  }))
  const legend = areas
    .filter((one) => one.name === null)
    .map(({ series: one }) => ({ name: one.name, tone: one.tone, mark: 'bar' as const }))
  return { size, x, y, xTicks, yTicks, areas, legend }
}

const amountOf = (one: StackSeries, at: number): number => Math.max(0, one.values[at] ?? 0)

const stacked = ({ series, years }: StackChartProps) => {
  const below = years.map(() => 0)
  return series.map((one) => ({
    series: one,
    slices: years.map((year, at) => {
      const from = below[at]!
      below[at] = from + amountOf(one, at)
      return { year, from, to: below[at]! }
    }),
  }))
}

/** Middles of years over which the area is thick enough for a name of this width, the thickest first. */
function placesIn(
  slices: readonly Slice[],
  width: number,
  x: (year: number) => number,
  y: (value: number) => number,
): Place[] {
  const roomy = slices.flatMap((middle) => {
    const over = slices.filter((one) => Math.abs(x(one.year) - x(middle.year)) <= width / 2)
    const top = Math.max(...over.map((one) => y(one.to)))
    const bottom = Math.min(...over.map((one) => y(one.from)))
    const reaches =
      x(slices[0]!.year) <= x(middle.year) - width / 2 && x(slices.at(-1)!.year) >= x(middle.year) + width / 2
    return reaches && bottom - top > rowHeight ? [{ x: x(middle.year), top, bottom }] : []
  })
  return roomy
    .toSorted((a, b) => b.bottom - b.top - (a.bottom - a.top))
    .map((one) => ({ x: one.x, y: (one.top + one.bottom) / 2 + 5, anchor: 'middle' as const }))
}

const Drawing = ({ y: axis, layout }: StackChartProps & { layout: Layout }) => {
  const { size, x, y } = layout
  const draw = area<Slice>(
    (one) => x(one.year),
    (one) => y(one.from),
    (one) => y(one.to),
  ).digits(1)
  return (
    <>
      <Grid size={size} ticks={layout.yTicks} y={y} format={axis?.formatShort ?? dollarsShort} />
      {layout.areas.map(({ series, slices }) => (
        <path class={`bar slice tone-${series.tone}`} d={draw([...slices]) ?? ''} />
      ))}
      <Rail ticks={layout.xTicks} y={size.height - size.bottom} size={size} />
      {layout.areas.map(({ series, name }) =>
        name ? (
          <text class="in-area" x={round(name.x)} y={round(name.y)} text-anchor={name.anchor}>
            {series.name}
          </text>
        ) : null,
      )}
    </>
  )
}

const YearsTable = ({ title, years, series, y }: StackChartProps) => (
  <DataTable
    caption={title}
    rows={years.map((year, at) => ({ year, at }))}
    columns={[
      { title: 'Year', isHeader: true, cell: (row) => String(row.year) },
      ...series.map((one) => ({
        title: one.name,
        isNumber: true,
        cell: (row: { at: number }) => (y?.format ?? formatDollars)(amountOf(one, row.at)),
      })),
    ]}
  />
)
