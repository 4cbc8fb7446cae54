// Lines, areas, steps and bands over months, ages or any number; what lies in the future is dashed.
import { area, curveLinear, curveStepAfter, line } from 'd3-shape'
import { formatDollars } from '#money/format.ts'
import { Grid, Rail } from './axes.tsx'
import { dollarsShort, isMoneyAxis, LaidOutFrame, round } from './chart-frame.tsx'
import { dashOf, type LineLayout, lineLayout, type WordsAt, zoneHeight } from './line-layout.ts'
import type { ChartMark, ChartNote, LineChartProps, LineSeries, Point } from './line-shape.ts'
import { PointsTable } from './points-table.tsx'
import { rowHeight, widthOf } from './text-width.ts'

export type { LineChartProps, LineSeries } from './line-shape.ts'

export const LineChart = (props: LineChartProps) => (
  <LaidOutFrame
    id={props.id}
    title={props.title}
    summary={props.summary}
    layoutOf={(size) => lineLayout(props, size)}
    draw={(layout) => <Drawing {...props} layout={layout} />}
    table={<PointsTable {...props} />}
    dollars={props.dollars}
    isMoney={isMoneyAxis(props.y) || (props.x !== 'month' && props.x.format === formatDollars)}
    unit={props.y?.unit}
  />
)

const Drawing = ({ series, y, zones, layout }: LineChartProps & { layout: LineLayout }) => {
  const { size } = layout
  return (
    <>
      {series.map((one) => (one.isGround ? <Ground series={one} layout={layout} /> : null))}
      <Grid size={size} ticks={layout.yTicks} y={layout.y} format={y?.formatShort ?? dollarsShort} />
      <Rail ticks={layout.xTicks} y={layout.base} size={size} />
      {(zones ?? []).map((zone) => (
        <ZoneDrawing zone={zone} layout={layout} />
      ))}
      {series.map((one, index) => (
        <SeriesDrawing series={one} dash={dashOf(one, index)} layout={layout} />
      ))}
      {layout.marks.map((one) => (
        <MarkLine {...one} layout={layout} />
      ))}
      {layout.notes.map((one) => (
        <NoteDrawing {...one} layout={layout} />
      ))}
      {series.map((one, index) => (
        <>
          <Words
            of={layout.names[index]!.line}
            name={`at-line ${one.isGround ? '' : `tone-${one.tone}`}`.trim()}
          />
          <Words of={layout.names[index]!.band} name="at-band" />
        </>
      ))}
    </>
  )
}

/** Rows of words at their place. */
const Words = ({ of, name, isFirstStrong }: { of: WordsAt | null; name: string; isFirstStrong?: boolean }) =>
  of === null
    ? null
    : of.rows.map((row, at) => (
        <text
          class={isFirstStrong && at === 0 ? `${name} strong` : name}
          x={round(of.place.x)}
          y={round(of.place.y + at * rowHeight)}
          text-anchor={of.place.anchor}
        >
          {row}
        </text>
      ))

const ZoneDrawing = ({
  zone,
  layout,
}: {
  zone: { from: number; to: number; says: string }
  layout: LineLayout
}) => {
  const { size, x, base } = layout
  const from = Math.max(size.left, x(zone.from))
  const width = Math.min(size.width - size.right, x(zone.to)) - from
  const top = base - zoneHeight + 4
  if (width <= 0) return null
  return (
    <g>
      <rect class="zone" x={round(from)} y={top} width={round(width)} height={22} />
      {widthOf(zone.says) + 6 <= width ? (
        <text x={round(from + width / 2)} y={top + 16} text-anchor="middle">
          {zone.says}
        </text>
      ) : null}
    </g>
  )
}

const Ground = ({ series, layout }: { series: LineSeries; layout: LineLayout }) => {
  const base = layout.size.height - layout.size.bottom
  const draw = area<Point>(
    (p) => layout.x(p.x),
    base,
    (p) => Math.min(layout.y(p.y), base),
  ).digits(1)
  return <path class="ground-fill" d={draw([...series.points]) ?? ''} />
}

const SeriesDrawing = (props: { series: LineSeries; dash: string; layout: LineLayout }) => {
  const { series } = props
  const { x, y } = props.layout
  const curve = series.shape === 'step' ? curveStepAfter : curveLinear
  const drawLine = line<Point>(
    (p) => x(p.x),
    (p) => y(p.y),
  )
    .curve(curve)
    .digits(1)
  const areaUnder = (points: readonly Point[]) =>
    area<Point>(
      (p) => x(p.x),
      y(0),
      (p) => y(p.y),
    )
      .curve(curve)
      .digits(1)([...points])
  const bandOf = (points: NonNullable<LineSeries['band']>['points']) =>
    area<(typeof points)[number]>(
      (p) => x(p.x),
      (p) => y(p.low),
      (p) => y(p.high),
    ).digits(1)([...points])
  const edge = series.futureAfter ?? Number.POSITIVE_INFINITY
  const past = series.points.filter((p) => p.x <= edge)
  const future = series.points.filter((p) => p.x >= edge)
  const look = `tone-${series.tone} ${props.dash}`
  return (
    <g>
      {series.band ? <path class={`band tone-${series.tone}`} d={bandOf(series.band.points) ?? ''} /> : null}
      {series.shape === 'area' ? (
        <path class={`area tone-${series.tone}`} d={areaUnder(series.points) ?? ''} />
      ) : null}
      {past.length > 0 ? <path class={`line ${look}`} d={drawLine(past) ?? ''} /> : null}
      {future.length > 0 ? <path class={`line future ${look}`} d={drawLine(future) ?? ''} /> : null}
    </g>
  )
}

const MarkLine = ({
  mark,
  words,
  layout,
}: {
  mark: ChartMark
  words: WordsAt | null
  layout: LineLayout
}) => {
  const { size } = layout
  const [x1, x2, y1, y2] =
    'atX' in mark
      ? [layout.x(mark.atX), layout.x(mark.atX), size.top, size.height - size.bottom]
      : [size.left, size.width - size.right, layout.y(mark.atY), layout.y(mark.atY)]
  return (
    <g>
      <line class="mark" x1={round(x1)} x2={round(x2)} y1={round(y1)} y2={round(y2)} />
      <Words of={words} name="mark-name" />
    </g>
  )
}

const NoteDrawing = ({
  note,
  words,
  layout,
}: {
  note: ChartNote
  words: WordsAt | null
  layout: LineLayout
}) => {
  const at = { x: round(layout.x(note.x)), y: round(layout.y(note.y)) }
  return (
    <g>
      {words ? (
        <line
          class="leader"
          x1={at.x}
          x2={at.x}
          y1={words.place.y > at.y ? at.y + 5 : at.y - 5}
          y2={round(
            words.place.y > at.y
              ? words.place.y - 12
              : words.place.y + (words.rows.length - 1) * rowHeight + 5,
          )}
        />
      ) : null}
      <circle class={`${note.mark} tone-${note.tone}`} cx={at.x} cy={at.y} r={4.5} />
      <Words of={words} name="note" isFirstStrong />
    </g>
  )
}
