// Lines, areas, steps and bands over months, ages or any number; what lies in the future is dashed.
import { extent } from 'd3-array'
import { scaleLinear } from 'd3-scale'
import { area, curveLinear, curveStepAfter, line } from 'd3-shape'
import { type Month, monthNameShort, monthOfYear, yearOf } from '#calendar/month.ts'
import type { ToldDollars } from '../parts/dollars.tsx'
import { DataTable } from '../parts/table.tsx'
import {
  type Axis,
  ChartFrame,
  dollarsShort,
  Grid,
  isMoneyAxis,
  type LegendItem,
  round,
  type Size,
  type Tone,
} from './chart-frame.tsx'

export interface Point {
  x: number
  y: number
}

export interface LineSeries {
  name: string
  tone: Tone
  points: readonly Point[]
  /** Points after this x are the future: drawn dashed. */
  futureAfter?: number
  shape?: 'line' | 'step' | 'area'
  /** Stands back behind the others. */
  isThin?: boolean
  /** The spread around it, lightly filled: from the low to the high end. */
  band?: { name: string; points: readonly { x: number; low: number; high: number }[] }
}

export interface LineChartProps {
  id: string
  title: string
  summary: string
  series: readonly LineSeries[]
  /** `month`: x is a Month. Otherwise how x is written and what it is called. */
  x: 'month' | { title: string; format: (x: number) => string }
  y?: Axis
  /** Upright or level lines with a few words: today, the floor. */
  marks?: readonly ({ atX: number; says: string } | { atY: number; says: string })[]
  /** Told in these dollars, whichever the page shows. */
  dollars?: ToldDollars | undefined
  /** Every so many points stand in the table; the default keeps it under 40 rows. */
  tableEvery?: number
}

export const LineChart = (props: LineChartProps) => (
  <ChartFrame
    id={props.id}
    title={props.title}
    summary={props.summary}
    legend={legendOf(props.series)}
    draw={(size) => <Drawing {...props} size={size} />}
    table={<PointsTable {...props} />}
    dollars={props.dollars}
    isMoney={isMoneyAxis(props.y) || (props.x !== 'month' && props.x.format === dollarsShort)}
  />
)

type Scale = (value: number) => number

const Drawing = (props: LineChartProps & { size: Size }) => {
  const { size, series } = props
  const [xLow, xHigh] = extent(series.flatMap(allX)) as [number, number]
  const values = [...series.flatMap(allY), ...(props.marks ?? []).flatMap((m) => ('atY' in m ? [m.atY] : []))]
  const x = scaleLinear([xLow, xHigh === xLow ? xLow + 1 : xHigh], [size.left, size.width - size.right])
  const y = scaleLinear(
    [Math.min(0, ...values), Math.max(1, ...values)],
    [size.height - size.bottom, size.top],
  )
  y.nice(5)
  return (
    <>
      <Grid size={size} ticks={y.ticks(5)} y={y} format={props.y?.formatShort ?? dollarsShort} />
      <XAxis x={props.x} scale={x} low={xLow} high={xHigh} size={size} />
      {series.map((one, index) => (
        <SeriesDrawing series={one} order={index + 1} x={x} y={y} />
      ))}
      {(props.marks ?? []).map((mark) => (
        <MarkLine mark={mark} x={x} y={y} size={size} />
      ))}
    </>
  )
}

const SeriesDrawing = (props: { series: LineSeries; order: number; x: Scale; y: Scale }) => {
  const { series, x, y } = props
  const curve = series.shape === 'step' ? curveStepAfter : curveLinear
  const drawLine = line<Point>(
    (p) => x(p.x),
    (p) => y(p.y),
  )
    .curve(curve)
    .digits(1)
  const drawArea = area<Point>(
    (p) => x(p.x),
    y(0),
    (p) => y(p.y),
  )
    .curve(curve)
    .digits(1)
  const drawBand = area<{ x: number; low: number; high: number }>(
    (p) => x(p.x),
    (p) => y(p.low),
    (p) => y(p.high),
  ).digits(1)
  const edge = series.futureAfter ?? Number.POSITIVE_INFINITY
  const past = series.points.filter((p) => p.x <= edge)
  const future = series.points.filter((p) => p.x >= edge)
  const dash = `tone-${series.tone} ${series.isThin ? 'thin' : dashOf(props.order)}`
  return (
    <g>
      {series.band ? <path class="band" d={drawBand([...series.band.points]) ?? ''} /> : null}
      {series.shape === 'area' ? (
        <path class={`area tone-${series.tone}`} d={drawArea([...series.points]) ?? ''} />
      ) : null}
      {past.length > 0 ? <path class={`line ${dash}`} d={drawLine(past) ?? ''} /> : null}
      {future.length > 0 ? <path class={`line future ${dash}`} d={drawLine(future) ?? ''} /> : null}
    </g>
  )
}

const XAxis = (props: { x: LineChartProps['x']; scale: Scale; low: number; high: number; size: Size }) => {
  const { scale, size } = props
  const count = size.width > 500 ? 8 : 4
  const ticks =
    props.x === 'month'
      ? monthTicks(props.low, props.high, count)
      : scaleLinear([props.low, props.high], [0, 1]).ticks(count)
  const base = size.height - size.bottom
  const name = props.x === 'month' ? monthTickName : props.x.format
  return (
    <g>
      {ticks.map((tick) => (
        <g>
          <line class="axis" x1={round(scale(tick))} x2={round(scale(tick))} y1={base} y2={base + 5} />
          <text x={round(scale(tick))} y={base + 20} text-anchor={anchorAt(scale(tick), size)}>
            {name(tick)}
          </text>
        </g>
      ))}
    </g>
  )
}

const MarkLine = (props: {
  mark: NonNullable<LineChartProps['marks']>[number]
  x: Scale
  y: Scale
  size: Size
}) => {
  const { mark, size } = props
  if ('atX' in mark) {
    const at = round(props.x(mark.atX))
    const before = at > size.width * 0.7
    return (
      <g>
        <line class="mark" x1={at} x2={at} y1={size.top} y2={size.height - size.bottom} />
        <text
          class="mark-name"
          x={at + (before ? -6 : 6)}
          y={size.top + 10}
          text-anchor={before ? 'end' : 'start'}
        >
          {mark.says}
        </text>
      </g>
    )
  }
  const at = round(props.y(mark.atY))
  return (
    <g>
      <line class="mark" x1={size.left} x2={size.width - size.right} y1={at} y2={at} />
      <text class="mark-name" x={size.width - size.right - 4} y={at - 5} text-anchor="end">
        {mark.says}
      </text>
    </g>
  )
}

const PointsTable = (props: LineChartProps) => {
  const xs = [...new Set(props.series.flatMap((one) => one.points.map((p) => p.x)))].sort((a, b) => a - b)
  const every = props.tableEvery ?? Math.ceil(xs.length / 40)
  const rows = xs.filter((_, index) => index % every === 0 || index === xs.length - 1)
  const format = props.y?.format ?? dollarsShort
  const at = props.series.map((one) => new Map(one.points.map((p) => [p.x, p.y])))
  const bands = props.series.map((one) => new Map((one.band?.points ?? []).map((p) => [p.x, p])))
  return (
    <DataTable
      caption={every > 1 ? `${props.title}: every ${every}th point` : props.title}
      rows={rows}
      columns={[
        {
          title: props.x === 'month' ? 'Month' : props.x.title,
          isHeader: true,
          cell: (x) => (props.x === 'month' ? monthNameShort(x as Month) : props.x.format(x)),
        },
        ...props.series.flatMap((one, index) => [
          { title: one.name, isNumber: true, cell: (x: number) => write(at[index]!.get(x), format) },
          ...(one.band
            ? [
                {
                  title: one.band.name,
                  isNumber: true,
                  cell: (x: number) =>
                    bands[index]!.has(x)
                      ? `${format(bands[index]!.get(x)!.low)} to ${format(bands[index]!.get(x)!.high)}`
                      : '',
                },
              ]
            : []),
        ]),
      ]}
    />
  )
}

const write = (value: number | undefined, format: (value: number) => string) =>
  value === undefined ? '' : format(value)

const legendOf = (series: readonly LineSeries[]): LegendItem[] =>
  series.flatMap((one, index) => [
    { name: one.name, tone: one.tone, mark: 'line' as const, dash: one.isThin ? 'thin' : dashOf(index + 1) },
    ...(one.band ? [{ name: one.band.name, tone: one.tone, mark: 'band' as const }] : []),
  ])

const dashOf = (order: number): string => (order > 1 ? `dash-${Math.min(order, 3)}` : '')

const allX = (one: LineSeries): number[] => [
  ...one.points.map((p) => p.x),
  ...(one.band?.points ?? []).map((p) => p.x),
]

const allY = (one: LineSeries): number[] => [
  ...one.points.map((p) => p.y),
  ...(one.band?.points ?? []).flatMap((p) => [p.low, p.high]),
]

/** Januaries, or every few months where the span is short. */
function monthTicks(low: number, high: number, count: number): number[] {
  const span = high - low
  const step = [1, 2, 3, 6, 12, 24, 60, 120, 240].find((months) => span / months <= count) ?? 480
  const ticks: number[] = []
  for (let tick = Math.ceil(low / step) * step; tick <= high; tick += step) ticks.push(tick)
  return ticks
}

const monthTickName = (tick: number): string =>
  monthOfYear(tick as Month) === 1 ? String(yearOf(tick as Month)) : monthNameShort(tick as Month)

const anchorAt = (at: number, size: Size): 'start' | 'middle' | 'end' =>
  at < size.left + 14 ? 'start' : at > size.width - size.right - 14 ? 'end' : 'middle'
